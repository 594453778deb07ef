/* test_grid.c: what a policy says at every depth. */
#include "clinic/grid.h"

#include "base/embedded.h"
#include "keep/policyfile.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static void
hear(void *context, const struct fault *one)
{
	(void)context;
	cr_expect(false, "%s", one->sentence);
}

/* The answers that the compiled-in rules were written to give. */
Test(grid, the_default_rules_at_every_depth)
{
	/* Days; a negative number stands for months until a new screening. */
	static const int expected[GRID_ROWS][GRID_COLUMNS] = {
		{7, 7, 2, 7},	   {14, 7, 2, 7},     {30, 7, 2, 7},
		{30, 7, 2, 7},	   {-12, 30, 14, 30}, {-24, 30, 14, 30},
		{-24, 30, 14, 30}, {30, 7, 2, 30}};
	struct policy policy;
	struct grid grid;
	struct fault why;

	cr_assert(policyfile_read_bytes(
		"policy.ini", (const char *)embedded_policy,
		embedded_policy_size, &policy, hear, NULL, &why));
	grid_fill(&policy, &grid);
	cr_expect_eq(grid.pressure_mmhg, 24);
	cr_expect_not(grid.pressure_is_over);
	cr_expect_eq(grid.age_years, 60);
	cr_expect_eq(grid.age_rules, 0);
	cr_expect_eq(grid.age_limits, 1);
	for (int row = 0; row < GRID_ROWS; row++)
		for (int column = 0; column < GRID_COLUMNS; column++) {
			const struct grid_cell *cell = &grid.cell[row][column];

			cr_expect_eq(cell->within_days != FIELD_BLANK
					     ? cell->within_days
					     : -cell->rescreen_months,
				     expected[row][column], "row %d column %d",
				     row, column);
		}
}

struct limits {
	int age_from, age_below, at, above, days;
};

static void
add_rule(struct policy *policy, struct limits limits)
{
	struct rule *rule = &policy->rule[policy->rule_count++];

	rule_init(rule);
	rule->age_at_or_above_years = limits.age_from;
	rule->age_below_years = limits.age_below;
	rule->pressure_at_or_above_mmhg = limits.at;
	rule->pressure_above_mmhg = limits.above;
	rule->refer_within_days = limits.days;
	if (limits.days == FIELD_BLANK)
		rule->rescreen_within_months = 12;
}

Test(grid, age_and_pressure_are_chosen_by_the_rules_themselves)
{
	enum { N = FIELD_BLANK };
	static const struct {
		struct limits limits[2];
		int age, rules, pressure;
		bool over;
	} rows[] = {
		/* No age limit: the middle of 0 to 120. */
		{{{N, N, 24, N, 30}, {N, N, 30, N, 7}}, 60, 0, 24, false},
		/* Between two limits, as near to the middle as can be. */
		{{{N, 40, N, N, 7}, {50, N, N, N, 7}}, 49, 0, N, false},
		{{{80, N, N, N, 7}, {N, 70, N, N, 7}}, 70, 0, N, false},
		/* At every age one holds. */
		{{{30, N, N, N, 7}, {N, 70, N, N, 7}}, 70, 1, N, false},
		/* A rule that does not refer is passed over. */
		{{{N, N, 22, N, N}, {N, N, 26, N, 7}}, 60, 0, 26, false},
		/* "At or above" goes before "above". */
		{{{N, N, N, 21, 7}, {N, N, 26, N, 7}}, 60, 0, 26, false},
		{{{N, N, N, 21, 7}, {N, N, N, 25, 0}}, 60, 0, 22, true},
		{{{N, N, N, 21, N}, {N, N, 26, N, N}}, 60, 0, N, false},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct policy policy;
		struct grid grid;

		policy_init(&policy);
		policy.rescreen_months = 24;
		add_rule(&policy, rows[i].limits[0]);
		add_rule(&policy, rows[i].limits[1]);
		grid_fill(&policy, &grid);
		cr_expect_eq(grid.age_years, rows[i].age, "row %zu: %d", i,
			     grid.age_years);
		cr_expect_eq(grid.age_rules, rows[i].rules, "row %zu", i);
		cr_expect_eq(grid.pressure_mmhg, rows[i].pressure, "row %zu",
			     i);
		cr_expect_eq(grid.pressure_is_over, rows[i].over, "row %zu", i);
	}
}
