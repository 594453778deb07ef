/* run_replysheet.c: many replies from a typed sheet. */
#include "desk/run.h"

#include "base/text.h"
#include "clinic/angle.h"
#include "desk/mistyped.h"
#include "desk/replycolumns.h"
#include "desk/sheet.h"
#include "keep/replies.h"

#include <string.h>

/* The replies of the sheet so far. */
struct answers {
	struct refnum number[SHEET_ROWS_MOST];
};

/* Read first, so that a wrong digit is answered with what may be meant. */
static bool
read_number(const struct sheet *sheet, const struct csv_row *row,
	    struct refnum *number, struct fault *why)
{
	if (!csv_check_count(row, why))
		return false;
	for (size_t i = 0; i < row->count; i++)
		if (strcmp(sheet->column[i]->name, "number") == 0)
			return mistyped_read(sheet->desk, row->value[i], number,
					     why) ||
			       fault_at(why, "number");
	return true;
}

/* One person, once, without a reply so far. */
static bool
check_number(const struct sheet *sheet, struct refnum number,
	     struct visit *visit, struct fault *why)
{
	const struct answers *answers = sheet->context;
	struct book *book = &sheet->desk->book;
	struct reply before;
	char written[REFNUM_SIZE];
	long long entry;

	refnum_write(number, written);
	if (!register_find(book, number, visit, NULL, why) ||
	    !register_find_reply(book, number, &before, &entry, why))
		return false;
	if (visit->state == STATE_VOID)
		return fault_set(why, FAULT_INPUT,
				 "number: the entry '%s' was made void",
				 written);
	for (long i = 0; i < sheet->rows - 1; i++)
		if (answers->number[i].serial == number.serial)
			return fault_set(why, FAULT_INPUT,
					 "number: '%s' stands in row %ld "
					 "already",
					 written, i + 1);
	if (entry != 0 && !sheet->keeping)
		return fault_set(why, FAULT_INPUT,
				 "number: '%s' has a reply %s with 'shoal "
				 "reply %s'",
				 written,
				 before.state == STATE_VOID ? "that was taken "
							      "back; correct it"
							    : "already; "
							      "correct it",
				 written);
	return true;
}

static bool
see_row(struct sheet *sheet, const struct csv_row *row, bool keeping,
	struct fault *why)
{
	struct answers *answers = sheet->context;
	struct desk *desk = sheet->desk;
	struct refnum number = {0, 0};
	struct visit visit;
	struct reply reply;

	answers->number[sheet->rows - 1] = number;
	reply_init(&reply);
	if (!read_number(sheet, row, &number, why) ||
	    !check_number(sheet, number, &visit, why) ||
	    !sheet_read(sheet, row, &reply, why) ||
	    !reply_check(&reply, visit.screened_on, desk->today, why))
		return false;
	answers->number[sheet->rows - 1] = number;
	if (!keeping)
		return true;
	desk_stamp(desk, &visit);
	text_copy(reply.recorded_at, sizeof reply.recorded_at,
		  visit.entered_at);
	return register_save_reply(&desk->book, &reply, desk->today, why);
}

static bool
announce(const struct sheet *sheet, struct fault *why)
{
	const struct answers *answers = sheet->context;
	struct desk *desk = sheet->desk;

	fprintf(desk->out, "number,outcome,class\n");
	for (long i = 0; i < sheet->rows; i++) {
		char written[REFNUM_SIZE], outcome[FIELD_TEXT_SIZE];
		struct reply reply;
		struct angle angle;

		if (!register_find_reply(&desk->book, answers->number[i],
					 &reply, NULL, why))
			return false;
		refnum_write(reply.number, written);
		field_write(fields_find(reply_fields, "outcome"), &reply,
			    outcome, sizeof outcome);
		angle = angle_of_person(&reply, &desk->policy, ANGLE_AS_SEEN);
		fprintf(desk->out, "%s,%s,%s\n", written, outcome,
			reply.outcome == OUTCOME_NOT_ATTENDED
				? ""
				: angle_code(angle_class(&angle)));
	}
	return true;
}

bool
run_replysheet(struct desk *desk, const struct given *given, struct fault *why)
{
	static const char *const needed[] = {"number", "outcome", "seen_on",
					     NULL};
	struct reply_columns columns;
	struct answers answers;
	struct sheet sheet = {.desk = desk,
			      .needed = needed,
			      .row = see_row,
			      .context = &answers};

	reply_columns_init(&columns);
	sheet.fields = columns.fields;
	if (!sheet_enter(&sheet, given_value(given, "csv"), why))
		return false;
	fprintf(desk->talk, "Saved %ld %s.\n", sheet.rows,
		sheet.rows == 1 ? "reply" : "replies");
	return announce(&sheet, why);
}
