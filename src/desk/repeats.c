/* repeats.c: rows of a sheet that are in the register already. */
#include "desk/repeats.h"

#include "base/mark.h"

void
repeats_init(struct repeats *repeats)
{
	repeats->rows = repeats->found = 0;
	repeats->first_row = 0;
}

/* Of all that is typed but the number; never 0. */
static uint32_t
mark_of(const struct visit *visit)
{
	char value[FIELD_TEXT_SIZE];
	struct mark mark;

	mark_init(&mark);
	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		if (field->origin != FIELD_TYPED ||
		    field == fields_find(visit_fields, "number"))
			continue;
		field_write(field, visit, value, sizeof value);
		mark_add(&mark, value);
	}
	return mark.crc | 1;
}

void
repeats_note(struct repeats *repeats, const struct visit *visit)
{
	long row = repeats->rows;

	if (row == SHEET_ROWS_MOST)
		return;
	repeats->mark[row] = refnum_is_none(visit->number) ? mark_of(visit) : 0;
	repeats->day[row] = visit->screened_on;
	repeats->met[row] = false;
	repeats->rows++;
}

/* A register_see over the people of a day. */
static bool
see_person(void *context, const struct visit *visit, const char *reason,
	   struct fault *why)
{
	struct repeats *repeats = context;
	uint32_t mark;

	(void)reason;
	(void)why;
	if (visit->state == STATE_VOID)
		return true;
	mark = mark_of(visit);
	for (long row = 0; row < repeats->rows; row++) {
		if (repeats->met[row] || repeats->mark[row] != mark)
			continue;
		repeats->met[row] = true;
		if (repeats->found++ == 0 || row + 1 < repeats->first_row) {
			repeats->first_row = row + 1;
			repeats->first = visit->number;
		}
		return true;
	}
	return true;
}

/* The day is one of the values, so each day is looked at once. */
static bool
is_new_day(const struct repeats *repeats, long row)
{
	for (long i = 0; i < row; i++)
		if (repeats->day[i].number == repeats->day[row].number)
			return false;
	return true;
}

/* "take out rows 1 to 4, 7, or, if", as far as there is room. */
static void
write_rows(const struct repeats *repeats, char *text, size_t size)
{
	size_t used = (size_t)snprintf(text, size,
				       "take out what was entered "
				       "before, rows ");
	const char *before = "";

	for (long from = 0, to; from < repeats->rows; from = to + 1) {
		to = from;
		if (!repeats->met[from])
			continue;
		while (to + 1 < repeats->rows && repeats->met[to + 1])
			to++;
		if (used + 60 > size) {
			used += (size_t)snprintf(text + used, size - used,
						 " and others");
			break;
		}
		used += (size_t)snprintf(text + used, size - used, "%s%ld",
					 before, from + 1);
		before = ", ";
		if (to > from)
			used += (size_t)snprintf(text + used, size - used,
						 " to %ld", to + 1);
	}
	snprintf(text + used, size - used, "; or, if");
}

bool
repeats_check(struct repeats *repeats, struct book *book, struct fault *why)
{
	char number[REFNUM_SIZE], rows[200];

	if (repeats->rows < REPEATS_LEAST)
		return true;
	for (long row = 0; row < repeats->rows; row++)
		if (is_new_day(repeats, row) &&
		    !register_visit_day(book, repeats->day[row], see_person,
					repeats, why))
			return false;
	if (repeats->found < REPEATS_LEAST ||
	    repeats->found * 2 < repeats->rows)
		return true;
	refnum_write(repeats->first, number);
	if (repeats->found == repeats->rows)
		snprintf(rows, sizeof rows, "if");
	else
		write_rows(repeats, rows, sizeof rows);
	return fault_set(why, FAULT_INPUT,
			 "this sheet seems to be entered already: %ld of its "
			 "%ld rows are in the register with the same day and "
			 "the same values (row %ld is %s), so nothing was "
			 "saved; %s they are other people, enter the sheet "
			 "with --again",
			 repeats->found, repeats->rows, repeats->first_row,
			 number, rows);
}
