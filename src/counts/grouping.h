/* grouping.h: the period and the columns by which counts are added up. */
#ifndef SHOAL_COUNTS_GROUPING_H
#define SHOAL_COUNTS_GROUPING_H

#include "base/fault.h"
#include "counts/counted.h"

#include <stddef.h>

/*
 * One group per period and value of each column. The key of a group is the
 * period's text and the columns' values, joined by GROUPING_JOINT, so that keys
 * sorted by their bytes are sorted by period first.
 */
enum {
	GROUPING_COLUMNS_MOST = 6,
	GROUPING_JOINT = 0x1f,
	GROUPING_KEY_SIZE = 3 * TALLY_TEXT_SIZE + 64
};

/* day: 2026-03-10; week: 2026-W11 (ISO 8601); month: 2026-03; year: 2026;
 * all: all. */
enum grouping_period {
	PERIOD_DAY,
	PERIOD_WEEK,
	PERIOD_MONTH,
	PERIOD_YEAR,
	PERIOD_ALL,
	PERIODS
};

/* In the order of the choices of --per. */
enum grouping_column {
	BY_PROGRAMME,
	BY_SITE,
	BY_STATION,
	BY_SEX,
	BY_AGE_BAND,
	BY_POLICY
};

struct grouping {
	enum grouping_period period;
	size_t count; /* of columns */
	enum grouping_column column[GROUPING_COLUMNS_MOST];
	struct day day; /* the last one, and its period */
	char text[DAY_SIZE];
};

/* Reads "day" and "site,sex"; NULL means day, and site. "" for no column at
 * all. FAULT_USAGE names what is allowed. */
bool grouping_read(struct grouping *grouping, const char *by, const char *per,
		   struct fault *why);

/* The period and the columns: 1 to 7. */
size_t grouping_titles(const struct grouping *grouping);
/* "day", then the columns' names. */
const char *grouping_title(const struct grouping *grouping, size_t index);

/* The key of a row's group; `key` holds GROUPING_KEY_SIZE bytes. */
void grouping_key(struct grouping *grouping, const struct counted *row,
		  char *key);

#endif
