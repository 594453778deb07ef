/* test_depth.c: what may be typed for a depth, and what is refused. */
#include "clinic/depth.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

Test(depth, every_way_of_typing_a_grade_is_read)
{
	static const struct {
		const char *text;
		enum depth depth;
	} rows[] = {
		{"0", DEPTH_0},
		{"0%", DEPTH_0},
		{"0.0", DEPTH_0},
		{"0.00", DEPTH_0},
		{"0/4", DEPTH_0},
		{"5", DEPTH_5},
		{"5%", DEPTH_5},
		{"0.05", DEPTH_5},
		{"1/20", DEPTH_5},
		{"15", DEPTH_15},
		{"15%", DEPTH_15},
		{"0.15", DEPTH_15},
		{"3/20", DEPTH_15},
		{"25", DEPTH_25},
		{"25%", DEPTH_25},
		{"0.25", DEPTH_25},
		{"1/4", DEPTH_25},
		{"2/8", DEPTH_25},
		{"25/100", DEPTH_25},
		{"40", DEPTH_40},
		{"40%", DEPTH_40},
		{"0.4", DEPTH_40},
		{"0.40", DEPTH_40},
		{"2/5", DEPTH_40},
		{"75", DEPTH_75},
		{"75%", DEPTH_75},
		{"0.75", DEPTH_75},
		{"3/4", DEPTH_75},
		{"100", DEPTH_100},
		{"100%", DEPTH_100},
		{"1.0", DEPTH_100},
		{"1.00", DEPTH_100},
		{"1/1", DEPTH_100},
		{"4/4", DEPTH_100},
		{"100/100", DEPTH_100},
		{"x", DEPTH_NOT_GRADABLE},
		{"X", DEPTH_NOT_GRADABLE},
		{"-", DEPTH_NO_EYE},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		enum depth depth = DEPTH_BLANK;
		struct fault why = {0};

		cr_expect(depth_read(rows[i].text, &depth, &why),
			  "row %zu: '%s': %s", i, rows[i].text, why.sentence);
		cr_expect_eq(depth, rows[i].depth, "row %zu: '%s'", i,
			     rows[i].text);
	}
}

#define ALLOWED                                                           \
	"allowed are 0 5 15 25 40 75 100 (also 25%, 1/4 or 0.25), x for " \
	"could not be graded, - for no eye"
#define NO_DEPTH " is not a depth; " ALLOWED

/* clang-format off */
static const struct {
	const char *text, *sentence;
} refused[] = {
	{"", "''" NO_DEPTH},
	{" ", "' '" NO_DEPTH},
	{"1", "'1' is unclear: 1 per cent or 1/1? " ALLOWED},
	{"1%", "'1%' is not a grade on the scale; the nearest are 0 and 5"},
	{"4", "'4' is not a grade on the scale; the nearest are 0 and 5"},
	{"6", "'6' is not a grade on the scale; the nearest are 5 and 15"},
	{"20", "'20' is not a grade on the scale; the nearest are 15 and 25"},
	{"30%", "'30%' is not a grade on the scale; the nearest are 25 and 40"},
	{"50", "'50' is not a grade on the scale; the nearest are 40 and 75"},
	{"1/2", "'1/2' is not a grade on the scale; the nearest are 40 and 75"},
	{"0.5", "'0.5' is not a grade on the scale; the nearest are 40 and 75"},
	{"99", "'99' is not a grade on the scale; the nearest are 75 and 100"},
	{"101", "'101' is off the scale; 100 stands for as deep as the cornea "
		"is thick, or deeper"},
	{"5/4", "'5/4' is off the scale; 100 stands for as deep as the cornea "
		"is thick, or deeper"},
	{"2.5", "'2.5' is off the scale; 100 stands for as deep as the cornea "
		"is thick, or deeper"},
	{"1/3", "'1/3' is not a whole per cent, so not a grade; " ALLOWED},
	{"0,25", "'0,25' has a comma, which is not guessed at; " ALLOWED},
	{"25,", "'25,' has a comma, which is not guessed at; " ALLOWED},
	{"..5", "'..5'" NO_DEPTH},
	{".25", "'.25'" NO_DEPTH},
	{"0.", "'0.'" NO_DEPTH},
	{"0.250", "'0.250'" NO_DEPTH},
	{"0.25%", "'0.25%'" NO_DEPTH},
	{"00.25", "'00.25'" NO_DEPTH},
	{"25.0", "'25.0'" NO_DEPTH},
	{"025", "'025'" NO_DEPTH},
	{"+25", "'+25'" NO_DEPTH},
	{"-25", "'-25'" NO_DEPTH},
	{" 25", "' 25'" NO_DEPTH},
	{"25 ", "'25 '" NO_DEPTH},
	{"25 %", "'25 %'" NO_DEPTH},
	{"25%%", "'25%%'" NO_DEPTH},
	{"%", "'%'" NO_DEPTH},
	{"1/", "'1/'" NO_DEPTH},
	{"/4", "'/4'" NO_DEPTH},
	{"1/0", "'1/0'" NO_DEPTH},
	{"1/4/1", "'1/4/1'" NO_DEPTH},
	{"1//4", "'1//4'" NO_DEPTH},
	{"1 /4", "'1 /4'" NO_DEPTH},
	{"1/4%", "'1/4%'" NO_DEPTH},
	{"0.1/1", "'0.1/1'" NO_DEPTH},
	{"xx", "'xx'" NO_DEPTH},
	{"x%", "'x%'" NO_DEPTH},
	{"--", "'--'" NO_DEPTH},
	{"-%", "'-%'" NO_DEPTH},
	{"25e0", "'25e0'" NO_DEPTH},
	{"grade 2", "'grade 2'" NO_DEPTH},
	{"deep", "'deep'" NO_DEPTH},
	{"12345678901234567890123456789",
		"'12345678901234567890'" NO_DEPTH},
	{"\xef\xbc\x92\xef\xbc\x95", "'\xef\xbc\x92\xef\xbc\x95'" NO_DEPTH},
	{"\xc2\xbc", "'\xc2\xbc'" NO_DEPTH}, /* one quarter, one character */
	{"\xe2\x88\x92", "'\xe2\x88\x92'" NO_DEPTH}, /* minus sign */
	{"\x1b[2J", "'?[2J'" NO_DEPTH},
};
/* clang-format on */

