/* test_agreement.c: agreement of two graders, against published figures. */
#include "counts/agreement.h"

#include <criterion/criterion.h>
#include <math.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static void
fill(struct agreement_table *table, int grades, const int *cells)
{
	agreement_init(table, grades);
	for (int i = 0; i < grades * grades; i++)
		table->count[i / grades][i % grades] = cells[i];
}

/* clang-format off */
/* Kappa and its error unweighted, linear, quadratic; computed with R, and vcd's
 * Kappa() agrees to 1e-14. 0 to 2: data sets MSPatients (two cities) and
 * SexualFun of the R package vcd. 3: Fleiss, Cohen and Everitt, Psychol Bull
 * 1969;72:323-7, as psych's manual quotes it. 4: mammograms of Kundel and
 * Polansky 2003 as in vcdExtra (0.3713, 0.06033; 0.5964, 0.04923 printed there).
 * 5: SAS's documentation of PROC FREQ (0.3449, 0.0724; 0.5082, 0.0655 printed
 * there, from memory). 6: xeromammograms of Boyd 1982 in Stata's manual
 * (0.4728, 0.5684, 0.6714 printed there, from memory). 7: Cohen 1968, 0.492
 * printed. 8: Landis and Koch's pathologists A and B, in Agresti. 9: a table
 * with 0.6756757 (0.07344761; 0.5317210 to 0.8196303) in statpsych's manual. */
static const struct {
	int grades, cell[16];
	double is[AGREEMENT_WEIGHTS][2];
} tables[] = {
	{4, {38, 5, 0, 1, 33, 11, 3, 0, 10, 14, 5, 6, 3, 7, 3, 10},
		{{0.207942464040025, 0.050455365240877},
		{0.379730547986679, 0.051666826218334},
		{0.524576464331839, 0.0600550988317956}}},
	{4, {5, 3, 0, 0, 3, 11, 4, 0, 2, 13, 3, 4, 1, 2, 4, 14},
		{{0.296516567544605, 0.0785038706723704},
		{0.477272727272728, 0.0730309868510976},
		{0.625581395348837, 0.078731873814062}}},
	{4, {7, 7, 2, 3, 2, 8, 3, 7, 1, 5, 4, 9, 2, 8, 9, 14},
		{{0.129330254041571, 0.0685985324807086},
		{0.237380627557981, 0.0783163347783729},
		{0.332045586246861, 0.0972975219586046}}},
	{3, {106, 10, 4, 22, 28, 10, 2, 12, 6},
		{{0.428571428571429, 0.0537110048691673},
		{0.492307692307692, 0.0507186076076872},
		{0.566666666666667, 0.0556663401582303}}},
	{4, {34, 10, 2, 0, 6, 8, 8, 2, 2, 5, 4, 12, 0, 1, 2, 14},
		{{0.371284865112, 0.060333228167},
		{0.596369254538, 0.049229640190},
		{0.764119601329, 0.039960908397}}},
	{4, {10, 4, 1, 0, 5, 10, 12, 2, 2, 4, 12, 5, 0, 2, 6, 13},
		{{0.344875346260388, 0.0723966873719835},
		{0.508160071540353, 0.0655083810347684},
		{0.660722891566265, 0.061642832417}}},
	{4, {21, 12, 0, 0, 4, 17, 1, 0, 3, 9, 15, 2, 0, 0, 0, 1},
		{{0.472789115646259, 0.0727153781706476},
		{0.568399044205496, 0.0675560904370228},
		{0.67137057800116, 0.0681144710521465}}},
	{3, {88, 14, 18, 10, 40, 10, 2, 6, 12},
		{{0.491525423728813, 0.0510018155760779},
		{0.473684210526316, 0.0544323091776415},
		{0.454545454545454, 0.0664536815910782}}},
	{4, {22, 2, 2, 0, 5, 7, 14, 0, 0, 2, 36, 0, 0, 1, 17, 10},
		{{0.493005595523581, 0.0567431504080358},
		{0.648809523809524, 0.0476524223563871},
		{0.783821871476889, 0.0386703361371545}}},
	{2, {31, 12, 4, 58},
		{{0.6756757, 0.07344761}, {0.6756757, 0.07344761},
		{0.6756757, 0.07344761}}},
	/* Chance agreement on a rare grade, and none at all; our own. */
	{2, {118, 5, 2, 0},
		{{-0.0233918128654961, 0.0122867566728037},
		{-0.0233918128654961, 0.0122867566728037},
		{-0.0233918128654961, 0.0122867566728037}}},
	{2, {4, 4, 4, 4}, {{0, 0.25}, {0, 0.25}, {0, 0.25}}},
};
/* clang-format on */

enum { PRINTED = 9 }; /* to seven digits */

static const char *const names[] = {"unweighted", "linear", "quadratic"};

static void
expect_kappa(size_t row, const struct agreement_table *table,
	     const double (*is)[2], double within)
{
	struct accuracy_estimate got;
	struct fault why;

	for (int j = 0; j < AGREEMENT_WEIGHTS; j++) {
		cr_assert(agreement_kappa(table, (enum agreement_weights)j,
					  &got, &why),
			  "row %zu: %s", row, why.sentence);
		cr_expect_leq(fabs(got.value - is[j][0]), within,
			      "row %zu: %s %.15g", row, names[j], got.value);
		cr_expect_leq(fabs(got.error - is[j][1]), within,
			      "row %zu: %s error %.15g", row, names[j],
			      got.error);
		cr_expect_leq(fabs(got.interval.low - is[j][0] +
				   rates_z_95 * is[j][1]),
			      3 * within, "row %zu: %s", row, names[j]);
		cr_expect_leq(fabs(got.interval.high - is[j][0] -
				   rates_z_95 * is[j][1]),
			      3 * within, "row %zu: %s", row, names[j]);
	}
}

