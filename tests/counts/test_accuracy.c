/* test_accuracy.c: how well a test told, against published figures. */
#include "counts/accuracy.h"

#include <criterion/criterion.h>
#include <math.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static bool
is_near(double value, double expected, double relative)
{
	return fabs(value - expected) <= relative * fabs(expected);
}

static const char *const names[] = {"sensitivity", "specificity", "PPV", "NPV"};

/* clang-format off */
/* TP, FP, FN, TN; sensitivity, specificity, PPV, NPV with Wilson's limits, then
 * the likelihood ratios with Simel's; computed with R, epiR agrees.
 * 0: liver scan, Altman and Bland, BMJ 1994;308:1552 (counts; reference from
 * memory). 1: Scott 2008 as in epiR's example, which prints .90, .76 (.73-.79)
 * and 3.75 (3.32-4.24). 2: our own. */
static const struct {
	struct accuracy_table table;
	double is[6][3];
} tables[] = {
	{{231, 32, 27, 54}, {
		{0.895348837209302, 0.8520214062328, 0.927075994609657},
		{0.627906976744186, 0.522338316414825, 0.722537493581845},
		{0.878326996197719, 0.833280731489849, 0.912480444001698},
		{0.666666666666667, 0.558528350605869, 0.759712287583326},
		{2.40625, 1.82279062783183, 3.17646962525099},
		{0.166666666666667, 0.112589658565529, 0.246716955461862}}},
	{{670, 202, 74, 640}, {
		{0.900537634408602, 0.876931912503828, 0.920028449843373},
		{0.760095011876485, 0.730111762529853, 0.787715775281638},
		{0.768348623853211, 0.739206505644483, 0.795136776791763},
		{0.896358543417367, 0.871840063717251, 0.916634874648462},
		{3.75372617906952, 3.32068843550748, 4.24323464880513},
		{0.130855174731183, 0.105064323511923, 0.162977080911631}}},
	{{9, 4, 1, 36}, {
		{0.9, 0.595849973204762, 0.982123786904927},
		{0.9, 0.769482247724777, 0.960420471317394},
		{0.692307692307692, 0.42369343180549, 0.873192963442895},
		{0.972972972972973, 0.861759301362695, 0.99521302554806},
		{9, 3.4724252467912, 23.3266360664929},
		{0.111111111111111, 0.0172580446956864, 0.715357923220088}}},
};
/* clang-format on */

Test(accuracy, measures_and_ratios_agree_with_other_computations)
{
	struct accuracy_share share;
	struct accuracy_estimate ratio;
	struct fault why;

	for (size_t i = 0; i < COUNT(tables); i++) {
		for (int j = 0; j < 4; j++) {
			const double *is = tables[i].is[j];

			cr_assert(accuracy_measure(&tables[i].table,
						   (enum accuracy_measure)j,
						   &share, &why),
				  "row %zu: %s", i, names[j]);
			cr_expect(is_near(share.share, is[0], 1e-12) &&
					  is_near(share.interval.low, is[1],
						  1e-12) &&
					  is_near(share.interval.high, is[2],
						  1e-12),
				  "row %zu: %s %.15g", i, names[j],
				  share.share);
		}
		for (int j = 0; j < 2; j++) {
			const double *is = tables[i].is[4 + j];

			cr_assert(accuracy_likelihood(&tables[i].table, j == 0,
						      &ratio, &why),
				  "row %zu", i);
			cr_expect(is_near(ratio.value, is[0], 1e-12) &&
					  is_near(ratio.interval.low, is[1],
						  1e-12) &&
					  is_near(ratio.interval.high, is[2],
						  1e-12),
				  "row %zu: ratio %d %.15g (%.15g-%.15g)", i, j,
				  ratio.value, ratio.interval.low,
				  ratio.interval.high);
		}
	}
}

/* Choudhari et al., Ophthalmic Epidemiol 2019;26:175-82: 111 eyes, limbal depth
 * of 25 % or less: LR+ 5.17 (2.43-11), LR- 0.30 (0.20-0.46). The counts are
 * worked out from these and the 69 occludable eyes. */
Test(accuracy, likelihood_ratios_agree_with_choudharis_printed_ones)
{
	static const struct accuracy_table table = {51, 6, 18, 36};
	struct accuracy_estimate ratio;
	struct fault why;

	cr_assert(accuracy_likelihood(&table, true, &ratio, &why));
	cr_expect_leq(fabs(ratio.value - 5.17), 0.00501);
	cr_expect_leq(fabs(ratio.interval.low - 2.43), 0.00501, "%.4f",
		      ratio.interval.low);
	cr_expect_leq(fabs(ratio.interval.high - 11), 0.501, "%.4f",
		      ratio.interval.high);
	cr_assert(accuracy_likelihood(&table, false, &ratio, &why));
	cr_expect_leq(fabs(ratio.value - 0.30), 0.00501, "%.4f", ratio.value);
	cr_expect_leq(fabs(ratio.interval.low - 0.20), 0.00501, "%.4f",
		      ratio.interval.low);
	cr_expect_leq(fabs(ratio.interval.high - 0.46), 0.00501, "%.4f",
		      ratio.interval.high);
}