Test(depth, everything_else_is_refused_and_never_guessed_at)
{
	for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
		enum depth depth = DEPTH_BLANK;
		struct fault why = {0};

		cr_expect(!depth_read(refused[i].text, &depth, &why),
			  "row %zu: '%s' was read as %d", i, refused[i].text,
			  depth);
		cr_expect_eq(depth, DEPTH_BLANK, "row %zu: left alone", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect_str_eq(why.sentence, refused[i].sentence, "row %zu",
				 i);
	}
}

/* The depth that a text of at most three of "0123456789%/.,x- " stands for, by
 * another way than the code's: what may be typed is written out from the
 * scale, and the text looked for in it. DEPTH_BLANK when it is not there. */
static enum depth
looked_up(const char *text)
{
	static const int percent[] = {0, 5, 15, 25, 40, 75, 100};
	char form[3][32];

	if (strcmp(text, "x") == 0)
		return DEPTH_NOT_GRADABLE;
	if (strcmp(text, "-") == 0)
		return DEPTH_NO_EYE;
	for (int i = 0; i < DEPTH_GRADES; i++) {
		snprintf(form[0], sizeof form[0], "%d", percent[i]);
		snprintf(form[1], sizeof form[1], "%d%%", percent[i]);
		snprintf(form[2], sizeof form[2], "%.1f", percent[i] / 100.0);
		if (strcmp(text, form[0]) == 0 || strcmp(text, form[1]) == 0 ||
		    (percent[i] % 10 == 0 && strcmp(text, form[2]) == 0))
			return (enum depth)i;
		for (int bottom = 1; bottom < 10; bottom++)
			for (int top = 0; top < 10; top++) {
				snprintf(form[0], sizeof form[0], "%d/%d", top,
					 bottom);
				if (strcmp(text, form[0]) == 0 &&
				    top * 100 == percent[i] * bottom)
					return (enum depth)i;
			}
	}
	return DEPTH_BLANK;
}

Test(depth, every_text_of_up_to_three_keys_is_read_right_or_refused)
{
	static const char keys[] = "0123456789%/.,x- ";
	size_t count = sizeof keys - 1;
	int taken = 0;

	for (size_t n = 0; n < count * count * count + count * count + count;
	     n++) {
		char text[4] = "";
		size_t left = n;
		enum depth depth = DEPTH_BLANK, expected;
		struct fault why;

		/* Bijective numeration: each text once, shorter ones first. */
		for (int at = 0;; at++) {
			text[at] = keys[left % count];
			text[at + 1] = '\0';
			if (left < count)
				break;
			left = left / count - 1;
		}
		expected = looked_up(text);
		cr_expect_eq(depth_read(text, &depth, &why),
			     expected != DEPTH_BLANK, "'%s'", text);
		cr_expect_eq(depth, expected, "'%s' is read as %d", text,
			     depth);
		taken += expected != DEPTH_BLANK;
	}
	/* 7 plain, 6 with %, x and -, 0.0 0.4 1.0, nine each of 0/n and n/n,
	 * and 1/4 2/8, 2/5, 3/4 6/8. */
	cr_expect_eq(taken, 7 + 6 + 2 + 3 + 9 + 9 + 5, "%d were taken", taken);
}

