/* day.c: a calendar day, without clock or time zone. */
#include "base/day.h"

#include <stdio.h>
#include <string.h>

enum { YEAR_LEAST = 1900, YEAR_MOST = 2199, SECONDS_A_DAY = 86400 };

static bool
year_is_leap(int year)
{
	return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int
month_length(int year, int month)
{
	static const int length[] = {31, 28, 31, 30, 31, 30,
				     31, 31, 30, 31, 30, 31};

	return length[month - 1] + (month == 2 && year_is_leap(year));
}

/* Days from 1970-01-01 to 1 January of a year: leap days are counted as the
 * multiples of 4, less those of 100, plus those of 400 that went by. */
static int
year_start(int year)
{
	int before = year - 1;

	return 365 * (year - 1970) + (before / 4 - 1969 / 4) -
	       (before / 100 - 1969 / 100) + (before / 400 - 1969 / 400);
}

struct day
day_none(void)
{
	return (struct day){DAY_NONE};
}

bool
day_is_none(struct day day)
{
	return day.number == DAY_NONE;
}

bool
day_make(int year, int month, int of_month, struct day *day)
{
	int number;

	if (year < YEAR_LEAST || year > YEAR_MOST || month < 1 || month > 12 ||
	    of_month < 1 || of_month > month_length(year, month))
		return false;
	number = year_start(year) + of_month - 1;
	for (int before = 1; before < month; before++)
		number += month_length(year, before);
	day->number = number;
	return true;
}

void
day_parts(struct day day, int *year, int *month, int *of_month)
{
	int left;

	/* 365.2425 days a year lands on the year or one beside it. */
	*year = 1970 + (int)((double)day.number / 365.2425);
	while (year_start(*year) > day.number)
		--*year;
	while (year_start(*year + 1) <= day.number)
		++*year;
	left = day.number - year_start(*year);
	for (*month = 1; left >= month_length(*year, *month); ++*month)
		left -= month_length(*year, *month);
	*of_month = left + 1;
}

static bool
has_shape(const char *text)
{
	static const char shape[] = "dddd-dd-dd";

	if (strlen(text) != sizeof shape - 1)
		return false;
	for (size_t i = 0; shape[i] != '\0'; i++)
		if (shape[i] == 'd' ? text[i] < '0' || text[i] > '9'
				    : text[i] != shape[i])
			return false;
	return true;
}

static int
digits(const char *text, int count)
{
	int value = 0;

	for (int i = 0; i < count; i++)
		value = 10 * value + (text[i] - '0');
	return value;
}

bool
day_read(const char *text, struct day *day, struct fault *why)
{
	if (!has_shape(text))
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a date; write year-month-day "
				 "with all digits, such as 2026-03-09",
				 text);
	if (!day_make(digits(text, 4), digits(text + 5, 2), digits(text + 8, 2),
		      day))
		return fault_set(why, FAULT_INPUT,
				 "there is no day '%s' in the years %d to %d",
				 text, YEAR_LEAST, YEAR_MOST);
	return true;
}

/* The last `count` digits of a number. */
static void
put_digits(char *text, int count, int number)
{
	while (count-- > 0) {
		text[count] = (char)('0' + number % 10);
		number /= 10;
	}
}

void
day_write(struct day day, char *text)
{
	int year, month, of_month;

	text[0] = '\0';
	if (day_is_none(day))
		return;
	day_parts(day, &year, &month, &of_month);
	memcpy(text, "0000-00-00", DAY_SIZE);
	put_digits(text, 4, year);
	put_digits(text + 5, 2, month);
	put_digits(text + 8, 2, of_month);
}

/* ISO 8601: a week belongs to the year that holds its Thursday. */
void
day_write_week(struct day day, char *text)
{
	struct day thursday = {day.number - day_weekday(day) + 4};
	int year, month, of_month;
	int week;

	day_parts(thursday, &year, &month, &of_month);
	week = (thursday.number - year_start(year)) / 7 + 1;
	snprintf(text, DAY_WEEK_SIZE, "%04u-W%02u", (unsigned)year % 10000,
		 (unsigned)week % 100);
}

int
day_weekday(struct day day)
{
	/* 1970-01-01 was a Thursday, day 4 of its week. */
	int of_week = (day.number + 3) % 7;

	return (of_week < 0 ? of_week + 7 : of_week) + 1;
}

const char *
day_weekday_name(struct day day)
{
	static const char *const name[] = {"Monday",   "Tuesday", "Wednesday",
					   "Thursday", "Friday",  "Saturday",
					   "Sunday"};

	return name[day_weekday(day) - 1];
}

const char *
day_month_name(int month)
{
	static const char *const name[] = {"January", "February", "March",
					   "April",   "May",	  "June",
					   "July",    "August",	  "September",
					   "October", "November", "December"};

	return name[month - 1];
}

struct day
day_plus_days(struct day day, int days)
{
	return (struct day){day.number + days};
}

struct day
day_plus_months(struct day day, int months)
{
	int year, month, of_month;
	int count, length;
	struct day later = day;

	day_parts(day, &year, &month, &of_month);
	count = year * 12 + month - 1 + months;
	year = count / 12;
	month = count % 12 + 1;
	length = month_length(year, month);
	later.number = year_start(year);
	for (int before = 1; before < month; before++)
		later.number += month_length(year, before);
	later.number += (of_month < length ? of_month : length) - 1;
	return later;
}

struct day
day_of_seconds(long long seconds)
{
	long long number = seconds / SECONDS_A_DAY;

	if (seconds % SECONDS_A_DAY < 0)
		number--;
	return (struct day){(int)number};
}
