/* run_sheet.c: a typed paper sheet, all rows or none. */
#include "desk/run.h"

#include "base/text.h"
#include "keep/csv.h"
#include "keep/safefile.h"

#include <string.h>

/*
 * The sheet is gone through twice: once to find every fault, so that all are
 * told before anything is kept, and once to keep the rows in one transaction.
 * Only after its commit is anything announced.
 */
enum { SHEET_ROWS_MOST = 2000, SHEET_BYTES_MOST = 1 << 20 };

struct sheet {
	struct desk *desk;
	bool keeping; /* the second time */
	const struct field *column[CSV_COLUMNS_MOST];
	long rows, bad;
	const char *site;
	struct day day;
	struct refnum kept[SHEET_ROWS_MOST];
};

static bool
read_header(struct sheet *sheet, const struct csv_row *row, struct fault *why)
{
	static const char *const needed[] = {"depth_right", "depth_left",
					     "findings", "grader",
					     "reply_consent"};

	for (size_t i = 0; i < row->count; i++) {
		const struct field *field =
			fields_find(visit_fields, row->value[i]);
		const struct field *nearest =
			fields_nearest(visit_fields, row->value[i]);

		if (field == NULL || field->origin != FIELD_TYPED) {
			fault_set(why, FAULT_INPUT,
				  "'%.40s' is not a column that is typed%s%s%s",
				  row->value[i],
				  nearest == NULL ? "" : "; did you mean '",
				  nearest == NULL ? "" : nearest->name,
				  nearest == NULL ? "" : "'?");
			return fault_at(why, "line %ld", row->line);
		}
		sheet->column[i] = field;
	}
	for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
		bool found = false;

		for (size_t j = 0; j < row->count; j++)
			found = found || strcmp(row->value[j], needed[i]) == 0;
		if (!found)
			return fault_set(why, FAULT_INPUT,
					 "the sheet has no column '%s'; it is "
					 "needed in every sheet",
					 needed[i]);
	}
	return true;
}

static bool
read_row(const struct sheet *sheet, const struct csv_row *row,
	 struct visit *visit, struct fault *why)
{
	if (!csv_check_count(row, why))
		return false;
	visit_init(visit);
	visit->screened_on = sheet->day;
	text_copy(visit->site, sizeof visit->site, sheet->site);
	for (size_t i = 0; i < row->count; i++) {
		bool preset = row->value[i][0] == '\0' &&
			      !field_is_blank(sheet->column[i], visit);

		if (!preset &&
		    !field_read(sheet->column[i], row->value[i], visit, why))
			return false;
	}
	if (visit->age_years != FIELD_BLANK &&
	    visit->age_estimated == FIELD_BLANK)
		visit->age_estimated = ANSWER_NO;
	return visit_check(visit, why) &&
	       visit_check_kept(visit, sheet->desk->today, why);
}

static bool
tell_twin(void *context, const struct visit *visit, const char *reason,
	  struct fault *why)
{
	char number[REFNUM_SIZE];

	(void)reason;
	(void)why;
	refnum_write(visit->number, number);
	fprintf(context, "  perhaps the same person as %s\n", number);
	return true;
}

static bool
keep_row(struct sheet *sheet, const struct csv_row *row, struct visit *visit,
	 struct fault *why)
{
	struct desk *desk = sheet->desk;
	struct decision decision;

	desk_judge(desk, visit, &decision);
	desk_stamp(desk, visit);
	if (!register_visit_twins(&desk->book, visit, tell_twin, desk->talk,
				  why) ||
	    !register_save(&desk->book, visit, desk->policy_text, why))
		return fault_at(why, "row %ld", row->row);
	sheet->kept[sheet->rows - 1] = visit->number;
	return true;
}

