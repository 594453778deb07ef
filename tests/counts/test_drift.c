/* Whether one station's grades spread like the others'. */
#include "counts/drift.h"

#include <criterion/criterion.h>
#include <math.h>

/* Made-up grades; computed with R 4.2.2, chisq.test(correct = FALSE), the
 * column without people taken out before. */
static const struct {
	long long station[5], others[5];
	int grades;
	enum drift_answer answer;
	double chi_squared;
	int freedom;
	double chance, least_expected;
} rows[] = {
	/* clang-format off */
	{{3, 7, 15, 40, 85}, {20, 60, 180, 420, 820}, 5, DRIFT_TOO_FEW,
		1.23197883712868, 4, 0.872805968277685, 2.09090909090909},
	{{8, 20, 30, 42, 50}, {20, 60, 180, 420, 820}, 5, DRIFT_TOO_FEW,
		55.9844006568145, 4, 2.02033337342723e-11, 2.54545454545455},
	{{10, 10, 10, 60, 60}, {20, 60, 180, 420, 820}, 5, DRIFT_TOO_FEW,
		39.2374686716792, 4, 6.2223428785258e-08, 2.72727272727273},
	{{1, 0, 2, 5, 12}, {20, 60, 180, 420, 820}, 5, DRIFT_TOO_FEW,
		2.95266250089779, 4, 0.565778217147972, 0.276315789473684},
	{{0, 7, 15, 40, 85}, {0, 60, 180, 420, 820}, 5, DRIFT_TESTED,
		0.795453122830255, 3, 0.85055427460042, 6.05347264904733},
	{{10, 20}, {100, 200}, 2, DRIFT_TESTED, 0, 1, 1, 10},
	/* clang-format on */
};

Test(drift, chi_squared_and_its_chance_are_as_computed_elsewhere)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct drift drift;

		cr_expect_eq(drift_test(rows[i].station, rows[i].others,
					rows[i].grades, &drift),
			     rows[i].answer, "row %zu", i);
		cr_expect_float_eq(drift.chi_squared, rows[i].chi_squared,
				   1e-11, "row %zu", i);
		cr_expect_eq(drift.freedom, rows[i].freedom, "row %zu", i);
		cr_expect_float_eq(drift.chance / rows[i].chance, 1, 1e-11,
				   "row %zu: %g", i, drift.chance);
		cr_expect_float_eq(drift.least_expected, rows[i].least_expected,
				   1e-11, "row %zu", i);
	}
}

/* Upper points of chi-squared: 3.841459, 5.991465, 7.814728, 9.487729,
 * 11.070498, 12.591587, 14.067140 for 1 to 7 degrees of freedom at 0.05, as
 * printed in tables (from memory). Two rows that are the same but in two
 * columns give any value wanted. */
Test(drift, every_number_of_grades_has_its_own_chance)
{
	static const double point[] = {3.841459,  5.991465,  7.814728, 9.487729,
				       11.070498, 12.591587, 14.067140};

	for (int freedom = 1; freedom <= 7; freedom++) {
		/* With n in every cell, d moved between two: chi-squared is
		 * 2 d^2 / n. */
		long long station[DRIFT_GRADES_MOST], others[DRIFT_GRADES_MOST];
		const long long n = 1000000000000;
		long long apart =
			(long long)(1000000 * sqrt(point[freedom - 1] / 4));
		struct drift drift;

		for (int i = 0; i <= freedom; i++)
			station[i] = others[i] = n;
		station[0] += apart;
		station[1] -= apart;
		others[0] -= apart;
		others[1] += apart;
		cr_assert_eq(drift_test(station, others, freedom + 1, &drift),
			     DRIFT_TESTED);
		cr_expect_float_eq(drift.chi_squared, point[freedom - 1], 1e-4,
				   "%d: %g", freedom, drift.chi_squared);
		cr_expect_float_eq(drift.chance, 0.05, 1e-5, "%d: %g", freedom,
				   drift.chance);
	}
}

Test(drift, nothing_to_compare_is_no_answer)
{
	static const struct {
		long long station[3], others[3];
	} nothing[] = {{{0, 0, 0}, {1, 2, 3}},
		       {{1, 2, 3}, {0, 0, 0}},
		       {{0, 0, 0}, {0, 0, 0}},
		       {{0, 9, 0}, {0, 12, 0}}};

	for (size_t i = 0; i < sizeof nothing / sizeof nothing[0]; i++) {
		struct drift drift;
		int from[DRIFT_GRADES_MOST], joined;

		cr_expect_eq(drift_test(nothing[i].station, nothing[i].others,
					3, &drift),
			     DRIFT_NOTHING, "row %zu", i);
		cr_expect_neq(drift_test_joined(nothing[i].station,
						nothing[i].others, 3, from,
						&joined, &drift),
			      DRIFT_TESTED, "row %zu", i);
	}
}

Test(drift, neighbours_are_joined_until_enough_are_expected)
{
	static const struct {
		long long station[5], others[5];
		int joined;
		int from[5];
		enum drift_answer answer;
	} joins[] = {
		{{3, 7, 15, 40, 85},
		 {20, 60, 180, 420, 820},
		 4,
		 {0, 2, 3, 4},
		 DRIFT_TESTED},
		{{50, 50, 50, 50, 0},
		 {50, 50, 50, 50, 1},
		 4,
		 {0, 1, 2, 3},
		 DRIFT_TESTED},
		{{1, 1, 1, 1, 1}, {9, 9, 9, 9, 9}, 1, {0}, DRIFT_TOO_FEW},
		{{0, 0, 30, 0, 30}, {0, 0, 30, 0, 20}, 2, {0, 3}, DRIFT_TESTED},
	};

	for (size_t i = 0; i < sizeof joins / sizeof joins[0]; i++) {
		struct drift drift;
		int from[DRIFT_GRADES_MOST], joined;

		cr_expect_eq(drift_test_joined(joins[i].station,
					       joins[i].others, 5, from,
					       &joined, &drift),
			     joins[i].answer, "row %zu", i);
		cr_assert_eq(joined, joins[i].joined, "row %zu: %d", i, joined);
		cr_expect_arr_eq(from, joins[i].from,
				 (size_t)joined * sizeof from[0], "row %zu", i);
	}
}
