/* agreement.c: how far two graders agree on an ordinal scale. */
#include "counts/agreement.h"

#include "base/maths.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = AGREEMENT_GRADES_MOST };

void
agreement_init(struct agreement_table *table, int grades)
{
	memset(table, 0, sizeof *table);
	table->grades = grades;
}

void
agreement_add(struct agreement_table *table,
	      const struct agreement_table *other)
{
	for (int i = 0; i < table->grades; i++)
		for (int j = 0; j < table->grades; j++)
			table->count[i][j] += other->count[i][j];
}

void
agreement_summarise(const struct agreement_table *table,
		    struct agreement_summary *summary)
{
	long steps = 0;

	memset(summary, 0, sizeof *summary);
	for (int i = 0; i < table->grades; i++)
		for (int j = 0; j < table->grades; j++) {
			long count = table->count[i][j];

			summary->cases += count;
			steps += (i - j) * count;
			if (i == j)
				summary->equal += count;
			if (abs(i - j) <= 1)
				summary->within_one += count;
			if (i > j)
				summary->deeper += count;
			if (i < j)
				summary->shallower += count;
		}
	if (summary->cases > 0)
		summary->mean_steps = (double)steps / (double)summary->cases;
}

void
agreement_at_cutoff(const struct agreement_table *table, int cutoff,
		    struct accuracy_table *two_by_two)
{
	memset(two_by_two, 0, sizeof *two_by_two);
	for (int i = 0; i < table->grades; i++)
		for (int j = 0; j < table->grades; j++) {
			long count = table->count[i][j];

			if (i <= cutoff && j <= cutoff)
				two_by_two->true_positive += count;
			else if (i <= cutoff)
				two_by_two->false_positive += count;
			else if (j <= cutoff)
				two_by_two->false_negative += count;
			else
				two_by_two->true_negative += count;
		}
}

/* Shares of the grader's and of the reference's grades. */
struct margins {
	double n, row[MOST], column[MOST];
	int rows, columns; /* grades that occur */
};

static void
fill_margins(const struct agreement_table *table, struct margins *margins)
{
	int k = table->grades;

	memset(margins, 0, sizeof *margins);
	for (int i = 0; i < k; i++)
		for (int j = 0; j < k; j++) {
			margins->row[i] += (double)table->count[i][j];
			margins->column[j] += (double)table->count[i][j];
			margins->n += (double)table->count[i][j];
		}
	for (int i = 0; i < k; i++) {
		margins->rows += margins->row[i] > 0;
		margins->columns += margins->column[i] > 0;
		margins->row[i] /= margins->n;
		margins->column[i] /= margins->n;
	}
}

static double
weight(enum agreement_weights weights, int i, int j, int grades)
{
	double apart = (double)abs(i - j) / (grades - 1);

	if (weights == AGREEMENT_UNWEIGHTED)
		return i == j;
	return 1 - (weights == AGREEMENT_LINEAR ? apart : apart * apart);
}

/* With centred terms: the textbook's difference of two large numbers can come
 * out above 0 where there is no error at all. */
static double
spread(const struct agreement_table *table, const struct margins *margins,
       enum agreement_weights weights, double kappa)
{
	double by_row[MOST] = {0}, by_column[MOST] = {0}, mean = 0, sum = 0;
	int k = table->grades;

	for (int i = 0; i < k; i++)
		for (int j = 0; j < k; j++) {
			double w = weight(weights, i, j, k);

			by_row[i] += w * margins->column[j];
			by_column[j] += w * margins->row[i];
		}
	for (int pass = 0; pass < 2; pass++)
		for (int i = 0; i < k; i++)
			for (int j = 0; j < k; j++) {
				double p =
					(double)table->count[i][j] / margins->n;
				double a = weight(weights, i, j, k) -
					   (by_row[i] + by_column[j]) *
						   (1 - kappa);

				if (pass == 0)
					mean += p * a;
				else
					sum += p * (a - mean) * (a - mean);
			}
	return sqrt(sum / margins->n);
}

bool
agreement_kappa(const struct agreement_table *table,
		enum agreement_weights weights, struct accuracy_estimate *kappa,
		struct fault *why)
{
	struct margins margins;
	double observed = 0, expected = 0;
	int k = table->grades;

	fill_margins(table, &margins);
	if (!(margins.n > 0))
		return fault_set(why, FAULT_INPUT,
				 "not estimable (nothing was graded twice)");
	if (margins.rows == 1 || margins.columns == 1)
		return fault_set(why, FAULT_INPUT,
				 "not estimable (%s used one grade)",
				 margins.rows == margins.columns ? "both "
								   "graders"
				 : margins.rows == 1		 ? "the grader"
						     : "the reference");
	for (int i = 0; i < k; i++)
		for (int j = 0; j < k; j++) {
			double w = weight(weights, i, j, k);

			observed += w * (double)table->count[i][j] / margins.n;
			expected += w * margins.row[i] * margins.column[j];
		}
	kappa->value = (observed - expected) / (1 - expected);
	kappa->error =
		spread(table, &margins, weights, kappa->value) / (1 - expected);
	if (kappa->error < 1e-12)
		kappa->error = 0;
	kappa->interval.low =
		maths_larger(-1, kappa->value - rates_z_95 * kappa->error);
	kappa->interval.high =
		maths_smaller(1, kappa->value + rates_z_95 * kappa->error);
	return true;
}
