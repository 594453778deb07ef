/* day.h: a calendar day, without clock or time zone. */
#ifndef SHOAL_BASE_DAY_H
#define SHOAL_BASE_DAY_H

#include "base/fault.h"

#include <stddef.h>

/*
 * A day of the proleptic Gregorian calendar as ISO 8601 counts it, kept as
 * days since 1970-01-01. Written and read as YYYY-MM-DD only, years 1900 to
 * 2199: anything else at an eye camp is a slip of the keyboard.
 * DAY_NONE is "no day recorded"; it is never a day.
 */
struct day {
	int number; /* days since 1970-01-01, may be negative */
};

enum { DAY_NONE = -2147483647, DAY_SIZE = 11, DAY_WEEK_SIZE = 9 };

/* The blank day. */
struct day day_none(void);
bool day_is_none(struct day day);

/* A day from its parts; false when there is no such day in 1900-2199. */
bool day_make(int year, int month, int of_month, struct day *day);

/* The parts of a day that is not DAY_NONE. */
void day_parts(struct day day, int *year, int *month, int *of_month);

/* Reads exactly YYYY-MM-DD. FAULT_INPUT says what is wrong. */
bool day_read(const char *text, struct day *day, struct fault *why);

/* Writes YYYY-MM-DD (or "" for DAY_NONE) with its ending NUL into `text` of
 * at least DAY_SIZE bytes. */
void day_write(struct day day, char *text);

/* Writes the ISO 8601 week as YYYY-Www; `text` holds DAY_WEEK_SIZE bytes. */
void day_write_week(struct day day, char *text);

/* ISO weekday, 1 = Monday to 7 = Sunday. */
int day_weekday(struct day day);

/* English names for screens: "Monday", "November". */
const char *day_weekday_name(struct day day);
const char *day_month_name(int month);

/* The day `days` later. */
struct day day_plus_days(struct day day, int days);

/* The same day of the month `months` later, or that month's last day when it
 * is shorter (31 January + 1 month = 28 or 29 February). */
struct day day_plus_months(struct day day, int months);

/* The day in which a count of seconds since 1970-01-01T00:00:00 falls; the
 * caller adds the zone's offset for a local day. */
struct day day_of_seconds(long long seconds);

#endif
