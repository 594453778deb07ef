/* test_day.c: the calendar, day by day. */
#include "base/day.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

/* clang-format off */
/*
 * ISO 8601 week dates and days of the year. Computed with Python 3.11
 * (isocalendar) and GNU date 9.1 (%G-W%V-%u), which agree; ISO 8601 puts a
 * week into the year of its Thursday.
 */
static const struct {
	const char *date, *week;
	int weekday, of_year;
} weeks[] = {
	{"1969-12-29", "1970-W01", 1, 363},
	{"1970-01-01", "1970-W01", 4, 1},
	{"1976-12-31", "1976-W53", 5, 366},
	{"1977-01-01", "1976-W53", 6, 1},
	{"1977-01-02", "1976-W53", 7, 2},
	{"1978-01-01", "1977-W52", 7, 1},
	{"1978-01-02", "1978-W01", 1, 2},
	{"1980-12-28", "1980-W52", 7, 363},
	{"1980-12-29", "1981-W01", 1, 364},
	{"1981-12-31", "1981-W53", 4, 365},
	{"1982-01-03", "1981-W53", 7, 3},
	{"1999-12-31", "1999-W52", 5, 365},
	{"2000-01-01", "1999-W52", 6, 1},
	{"2000-01-02", "1999-W52", 7, 2},
	{"2000-01-03", "2000-W01", 1, 3},
	{"2004-12-31", "2004-W53", 5, 366},
	{"2005-01-01", "2004-W53", 6, 1},
	{"2005-01-02", "2004-W53", 7, 2},
	{"2005-01-03", "2005-W01", 1, 3},
	{"2006-01-01", "2005-W52", 7, 1},
	{"2006-01-02", "2006-W01", 1, 2},
	{"2007-12-31", "2008-W01", 1, 365},
	{"2008-01-01", "2008-W01", 2, 1},
	{"2008-12-28", "2008-W52", 7, 363},
	{"2008-12-29", "2009-W01", 1, 364},
	{"2008-12-31", "2009-W01", 3, 366},
	{"2009-01-01", "2009-W01", 4, 1},
	{"2009-12-31", "2009-W53", 4, 365},
	{"2010-01-01", "2009-W53", 5, 1},
	{"2010-01-03", "2009-W53", 7, 3},
	{"2010-01-04", "2010-W01", 1, 4},
	{"2012-01-01", "2011-W52", 7, 1},
	{"2012-12-31", "2013-W01", 1, 366},
	{"2015-12-31", "2015-W53", 4, 365},
	{"2016-01-03", "2015-W53", 7, 3},
	{"2016-01-04", "2016-W01", 1, 4},
	{"2018-12-31", "2019-W01", 1, 365},
	{"2019-12-30", "2020-W01", 1, 364},
	{"2020-02-29", "2020-W09", 6, 60},
	{"2020-12-31", "2020-W53", 4, 366},
	{"2021-01-01", "2020-W53", 5, 1},
	{"2021-01-03", "2020-W53", 7, 3},
	{"2021-01-04", "2021-W01", 1, 4},
	{"2024-12-30", "2025-W01", 1, 365},
	{"2024-12-31", "2025-W01", 2, 366},
	{"2025-12-29", "2026-W01", 1, 363},
	{"2026-01-01", "2026-W01", 4, 1},
	{"2026-12-31", "2026-W53", 4, 365},
	{"2027-01-01", "2026-W53", 5, 1},
	{"2027-01-03", "2026-W53", 7, 3},
	{"2027-01-04", "2027-W01", 1, 4},
	{"2032-12-31", "2032-W53", 5, 366},
	{"2033-01-02", "2032-W53", 7, 2},
	{"2037-12-31", "2037-W53", 4, 365},
	{"2038-01-19", "2038-W03", 2, 19},
	{"2038-01-20", "2038-W03", 3, 20},
	{"2099-12-31", "2099-W53", 4, 365},
	{"2100-01-01", "2099-W53", 5, 1},
	{"2100-02-28", "2100-W08", 7, 59},
	{"2100-03-01", "2100-W09", 1, 60},
	{"1900-01-01", "1900-W01", 1, 1},
	{"1900-12-31", "1901-W01", 1, 365},
};
/* clang-format on */

static struct day
day_of(const char *text)
{
	struct day day = day_none();
	struct fault why;

	cr_assert(day_read(text, &day, &why), "%s", why.sentence);
	return day;
}

