/* accuracy.c: how well a test told who has a condition, from counts. */
#include "counts/accuracy.h"

#include "base/maths.h"

#include <math.h>

bool
accuracy_share(long long count, long long of, struct accuracy_share *share,
	       struct fault *why)
{
	struct rates_interval interval;

	if (!rates_wilson(count, of, rates_z_95, &interval, why))
		return false;
	*share = (struct accuracy_share){count, of, (double)count / (double)of,
					 interval};
	return true;
}

bool
accuracy_measure(const struct accuracy_table *table,
		 enum accuracy_measure measure, struct accuracy_share *share,
		 struct fault *why)
{
	const struct {
		long long right, wrong;
		const char *missing;
	} of[] = {
		{table->true_positive, table->false_negative,
		 "nobody here has it, so there is no sensitivity"},
		{table->true_negative, table->false_positive,
		 "everybody here has it, so there is no specificity"},
		{table->true_positive, table->false_positive,
		 "nobody was flagged, so there is no positive predictive "
		 "value"},
		{table->true_negative, table->false_negative,
		 "everybody was flagged, so there is no negative predictive "
		 "value"},
	};

	if (of[measure].right == 0 && of[measure].wrong == 0)
		return fault_set(why, FAULT_INPUT, "%s", of[measure].missing);
	return accuracy_share(of[measure].right,
			      of[measure].right + of[measure].wrong, share,
			      why);
}

bool
accuracy_likelihood(const struct accuracy_table *table, bool flagged,
		    struct accuracy_estimate *ratio, struct fault *why)
{
	double with = (double)(table->true_positive + table->false_negative);
	double without = (double)(table->false_positive + table->true_negative);
	double a = (double)(flagged ? table->true_positive
				    : table->false_negative);
	double b = (double)(flagged ? table->false_positive
				    : table->true_negative);
	double reach;

	if (!(a > 0 && b > 0))
		return fault_set(why, FAULT_INPUT,
				 "not estimable (nobody %s it is %s)",
				 a > 0 ? "without" : "with",
				 flagged ? "flagged" : "cleared");
	if (!(a < with || b < without))
		return fault_set(why, FAULT_INPUT,
				 "not estimable (everybody is %s)",
				 flagged ? "flagged" : "cleared");
	ratio->value = a / with / (b / without);
	ratio->error = sqrt((1 / a - 1 / with) + (1 / b - 1 / without));
	reach = maths_exp(rates_z_95 * ratio->error);
	ratio->interval.low = ratio->value / reach;
	ratio->interval.high = ratio->value * reach;
	return true;
}

/* `value` is above 0 and below 1, where the logit's own limits stay too. */
static void
set_logit_interval(struct accuracy_estimate *estimate)
{
	double odds = estimate->value / (1 - estimate->value);
	double reach = maths_exp(rates_z_95 * estimate->error /
				 (estimate->value * (1 - estimate->value)));

	estimate->interval.low = odds / (odds + reach);
	estimate->interval.high = odds * reach / (1 + odds * reach);
}

/* None of `of` was wrong, which is never printed as 100 %. */
static bool
refuse_perfect(long long of, bool missed, struct fault *why)
{
	struct rates_interval interval;

	if (!rates_wilson(0, of, rates_z_95, &interval, why))
		return false;
	return fault_set(why, FAULT_INPUT,
			 missed ? "not estimable (none of the %lld cleared "
				  "people who were examined has it: at most "
				  "%.2g %% of the cleared are missed, the "
				  "upper limit of 95 %% by Wilson)"
				: "not estimable (all of the %lld flagged "
				  "people who were examined have it: at most "
				  "%.2g %% of the flagged are false alarms, "
				  "the upper limit of 95 %% by Wilson)",
			 of, 100 * interval.high);
}

static bool
check_sample(const struct accuracy_sample *sample, bool sensitivity,
	     struct fault *why)
{
	const struct accuracy_verified *flagged = &sample->flagged;
	const struct accuracy_verified *cleared = &sample->cleared;
	long long examined = cleared->diseased + cleared->healthy;

