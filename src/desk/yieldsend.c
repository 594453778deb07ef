/* yieldsend.c: the yield files for the programme. */
#include "desk/yieldsend.h"

#include "counts/yieldrows.h"
#include "desk/followup.h"
#include "keep/csv.h"
#include "keep/entries.h"
#include "keep/safefile.h"

#include <string.h>

struct sending {
	struct yield_head head;
	struct day first, last; /* on which anybody was screened */
	struct yieldrows rows;
};

static void
see_later(struct day day, struct day today, struct day *last)
{
	if (day.number > last->number && day.number <= today.number)
		*last = day;
}

/* The last day that bears on what is counted: what is counted of whom depends
 * on nothing but the register, whatever the day of writing. */
static bool
see_day(void *context, const struct yield_person *person, struct fault *why)
{
	struct sending *sending = context;
	struct day screened_on = person->visit->screened_on;

	(void)why;
	see_later(screened_on, person->today, &sending->head.as_of);
	see_later(screened_on, person->today, &sending->last);
	if (person->reply != NULL)
		see_later(person->reply->seen_on, person->today,
			  &sending->head.as_of);
	if (day_is_none(sending->first) ||
	    screened_on.number < sending->first.number)
		sending->first = screened_on;
	return true;
}

static bool
see_person(void *context, const struct yield_person *person, struct fault *why)
{
	struct sending *sending = context;
	struct yield_counts one;
	struct fault misdated; /* told by the screen's yield */

	(void)yield_count(person, &one, &misdated);
	return yieldrows_add(&sending->rows, person, &one, why);
}

static bool
write_row(void *context, const struct yield_row *row, struct fault *why)
{
	FILE *out = context;
	char value[FIELD_TEXT_SIZE];

	(void)why;
	for (size_t i = 0; i < yield_columns.count; i++) {
		field_write(&yield_columns.field[i], row, value, sizeof value);
		csv_write_value(out, value, i == 0);
	}
	csv_end_row(out);
	return true;
}

static bool
write_month(struct desk *desk, const struct sending *sending, struct day month,
	    const char *folder, struct fault *why)
{
	char path[DESK_PATH_SIZE], name[80], day[DAY_SIZE];
	struct safefile file;

	day_write(month, day);
	snprintf(name, sizeof name, "yield-%04u-%.7s-r%d.csv",
		 (unsigned)sending->head.station % 10000, day,
		 sending->head.revision);
	if (!safefile_join(path, sizeof path, folder, name, why) ||
	    !safefile_open(&file, path, why))
		return false;
	for (size_t i = 0; i < yield_columns.count; i++)
		csv_write_value(file.out, yield_columns.field[i].name, i == 0);
	csv_end_row(file.out);
	if (!yieldrows_visit(&sending->rows, month, &sending->head, write_row,
			     file.out, why)) {
		safefile_drop(&file);
		return false;
	}
	if (!safefile_commit(&file, SAFEFILE_SYNCED, why))
		return false;
	fprintf(desk->talk, "Yield of %.7s (revision %d): %s\n", day,
		sending->head.revision, path);
	return true;
}

bool
yieldsend_write(struct desk *desk, struct day from, struct day to,
		const char *folder, struct fault *why)
{
	struct sending sending = {.head = {.programme = desk->station.programme,
					   .site = desk->station.site,
					   .policy = desk->policy_mark,
					   .station = desk->station.code,
					   .device = desk->book.device,
					   .as_of = day_none()}};
	struct day month;

	sending.head.hidden_quadrants = desk->policy.hidden_quadrants;
	sending.first = sending.last = day_none();
	yieldrows_init(&sending.rows);
	if (!register_entries(&desk->book, &sending.head.revision, why) ||
	    !followup_visit(desk, day_none(), desk->today, desk->today, see_day,
			    &sending, why))
		return false;
	month = yieldrows_month(day_is_none(from) ? sending.first : from);
	if (day_is_none(to))
		to = sending.last;
	to = day_plus_days(day_plus_months(yieldrows_month(to), 1), -1);
	if (to.number > desk->today.number)
		to = desk->today;
	if (!followup_visit(desk, month, to, sending.head.as_of, see_person,
			    &sending, why))
		return false;
	for (; month.number <= to.number; month = day_plus_months(month, 1))
		if (!write_month(desk, &sending, month, folder, why))
			return false;
	return true;
}