/* clang-format off */
/* Begg and Greenes, Biometrics 1983;39:207-15, with the variance of Zhou 1993
 * (both from memory), computed with R; the error agrees with a numerical delta
 * method. 0: liver scan of Drum and Christacopoulos 1972; 0.84 and 0.74 are
 * printed for it (from memory). */
static const struct {
	struct accuracy_sample sample;
	double sensitivity[4], specificity[4]; /* value, error, limits */
} samples[] = {
	{{{231, 32, 166}, {27, 54, 140}},
		{0.83646671543526, 0.0244980312632477,
		0.782646518497574, 0.879020190063653},
		{0.738398018166804, 0.0388626799225392,
		0.655507713017367, 0.807209516839274}},
	{{{231, 32, 0}, {27, 54, 0}},
		{0.895348837209302, 0.0190571658293335,
		0.851694146422053, 0.927251121065046},
		{0.627906976744186, 0.0521223744863462,
		0.521487393468457, 0.723220649900293}},
	{{{40, 20, 0}, {2, 88, 810}},
		{0.666666666666667, 0.159474445493415,
		0.328849857963387, 0.890872650462709},
		{0.977777777777778, 0.00492442503202684,
		0.965775586962067, 0.9856335215088}},
	{{{40, 20, 0}, {0, 90, 810}}, {0, 0, 0, 0},
		{0.978260869565217, 0.00480788987461621,
		0.966546028307788, 0.985933135928423}},
};
/* clang-format on */

static void
expect_estimate(size_t row, const struct accuracy_estimate *got,
		const double is[4])
{
	cr_expect(is_near(got->value, is[0], 1e-12), "row %zu: %.15g", row,
		  got->value);
	cr_expect(is_near(got->error, is[1], 1e-12), "row %zu: %.15g", row,
		  got->error);
	cr_expect(is_near(got->interval.low, is[2], 1e-12) &&
			  is_near(got->interval.high, is[3], 1e-12),
		  "row %zu: %.15g-%.15g", row, got->interval.low,
		  got->interval.high);
}

Test(accuracy, corrected_for_who_was_examined_it_agrees_with_begg_and_greenes)
{
	struct accuracy_estimate got;
	struct fault why;

	for (size_t i = 0; i < COUNT(samples); i++) {
		if (samples[i].sensitivity[0] > 0) {
			cr_assert(accuracy_corrected(&samples[i].sample,
						     ACCURACY_SENSITIVITY, &got,
						     &why));
			expect_estimate(i, &got, samples[i].sensitivity);
		}
		cr_assert(accuracy_corrected(&samples[i].sample,
					     ACCURACY_SPECIFICITY, &got, &why));
		expect_estimate(i, &got, samples[i].specificity);
	}
}

/* clang-format off */
/* Counts from the suspicious end. 0: Hanley and McNeil, Radiology
 * 1982;143:29-36, ratings of tomograms: 58 normal, 51 abnormal, area 0.893
 * (seen where others quote it). 1: our own. Computed with R; pROC agrees. */
static const struct {
	int grades;
	long long diseased[6], healthy[6];
	double is[4]; /* area, error, limits */
} areas[] = {
	{5, {33, 11, 2, 2, 3}, {2, 11, 6, 6, 33},
		{0.893171061528059, 0.0307244083793811,
		0.816443457911481, 0.940176194612198}},
	{6, {6, 9, 7, 5, 2, 1}, {2, 5, 10, 23, 40, 60},
		{0.880238095238095, 0.03405019926873,
		0.796023014705861, 0.932626475869812}},
	{2, {5, 5}, {5, 5},
		{0.5, 0.117851130197758, 0.284156610254651, 0.715843389745349}},
	{3, {1, 2, 8}, {7, 2, 1}, /* the wrong way round */
		{0.131818181818182, 0.0804772267292963,
		0.0368536718557694, 0.375966243474571}},
};
/* clang-format on */

Test(accuracy, the_area_agrees_with_hanley_and_mcneil_and_delong)
{
	struct accuracy_estimate got;
	struct fault why;

	for (size_t i = 0; i < COUNT(areas); i++) {
		cr_assert(accuracy_area(areas[i].diseased, areas[i].healthy,
					areas[i].grades, &got, &why),
			  "row %zu: %s", i, why.sentence);
		expect_estimate(i, &got, areas[i].is);
	}
}

/* Rows 0 to 2 are printed so in the reference pages of the auctestr package;
 * the last is Hanley and McNeil's own example, 0.032 there (from memory). */
