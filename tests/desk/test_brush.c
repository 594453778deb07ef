/* Tests of desk/brush: lines and ends of texts, on any screen. */
#include "desk/brush.h"

#include "base/text.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

enum { ROWS = 6 };

static int
put(void *context, int row, int column, int width, unsigned style,
    const char *text)
{
	char(*line)[400] = context;

	(void)width;
	(void)style;
	cr_assert(row >= 0 && row < ROWS && column == 0);
	snprintf(line[row], sizeof line[row], "%s", text);
	return text_width(text);
}

/* What is put from row 1 on; how many rows are used. */
static const struct {
	const char *lines;
	int rows, used;
	const char *first, *last;
} rows[] = {
	{"", 3, 0, "", ""},
	{"one", 3, 1, "one", "one"},
	{"one\n", 3, 1, "one", "one"},
	{"one\ntwo\n", 2, 2, "one", "two"},
	{"one\ntwo\nthree\n", 3, 3, "one", "three"},
	{"one\ntwo\nthree\n", 2, 2, "one", "... (? shows the rest)"},
	{"one\ntwo\n", 1, 1, "one", "one"},
	{"one\n\ntwo", 3, 3, "one", "two"},
	{"one\n", 0, 0, "", ""},
};

Test(brush, lines_that_have_no_room_are_told)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char line[ROWS][400] = {""};
		struct brush brush = {put, text_width, line, ROWS};
		int used = brush_put_lines(&brush, 1, rows[i].rows, BRUSH_PLAIN,
					   rows[i].lines);

		cr_expect_eq(used, rows[i].used, "row %zu: %d", i, used);
		cr_expect_str_eq(line[1], rows[i].first, "row %zu", i);
		cr_expect_str_eq(line[used == 0 ? 1 : used], rows[i].last,
				 "row %zu", i);
		cr_expect_str_eq(line[used + 1], "", "row %zu", i);
		cr_expect_str_eq(line[0], "", "row %zu", i);
	}
}

static const struct {
	const char *text;
	int width;
	const char *end;
} ends[] = {
	{"Adira", 5, "Adira"},
	{"Adira", 3, "ira"},
	{"Adira", 0, ""},
	{"", 3, ""},
	{"\u7530\u4e2d", 3, "\u4e2d"},
	{"\u7530\u4e2d", 1, ""},
	{"e\u0301e\u0301", 1, "e\u0301"},
};

Test(brush, the_end_of_a_text_begins_with_a_whole_character)
{
	for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
		struct brush brush = {put, text_width, NULL, ROWS};
		const char *end =
			brush_end_of(&brush, ends[i].text, ends[i].width);

		cr_expect(text_width(end) <= ends[i].width, "row %zu", i);
		cr_expect_eq(strcmp(end, ends[i].end), 0, "row %zu: %s", i,
			     end);
	}
}
