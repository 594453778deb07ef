/* calendar.c: on which days a station counted, and by which policy. */
#include "counts/calendar.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
	WEEK = 7,
	KEY_SIZE = 32,
	/* 1900-01-01 was a Monday. */
	FIRST_MONDAY = -25567
};

/* Rows counted per weekday, as the sums of a key. */
struct week {
	int closed[WEEK], open[WEEK];
	int unused;
};

static_assert(sizeof(struct week) == sizeof(struct tally_counts), "a week "
								  "takes the "
								  "place of "
								  "the counts "
								  "of a tally");

int
calendar_week(struct day day)
{
	return (day.number - FIRST_MONDAY) / WEEK;
}

struct day
calendar_monday(int week)
{
	return (struct day){FIRST_MONDAY + week * WEEK};
}

static bool
add(struct groups *calendar, int station, struct day day, const char *policy,
    const struct week *week, int sign, struct fault *why)
{
	struct tally_counts counts;
	char key[KEY_SIZE];

	memcpy(&counts, week, sizeof counts);
	snprintf(key, sizeof key, "%04d %05d %.12s", station,
		 calendar_week(day), policy);
	return groups_add(calendar, key, &counts, sign, why);
}

bool
calendar_add(struct groups *calendar, int station, struct day day,
	     const char *policy, bool closed, int sign, struct fault *why)
{
	struct week week = {{0}, {0}, 0};

	(closed ? week.closed : week.open)[day_weekday(day) - 1] = 1;
	return add(calendar, station, day, policy, &week, sign, why);
}

bool
calendar_leave_out(struct groups *calendar, int station, struct day day,
		   struct fault *why)
{
	struct week week = {{0}, {0}, 0};

	week.closed[day_weekday(day) - 1] = 1;
	return add(calendar, station, day, "", &week, 1, why);
}

/* Who visits, and the week that is being put together from its policies. */
struct visiting {
	calendar_see *see;
	void *context;
	bool by_policy;
	int station, week; /* week -1 = none yet */
	unsigned marks[WEEK];
};

static void
tell_week(struct visiting *visiting, const char *policy)
{
	struct day day = calendar_monday(visiting->week);

	for (int i = 0; i < WEEK; i++, day.number++)
		if (visiting->marks[i] != 0)
			visiting->see(visiting->context, visiting->station, day,
				      policy, visiting->marks[i]);
	memset(visiting->marks, 0, sizeof visiting->marks);
}

static bool
visit_key(void *context, const char *key, const struct sums *sums,
	  struct fault *why)
{
	struct visiting *visiting = context;
	char *rest;
	int station = (int)strtol(key, &rest, 10);
	int week = (int)strtol(rest, &rest, 10);
	bool left_out = *++rest == '\0';

	(void)why;
	if (station != visiting->station || week != visiting->week)
		tell_week(visiting, "");
	visiting->station = station;
	visiting->week = week;
	if (left_out && visiting->by_policy)
		return true;
	for (int i = 0; i < WEEK; i++) {
		if (sums->count[i] > 0)
			visiting->marks[i] |= left_out ? CALENDAR_LEFT_OUT
						       : CALENDAR_CLOSED;
		if (sums->count[WEEK + i] > 0)
			visiting->marks[i] |= CALENDAR_OPEN;
	}
	if (visiting->by_policy)
		tell_week(visiting, rest);
	return true;
}

static void
visit(struct groups *calendar, calendar_see *see, void *context, bool by_policy)
{
	struct visiting visiting = {see, context, by_policy, 0, -1, {0}};
	struct fault why;

	groups_visit(calendar, visit_key, &visiting, &why);
	tell_week(&visiting, "");
}

void
calendar_visit(struct groups *calendar, calendar_see *see, void *context)
{
	visit(calendar, see, context, false);
}

void
calendar_visit_policies(struct groups *calendar, calendar_see *see,
			void *context)
{
	visit(calendar, see, context, true);
}

/* Facts, and the day the station counted before. */
struct looking {
	struct calendar_facts facts;
	int station;
	struct day before;
};

static void
look(void *context, int station, struct day day, const char *policy,
     unsigned marks)
{
	struct looking *looking = context;
	struct calendar_facts *facts = &looking->facts;

	(void)policy;
	if ((marks & (CALENDAR_OPEN | CALENDAR_CLOSED)) == 0) {
		facts->left_out++;
		return;
	}
	facts->days++;
	facts->open += (marks & CALENDAR_OPEN) != 0;
	if (station == looking->station)
		facts->between += day.number - looking->before.number - 1;
	else
		facts->stations++;
	if (day_is_none(facts->first) || day.number < facts->first.number)
		facts->first = day;
	if (day_is_none(facts->last) || day.number > facts->last.number)
		facts->last = day;
	looking->station = station;
	looking->before = day;
}

struct calendar_facts
calendar_facts(struct groups *calendar)
{
	struct looking looking = {
		{day_none(), day_none(), 0, 0, 0, 0, 0}, 0, day_none()};

	calendar_visit(calendar, look, &looking);
	return looking.facts;
}
