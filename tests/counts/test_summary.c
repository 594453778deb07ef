/* Everything the page about a collation needs, added up. */
#include "counts/summary.h"

#include "clinic/visit.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

static struct counted
row_of(int station, const char *date, int screened)
{
	struct counted row = {.station = station,
			      .programme = "Lantern Valley",
			      .site = "Mavi school hall",
			      .policy = "ABCDEF",
			      .sex = SEX_F,
			      .age_band = "40-49",
			      .closed = true};
	struct fault why;

	row.counts.screened = row.counts.routine = row.counts.depth_40 =
		screened;
	cr_assert(day_read(date, &row.date, &why));
	return row;
}

Test(summary, what_is_taken_back_leaves_no_trace_in_the_sums)
{
	struct summary summary;
	struct counted first = row_of(14, "2026-03-10", 5);
	struct counted second = row_of(3, "2026-03-11", 7);
	struct fault why;

	summary_init(&summary);
	cr_expect_eq(summary_total(&summary).count[0], 0);
	cr_assert(summary_count(&summary, &first, 1, &why));
	cr_assert(summary_count(&summary, &second, 1, &why));
	cr_assert(summary_count(&summary, &first, -1, &why));
	cr_expect_eq(summary_total(&summary).count[0], 7);
	cr_expect_eq(groups_find(&summary.stations, "0014")->count[0], 0);
	cr_expect_eq(groups_find(&summary.stations, "0003")->count[0], 7);
	cr_expect_eq(calendar_facts(&summary.calendar).stations, 1);
	summary_release(&summary);
	summary_release(&summary);
}

struct words {
	char text[200];
};

static bool
see_person(void *context, const char *key, const struct sums *sums,
	   struct fault *why)
{
	struct words *words = context;
	char person[SUMMARY_ORDERED_SIZE];

	(void)sums;
	(void)why;
	summary_person_words(key, person);
	strncat(words->text, person, 40);
	strncat(words->text, "; ", 3);
	return true;
}

Test(summary, kinds_of_people_come_by_sex_and_age)
{
	static const struct {
		int sex;
		const char *band;
	} kinds[] = {{SEX_COUNT, "unknown"}, {SEX_M, "100+"},	{SEX_M, "5-9"},
		     {SEX_M, "40-49"},	     {SEX_X, "0-39"},	{SEX_F, "70+"},
		     {SEX_F, "unknown"},     {SEX_COUNT, "0-4"}};
	struct summary summary;
	struct words words = {""};
	struct fault why;

	summary_init(&summary);
	for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
		struct counted row = row_of(14, "2026-03-10", 1);

		row.sex = kinds[i].sex;
		row.age_band = kinds[i].band;
		cr_assert(summary_count(&summary, &row, 1, &why));
	}
	cr_assert(groups_visit(&summary.people, see_person, &words, &why));
	cr_expect_str_eq(words.text, "F 70+; F age ?; M 5-9; M 40-49; "
				     "M 100+; X 0-39; ? 0-4; ? age ?; ");
	summary_release(&summary);
}

struct lines {
	int count;
	char last[300];
};

static void
see_line(void *context, const struct ledger_line *line)
{
	struct lines *lines = context;

	lines->count++;
	snprintf(lines->last, sizeof lines->last, "%s|%ld|%s|%s", line->path,
		 line->row, line->column, line->reason);
}

Test(summary, lines_are_counted_and_so_many_of_each_status_kept)
{
	struct summary summary;
	struct lines lines = {0, ""};
	struct fault why;

	summary_init(&summary);
	for (int i = 1; i <= SUMMARY_LINES + 50; i++) {
		char path[40], reason[60];
		struct ledger_line line = {.path = path, .reason = reason};

		snprintf(path, sizeof path, "in/file %d", i);
		snprintf(reason, sizeof reason, "reason %d", i);
		line.date = day_none();
		line.status = LEDGER_REFUSED;
		line.row = i;
		line.column = "depth_25";
		cr_assert(summary_account(&summary, &line, &why));
		line.status = LEDGER_COUNTED;
		line.column = NULL;
		cr_assert(summary_account(&summary, &line, &why));
	}
	cr_expect_eq(summary.of[LEDGER_REFUSED], SUMMARY_LINES + 50);
	cr_expect_eq(summary.of[LEDGER_COUNTED], SUMMARY_LINES + 50);
	summary_lines(&summary, LEDGER_COUNTED, see_line, &lines);
	cr_expect_eq(lines.count, 0);
	summary_lines(&summary, LEDGER_REFUSED, see_line, &lines);
	cr_expect_eq(lines.count, SUMMARY_LINES);
	cr_expect_str_eq(lines.last, "in/file 200|200|depth_25|reason 200");
	summary_release(&summary);
}
