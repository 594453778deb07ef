/* test_agreetable.c: the table of two gradings as a picture. */
#include "desk/agreetable.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

static char *
written(const struct agreement_table *table, enum depth cutoff,
	void (*write)(const struct agreement_table *table, enum depth cutoff,
		      FILE *out))
{
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	cr_assert_not_null(out);
	write(table, cutoff, out);
	fclose(out);
	return text;
}

static int
count_of(const char *text, const char *what)
{
	int count = 0;

	while ((text = strstr(text, what)) != NULL) {
		text++;
		count++;
	}
	return count;
}

Test(agreetable, in_characters_it_shows_the_equal_and_the_cut_off)
{
	static const char below_25[] =
		"       0    5   15 |  25   40   75  100\n"
		"   0  [.]   .    . |   .    .    .    .\n"
		"   5   .   [.]   . |   .    .    .    .\n"
		"  15   .    .   [7]|   .    .    .    2\n"
		"    ---------------+--------------------\n"
		"  25   .    .    . |  [.]   .    .    .\n"
		"  40   .    .    . |   .   [.]   .    .\n"
		"  75   .   41    . |   .    .   [.]   .\n"
		" 100   .    .    . |   .    .    . [999]\n";
	struct agreement_table table;
	char *text;

	agreement_init(&table, DEPTH_GRADES);
	table.count[DEPTH_15][DEPTH_15] = 7;
	table.count[DEPTH_15][DEPTH_100] = 2;
	table.count[DEPTH_75][DEPTH_5] = 41;
	table.count[DEPTH_100][DEPTH_100] = 999;
	text = written(&table, DEPTH_15, agreetable_write);
	cr_expect_str_eq(text, below_25, "%s", text);
	free(text);
	text = written(&table, DEPTH_BLANK, agreetable_write);
	cr_expect(strpbrk(text, "|+-") == NULL, "%s", text);
	free(text);
}

Test(agreetable, large_counts_make_wider_cells)
{
	struct agreement_table table;
	char *text;

	agreement_init(&table, DEPTH_GRADES);
	table.count[DEPTH_0][DEPTH_5] = 1234567;
	text = written(&table, DEPTH_BLANK, agreetable_write);
	cr_expect_not_null(strstr(text, "[.] 1234567 "), "%s", text);
	free(text);
}

/* Every count is a figure as well as a shade, so that nothing rests on the
 * shade alone; the empty table divides by nothing. */
Test(agreetable, drawn_it_has_all_cells_their_figures_and_one_line)
{
	struct agreement_table table;
	char *text;

	agreement_init(&table, DEPTH_GRADES);
	text = written(&table, DEPTH_25, agreetable_draw);
	cr_expect_eq(count_of(text, "<rect "), 49);
	cr_expect_eq(count_of(text, "rgb(255,255,255)"), 49);
	cr_expect_eq(count_of(text, "<path "), 1);
	free(text);
	table.count[DEPTH_25][DEPTH_25] = 8;
	table.count[DEPTH_40][DEPTH_25] = 4;
	text = written(&table, DEPTH_BLANK, agreetable_draw);
	cr_expect_eq(count_of(text, "rgb(255,255,255)"), 47);
	cr_expect_eq(count_of(text, ">8</text>"), 1);
	cr_expect_eq(count_of(text, ">4</text>"), 1);
	cr_expect_eq(count_of(text, "<path "), 0);
	cr_expect_null(strstr(text, "nan"));
	free(text);
}