Test(agreement, kappa_and_its_error_agree_with_published_tables)
{
	struct agreement_table table;

	for (size_t i = 0; i < COUNT(tables); i++) {
		fill(&table, tables[i].grades, tables[i].cell);
		expect_kappa(i, &table, tables[i].is,
			     i == PRINTED ? 6e-8 : 1e-12);
	}
}

/* An unused grade at either end changes nothing. */
Test(agreement, unused_grades_at_the_ends_change_no_weighted_kappa)
{
	struct agreement_table table, padded;

	for (int shift = 0; shift < 3; shift++) {
		fill(&table, 4, tables[0].cell);
		agreement_init(&padded, 6);
		for (int i = 0; i < 4; i++)
			for (int j = 0; j < 4; j++)
				padded.count[i + shift][j + shift] =
					table.count[i][j];
		expect_kappa((size_t)shift, &padded, tables[0].is, 1e-12);
	}
}

Test(agreement, a_table_that_tells_nothing_gets_a_sentence)
{
	static const struct {
		int cell[9];
		const char *sentence;
	} rows[] = {
		{{0}, "not estimable (nothing was graded twice)"},
		{{0, 0, 0, 0, 25},
		 "not estimable (both graders used one grade)"},
		{{1}, "not estimable (both graders used one grade)"},
		{{0, 25}, "not estimable (both graders used one grade)"},
		{{5, 0, 0, 6, 0, 0, 9},
		 "not estimable (the reference used one grade)"},
		{{5, 6, 9}, "not estimable (the grader used one grade)"},
	};
	struct agreement_table table;
	struct accuracy_estimate got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++)
		for (int j = 0; j < AGREEMENT_WEIGHTS; j++) {
			fill(&table, 3, rows[i].cell);
			cr_expect_not(agreement_kappa(&table,
						      (enum agreement_weights)j,
						      &got, &why),
				      "row %zu", i);
			cr_expect_str_eq(why.sentence, rows[i].sentence,
					 "row %zu", i);
		}
}

/* The textbook's formula gives 3e-9 here. */
Test(agreement, at_perfect_agreement_or_reversal_the_error_is_nothing)
{
	static const struct {
		int grades, cell[9];
		double kappa;
	} rows[] = {
		{3, {10, 0, 0, 0, 7, 0, 0, 0, 3}, 1},
		{3, {1, 0, 0, 0, 1}, 1},
		{2, {0, 10, 10, 0}, -1},
	};
	struct agreement_table table;
	struct accuracy_estimate got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++)
		for (int j = 0; j < AGREEMENT_WEIGHTS; j++) {
			fill(&table, rows[i].grades, rows[i].cell);
			cr_assert(agreement_kappa(
				&table, (enum agreement_weights)j, &got, &why));
			cr_expect_leq(fabs(got.value - rows[i].kappa), 1e-15,
				      "row %zu: %.17g", i, got.value);
			cr_expect(got.error == 0 && got.interval.low >= -1 &&
					  got.interval.high <= 1,
				  "row %zu: %g", i, got.error);
		}
}

Test(agreement, an_interval_stays_between_minus_one_and_one)
{
	static const int cells[] = {1, 0, 0, 1, 6, 0, 0, 0, 9};
	struct agreement_table table;
	struct accuracy_estimate got;
	struct fault why;

	fill(&table, 3, cells);
	cr_assert(agreement_kappa(&table, AGREEMENT_QUADRATIC, &got, &why));
	cr_expect_gt(got.value + rates_z_95 * got.error, 1);
	cr_expect_eq(got.interval.high, 1);
}

/* Grader in rows, reference in columns, the shallowest first. */
Test(agreement, the_summary_and_the_cut_off_have_their_directions)
{
	static const int cells[] = {
		5, 1, 0, 0, /* grader 0 */
		2, 6, 3, 0, /* 1 */
		0, 4, 7, 1, /* 2 */
		1, 0, 2, 8, /* 3 */
	};
	struct agreement_table table, twice;
	struct agreement_summary got;
	struct accuracy_table at;

	fill(&table, 4, cells);
	agreement_summarise(&table, &got);
	cr_expect_eq(got.cases, 40);
	cr_expect_eq(got.equal, 26);
	cr_expect_eq(got.within_one, 39);
	cr_expect_eq(got.deeper, 9);
	cr_expect_eq(got.shallower, 5);
	cr_expect_leq(fabs(got.mean_steps - 6 / 40.0), 1e-15, "%g",
		      got.mean_steps);
	agreement_at_cutoff(&table, 1, &at);
	cr_expect_eq(at.true_positive, 14);
	cr_expect_eq(at.false_negative, 5, "missed: graded 2 or 3");
	cr_expect_eq(at.false_positive, 3);
	cr_expect_eq(at.true_negative, 18);
	twice = table;
	agreement_add(&twice, &table);
	agreement_summarise(&twice, &got);
	cr_expect(got.cases == 80 && got.deeper == 18);
	agreement_init(&table, 4);
	agreement_summarise(&table, &got);
	cr_expect(got.cases == 0 && got.mean_steps == 0);
}
