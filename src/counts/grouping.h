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
	GROUPING_COLUMNS_MOST = 7,
	GROUPING_JOINT = 0x1f,
	GROUPING_KEY_SIZE = 2 * TALLY_TEXT_SIZE + 6 * 40
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

/*
 * What rows of one kind can be grouped by. `value` gives a column's text of a
 * row; `room` holds GROUPING_ROOM bytes, to write it there. A text may have
 * a letter and GROUPING_ORDER in front, by which it is sorted and which is not
 * printed.
 */
enum { GROUPING_ROOM = 40, GROUPING_ORDER = 0x1e };

struct grouping_choice {
	enum grouping_period shortest; /* the longer ones can be had too */
	const char *by, *per;	       /* when nothing is said */
	const char *column[GROUPING_COLUMNS_MOST + 1]; /* ends with NULL */
	const char *(*value)(const void *row, size_t column, char *room);
};

/* A station's code of four digits, in the room of a choice's `value`. */
const char *grouping_station(int station, char *room);

/* Of struct counted. */
extern const struct grouping_choice grouping_tallies;

struct grouping {
	const struct grouping_choice *choice;
	enum grouping_period period;
	size_t count; /* of columns */
	size_t column[GROUPING_COLUMNS_MOST];
	struct day day; /* the last one, and its period */
	char text[DAY_SIZE];
};

/* Reads "day" and "site,sex"; NULL means what the choice says. "" for no column
 * at all. FAULT_USAGE names what is allowed. */
bool grouping_read(struct grouping *grouping,
		   const struct grouping_choice *choice, const char *by,
		   const char *per, struct fault *why);

/* The period and the columns: at least 1. */
size_t grouping_titles(const struct grouping *grouping);
/* "day", then the columns' names. */
const char *grouping_title(const struct grouping *grouping, size_t index);

/* The key of a row's group, the row being of the choice's kind; `key` holds
 * GROUPING_KEY_SIZE bytes. */
void grouping_key(struct grouping *grouping, struct day date, const void *row,
		  char *key);

#endif
