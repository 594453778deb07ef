/* Tests of counts/yieldgather and counts/yieldsums: yields that came in, judged
 * and added up. */
#include "counts/yieldgather.h"

#include "counts/yieldsums.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* 1 March 2026. */
enum { MONTH = 20513 };

/* Nine people referred, of whom four attended. */
static void
make_row(struct yield_row *row)
{
	static const struct yield_row usual = {.schema = "shoal-yield-1",
					       .programme = "Lantern Valley",
					       .site = "Mavi school",
					       .station = "0014",
					       .device = "QWERTZ",
					       .month = {MONTH},
					       .revision = 33,
					       .as_of = {MONTH + 60},
					       .hidden_quadrants = 2,
					       .policy = "ABCDEF",
					       .urgency = URGENCY_ROUTINE,
					       .rule = "shallow",
					       .depth = DEPTH_25,
					       .people = 9,
					       .attended = 4,
					       .elsewhere = 1,
					       .not_attended = 2,
					       .unknown = 2,
					       .in_time = 1,
					       .open = 1,
					       .suspect = 1,
					       .closure_glaucoma = 1,
					       .closed = 1,
					       .cost = 1,
					       .died = 1,
					       .row = 1,
					       .rows = 1,
					       .month_total = 9};

	*row = usual;
}

/* Three people not referred: two chosen, of whom one attended. */
static void
make_cleared(struct yield_row *row)
{
	make_row(row);
	row->urgency = URGENCY_NO_REFERRAL;
	snprintf(row->rule, sizeof row->rule, "none");
	row->depth = DEPTH_100;
	row->people = 3;
	row->attended = row->open = 1;
	row->suspect = row->closure_glaucoma = row->closed = 0;
	row->elsewhere = row->not_attended = row->cost = row->died = 0;
	row->unknown = 2;
	row->in_time = 0;
	row->chosen = 2;
	row->month_total = 3;
}

#define ALTER(name, what)                       \
	static void name(struct yield_row *row) \
	{                                       \
		what;                           \
	}
#define ANEW "; ask the station for the file anew"
/* clang-format off */
ALTER(nothing, (void)row)
ALTER(cleared, make_cleared(row))
ALTER(nobody, memset(&row->people, 0, sizeof(struct yield_counts)); row->month_total = 0)
ALTER(second_of_month, row->month.number++)
ALTER(old_month, row->month.number = 0)
ALTER(people, row->people = row->month_total = 8)
ALTER(classes, row->open = 2)
ALTER(reasons, row->died = 2)
ALTER(in_time, row->in_time = 3)
ALTER(total, row->month_total = 10)
ALTER(chosen_of_referred, row->chosen = 1)
ALTER(too_many_chosen, make_cleared(row); row->chosen = 4)
ALTER(not_chosen_known, make_cleared(row); row->chosen = 0)
ALTER(device, row->device[0] = '1')
/* clang-format on */

Test(yieldgather, a_row_that_cannot_be_is_refused)
{
	static const struct {
		void (*alter)(struct yield_row *row);
		const char *said;
	} rows[] = {
		{nothing, ""},
		{cleared, ""},
		{nobody, ""},
		{second_of_month, "month: 2026-03-02 is not the first day of a "
				  "month" ANEW},
		{old_month, "month: it is not in the years 2000 to 2099, so "
			    "the laptop's clock was wrong; let the station "
			    "write the file anew, with the right day"},
		{people, "people: the sums disagree: people 8, by outcome 9; "
			 "attended 4, by class 4; not attended 2, by reason 2; "
			 "unknown 2, of them in time 1" ANEW},
		{classes, "people: the sums disagree: people 9, by outcome 9; "
			  "attended 4, by class 5; not attended 2, by reason "
			  "2; unknown 2, of them in time 1" ANEW},
		{reasons, "people: the sums disagree: people 9, by outcome 9; "
			  "attended 4, by class 4; not attended 2, by reason "
			  "3; unknown 2, of them in time 1" ANEW},
		{in_time, "people: the sums disagree: people 9, by outcome 9; "
			  "attended 4, by class 4; not attended 2, by reason "
			  "2; unknown 2, of them in time 3" ANEW},
		{total, "month_total: it is 10, but the rows' people add up to "
			"9" ANEW},
		{chosen_of_referred, "chosen: 1 chosen of 9 people referred "
				     "cannot be" ANEW},
		{too_many_chosen, "chosen: 4 chosen of 3 people not referred "
				  "cannot be" ANEW},
		{not_chosen_known, "chosen: of 0 chosen the outcome of 1 "
				   "cannot be known" ANEW},
		{device, "device: '1WERTZ' is not six letters A to Z" ANEW},
	};
	struct yieldgather *gather = malloc(sizeof *gather);

	cr_assert_not_null(gather);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char said[FAULT_SENTENCE_SIZE + 40] = "";
		const char *column = "";
		struct yield_row row;
		struct fault why;

		make_row(&row);
		rows[i].alter(&row);
		yieldgather_begin(gather);
		if (!yieldgather_add(gather, &row, 1, &column, &why))
			snprintf(said, sizeof said, "%s: %s", column,
				 why.sentence);
		cr_expect_str_eq(said, rows[i].said, "row %zu: %s", i, said);
		cr_expect(said[0] != '\0' || batch_is_whole(&gather->batch),
			  "row %zu", i);
	}
	free(gather);
}

