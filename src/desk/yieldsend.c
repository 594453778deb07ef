/* yieldsend.c: the yield files for the programme. */
#include "desk/yieldsend.h"

#include "base/mark.h"
#include "counts/batch.h"
#include "counts/yieldrows.h"
#include "desk/followup.h"
#include "keep/csv.h"
#include "keep/entries.h"
#include "keep/register.h"
#include "keep/safefile.h"

#include <string.h>

struct sending {
	struct yield_head head;
	int revision; /* the least that a new content may have */
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
	if (person->reply != NULL)
		see_later(person->reply->seen_on, person->today,
			  &sending->head.as_of);
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

/* A yieldrows_see: the check letters of the rows, made without a revision. */
static bool
mark_row(void *context, const struct yield_row *row, struct fault *why)
{
	(void)why;
	mark_add(context, row->check);
	return true;
}

/* Which revision this content has: the last one's when nothing changed, else
 * one that nothing has, and that later entries go on from. It is remembered
 * before the file stands, as that of a tally. */
static bool
number_revision(struct desk *desk, struct sending *sending, struct day month,
		struct fault *why)
{
	struct tally_written last, written = {.closed = false};
	char day[DAY_SIZE], of[8];
	struct mark mark;

	day_write(month, day);
	snprintf(of, sizeof of, "%.7s", day);
	mark_init(&mark);
	sending->head.revision = 0;
	if (!yieldrows_visit(&sending->rows, month, &sending->head, mark_row,
			     &mark, why) ||
	    !register_last_written(&desk->book, of, &last, why))
		return false;
	mark_write(&mark, MARK_ROW_LETTERS, written.mark);
	written.revision = last.revision;
	if (last.revision == 0 || strcmp(last.mark, written.mark) != 0)
		written.revision = last.revision < sending->revision
					   ? sending->revision
					   : last.revision + 1;
	sending->head.revision = written.revision;
	return register_keep_written(&desk->book, of, &written, why);
}

static bool
write_month(struct desk *desk, struct sending *sending, struct day month,
	    const char *folder, struct fault *why)
{
	char path[DESK_PATH_SIZE], name[80], day[DAY_SIZE];
	struct safefile file;

	if (!number_revision(desk, sending, month, why))
		return false;
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

/* What is asked for. */
struct months {
	struct day from, to; /* none: the first and the last with anybody */
};

/* Whether a month has a file: when somebody was ever entered for it, though
 * everybody may be void or have been moved to another day since; else when it
 * was asked for. No total would take one of zeros of before 2000. */
static bool
has_file(struct desk *desk, const struct sending *sending, struct day month,
	 const struct months *span, bool *has, struct fault *why)
{
	int year, of_year, of_month, first;
	struct day day;

	day_parts(month, &year, &of_year, &of_month);
	if (!register_first_day_from(&desk->book, month, &day, why))
		return false;
	if (!day_is_none(day) && day.number < day_plus_months(month, 1).number)
		*has = year >= BATCH_YEAR_LEAST ||
		       yieldrows_find(&sending->rows, month, &first) > 0;
	else
		*has = !day_is_none(span->to) &&
		       (!day_is_none(span->from) || day_is_none(day));
	return true;
}

static bool
write_months(struct desk *desk, struct sending *sending, struct day month,
	     struct day last, const struct months *span, const char *folder,
	     struct fault *why)
{
	for (; month.number <= last.number; month = day_plus_months(month, 1)) {
		bool has;

		if (!has_file(desk, sending, month, span, &has, why) ||
		    (has && !write_month(desk, sending, month, folder, why)))
			return false;
	}
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
	const struct months span = {from, to};
	struct day first = from, last, ever;

	sending.head.hidden_quadrants = desk->policy.hidden_quadrants;
	yieldrows_init(&sending.rows);
	if (!register_revision(&desk->book, &sending.revision, why) ||
	    !register_last_day_to(&desk->book, desk->today, &ever, why) ||
	    (day_is_none(from) &&
	     !register_first_day_from(&desk->book, from, &first, why)) ||
	    !followup_visit(desk, day_none(), desk->today, desk->today, see_day,
			    &sending, why))
		return false;
	if (day_is_none(first) || day_is_none(ever))
		return true;
	if (day_is_none(sending.head.as_of))
		sending.head.as_of = ever;
	first = yieldrows_month(first);
	last = yieldrows_month(day_is_none(to) ? ever : to);
	last = day_plus_days(day_plus_months(last, 1), -1);
	if (last.number > desk->today.number)
		last = desk->today;
	return followup_visit(desk, first, last, sending.head.as_of, see_person,
			      &sending, why) &&
	       write_months(desk, &sending, first, last, &span, folder, why);
}
