/* Whether one share differs from another by more than chance. */
#include "counts/funnel.h"

#include <criterion/criterion.h>

/* Limits and flags computed with R 4.2.2, stats::qbinom and pbinom; the
 * interpolation as Spiegelhalter, Stat Med 2005;24:1185-202, appendix A.1.1
 * (formula recalled). Counts of -1: no count is flagged on that side. */
static const struct {
	double share;
	long long of;
	double limit[4]; /* at 0.001, 0.025, 0.975, 0.999 */
	long long very_low, low, high, very_high;
} rows[] = {
	/* clang-format off */
	{0.05, 400, {0.0183660554745364, 0.0284043157748721,
		0.0712220005546951, 0.0854853297109481}, 7, 11, 30, 36},
	{0.05, 1000, {0.0295033473730785, 0.0364043476821243,
		0.0634464932230761, 0.0720166796237358}, 29, 36, 65, 74},
	{0.1, 10, {-0.0997132028009207, -0.0928300700230189,
		0.278735659796248, 0.442669526277209}, -1, -1, 4, 6},
	{0.1, 500, {0.0599886865476911, 0.0734475283117622,
		0.126014898891818, 0.142689312964431}, 29, 36, 65, 73},
	{0.1, 1000, {0.071340846312636, 0.0812786567446603,
		0.11848292653051, 0.129917843946863}, 71, 81, 120, 131},
	{0.2, 1, {-0.99875, -0.96875, 0.875, 0.995}, -1, -1, -1, -1},
	{0.2, 100, {0.0809782525645995, 0.119742232715069,
		0.276476085033592, 0.326765851516642}, 8, 11, 29, 34},
	{0.5, 15, {0.0773130158730159, 0.2118778998779,
		0.721455433455434, 0.856020317460317}, 1, 3, 12, 14},
	{0.5, 1000, {0.450652195996334, 0.46850209519775,
		0.53049790480225, 0.548347804003666}, 450, 468, 532, 550},
	/* clang-format on */
};

Test(funnel, limits_and_flags_are_those_of_the_exact_distribution)
{
	static const double chance[4] = {0.001, 0.025, 0.975, 0.999};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		for (int j = 0; j < 4; j++)
			cr_expect_float_eq(funnel_limit(rows[i].of,
							rows[i].share,
							chance[j]),
					   rows[i].limit[j], 1e-11,
					   "row %zu, limit %d", i, j);
		for (long long x = 0; x <= rows[i].of; x++) {
			enum funnel_flag wanted = FUNNEL_INSIDE;

			if (x <= rows[i].low)
				wanted = FUNNEL_LOW;
			if (x <= rows[i].very_low)
				wanted = FUNNEL_VERY_LOW;
			if (rows[i].high >= 0 && x >= rows[i].high)
				wanted = FUNNEL_HIGH;
			if (rows[i].very_high >= 0 && x >= rows[i].very_high)
				wanted = FUNNEL_VERY_HIGH;
			cr_expect_eq(funnel_flag(x, rows[i].of, rows[i].share),
				     wanted, "row %zu, count %lld", i, x);
		}
	}
}

/* The drawn line is at 27.9 %, 3 of 10 is beyond it and still not unusual:
 * P(X >= 3) = 1 - 0.9^10 - 10 0.1 0.9^9 - 45 0.01 0.9^8 = 0.0702. */
Test(funnel, a_count_beyond_the_drawn_line_may_be_inside)
{
	cr_expect(0.3 > funnel_limit(10, 0.1, 0.975));
	cr_expect_float_eq(funnel_tails(3, 10, 0.1).many, 0.0701908264, 1e-10);
	cr_expect_eq(funnel_flag(3, 10, 0.1), FUNNEL_INSIDE);
}

Test(funnel, both_tails_and_the_count_itself_add_up)
{
	static const long long of[] = {1, 2, 17, 400, 20000};
	static const double share[] = {1e-6, 0.03, 0.5, 0.999};

	for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
		for (size_t j = 0; j < sizeof share / sizeof share[0]; j++) {
			double before = 0;

			for (long long x = 0; x <= of[i]; x += 1 + of[i] / 50) {
				struct funnel_tails at =
					funnel_tails(x, of[i], share[j]);
				struct funnel_tails next =
					x < of[i] ? funnel_tails(x + 1, of[i],
								 share[j])
						  : (struct funnel_tails){1, 0};

				cr_expect_float_eq(at.few + next.many, 1, 1e-9,
						   "%lld of %lld at %g", x,
						   of[i], share[j]);
				cr_expect(at.few >= before && at.few <= 1 &&
						  at.many >= 0 && at.many <= 1,
					  "%lld of %lld at %g", x, of[i],
					  share[j]);
				before = at.few - 1e-9;
			}
		}
	/* Ten million people, 1 % of them or 1.02 %: by the normal
	 * approximation 6.36 standard deviations. */
	cr_expect(funnel_tails(102000, 10000000, 0.01).many < 2e-10);
	cr_expect(funnel_tails(102000, 10000000, 0.01).many > 5e-11);
}