Test(accuracy, the_error_of_an_area_agrees_with_printed_ones)
{
	static const struct {
		double area;
		long long diseased, healthy;
		double is, within;
	} rows[] = {
		{0.75, 20, 200, 0.06498283, 5.01e-9},
		{0.75, 110, 110, 0.03282048, 5.01e-9},
		{0.75, 20, 20, 0.07789072, 5.01e-9},
		{0.893171061528059, 51, 58, 0.0324865796073421, 1e-14},
	};

	for (size_t i = 0; i < COUNT(rows); i++)
		cr_expect_leq(fabs(accuracy_area_error(rows[i].area,
						       rows[i].diseased,
						       rows[i].healthy) -
				   rows[i].is),
			      rows[i].within, "row %zu", i);
}

Test(accuracy, a_measure_or_ratio_out_of_nothing_is_refused)
{
	static const struct {
		struct accuracy_table table;
		int what; /* enum accuracy_measure; 4 and 5: the ratios */
		const char *sentence;
	} rows[] = {
		{{0, 3, 0, 5},
		 0,
		 "nobody here has it, so there is no sensitivity"},
		{{3, 0, 5, 0},
		 1,
		 "everybody here has it, so there is no specificity"},
		{{0, 0, 5, 2},
		 2,
		 "nobody was flagged, so there is no positive predictive "
		 "value"},
		{{5, 3, 0, 0},
		 3,
		 "everybody was flagged, so there is no negative predictive "
		 "value"},
		{{-1, 3, 2, 0},
		 0,
		 "-1 of 1 cannot be; allowed are counts from 0 to the number "
		 "of people"},
		{{8, 0, 2, 40},
		 4,
		 "not estimable (nobody without it is flagged)"},
		{{0, 3, 2, 40}, 4, "not estimable (nobody with it is flagged)"},
		{{12, 5, 0, 83},
		 5,
		 "not estimable (nobody with it is cleared)"},
		{{5, 3, 0, 0}, 4, "not estimable (everybody is flagged)"},
		{{0, 0, 5, 3}, 5, "not estimable (everybody is cleared)"},
		{{0, 0, 0, 0}, 4, "not estimable (nobody with it is flagged)"},
	};
	struct accuracy_estimate ratio;
	struct accuracy_share share;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		bool done =
			rows[i].what < 4
				? accuracy_measure(
					  &rows[i].table,
					  (enum accuracy_measure)rows[i].what,
					  &share, &why)
				: accuracy_likelihood(&rows[i].table,
						      rows[i].what == 4, &ratio,
						      &why);

		cr_expect_not(done, "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
	}
}

Test(accuracy, where_none_was_missed_only_the_upper_limit_is_said)
{
	static const struct {
		struct accuracy_sample sample;
		enum accuracy_measure measure;
		const char *sentence;
	} rows[] = {
		{{{40, 20, 0}, {0, 90, 810}},
		 ACCURACY_SENSITIVITY,
		 "not estimable (none of the 90 cleared people who were "
		 "examined has it: at most 4.1 % of the cleared are missed, "
		 "the upper limit of 95 % by Wilson)"},
		{{{40, 0, 5}, {2, 88, 810}},
		 ACCURACY_SPECIFICITY,
		 "not estimable (all of the 40 flagged people who were "
		 "examined have it: at most 8.8 % of the flagged are false "
		 "alarms, the upper limit of 95 % by Wilson)"},
		{{{40, 20, 0}, {0, 0, 900}},
		 ACCURACY_SENSITIVITY,
		 "not estimable (no cleared person was examined, so nobody "
		 "knows who was missed)"},
		{{{40, 20, 0}, {0, 0, 900}},
		 ACCURACY_SPECIFICITY,
		 "not estimable (no cleared person was examined, so nobody "
		 "knows who was missed)"},
		{{{0, 0, 60}, {2, 88, 810}},
		 ACCURACY_SENSITIVITY,
		 "not estimable (no flagged person was examined)"},
		{{{0, 20, 0}, {2, 88, 810}},
		 ACCURACY_SENSITIVITY,
		 "not estimable (none of the flagged people who were examined "
		 "has it)"},
		{{{40, 20, 0}, {9, 0, 810}},
		 ACCURACY_SPECIFICITY,
		 "not estimable (none of the cleared people who were examined "
		 "is without it)"},
	};
	struct accuracy_estimate got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		cr_expect_not(accuracy_corrected(&rows[i].sample,
						 rows[i].measure, &got, &why),
			      "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
	}
}

Test(accuracy, an_area_without_an_error_is_refused)
{
	static const struct {
		int grades;
		long long diseased[3], healthy[3];
		const char *sentence;
	} rows[] = {
		{2,
		 {7, 0},
		 {0, 10},
		 "not estimable (no grade has eyes both with and without it)"},
		{1, {4}, {9}, "not estimable (all eyes have one grade)"},
		{3,
		 {1, 0, 0},
		 {3, 4, 3},
		 "not estimable (it takes at least two eyes with it and two "
		 "without)"},
		{3,
		 {5, 0, 0},
		 {0, 0, 0},
		 "not estimable (it takes at least two eyes with it and two "
		 "without)"},
	};
	struct accuracy_estimate got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		cr_expect_not(accuracy_area(rows[i].diseased, rows[i].healthy,
					    rows[i].grades, &got, &why),
			      "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
	}
}
