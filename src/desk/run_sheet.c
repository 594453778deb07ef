/* run_sheet.c: a typed paper sheet of people screened. */
#include "desk/run.h"

#include "base/text.h"
#include "clinic/paperrow.h"
#include "desk/daytally.h"
#include "desk/repeats.h"
#include "desk/sheet.h"

#include <string.h>

/* What the rows of one paper day share. */
struct paper_day {
	const char *site;
	struct day day;
	struct refnum kept[SHEET_ROWS_MOST];
	struct repeats repeats;
};

static bool
has_column(const struct sheet *sheet, const struct csv_row *row,
	   const char *name)
{
	for (size_t i = 0; i < row->count; i++)
		if (strcmp(sheet->column[i]->name, name) == 0)
			return true;
	return false;
}

/* A column that was left out of the sheet must not read as "nothing found". */
static bool
findings_are_there(const struct sheet *sheet, const struct csv_row *row,
		   struct fault *why)
{
	bool coded = has_column(sheet, row, "findings");
	int circled = 0, groups = 0;

	for (int i = 0; i < PAPER_COLUMNS; i++) {
		if (paper_columns[i].group == GROUP_COUNT)
			continue;
		groups++;
		circled += has_column(sheet, row, paper_columns[i].name);
	}
	if (coded ? circled == 0 : circled == groups)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "the sheet needs the column findings, or in its place "
			 "all of complaints, risks, past_right, past_left, "
			 "signs_right, signs_left");
}

static bool
read_row(const struct sheet *sheet, const struct csv_row *row,
	 struct visit *visit, struct fault *why)
{
	const struct paper_day *paper = sheet->context;
	struct paper_row line;

	paper_row_init(&line);
	line.visit.screened_on = paper->day;
	text_copy(line.visit.site, sizeof line.visit.site, paper->site);
	if (!sheet_read(sheet, row, &line, why))
		return false;
	paper_row_gather(&line);
	*visit = line.visit;
	if (visit->age_years != FIELD_BLANK &&
	    visit->age_estimated == FIELD_BLANK)
		visit->age_estimated = ANSWER_NO;
	return visit_check(visit, why) &&
	       visit_check_kept(visit, sheet->desk->today, why);
}

/* Somebody just saved, who may be in the register for the second time. */
struct newcomer {
	FILE *talk;
	long row;
	struct day day;
	char number[REFNUM_SIZE];
};

/* Who comes again on another day is screened again, and that entry stays. */
static bool
tell_twin(void *context, const struct visit *visit, const char *reason,
	  struct fault *why)
{
	struct newcomer *newcomer = context;
	char number[REFNUM_SIZE], day[DAY_SIZE];
	bool same_day = visit->screened_on.number == newcomer->day.number;

	(void)reason;
	(void)why;
	refnum_write(visit->number, number);
	day_write(visit->screened_on, day);
	fprintf(newcomer->talk,
		"row %ld, %s: perhaps the same person as %s of %s",
		newcomer->row, newcomer->number, number, day);
	if (same_day)
		fprintf(newcomer->talk, "; if entered twice: shoal void %s",
			newcomer->number);
	fputc('\n', newcomer->talk);
	return true;
}

static bool
see_row(struct sheet *sheet, const struct csv_row *row, bool keeping,
	struct fault *why)
{
	struct paper_day *paper = sheet->context;
	struct desk *desk = sheet->desk;
	struct decision decision;
	struct newcomer newcomer;
	struct visit visit;

	if (!read_row(sheet, row, &visit, why))
		return false;
	if (!keeping) {
		repeats_note(&paper->repeats, &visit);
		return true;
	}
	desk_judge(desk, &visit, &decision);
	desk_stamp(desk, &visit);
	if (!register_save(&desk->book, &visit, desk->policy_text, why))
		return false;
	paper->kept[sheet->rows - 1] = visit.number;
	newcomer = (struct newcomer){desk->talk, sheet->rows, visit.screened_on,
				     ""};
	refnum_write(visit.number, newcomer.number);
	return register_visit_twins(&desk->book, &visit, tell_twin, &newcomer,
				    why);
}

static bool
is_no_repeat(const struct sheet *sheet, struct fault *why)
{
	struct paper_day *paper = sheet->context;

	return repeats_check(&paper->repeats, &sheet->desk->book, why);
}

/* Prints what was kept, and writes each person's paper. */
static bool
announce(const struct sheet *sheet, struct fault *why)
{
	const struct paper_day *paper = sheet->context;
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

		if (!register_find(&desk->book, paper->kept[i], &visit, NULL,
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

/* On a paper day that is typed in later nobody reads the slip to the person. */
static void
tell_overdue(const struct desk *desk, const struct visit *visit)
{
	char number[REFNUM_SIZE], day[DAY_SIZE], line[160];

	refnum_write(visit->number, number);
	day_write(visit->see_by, day);
	snprintf(line, sizeof line,
		 "%s: OVERDUE, was to be seen by %s. Call or fetch the person "
		 "today.",
		 number, day);
	text_write_wrapped(desk->talk, line, desk->columns, 0, 2);
}

/* Who is overdue, and each day that somebody was added to. */
static bool
tell_of_rows(const struct sheet *sheet, struct fault *why)
{
	const struct paper_day *paper = sheet->context;
	struct day told = day_none();

	for (long i = 0; i < sheet->rows; i++) {
		struct visit visit;

		if (!register_find(&sheet->desk->book, paper->kept[i], &visit,
				   NULL, why))
			return false;
		if (visit_is_overdue(&visit))
			tell_overdue(sheet->desk, &visit);
		if (visit.screened_on.number != told.number)
			daytally_tell(sheet->desk, visit.screened_on);
		told = visit.screened_on;
	}
	return true;
}

bool
run_sheet(struct desk *desk, const struct given *given, struct fault *why)
{
	static const char *const needed[] = {"depth_right", "depth_left",
					     "grader", "reply_consent", NULL};
	const char *date = given_value(given, "date");
	const char *site = given_value(given, "site");
	struct paper_day paper = {.site = site == NULL ? desk->station.site
						       : site,
				  .day = desk->today};
	struct sheet sheet = {
		.desk = desk,
		.fields = paper_row_fields,
		.head = findings_are_there,
		.needed = needed,
		.row = see_row,
		.may_keep = given_is(given, "again") ? NULL : is_no_repeat,
		.context = &paper};

	if (date != NULL && !day_read(date, &paper.day, why))
		return fault_at(why, "--date");
	repeats_init(&paper.repeats);
	if (!sheet_enter(&sheet, given_value(given, "csv"), why))
		return false;
	fprintf(desk->talk, "Saved %ld %s. Slips: %s/slips\n", sheet.rows,
		sheet.rows == 1 ? "person" : "people", desk->folder);
	return announce(&sheet, why) && tell_of_rows(&sheet, why);
}
