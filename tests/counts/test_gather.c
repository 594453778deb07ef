/* Tests of counts/gather and counts/batch: rows that belong together, and rows
 * that do not. */
#include "counts/gather.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* 10 March 2026. */
enum { GATHER_DAY = 20522 };

/* Row `number` of a tally of three, of 1, 2 and 3 people. */
static void
make_row(struct tally_row *row, int number)
{
	static const struct tally_row usual = {.schema = "shoal-tally-1",
					       .programme = "Lantern Valley",
					       .site = "Mavi school",
					       .station = "0014",
					       .device = "QWERTZ",
					       .date = {GATHER_DAY},
					       .revision = 2,
					       .state = 1,
					       .policy = "ABCDEF",
					       .age_band = "40-49",
					       .rows = 3,
					       .day_total = 6};

	*row = usual;
	row->sex = number % 4;
	row->row = number;
	row->screened = row->no_referral = row->depth_100 = number;
}

/* "column: sentence", or "" when all was taken. */
static void
add_all(struct gather *gather, const struct tally_row *rows, int count,
	char *said, size_t size)
{
	const char *column = "";
	struct fault why;

	said[0] = '\0';
	gather_begin(gather);
	for (int i = 0; i < count && said[0] == '\0'; i++)
		if (!gather_add(gather, &rows[i], (uint32_t)i * 77, false,
				&column, &why))
			snprintf(said, size, "%s: %s", column, why.sentence);
	if (said[0] == '\0' && !batch_is_whole(&gather->batch) &&
	    !batch_may_end(&gather->batch, &gather_kind, &why))
		snprintf(said, size, "end: %s", why.sentence);
}

static struct gather *
new_gather(void)
{
	struct gather *gather = malloc(sizeof *gather);

	cr_assert_not_null(gather);
	gather_begin(gather);
	return gather;
}

Test(gather, a_tally_is_whole_when_its_last_row_has_come)
{
	struct gather *gather = new_gather();
	const char *column;
	struct fault why;

	for (int i = 1; i <= 3; i++) {
		struct tally_row row;

		make_row(&row, i);
		snprintf(row.site, sizeof row.site, "Site %d", i);
		cr_expect_not(batch_is_whole(&gather->batch), "row %d", i);
		cr_assert(gather_add(gather, &row, 1, false, &column, &why),
			  "row %d: %s", i, why.sentence);
	}
	cr_expect(batch_is_whole(&gather->batch));
	cr_expect_eq(gather->batch.station, 14);
	cr_expect_eq(gather->batch.people, 6);
	for (int i = 0; i < 3; i++) {
		char site[20];

		snprintf(site, sizeof site, "Site %d", i + 1);
		cr_expect_str_eq(gather->row[i].site, site);
		cr_expect_str_eq(gather->row[i].programme, "Lantern Valley");
		cr_expect_eq(gather->row[i].counts.depth_100, i + 1);
		cr_expect(gather->row[i].closed && gather->row[i].sex == i + 1);
	}
	free(gather);
}

/* Letters would be right in all of these: a program or a hand put rows together
 * that were signed each by itself. */
#define ANEW "; ask the station for the file anew"
#define CUT "end: the tally of station 0014 of 2026-03-10 ends after row "
#define CUT_AT "row: the tally of station 0014 of 2026-03-10 ends after row "
#define TAKEN ", so the file was cut or rows were taken out" ANEW

#define ALTER(name, what)                       \
	static void name(struct tally_row *row) \
	{                                       \
		what;                           \
	}