static bool
see_row(void *context, const struct csv_row *row, struct fault *why)
{
	struct sheet *sheet = context;
	struct visit visit;
	struct fault one;

	if (row->row == 0)
		return read_header(sheet, row, why);
	if (++sheet->rows > SHEET_ROWS_MOST)
		return fault_set(why, FAULT_INPUT,
				 "the sheet has more than %d rows; enter it in "
				 "parts",
				 SHEET_ROWS_MOST);
	if (!read_row(sheet, row, &visit, &one)) {
		fault_at(&one, "row %ld (line %ld)", row->row, row->line);
		desk_hear(sheet->desk, &one);
		sheet->bad++;
		return true;
	}
	return !sheet->keeping || keep_row(sheet, row, &visit, why);
}

static bool
go_through(struct sheet *sheet, char *bytes, size_t length, struct fault *why)
{
	FILE *in = fmemopen(bytes, length == 0 ? 1 : length, "r");
	bool done;

	if (in == NULL)
		return fault_set(why, FAULT_INTERNAL,
				 "there is not enough memory for the sheet");
	sheet->rows = 0;
	done = csv_read(in, see_row, sheet, why);
	fclose(in);
	return done;
}

static bool
keep_all(struct sheet *sheet, char *bytes, size_t length, struct fault *why)
{
	struct book *book = &sheet->desk->book;

	sheet->keeping = true;
	if (!register_begin(book, why))
		return false;
	if (go_through(sheet, bytes, length, why) && register_commit(book, why))
		return true;
	register_undo(book);
	return false;
}

/* Prints what was kept, and writes each person's paper. */
static bool
announce(const struct sheet *sheet, struct fault *why)
{
	struct desk *desk = sheet->desk;

	csv_write_value(desk->out, "number", true);
	csv_write_value(desk->out, "urgency", false);
	csv_write_value(desk->out, "see_by", false);
	csv_end_row(desk->out);
	for (long i = 0; i < sheet->rows; i++) {
		static const char *const shown[] = {"number", "urgency",
						    "see_by"};
		char value[FIELD_TEXT_SIZE];
		struct decision decision;
		struct visit visit;

		if (!register_find(&desk->book, sheet->kept[i], &visit, NULL,
				   why))
			return false;
		for (int j = 0; j < 3; j++) {
			field_write(fields_find(visit_fields, shown[j]), &visit,
				    value, sizeof value);
			csv_write_value(desk->out, value, j == 0);
		}
		csv_end_row(desk->out);
		decide(&desk->policy, &visit, &decision);
		if (!desk_write_slips(desk, &visit, &desk->policy, &decision,
				      why))
			return fault_at(why, "all rows are saved, but the "
					     "slips are not");
	}
	return true;
}

static bool
prepare(struct sheet *sheet, const struct given *given, struct fault *why)
{
	const char *date = given_value(given, "date");
	const char *site = given_value(given, "site");

	sheet->day = sheet->desk->today;
	sheet->site = site == NULL ? sheet->desk->station.site : site;
	return date == NULL || day_read(date, &sheet->day, why) ||
	       fault_at(why, "--date");
}

bool
run_sheet(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *path = given_value(given, "csv");
	struct sheet sheet = {.desk = desk};
	char bytes[SHEET_BYTES_MOST];
	size_t length;

	if (!prepare(&sheet, given, why) ||
	    !safefile_read(path, bytes, sizeof bytes, &length, FAULT_INPUT,
			   why) ||
	    !go_through(&sheet, bytes, length, why))
		return false;
	if (sheet.bad > 0)
		return fault_set(why, FAULT_INPUT,
				 "%ld of %ld rows are refused, so nothing was "
				 "saved; correct them and enter the sheet "
				 "again",
				 sheet.bad, sheet.rows);
	if (sheet.rows == 0)
		return fault_set(why, FAULT_INPUT, "the sheet has no row");
	if (!keep_all(&sheet, bytes, length, why))
		return false;
	fprintf(desk->talk, "Saved %ld %s. Slips: %s/slips\n", sheet.rows,
		sheet.rows == 1 ? "person" : "people", desk->folder);
	return announce(&sheet, why);
}
