/* test_drawing.c: a depth grade as a picture, true to scale. */
#include "paper/drawing.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

enum { PAGE_SIZE = 4096 };

static void
draw(enum depth depth, bool svg, char *page)
{
	FILE *out = fmemopen(page, PAGE_SIZE, "w");

	cr_assert_not_null(out);
	page[0] = '\0';
	if (svg)
		drawing_write_svg(depth, "A & B <c>", out);
	else
		drawing_write_text(depth, out);
	fclose(out);
}

/* A number among the attributes of the rectangle of a class. */
static int
measure(const char *svg, const char *class, const char *attribute)
{
	char wanted[64];
	const char *at;

	snprintf(wanted, sizeof wanted, "<rect class=\"%s\"", class);
	at = strstr(svg, wanted);
	cr_assert_not_null(at, "no %s in %s", class, svg);
	snprintf(wanted, sizeof wanted, " %s=\"", attribute);
	at = strstr(at, wanted);
	cr_assert_not_null(at);
	return (int)strtol(at + strlen(wanted), NULL, 10);
}

Test(drawing, the_gap_has_the_grades_per_cent_of_the_cornea)
{
	for (int grade = 0; grade < DEPTH_GRADES; grade++) {
		char page[PAGE_SIZE];
		int cornea, gap, from;

		draw((enum depth)grade, true, page);
		cornea = measure(page, "cornea", "width");
		gap = measure(page, "gap", "width");
		from = measure(page, "cornea", "x");
		cr_expect_eq(cornea, DRAWING_CORNEA);
		cr_expect_eq(gap * 100,
			     depth_percent((enum depth)grade) * cornea,
			     "grade %d: %d of %d", grade, gap, cornea);
		cr_expect_eq(measure(page, "gap", "x"), from + cornea);
		cr_expect_eq(measure(page, "iris", "x"), from + cornea + gap);
	}
}

Test(drawing, in_text_five_per_cent_is_one_character)
{
	static const char *const lines[DEPTH_GRADES] = {
		"####################|",
		"####################.|",
		"####################...|",
		"####################.....|",
		"####################........|",
		"####################...............|",
		"####################....................",
	};

	for (int grade = 0; grade < DEPTH_GRADES; grade++) {
		char page[PAGE_SIZE];

		draw((enum depth)grade, false, page);
		cr_expect_str_eq(page, lines[grade], "grade %d", grade);
		cr_expect_leq(strlen(page), 40);
	}
}

Test(drawing, nothing_is_drawn_where_nothing_was_graded)
{
	static const enum depth depths[] = {DEPTH_BLANK, DEPTH_NOT_GRADABLE,
					    DEPTH_NO_EYE};

	for (size_t i = 0; i < sizeof depths / sizeof depths[0]; i++) {
		char page[PAGE_SIZE];

		draw(depths[i], true, page);
		cr_expect_str_eq(page, "", "row %zu", i);
		draw(depths[i], false, page);
		cr_expect_str_eq(page, "", "row %zu", i);
	}
}

Test(drawing, it_is_black_and_white_and_its_title_is_escaped)
{
	static const char *const never[] = {"#ccc", "#888", "gray",   "grey",
					    "rgb",  "opac", "<style", " id="};
	char page[PAGE_SIZE];

	draw(DEPTH_40, true, page);
	cr_expect_not_null(strstr(page, "<title>A &amp; B &lt;c&gt;</title>"));
	for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
		cr_expect_null(strstr(page, never[i]), "%s", never[i]);
}

/* The number behind a letter of the path of a class. */
static double
path_number(const char *svg, const char *class, char letter)
{
	char wanted[64];
	const char *at;

	snprintf(wanted, sizeof wanted, "<path class=\"%s\"", class);
	at = strstr(svg, wanted);
	cr_assert_not_null(at, "no %s in %s", class, svg);
	at = strchr(strstr(at, " d=\""), letter);
	cr_assert_not_null(at);
	return strtod(at + 1, NULL);
}

/* The curve of a band's outer edge, which both bands must share. */
static void
copy_curve(const char *svg, const char *class, char *curve, size_t size)
{
	char wanted[64];
	const char *at;

	snprintf(wanted, sizeof wanted, "<path class=\"%s\"", class);
	at = strchr(strstr(strstr(svg, wanted), " d=\""), 'q');
	snprintf(curve, size, "%.*s", (int)strcspn(at, "h"), at);
}

Test(drawing, the_gap_of_the_slit_section_is_to_scale_within_one_per_cent)
{
	for (int grade = 0; grade < DEPTH_GRADES; grade++) {
		static char page[PAGE_SIZE];
		char curve[2][64];
		FILE *out = fmemopen(page, sizeof page, "w");
		double cornea, gap;

		cr_assert_not_null(out);
		drawing_write_slit((enum depth)grade, "x", out);
		fclose(out);
		cornea = path_number(page, "cornea", 'h');
		gap = path_number(page, "iris", 'M') -
		      path_number(page, "cornea", 'M') - cornea;
		cr_expect_float_eq(100 * gap / cornea,
				   depth_percent((enum depth)grade), 1,
				   "grade %d: %g of %g", grade, gap, cornea);
		copy_curve(page, "cornea", curve[0], sizeof curve[0]);
		copy_curve(page, "iris", curve[1], sizeof curve[1]);
		cr_expect_str_eq(curve[0], curve[1], "grade %d", grade);
	}
}
