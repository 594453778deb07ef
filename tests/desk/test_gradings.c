/* test_gradings.c: eyes graded twice, as typed. */
#include "desk/gradings.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* Reads the text as standard input; what was told is left in `*told`, to be
 * freed. */
static bool
read_text(const char *text, struct gradings *gradings, char **told,
	  struct fault *why)
{
	struct desk *desk = calloc(1, sizeof *desk);
	size_t size;
	bool done;

	cr_assert_not_null(desk);
	desk->in = fmemopen((void *)(size_t)text, strlen(text), "r");
	desk->talk = open_memstream(told, &size);
	cr_assert(desk->in != NULL && desk->talk != NULL);
	done = gradings_read(desk, "-", gradings, why);
	fclose(desk->in);
	fclose(desk->talk);
	free(desk);
	return done;
}

Test(gradings, a_header_names_three_columns_or_more)
{
	static const struct {
		const char *text, *sentence;
	} rows[] = {
		{"case,grader\n1,25\n", "line 1: the columns case, grader and "
					"reference are all "
					"needed"},
		{"case,grader,reference,name\n1,25,25,NT\n", "line 1: 'name' "
							     "is not a column "
							     "here; allowed "
							     "are case, "
							     "grader, "
							     "reference, "
							     "grader_name, "
							     "date"},
		{"reference,date,case,grader_name,grader\n", "there is no row "
							     "below the "
							     "header, so there "
							     "is nothing to "
							     "compare"},
	};
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct gradings gradings = {.cutoff = DEPTH_BLANK};
		char *told = NULL;
		bool done = read_text(rows[i].text, &gradings, &told, &why);

		cr_expect_not(done, "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
		cr_expect_eq(gradings.rows, 0, "row %zu", i);
		free(told);
	}
}

/* What the first of two rows becomes, the columns being case,grader,reference,
 * grader_name,date. */
Test(gradings, a_row_has_its_place_or_is_told)
{
	static const struct {
		const char *row;
		int grader, reference; /* place in the table, or -1 */
		int apart;	       /* or -1 */
		const char *told;      /* after the row's number, or "" */
	} rows[] = {
		{"1,25,15,NT,2026-01-31", DEPTH_25, DEPTH_15, -1, ""},
		{"a b,1/4,0.4,,", DEPTH_25, DEPTH_40, -1, ""},
		{"1,x,15,NT,", -1, -1, GRADINGS_GRADER_X, ""},
		{"1,15,X,NT,", -1, -1, GRADINGS_REFERENCE_X, ""},
		{"1,x,x,NT,", -1, -1, GRADINGS_BOTH_X, ""},
		{"1,-,x,NT,", -1, -1, GRADINGS_NO_EYE, ""},
		{"1,25,-,NT,", -1, -1, GRADINGS_NO_EYE, ""},
		{",25,25,NT,", -1, -1, -1,
		 "case: it is empty; a value is needed"},
		{"1,,25,NT,", -1, -1, -1,
		 "grader: it is empty; a value is needed"},
		{"1,26,25,NT,", -1, -1, -1,
		 "grader: '26' is not a grade on the scale; the nearest are 25 "
		 "and 40"},
		{"1,25,25,NT", -1, -1, -1,
		 "it has 4 values, but the header has 5 columns"},
		{"1,25,25,NT,31.1.2026", -1, -1, -1, "date: "},
		{"=1,25,25,NT,", -1, -1, -1, "case: "},
	};
	char text[200], place[60] = "row 1 (line 2): ";
	struct agreement_summary sum;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct gradings gradings = {.cutoff = DEPTH_25};
		long apart = 0;
		char *told = NULL;

		snprintf(text, sizeof text,
			 "case,grader,reference,grader_name,date\n%s\n"
			 "2,75,75,,\n",
			 rows[i].row);
		cr_assert(read_text(text, &gradings, &told, &why),
			  "row %zu: %s", i, why.sentence);
		agreement_summarise(&gradings.all, &sum);
		for (int j = 0; j < GRADINGS_APART; j++)
			apart += gradings.apart[j];
		cr_expect_eq(gradings.rows, 2, "row %zu", i);
		cr_expect_eq(sum.cases + apart + gradings.bad, 2, "row %zu", i);
		if (rows[i].grader >= 0)
			cr_expect_eq(gradings.all.count[rows[i].grader]
						       [rows[i].reference],
				     1, "row %zu", i);
		if (rows[i].apart >= 0)
			cr_expect_eq(gradings.apart[rows[i].apart], 1,
				     "row %zu", i);
		cr_expect_eq(gradings.bad, rows[i].told[0] != '\0', "row %zu",
			     i);
		if (rows[i].told[0] == '\0')
			cr_expect_str_eq(told, "", "row %zu: %s", i, told);
		else
			cr_expect(strncmp(told, place, strlen(place)) == 0 &&
					  strstr(told, rows[i].told) != NULL,
				  "row %zu: %s", i, told);
		free(told);
	}
}

