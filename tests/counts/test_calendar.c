/* On which days a station counted, and by which policy. */
#include "counts/calendar.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

struct seen {
	char text[600];
};

static void
see(void *context, int station, struct day day, const char *policy,
    unsigned marks)
{
	struct seen *seen = context;
	char date[DAY_SIZE];
	size_t used = strlen(seen->text);

	day_write(day, date);
	snprintf(seen->text + used, sizeof seen->text - used, "%d %s %s%u\n",
		 station, date + 5, policy, marks);
}

static struct day
day_of(const char *text)
{
	struct day day = day_none();
	struct fault why;

	cr_assert(day_read(text, &day, &why), "%s", why.sentence);
	return day;
}

static void
add(struct groups *calendar, int station, const char *day, const char *policy,
    bool closed, int sign)
{
	struct fault why;

	cr_assert(calendar_add(calendar, station, day_of(day), policy, closed,
			       sign, &why));
}

Test(calendar, weeks_begin_on_monday_and_go_back_to_their_monday)
{
	static const struct {
		const char *day, *monday;
	} rows[] = {{"1900-01-01", "1900-01-01"}, {"1900-01-07", "1900-01-01"},
		    {"1970-01-01", "1969-12-29"}, {"2026-01-04", "2025-12-29"},
		    {"2026-01-05", "2026-01-05"}, {"2199-12-31", "2199-12-30"}};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char monday[DAY_SIZE];

		day_write(calendar_monday(calendar_week(day_of(rows[i].day))),
			  monday);
		cr_expect_str_eq(monday, rows[i].monday, "row %zu", i);
	}
}

Test(calendar, days_come_once_in_order_and_what_was_taken_back_does_not)
{
	struct groups calendar;
	struct seen seen = {""};
	struct calendar_facts facts;
	struct fault why;

	groups_init(&calendar);
	facts = calendar_facts(&calendar);
	cr_expect(facts.days == 0 && day_is_none(facts.first));
	add(&calendar, 14, "2026-03-05", "BBBBBB", true, 1);
	add(&calendar, 14, "2026-03-05", "AAAAAA", true, 1);
	add(&calendar, 14, "2026-03-02", "BBBBBB", false, 1);
	add(&calendar, 14, "2026-03-16", "BBBBBB", true, 1);
	add(&calendar, 3, "2026-03-03", "AAAAAA", true, 1);
	add(&calendar, 3, "2026-03-03", "AAAAAA", true, 1);
	add(&calendar, 3, "2026-03-03", "AAAAAA", true, -1);
	add(&calendar, 9, "2026-03-03", "AAAAAA", true, 1);
	add(&calendar, 9, "2026-03-03", "AAAAAA", true, -1);
	cr_assert(
		calendar_leave_out(&calendar, 14, day_of("2026-03-04"), &why));
	calendar_visit(&calendar, see, &seen);
	cr_expect_str_eq(seen.text, "3 03-03 2\n14 03-02 1\n14 03-04 4\n"
				    "14 03-05 2\n14 03-16 2\n");
	seen.text[0] = '\0';
	calendar_visit_policies(&calendar, see, &seen);
	cr_expect_str_eq(seen.text, "3 03-03 AAAAAA2\n14 03-05 AAAAAA2\n"
				    "14 03-02 BBBBBB1\n14 03-05 BBBBBB2\n"
				    "14 03-16 BBBBBB2\n");
	facts = calendar_facts(&calendar);
	cr_expect_eq(facts.first.number, day_of("2026-03-02").number);
	cr_expect_eq(facts.last.number, day_of("2026-03-16").number);
	cr_expect(facts.stations == 2 && facts.days == 4 && facts.open == 1 &&
		  facts.between == 12 && facts.left_out == 1);
	groups_release(&calendar);
}
