/* grid.c: what a policy says at every depth, for a doctor to look at. */
#include "clinic/grid.h"

#include "clinic/decide.h"
#include "clinic/visit.h"

#include <stdlib.h>

const char *
grid_column_name(enum grid_column column)
{
	static const char *const name[GRID_COLUMNS] = {
		"no symptom", "halo spells", "eye pain", "raised pressure"};

	return name[column];
}

static void
make_person(struct visit *visit, enum depth depth, int age_years)
{
	visit_init(visit);
	visit->depth_right = depth;
	visit->depth_left = depth;
	visit->age_years = age_years;
}

/* The rule's age limits alone, judged like any other rule. */
static bool
meets_age(const struct rule *rule, int age_years)
{
	struct rule only;
	struct visit visit;

	rule_init(&only);
	only.age_at_or_above_years = rule->age_at_or_above_years;
	only.age_below_years = rule->age_below_years;
	make_person(&visit, DEPTH_100, age_years);
	return rule_holds(&only, &visit, EYE_RIGHT);
}

static bool
has_age_limit(const struct rule *rule)
{
	return rule->age_at_or_above_years != FIELD_BLANK ||
	       rule->age_below_years != FIELD_BLANK;
}

static int
count_age_rules(const struct policy *policy, int age_years)
{
	int count = 0;

	for (int i = 0; i < policy->rule_count; i++)
		count += has_age_limit(&policy->rule[i]) &&
			 meets_age(&policy->rule[i], age_years);
	return count;
}

static void
choose_age(const struct policy *policy, struct grid *grid)
{
	const struct field *field = fields_find(visit_fields, "age_years");
	int least = (int)field->least, most = (int)field->most;
	int middle = (least + most) / 2;

	grid->age_limits = 0;
	for (int i = 0; i < policy->rule_count; i++)
		grid->age_limits += has_age_limit(&policy->rule[i]);
	grid->age_years = middle;
	grid->age_rules = count_age_rules(policy, middle);
	for (int age = least; age <= most; age++) {
		int rules = count_age_rules(policy, age);

		if (rules > grid->age_rules ||
		    (rules == grid->age_rules &&
		     abs(age - middle) >= abs(grid->age_years - middle)))
			continue;
		grid->age_years = age;
		grid->age_rules = rules;
	}
}

static void
lower(int *least, int value)
{
	if (value != FIELD_BLANK && (*least == FIELD_BLANK || value < *least))
		*least = value;
}

static void
choose_pressure(const struct policy *policy, struct grid *grid)
{
	int at = FIELD_BLANK, above = FIELD_BLANK;

	for (int i = 0; i < policy->rule_count; i++) {
		if (policy->rule[i].refer_within_days == FIELD_BLANK)
			continue;
		lower(&at, policy->rule[i].pressure_at_or_above_mmhg);
		lower(&above, policy->rule[i].pressure_above_mmhg);
	}
	grid->pressure_is_over = at == FIELD_BLANK && above != FIELD_BLANK;
	grid->pressure_mmhg = grid->pressure_is_over ? above + 1 : at;
}

static void
fill_cell(const struct policy *policy, struct grid *grid, int row, int column)
{
	struct grid_cell *cell = &grid->cell[row][column];
	struct decision decision;
	struct visit visit;

	make_person(&visit, (enum depth)row, grid->age_years);
	if (column == GRID_SPELLS)
		findings_add(&visit.findings, PAST_SPELLS, EYE_RIGHT);
	if (column == GRID_PAIN)
		findings_add(&visit.findings, EYE_PAIN, EYE_RIGHT);
	if (column == GRID_PRESSURE) {
		visit.pressure_right = grid->pressure_mmhg;
		visit.pressure_left = grid->pressure_mmhg;
	}
	decide(policy, &visit, &decision);
	cell->within_days = decision.within_days;
	cell->rescreen_months = decision.rescreen_months;
}

void
grid_fill(const struct policy *policy, struct grid *grid)
{
	choose_age(policy, grid);
	choose_pressure(policy, grid);
	for (int row = 0; row < GRID_ROWS; row++)
		for (int column = 0; column < GRID_COLUMNS; column++)
			fill_cell(policy, grid, row, column);
}