/* Rows of another month, laptop or day of writing are of another yield. */
Test(yieldgather, rows_of_two_yields_are_not_mixed)
{
	struct yieldgather *gather = malloc(sizeof *gather);

	cr_assert_not_null(gather);
	for (int i = 0; i < 6; i++) {
		const char *column = "";
		struct yield_row row;
		struct fault why;
		bool took;

		make_row(&row);
		row.rows = 2;
		row.month_total = 18;
		yieldgather_begin(gather);
		cr_assert(yieldgather_add(gather, &row, 1, &column, &why));
		row.row = 2;
		row.as_of.number += i == 1;
		row.revision += i == 2;
		row.hidden_quadrants += i == 3;
		row.programme[0] = i == 4 ? 'l' : 'L';
		row.month.number += i == 5 ? 31 : 0;
		row.site[0] = 'N'; /* a month may have two sites */
		took = yieldgather_add(gather, &row, 1, &column, &why);
		cr_expect_eq(took, i == 0, "row %d", i);
		cr_expect(took || strcmp(column, "row") == 0, "row %d", i);
		cr_expect(i > 0 ||
			  strcmp(gather->row[0].site, "Mavi school") == 0);
		cr_expect(i > 0 ||
			  strcmp(gather->row[1].site, "Navi school") == 0);
	}
	free(gather);
}

/* --- sums ----------------------------------------------------------------- */

static void
count(struct yieldsums *sums, const struct yield_row *row, int sign)
{
	struct yieldgather *gather = malloc(sizeof *gather);
	const char *column;
	struct fault why;

	cr_assert_not_null(gather);
	yieldgather_begin(gather);
	cr_assert(yieldgather_add(gather, row, 1, &column, &why), "%s",
		  why.sentence);
	cr_assert(yieldsums_count(sums, &gather->row[0], sign, &why));
	free(gather);
}

static bool
hear_sum(void *context, const char *key, const struct yieldsum *sum,
	 struct fault *why)
{
	char *said = context, plain[200];
	size_t used = strlen(said);

	(void)why;
	snprintf(plain, sizeof plain, "%s", key);
	for (char *at = plain; *at != '\0'; at++)
		if (*at == GROUPING_JOINT || *at == GROUPING_ORDER)
			*at = *at == GROUPING_JOINT ? '/' : '.';
	snprintf(said + used, 2000 - used, "%s %d %d/%d q%d|", plain,
		 sum->referred.people, sum->chosen, sum->cleared.people,
		 sum->hidden_quadrants);
	return true;
}

/* Two stations, two months; one row taken back again. */
static void
add_four(struct yieldsums *sums)
{
	struct yield_row row;

	make_row(&row);
	count(sums, &row, 1);
	row.depth = DEPTH_5;
	row.urgency = URGENCY_URGENT;
	row.month.number += 31;
	count(sums, &row, 1);
	make_cleared(&row);
	count(sums, &row, 1);
	row.hidden_quadrants = 3;
	row.station[3] = '5';
	count(sums, &row, 1);
	row.hidden_quadrants = FIELD_BLANK;
	row.station[3] = '6';
	count(sums, &row, 1);
	row.station[3] = '7';
	count(sums, &row, 1);
	count(sums, &row, -1);
}

Test(yieldgather, yields_are_added_up_by_what_was_asked)
{
	static const struct {
		const char *by, *per, *said;
	} rows[] = {
		{NULL, NULL, "all/Mavi school 18 6/9 q-2|"},
		{"month", "", "2026-03 9 6/9 q-2|2026-04 9 0/0 q2|"},
		{"year", "station",
		 "2026/0014 18 2/3 q2|2026/0015 0 2/3 q3|2026/0016 0 2/3 q-1|"},
		{"all", "depth",
		 "all/b.5 9 0/0 q2|all/d.25 9 0/0 q2|all/g.100 0 6/9 q-2|"},
		{"all", "urgency,rule",
		 "all/b.urgent/shallow 9 0/0 q2|all/c.routine/shallow 9 0/0 q2|"
		 "all/d.no_referral/none 0 6/9 q-2|"},
		{"all", "programme,policy",
		 "all/Lantern Valley/ABCDEF 18 6/9 q-2|"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct yieldsums sums;
		char said[2000] = "";
		struct fault why;

		cr_assert(grouping_read(&sums.grouping, &grouping_yields,
					rows[i].by, rows[i].per, &why));
		yieldsums_begin(&sums);
		add_four(&sums);
		cr_assert(yieldsums_visit(&sums, hear_sum, said, &why));
		cr_expect_str_eq(said, rows[i].said, "row %zu: %s", i, said);
		yieldsums_release(&sums);
	}
}

/* Nothing wraps round. */
Test(yieldgather, a_sum_that_is_too_large_is_refused)
{
	struct yieldsums sums;
	struct counted_yield row = {.month = {MONTH},
				    .programme = "p",
				    .site = "s",
				    .policy = "ABCDEF",
				    .rule = "shallow",
				    .urgency = URGENCY_ROUTINE,
				    .counts = {.people = 99999}};
	char said[2000] = "";
	struct fault why;

	cr_assert(grouping_read(&sums.grouping, &grouping_yields, NULL, NULL,
				&why));
	yieldsums_begin(&sums);
	for (int i = 0; i < 21475; i++)
		cr_assert(yieldsums_count(&sums, &row, 1, &why));
	cr_expect(yieldsums_visit(&sums, hear_sum, said, &why));
	cr_assert(yieldsums_count(&sums, &row, 1, &why));
	cr_expect_not(yieldsums_visit(&sums, hear_sum, said, &why));
	cr_expect_str_eq(why.sentence, "2147578524 people are more than can be "
				       "added up, 2147483647; collate fewer "
				       "files");
	yieldsums_release(&sums);
}