	if (flagged->diseased + flagged->healthy == 0)
		return fault_set(why, FAULT_INPUT,
				 "not estimable (no flagged person was "
				 "examined)");
	if (examined == 0)
		return fault_set(why, FAULT_INPUT,
				 "not estimable (no cleared person was "
				 "examined, so nobody knows who was missed)");
	if (sensitivity && cleared->diseased == 0)
		return refuse_perfect(examined, true, why);
	if (!sensitivity && flagged->healthy == 0)
		return refuse_perfect(flagged->diseased, false, why);
	if (sensitivity ? flagged->diseased == 0 : cleared->healthy == 0)
		return fault_set(why, FAULT_INPUT,
				 "not estimable (none of the %s people who "
				 "were examined %s it)",
				 sensitivity ? "flagged" : "cleared",
				 sensitivity ? "has" : "is without");
	return true;
}

/* The specificity is the sensitivity of the other answer for the other
 * people: the share `hit` of one group against the share `miss` of the
 * other. */
bool
accuracy_corrected(const struct accuracy_sample *sample,
		   enum accuracy_measure measure,
		   struct accuracy_estimate *estimate, struct fault *why)
{
	bool sensitivity = measure == ACCURACY_SENSITIVITY;
	const struct accuracy_verified *right = sensitivity ? &sample->flagged
							    : &sample->cleared;
	const struct accuracy_verified *wrong = sensitivity ? &sample->cleared
							    : &sample->flagged;
	double n1 = (double)(right->diseased + right->healthy);
	double n0 = (double)(wrong->diseased + wrong->healthy);
	double x1 = (double)(sensitivity ? right->diseased : right->healthy);
	double x0 = (double)(sensitivity ? wrong->diseased : wrong->healthy);
	double all1 = n1 + (double)right->unverified;
	double all0 = n0 + (double)wrong->unverified;
	double found, missed;

	if (!check_sample(sample, sensitivity, why))
		return false;
	found = x1 / n1 * all1;
	missed = x0 / n0 * all0;
	estimate->value = found / (found + missed);
	estimate->error = estimate->value * (1 - estimate->value) *
			  sqrt(1 / all1 + 1 / all0 + (1 / x1 - 1 / n1) +
			       (1 / x0 - 1 / n0));
	set_logit_interval(estimate);
	return true;
}

/* The variance of the mean over one group's eyes of how many of the others they
 * are told apart from the right way round. `sign` 1: the own eyes have the
 * condition, and the right way is that the others are graded after them; -1:
 * before them. */
static double
placement_variance(const long long *own, const long long *others, int grades,
		   int sign, double area)
{
	double sum = 0, n = 0, m = 0, before = 0;

	for (int i = 0; i < grades; i++) {
		n += (double)own[i];
		m += (double)others[i];
	}
	for (int i = 0; i < grades; i++) {
		double tied = (double)others[i] / 2;
		double less = sign > 0 ? m - before - 2 * tied : before;
		double off = (less + tied) / m - area;

		sum += (double)own[i] * off * off;
		before += (double)others[i];
	}
	return sum / (n - 1) / n;
}

bool
accuracy_area(const long long *diseased, const long long *healthy, int grades,
	      struct accuracy_estimate *area, struct fault *why)
{
	double won = 0, with = 0, without = 0, value, error;

	for (int i = 0; i < grades; i++) {
		won += (double)healthy[i] * (with + (double)diseased[i] / 2);
		with += (double)diseased[i];
		without += (double)healthy[i];
	}
	if (with < 2 || without < 2)
		return fault_set(why, FAULT_INPUT,
				 "not estimable (it takes at least two eyes "
				 "with it and two without)");
	value = won / (with * without);
	error = sqrt(placement_variance(diseased, healthy, grades, 1, value) +
		     placement_variance(healthy, diseased, grades, -1, value));
	if (!(error > 1e-12))
		return fault_set(why, FAULT_INPUT, "not estimable (%s)",
				 value > 0 && value < 1 ? "all eyes have one "
							  "grade"
							: "no grade has eyes "
							  "both with and "
							  "without it");
	area->value = value;
	area->error = error;
	set_logit_interval(area);
	return true;
}

double
accuracy_area_error(double area, long long diseased, long long healthy)
{
	double square = area * area, n = (double)diseased, m = (double)healthy;
	double one = area / (2 - area) - square;
	double other = 2 * square / (1 + area) - square;

	return sqrt((area * (1 - area) + (n - 1) * one + (m - 1) * other) /
		    (n * m));
}