/* clang-format off */
ALTER(nothing, (void)row)
ALTER(second_revision, row[1].revision = 3)
ALTER(second_state, row[1].state = 0)
ALTER(second_device, row[1].device[0] = 'A')
ALTER(second_station, row[1].station[3] = '5')
ALTER(second_date, row[1].date.number++)
ALTER(second_programme, row[1].programme[0] = 'l')
ALTER(second_is_first, row[1].row = 1)
ALTER(second_is_third, row[1].row = 3)
ALTER(second_rows, row[1].rows = 4)
ALTER(third_total, row[2].day_total = 7)
ALTER(all_totals, row[0].day_total = row[1].day_total = row[2].day_total = 7)
ALTER(all_rows_more, row[0].rows = row[1].rows = row[2].rows = 4)
ALTER(all_rows_fewer, row[0].rows = row[1].rows = row[2].rows = 2)
ALTER(first_is_zero, row[0].row = 0)
ALTER(first_of_none, row[0].rows = 0)
ALTER(people, row[0].screened = 2)
ALTER(graded, row[0].depth_0 = 1)
ALTER(symptoms, row[1].with_symptoms = 3)
ALTER(late, row[1].late_entries = 3)
ALTER(band, snprintf(row[0].age_band, sizeof row[0].age_band, "40-"))
ALTER(station_zero, snprintf(row[0].station, sizeof row[0].station, "0000"))
ALTER(device, snprintf(row[0].device, sizeof row[0].device, "ABCDE"))
ALTER(policy, snprintf(row[0].policy, sizeof row[0].policy, "abcdef"))
ALTER(old_clock, row[0].date.number = 0)
/* clang-format on */

Test(gather, rows_that_do_not_belong_together_are_refused)
{
	static const struct {
		void (*alter)(struct tally_row *row);
		int count;
		const char *said;
	} rows[] = {
		{nothing, 3, ""},
		{nothing, 0, ""},
		{nothing, 2, CUT "2 of 3" TAKEN},
		{second_revision, 3, CUT_AT "1 of 3" TAKEN},
		{second_state, 3, CUT_AT "1 of 3" TAKEN},
		{second_device, 3, CUT_AT "1 of 3" TAKEN},
		{second_station, 3, CUT_AT "1 of 3" TAKEN},
		{second_date, 3, CUT_AT "1 of 3" TAKEN},
		{second_programme, 3, CUT_AT "1 of 3" TAKEN},
		{second_is_first, 3, CUT_AT "1 of 3" TAKEN},
		{second_is_third, 3,
		 "row: row 3 of the tally follows row 1; rows were taken out, "
		 "doubled or sorted" ANEW},
		{second_rows, 3,
		 "rows: 4 differs from the row before it, which has 3" ANEW},
		{third_total, 3,
		 "day_total: 7 differs from the row before it, which has "
		 "6" ANEW},
		{all_totals, 3,
		 "day_total: it is 7, but the rows' screened add up to 6" ANEW},
		{all_rows_more, 3, CUT "3 of 4" TAKEN},
		{all_rows_fewer, 3,
		 "day_total: it is 6, but the rows' screened add up to 3" ANEW},
		{first_is_zero, 3,
		 "row: it is row 0 of its tally, but no row of that tally "
		 "stands before it" ANEW},
		{first_of_none, 3, "rows: it is row 1 of 0" ANEW},
		{people, 3,
		 "screened: 2 people are screened, but the urgencies add up to "
		 "1" ANEW},
		{graded, 3,
		 "screened: 1 people are screened, but the depths add up to "
		 "2" ANEW},
		{symptoms, 3,
		 "with_symptoms: 3 of 2 people screened cannot be" ANEW},
		{late, 3,
		 "late_entries: 3 of 2 people screened cannot be" ANEW},
		{band, 3,
		 "age_band: '40-' is not an age band such as 40-49 or 70+; a "
		 "spreadsheet may take one for a date" ANEW},
		{station_zero, 3,
		 "station: '0000' is not a station code of four digits, 0001 "
		 "to 9999; a spreadsheet drops zeros in front" ANEW},
		{device, 3, "device: 'ABCDE' is not six letters A to Z" ANEW},
		{policy, 3, "policy: 'abcdef' is not six letters A to Z" ANEW},
		{old_clock, 3,
		 "date: it is not in the years 2000 to 2099, so the laptop's "
		 "clock was wrong; let the station write the file anew, with "
		 "the right day"},
	};
	struct gather *gather = new_gather();

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tally_row made[3];
		char said[FAULT_SENTENCE_SIZE + 40];

		for (int row = 0; row < 3; row++)
			make_row(&made[row], row + 1);
		rows[i].alter(made);
		add_all(gather, made, rows[i].count, said, sizeof said);
		cr_expect_str_eq(said, rows[i].said, "row %zu: %s", i, said);
	}
	free(gather);
}

