/* Tests of counts/yieldrows: rows that check themselves, a month a file. */
#include "counts/yieldrows.h"

#include "yieldcase.h"

#include <stdlib.h>
#include <string.h>

static const struct yield_head head = {.programme = "Lantern Valley",
				       .site = "Mavi school",
				       .policy = "ABCDEF",
				       .station = 14,
				       .device = "QWERTZ",
				       .revision = 27,
				       .as_of = {CASE_DAY + 40},
				       .hidden_quadrants = 2};

static struct yieldrows *
new_rows(void)
{
	struct yieldrows *rows = malloc(sizeof *rows);

	cr_assert_not_null(rows);
	yieldrows_init(rows);
	return rows;
}

static void
add(struct yieldrows *rows, const struct yieldcase *one)
{
	struct yield_counts counts;
	struct fault why;

	cr_assert(yield_count(&one->person, &counts, &why));
	cr_assert(yieldrows_add(rows, &one->person, &counts, &why), "%s",
		  why.sentence);
}

/* What the rows of a month say, in short. */
struct said {
	char text[2000];
	int people;
	struct yield_row last;
};

static bool
hear_row(void *context, const struct yield_row *row, struct fault *why)
{
	struct said *said = context;
	size_t used = strlen(said->text);
	char check[FIELDS_MARK_SIZE], depth[4];

	(void)why;
	fields_mark(yield_columns, row, check);
	cr_expect_str_eq(row->check, check);
	depth_write(row->depth, depth);
	snprintf(said->text + used, sizeof said->text - used,
		 "%s %s %d %s %s %d/%d of %d|", row->site, row->policy,
		 row->urgency, row->rule, depth, row->people, row->chosen,
		 row->month_total);
	said->people += row->people;
	said->last = *row;
	return true;
}

Test(yieldrows, columns_stand_in_the_order_of_the_format)
{
	static const char expected[] =
		"schema,programme,site,station,device,month,revision,as_of,"
		"hidden_quadrants,policy,urgency,rule,depth,people,attended,"
		"elsewhere,not_attended,unknown,in_time,open,suspect,closure,"
		"closure_glaucoma,closed,not_derivable,cost,sees_well,too_far,"
		"no_companion,other_illness,not_understood,died,other,"
		"not_known,chosen,row,rows,month_total,check";
	char header[1000] = "";

	for (size_t i = 0; i < yield_columns.count; i++) {
		size_t used = strlen(header);

		snprintf(header + used, sizeof header - used, "%s%s",
			 i > 0 ? "," : "", yield_columns.field[i].name);
	}
	cr_expect_str_eq(header, expected, "%s", header);
}

Test(yieldrows, people_stand_in_the_row_of_their_kind_and_month)
{
	struct yieldrows *rows = new_rows();
	struct said said = {.people = 0};
	struct yieldcase one;
	struct fault why;

	case_begin(&one, 1);
	add(rows, &one);
	case_came(&one, 3, 's');
	add(rows, &one);
	case_begin(&one, 2);
	one.visit.urgency = URGENCY_NO_REFERRAL;
	add(rows, &one);
	one.person.chosen = true;
	add(rows, &one);
	case_begin(&one, 3);
	one.visit.screened_on = day_plus_days(one.visit.screened_on, 30);
	one.visit.depth_right = DEPTH_NOT_GRADABLE;
	one.visit.depth_left = DEPTH_NO_EYE;
	add(rows, &one);
	one.visit.screened_on = day_plus_days(one.visit.screened_on, 1);
	add(rows, &one);
	cr_assert(yieldrows_visit(rows, (struct day){CASE_DAY}, &head, hear_row,
				  &said, &why),
		  "%s", why.sentence);
	cr_expect_str_eq(said.text,
			 "Mavi school ABCDEF 2 shallow 25 2/0 of 5|"
			 "Mavi school ABCDEF 2 shallow x 1/0 of 5|"
			 "Mavi school ABCDEF 3 none 25 2/1 of 5|",
			 "%s", said.text);
	cr_expect_eq(said.people, 5);
	cr_expect_eq(said.last.rows, 3);
	cr_expect_eq(said.last.row, 3);
	cr_expect_eq(said.last.revision, 27);
	cr_expect_str_eq(said.last.schema, "shoal-yield-1");
	free(rows);
}

Test(yieldrows, a_month_begins_on_its_first_day)
{
	static const struct {
		const char *day, *month;
	} rows[] = {{"2026-03-01", "2026-03-01"},
		    {"2026-03-31", "2026-03-01"},
		    {"2024-02-29", "2024-02-01"},
		    {"2025-12-31", "2025-12-01"}};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why;
		struct day day;
		char text[DAY_SIZE];

		cr_assert(day_read(rows[i].day, &day, &why));
		day_write(yieldrows_month(day), text);
		cr_expect_str_eq(text, rows[i].month, "row %zu", i);
	}
}

/* So that the file of a month all of whose people were made void replaces the
 * one before. */
Test(yieldrows, a_month_without_anybody_has_one_row_of_zeros)
{
	struct yieldrows *rows = new_rows();
	struct said said = {.people = 0};
	struct fault why;

	cr_assert(yieldrows_visit(rows, (struct day){CASE_DAY}, &head, hear_row,
				  &said, &why));
	cr_expect_str_eq(said.text, "Mavi school ABCDEF 3 none x 0/0 of 0|",
			 "%s", said.text);
	cr_expect_eq(said.last.month.number, CASE_DAY);
	free(rows);
}

/* One altered value is found by the row's check. */
Test(yieldrows, an_altered_value_is_found)
{
	struct yieldrows *rows = new_rows();
	struct said said = {.people = 0};
	struct yieldcase one;
	char check[FIELDS_MARK_SIZE];
	struct fault why;

	case_begin(&one, 1);
	add(rows, &one);
	cr_assert(yieldrows_visit(rows, (struct day){CASE_DAY}, &head, hear_row,
				  &said, &why));
	said.last.attended++;
	said.last.unknown--;
	fields_mark(yield_columns, &said.last, check);
	cr_expect_str_neq(check, said.last.check);
	free(rows);
}