Test(day, iso_weeks_belong_to_the_year_of_their_thursday)
{
	char week[DAY_WEEK_SIZE], new_year[DAY_SIZE];

	for (size_t i = 0; i < sizeof weeks / sizeof weeks[0]; i++) {
		struct day day = day_of(weeks[i].date);

		day_write_week(day, week);
		cr_expect_str_eq(week, weeks[i].week, "row %zu: %s", i,
				 weeks[i].date);
		cr_expect_eq(day_weekday(day), weeks[i].weekday, "row %zu: %s",
			     i, weeks[i].date);
		snprintf(new_year, sizeof new_year, "%.4s-01-01",
			 weeks[i].date);
		cr_expect_eq(day.number - day_of(new_year).number + 1,
			     weeks[i].of_year, "row %zu: %s", i, weeks[i].date);
	}
}

/* The day after, counted by hand with the rule of the Gregorian calendar: a
 * year is a leap year when 4 divides it, but for centuries, which are when 400
 * divides them (Inter gravissimas, 1582; ISO 8601). */
static void
step(int *year, int *month, int *of_month)
{
	bool leap = *year % 400 == 0 || (*year % 4 == 0 && *year % 100 != 0);
	int last = *month == 2 ? (leap ? 29 : 28)
		   : *month == 4 || *month == 6 || *month == 9 || *month == 11
			   ? 30
			   : 31;

	if (++*of_month <= last)
		return;
	*of_month = 1;
	if (++*month > 12) {
		*month = 1;
		++*year;
	}
}

Test(day, each_day_from_1900_to_2199_goes_there_and_back)
{
	/* 1900-01-01 was a Monday, 25567 days before 1970-01-01 (computed with
	 * Python 3.11 and GNU date 9.1). */
	int year = 1900, month = 1, of_month = 1, weekday = 1;
	int number = -25567;
	int read_year, read_month, read_of_month;
	struct day day, made;
	char expected[40], written[DAY_SIZE];

	for (; year < 2200; number++, weekday = weekday % 7 + 1) {
		snprintf(expected, sizeof expected, "%04d-%02d-%02d", year,
			 month, of_month);
		day = day_of(expected);
		cr_assert_eq(day.number, number, "%s", expected);
		cr_assert(day_make(year, month, of_month, &made), "%s",
			  expected);
		cr_assert_eq(made.number, number, "%s", expected);
		day_write(day, written);
		cr_assert_str_eq(written, expected);
		day_parts(day, &read_year, &read_month, &read_of_month);
		cr_assert(read_year == year && read_month == month &&
				  read_of_month == of_month,
			  "%s", expected);
		cr_assert_eq(day_weekday(day), weekday, "%s", expected);
		step(&year, &month, &of_month);
	}
	cr_expect_eq(number, 84006, "days to 2200-01-01, by the same tools");
}

Test(day, what_is_no_day_is_refused_with_a_sentence)
{
	static const char shape[] = " is not a date; write year-month-day with "
				    "all digits, such "
				    "as 2026-03-09";
	static const char nowhere[] = " in the years 1900 to 2199";
	static const struct {
		const char *text, *front, *end;
	} rows[] = {
		{"", "''", shape},
		{"2026-3-9", "'2026-3-9'", shape},
		{"09-03-2026", "'09-03-2026'", shape},
		{"2026/03/09", "'2026/03/09'", shape},
		{"20260309", "'20260309'", shape},
		{" 2026-03-09", "' 2026-03-09'", shape},
		{"2026-03-09 ", "'2026-03-09 '", shape},
		{"2026-03-0a", "'2026-03-0a'", shape},
		{"2026-03-+9", "'2026-03-+9'", shape},
		{"2026-03-09T10:00", "'2026-03-09T10:00'", shape},
		{"today", "'today'", shape},
		{"2026-02-29", "there is no day '2026-02-29'", nowhere},
		{"1900-02-29", "there is no day '1900-02-29'", nowhere},
		{"2100-02-29", "there is no day '2100-02-29'", nowhere},
		{"2026-02-30", "there is no day '2026-02-30'", nowhere},
		{"2026-04-31", "there is no day '2026-04-31'", nowhere},
		{"2026-06-31", "there is no day '2026-06-31'", nowhere},
		{"2026-09-31", "there is no day '2026-09-31'", nowhere},
		{"2026-11-31", "there is no day '2026-11-31'", nowhere},
		{"2026-01-32", "there is no day '2026-01-32'", nowhere},
		{"2026-00-10", "there is no day '2026-00-10'", nowhere},
		{"2026-13-10", "there is no day '2026-13-10'", nowhere},
		{"2026-12-00", "there is no day '2026-12-00'", nowhere},
		{"1899-12-31", "there is no day '1899-12-31'", nowhere},
		{"2200-01-01", "there is no day '2200-01-01'", nowhere},
		{"0000-00-00", "there is no day '0000-00-00'", nowhere},
	};
	struct day day = {12345};
	struct fault why;
	char expected[FAULT_SENTENCE_SIZE];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		snprintf(expected, sizeof expected, "%s%s", rows[i].front,
			 rows[i].end);
		cr_expect(!day_read(rows[i].text, &day, &why), "row %zu: '%s'",
			  i, rows[i].text);
		cr_expect_str_eq(why.sentence, expected, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect_eq(day.number, 12345, "row %zu: left alone", i);
	}
}