/* Rows pasted twice; graders, days and the two ends of a text are told apart.
 */
Test(gradings, a_case_counts_once_per_grader_and_day)
{
	static const char text[] = "case,grader,reference,grader_name,date\n"
				   "1,25,25,NT,2026-03-10\n"
				   "1,25,25,Oke,2026-03-10\n"
				   "1,25,25,NT,2026-03-11\n"
				   "1,25,25,NT,\n"
				   "1N,25,25,T,2026-03-10\n"
				   "1,x,40,NT,2026-03-10\n"
				   "1,25,25,NT,\n";
	static const char wanted[] =
		"row 6 (line 7): case '1' stands in row 1 already; it counts "
		"once per grader and day, and the columns grader_name and date "
		"keep graders and days apart\n"
		"row 7 (line 8): case '1' stands in row 4 already; it counts "
		"once per grader and day, and the columns grader_name and date "
		"keep graders and days apart\n";
	struct gradings gradings = {.cutoff = DEPTH_25};
	struct agreement_summary sum;
	struct fault why;
	char *told = NULL;

	cr_assert(read_text(text, &gradings, &told, &why));
	agreement_summarise(&gradings.all, &sum);
	cr_expect_eq(sum.cases, 5);
	cr_expect_eq(gradings.bad, 2);
	cr_expect_eq(gradings.apart[GRADINGS_GRADER_X], 0);
	cr_expect_str_eq(told, wanted, "%s", told);
	free(told);
}

/* ISO 8601: 1 January 2027 is in the last week of 2026. */
Test(gradings, graders_and_periods_are_groups_in_order)
{
	static const char text[] = "case,grader,reference,grader_name,date\n"
				   "1,25,25,Oke,2027-01-01\n"
				   "2,25,25,NT,2026-12-27\n"
				   "3,25,15,Oke,2026-12-28\n"
				   "4,25,15,,\n";
	static const char *const names[] = {"NT", "Oke", "not given"};
	static const char *const periods[2][3] = {
		{"2026-12", "2027-01", "not given"},
		{"2026-W52", "2026-W53", "not given"}};
	static const long counts[2][3] = {{2, 1, 1}, {1, 2, 1}};
	struct agreement_summary sum;
	struct fault why;

	for (int by_week = 0; by_week < 2; by_week++) {
		struct gradings gradings = {.cutoff = DEPTH_25,
					    .by_week = by_week == 1};
		char *told = NULL;

		cr_assert(read_text(text, &gradings, &told, &why));
		free(told);
		cr_assert_eq(gradings.graders.count, 3);
		cr_assert_eq(gradings.periods.count, 3);
		for (int i = 0; i < 3; i++) {
			cr_expect_str_eq(gradings.graders.group[i].name,
					 names[i]);
			cr_expect_str_eq(gradings.periods.group[i].name,
					 periods[by_week][i]);
			agreement_summarise(&gradings.periods.group[i].table,
					    &sum);
			cr_expect_eq(sum.cases, counts[by_week][i],
				     "period %d: %ld", i, sum.cases);
		}
	}
}

/* A header and rows of the same eye, each by another grader. */
static char *
many(int rows, const char *grades)
{
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	cr_assert_not_null(out);
	fprintf(out, "case,grader,reference,grader_name\n");
	for (int i = 0; i < rows; i++)
		fprintf(out, "%d,%s,G%d\n", i, grades, i);
	fclose(out);
	return text;
}

Test(gradings, too_many_graders_are_refused_and_crossings_are_counted_on)
{
	char *text = many(GRADINGS_GROUPS_MOST, "40,25"), *told = NULL;
	struct gradings gradings = {.cutoff = DEPTH_25};
	struct gradings again = gradings;
	struct fault why;

	cr_assert(read_text(text, &gradings, &told, &why));
	cr_expect_eq(gradings.graders.count, GRADINGS_GROUPS_MOST);
	cr_expect_eq(gradings.crossings, GRADINGS_GROUPS_MOST);
	cr_expect_str_eq(gradings.crossed[GRADINGS_CROSSED_MOST - 1].name, "3"
									   "9");
	free(text);
	free(told);
	told = NULL;
	text = many(GRADINGS_GROUPS_MOST + 1, "25,25");
	cr_expect_not(read_text(text, &again, &told, &why));
	cr_expect_str_eq(why.sentence, "there are more than 60 graders in the "
				       "file; allowed are so many at most");
	cr_expect_eq(again.crossings, 0);
	free(text);
	free(told);
}

Test(gradings, a_file_that_is_not_there_is_said)
{
	struct gradings gradings = {.cutoff = DEPTH_25};
	struct desk *desk = calloc(1, sizeof *desk);
	struct fault why;

	cr_assert_not_null(desk);
	cr_expect_not(gradings_read(desk, "/nowhere/a.csv", &gradings, &why));
	cr_expect_str_eq(why.sentence, "'/nowhere/a.csv' cannot be opened for "
				       "reading");
	free(desk);
}