Test(depth, grades_are_written_as_they_are_read)
{
	static const char *const written[] = {"0",  "5",   "15", "25", "40",
					      "75", "100", "x",	 "-"};
	/* Foster et al. 2000, Br J Ophthalmol 84:186-92, table 3 (0 to 40
	 * read; 75 and 100 from memory). */
	static const int percent[] = {0, 5, 15, 25, 40, 75, 100};
	char text[4] = "???";
	enum depth again;
	struct fault why;

	depth_write(DEPTH_BLANK, text);
	cr_expect_str_eq(text, "");
	for (int i = DEPTH_0; i <= DEPTH_NO_EYE; i++) {
		depth_write((enum depth)i, text);
		cr_expect_str_eq(text, written[i], "row %d", i);
		cr_expect(depth_read(text, &again, &why), "row %d", i);
		cr_expect_eq((int)again, i, "row %d", i);
		cr_expect_eq(depth_is_graded((enum depth)i), i < DEPTH_GRADES,
			     "row %d", i);
	}
	cr_expect(!depth_is_graded(DEPTH_BLANK));
	for (int i = 0; i < DEPTH_GRADES; i++)
		cr_expect_eq(depth_percent((enum depth)i), percent[i], "row %d",
			     i);
	for (long p = -1; p <= 101; p++) {
		enum depth depth = depth_of_percent(p);

		cr_expect(depth == DEPTH_BLANK || depth_percent(depth) == p,
			  "%ld", p);
		for (int i = 0; i < DEPTH_GRADES; i++)
			if (percent[i] == p)
				cr_expect_eq((int)depth, i, "%ld", p);
	}
}

Test(depth, positive_is_that_depth_or_shallower)
{
	for (int at = DEPTH_BLANK; at <= DEPTH_NO_EYE; at++)
		for (int cutoff = DEPTH_0; cutoff <= DEPTH_100; cutoff++)
			cr_expect_eq(depth_is_at_or_below((enum depth)at,
							  (enum depth)cutoff),
				     at >= DEPTH_0 && at <= DEPTH_100 &&
					     at <= cutoff,
				     "%d at or below %d", at, cutoff);
	for (int one = DEPTH_0; one <= DEPTH_100; one++)
		for (int other = DEPTH_0; other <= DEPTH_100; other++)
			cr_expect_eq(depth_steps_apart((enum depth)one,
						       (enum depth)other),
				     one > other ? one - other : other - one,
				     "%d and %d", one, other);
}

#define FROM_5 "5 15 25 40 75 100 (per cent), digits only"
#define FROM_0 "0 " FROM_5

Test(depth, a_cutoff_is_a_whole_number_on_the_scale)
{
	/* NULL = read */
	static const struct {
		long least;
		const char *text, *sentence;
	} rows[] = {
		{0, "0", NULL},
		{0, "25", NULL},
		{0, "100", NULL},
		{5, "5", NULL},
		{5, "100", NULL},
		{5, "0", "depth: '0' is not a cut-off; allowed are " FROM_5},
		{0, "20", "depth: '20' is not a cut-off; allowed are " FROM_0},
		{5, "20", "depth: '20' is not a cut-off; allowed are " FROM_5},
		{0, "25%",
		 "depth: '25%' is not a cut-off; allowed are " FROM_0},
		{0, "1/4",
		 "depth: '1/4' is not a cut-off; allowed are " FROM_0},
		{0, "0.25",
		 "depth: '0.25' is not a cut-off; allowed are " FROM_0},
		{0, "x", "depth: 'x' is not a cut-off; allowed are " FROM_0},
		{0, "-", "depth: '-' is not a cut-off; allowed are " FROM_0},
		{0, "101",
		 "depth: '101' is not a cut-off; allowed are " FROM_0},
		{0, "025",
		 "depth: '025' is not a cut-off; allowed are " FROM_0},
	};
	char text[FIELD_TEXT_SIZE];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct field field = {.name = "depth",
				      .kind = &field_cutoff,
				      .size = sizeof(enum depth),
				      .least = rows[i].least,
				      .most = 100,
				      .words = "%"};
		enum depth cutoff = DEPTH_BLANK;
		struct fault why = {0};

		cr_expect_eq(field_read(&field, rows[i].text, &cutoff, &why),
			     rows[i].sentence == NULL, "row %zu: %s", i,
			     why.sentence);
		if (rows[i].sentence == NULL) {
			field_write(&field, &cutoff, text, sizeof text);
			cr_expect_str_eq(text, rows[i].text, "row %zu", i);
		} else {
			cr_expect_str_eq(why.sentence, rows[i].sentence,
					 "row %zu", i);
			cr_expect_eq(cutoff, DEPTH_BLANK, "row %zu", i);
		}
	}
}