Test(day, a_blank_day_is_no_day)
{
	char written[DAY_SIZE] = "something";

	cr_expect(day_is_none(day_none()));
	cr_expect(!day_is_none(day_of("1970-01-01")));
	day_write(day_none(), written);
	cr_expect_str_eq(written, "");
}

Test(day, months_later_end_on_the_last_day_of_a_shorter_month)
{
	static const struct {
		const char *from;
		int months;
		const char *later;
	} rows[] = {
		{"2026-03-09", 0, "2026-03-09"},
		{"2026-03-09", 12, "2027-03-09"},
		{"2026-01-31", 1, "2026-02-28"},
		{"2024-01-31", 1, "2024-02-29"},
		{"2024-02-29", 12, "2025-02-28"},
		{"2024-02-29", 48, "2028-02-29"},
		{"2026-03-31", 1, "2026-04-30"},
		{"2026-08-31", 6, "2027-02-28"},
		{"2026-11-30", 3, "2027-02-28"},
		{"2026-12-31", 1, "2027-01-31"},
		{"2026-12-31", 2, "2027-02-28"},
		{"2026-11-25", 24, "2028-11-25"},
		{"2096-02-29", 48, "2100-02-28"},
		{"2026-03-31", -1, "2026-02-28"},
		{"2026-01-15", -1, "2025-12-15"},
	};
	char written[DAY_SIZE];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		day_write(day_plus_months(day_of(rows[i].from), rows[i].months),
			  written);
		cr_expect_str_eq(written, rows[i].later, "row %zu: %s + %d", i,
				 rows[i].from, rows[i].months);
	}
	day_write(day_plus_days(day_of("2026-12-20"), 14), written);
	cr_expect_str_eq(written, "2027-01-03");
	day_write(day_plus_days(day_of("2024-02-28"), 1), written);
	cr_expect_str_eq(written, "2024-02-29");
	day_write(day_plus_days(day_of("2026-03-01"), -1), written);
	cr_expect_str_eq(written, "2026-02-28");
}

Test(day, seconds_fall_into_their_day_also_before_1970)
{
	static const struct {
		long long seconds;
		const char *day;
	} rows[] = {
		{0, "1970-01-01"},
		{86399, "1970-01-01"},
		{86400, "1970-01-02"},
		{-1, "1969-12-31"},
		{-86400, "1969-12-31"},
		{-86401, "1969-12-30"},
		/* either side of the 31-bit limit (POSIX time) */
		{2147483647, "2038-01-19"},
		{2147483648, "2038-01-19"},
		/* computed with GNU date 9.1: date -u -d @... */
		{951782400, "2000-02-29"},
		{951868799, "2000-02-29"},
		{951868800, "2000-03-01"},
		{-2208988800, "1900-01-01"},
		{-2208988801, "1899-12-31"},
		{4102444800, "2100-01-01"},
	};
	char written[DAY_SIZE];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		day_write(day_of_seconds(rows[i].seconds), written);
		cr_expect_str_eq(written, rows[i].day, "row %zu: %lld", i,
				 rows[i].seconds);
	}
}

Test(day, names_fit_their_numbers)
{
	static const char *const weekday[] = {"Monday",	   "Tuesday",
					      "Wednesday", "Thursday",
					      "Friday",	   "Saturday",
					      "Sunday"};
	static const char *const month[] = {"January", "February", "March",
					    "April",   "May",	   "June",
					    "July",    "August",   "September",
					    "October", "November", "December"};

	/* 2026-03-09 is a Monday (GNU date 9.1). */
	for (int i = 0; i < 7; i++)
		cr_expect_str_eq(day_weekday_name(day_plus_days(day_of("2026-"
								       "03-09"),
								i)),
				 weekday[i], "row %d", i);
	for (int i = 0; i < 12; i++)
		cr_expect_str_eq(day_month_name(i + 1), month[i], "row %d", i);
}
