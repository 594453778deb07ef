/* calendar.h: on which days a station counted, and by which policy. */
#ifndef SHOAL_COUNTS_CALENDAR_H
#define SHOAL_COUNTS_CALENDAR_H

#include "base/day.h"
#include "base/fault.h"
#include "counts/groups.h"

/*
 * Kept in a table of sums of its own, one key per station, week and policy, so
 * that memory grows with a seventh of the station days, and what was added can
 * be taken back.
 */

/* What is known of one day of a station; they may come together. */
enum calendar_mark {
	CALENDAR_OPEN = 1,    /* a tally of a day not yet complete */
	CALENDAR_CLOSED = 2,  /* a tally of a complete day */
	CALENDAR_LEFT_OUT = 4 /* one came that could not be counted */
};

/* A row of the day was counted (`sign` 1), or turned out not to count (-1). */
bool calendar_add(struct groups *calendar, int station, struct day day,
		  const char *policy, bool closed, int sign, struct fault *why);

/* A tally of that day is known to be left out. */
bool calendar_leave_out(struct groups *calendar, int station, struct day day,
			struct fault *why);

/* Called per day with any mark; the days of a station rise. */
typedef void calendar_see(void *context, int station, struct day day,
			  const char *policy, unsigned marks);

/* Every day once, with `policy` "". */
void calendar_visit(struct groups *calendar, calendar_see *see, void *context);

/* Every day that counted once per policy in force on it; of one week first the
 * days of one policy, then those of the next. */
void calendar_visit_policies(struct groups *calendar, calendar_see *see,
			     void *context);

struct calendar_facts {
	struct day first,
		last; /* that counted; day_none() when there is none */
	int stations;
	/* Station days that counted, of them still open; without a tally
	 * between a station's first and last; known to be left out. */
	long long days, open, between, left_out;
};

struct calendar_facts calendar_facts(struct groups *calendar);

/* Weeks since the first one of 1900, rising; and the Monday of one. */
int calendar_week(struct day day);
struct day calendar_monday(int week);

#endif