Test(gather, age_bands_are_known_by_their_form)
{
	static const struct {
		const char *band;
		bool is_one;
	} rows[] = {
		{"0-39", true},	    {"40-49", true},	{"70+", true},
		{"unknown", true},  {"100+", true},	{"0-120", true},
		{"", false},	    {"40", false},	{"40-", false},
		{"-49", false},	    {"+", false},	{"40+5", false},
		{"40-49 ", false},  {"1000+", false},	{"4049", false},
		{"40-4999", false}, {"Unknown", false}, {"40-49-59", false}};
	struct gather *gather = new_gather();

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tally_row row;
		const char *column = "";
		struct fault why;

		make_row(&row, 1);
		snprintf(row.age_band, sizeof row.age_band, "%s", rows[i].band);
		cr_expect_eq(gather_check(&row, &column, &why), rows[i].is_one,
			     "row %zu: %s", i, rows[i].band);
		cr_expect(rows[i].is_one || strcmp(column, "age_band") == 0,
			  "row %zu: %s", i, column);
	}
	free(gather);
}

/* The mark of a batch tells any two contents apart: each value, and the order
 * of the rows. */
Test(gather, the_mark_depends_on_every_row_and_their_order)
{
	static const uint32_t crcs[][3] = {{1, 2, 3}, {1, 2, 4}, {1, 3, 2},
					   {2, 1, 3}, {0, 0, 0}, {0, 0, 1},
					   {1, 0, 0}, {0, 1, 0}, {3, 2, 1}};
	enum { COUNT = sizeof crcs / sizeof crcs[0] };
	struct gather *gather = new_gather();
	uint64_t mark[COUNT];

	for (size_t i = 0; i < COUNT; i++) {
		gather_begin(gather);
		for (int row = 0; row < 3; row++) {
			struct tally_row made;
			const char *column;
			struct fault why;

			make_row(&made, row + 1);
			cr_assert(gather_add(gather, &made, crcs[i][row],
					     row > 0, &column, &why));
		}
		mark[i] = gather->batch.mark;
		for (size_t j = 0; j < i; j++)
			cr_expect_neq(mark[i], mark[j], "rows %zu, %zu", i, j);
	}
	free(gather);
}

/* As many rows, with texts as long, as there may be. */
Test(gather, the_largest_tally_is_held)
{
	struct gather *gather = new_gather();
	struct tally_row row;
	const char *column;
	struct fault why;

	make_row(&row, 1);
	memset(row.programme, 'p', TALLY_TEXT_SIZE - 1);
	memset(row.site, 's', TALLY_TEXT_SIZE - 1);
	row.rows = TALLY_ROWS_MOST;
	row.day_total = TALLY_ROWS_MOST;
	for (row.row = 1; row.row <= TALLY_ROWS_MOST; row.row++) {
		row.site[0] = (char)('a' + row.row % 2);
		row.policy[0] = (char)('A' + row.row % 2);
		snprintf(row.age_band, sizeof row.age_band, "%d-%d",
			 100 + row.row % 2, 120);
		cr_assert(gather_add(gather, &row, 1, false, &column, &why),
			  "row %d: %s", row.row, why.sentence);
	}
	cr_expect(batch_is_whole(&gather->batch));
	cr_expect_leq(gather->used, sizeof gather->text);
	cr_expect_eq(strlen(gather->row[TALLY_ROWS_MOST - 1].site),
		     TALLY_TEXT_SIZE - 1);
	free(gather);
}
