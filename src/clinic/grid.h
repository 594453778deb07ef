/* grid.h: what a policy says at every depth, for a doctor to look at. */
#ifndef SHOAL_CLINIC_GRID_H
#define SHOAL_CLINIC_GRID_H

#include "clinic/policy.h"

/* The columns: what the person has besides the depth. */
enum grid_column {
	GRID_PLAIN,    /* nothing */
	GRID_SPELLS,   /* past_spells */
	GRID_PAIN,     /* eye_pain */
	GRID_PRESSURE, /* raised pressure in both eyes */
	GRID_COLUMNS
};

/* A row per grade, then DEPTH_NOT_GRADABLE: the row is the enum depth. */
enum { GRID_ROWS = DEPTH_NOT_GRADABLE + 1 };

/* One answer; exactly one of the two is not FIELD_BLANK. */
struct grid_cell {
	int within_days;
	int rescreen_months;
};

struct grid {
	/* The age at which the fewest rules hold by their age limits; of
	 * several, the nearest to the middle of the ages that can be typed. */
	int age_years;
	int age_limits; /* how many rules have an age limit */
	int age_rules;	/* how many of them can hold at that age all the same */
	/*
	 * The lowest pressure_at_or_above_mmhg of a rule that refers. Where
	 * there is none, the first whole number over the lowest
	 * pressure_above_mmhg; FIELD_BLANK where none refers by pressure, and
	 * the column is then that of a plain person.
	 */
	int pressure_mmhg;
	bool pressure_is_over; /* it was found the second way */
	struct grid_cell cell[GRID_ROWS][GRID_COLUMNS];
};

/*
 * Decides for an invented person per cell: both eyes alike, sex not recorded,
 * no finding but the column's, pressure not measured but in GRID_PRESSURE.
 */
void grid_fill(const struct policy *policy, struct grid *grid);

/* Words over a column: "no symptom"; what the column's finding means is in
 * finding_about. */
const char *grid_column_name(enum grid_column column);

#endif
