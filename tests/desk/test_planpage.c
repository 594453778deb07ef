/* test_planpage.c: what to expect of a screening, as a page and as CSV. */
#include "desk/planpage.h"

#include "base/embedded.h"
#include "base/field.h"
#include "desk/planrows.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static void
hear(void *context, const struct fault *one)
{
	(void)context;
	cr_assert_fail("%s", one->sentence);
}

static const struct plan_preset *
shipped(struct plan *plan, const char *name)
{
	struct fault why = {FAULT_NONE, ""};

	cr_assert(planfile_read_bytes("plan.ini", (const char *)embedded_plan,
				      embedded_plan_size, plan, hear, NULL,
				      &why));
	return plan_preset_find(plan, name);
}

/* The page, or the CSV with 0 columns; to be freed. */
static char *
written(const struct plan_question *question, int columns)
{
	struct fault why = {FAULT_NONE, ""};
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	cr_assert_not_null(out);
	cr_assert(columns == 0 ? planrows_write_csv(question, out, &why)
			       : planpage_write(question, columns, out, &why),
		  "%s", why.sentence);
	fclose(out);
	return text;
}

static struct plan_preset
own(int sensitivity, int specificity)
{
	struct plan_preset preset = {.name = ""};

	for (int i = 0; i < DEPTH_GRADES; i++)
		preset.sensitivity[i] = preset.specificity[i] = FIELD_BLANK;
	preset.sensitivity[0] = sensitivity;
	preset.specificity[0] = specificity;
	return preset;
}

/* Foster et al., Br J Ophthalmol 2000;84:186-92, table 4: the predictive
 * values at 0, 5, 15, 25 and 40, each at the prevalence found there. */
Test(planpage, the_presets_give_all_thirty_of_fosters_predictive_values)
{
	static const struct {
		const char *name;
		int prevalence;
		double ppv[5], npv[5];
	} tables[] = {
		{"foster-occludable",
		 680,
		 {76.4, 53.1, 29.9, 17.3, 10.8},
		 {94.3, 97.1, 98.6, 99.9, 100}},
		{"foster-closure",
		 350,
		 {57.0, 28.9, 14.8, 8.8, 5.5},
		 {97.5, 98.9, 99.3, 100, 100}},
		{"foster-glaucoma",
		 80,
		 {27.7, 9.0, 3.7, 2.0, 1.3},
		 {99.6, 99.9, 99.9, 100, 100}},
	};

	for (size_t i = 0; i < COUNT(tables); i++) {
		struct plan plan;
		struct plan_question question = {
			.preset = shipped(&plan, tables[i].name),
			.people = 1000,
			.prevalence = tables[i].prevalence};
		struct plan_rows rows;
		struct fault why;

		cr_assert(planrows_fill(&question, &rows, &why), "table %zu",
			  i);
		cr_assert_eq(rows.count, 5, "table %zu", i);
		for (int j = 0; j < 5; j++) {
			cr_expect(rows.row[j].has_ppv && rows.row[j].has_npv);
			cr_expect_leq(
				fabs(100 * rows.row[j].ppv - tables[i].ppv[j]),
				0.1, "table %zu, cut-off %d", i, j);
			cr_expect_leq(
				fabs(100 * rows.row[j].npv - tables[i].npv[j]),
				0.1, "table %zu, cut-off %d", i, j);
		}
	}
}

static void
expect_width(const char *text, size_t most)
{
	while (*text != '\0') {
		size_t length = strcspn(text, "\n");

		cr_expect_leq(length, most, "%.*s", (int)length, text);
		cr_expect(length == 0 || text[length - 1] != ' ', "'%.*s'",
			  (int)length, text);
		text += length + (text[length] == '\n');
	}
}

Test(planpage, the_page_keeps_its_width_with_the_largest_numbers)
{
	static const int widths[] = {PLANPAGE_WIDE, PLANPAGE_NARROW};
	struct plan plan;
	const struct plan_preset *presets[] = {shipped(&plan, "foster-"
							      "occludable"),
					       shipped(&plan, "foster-closure"),
					       shipped(&plan, "cochrane-25")};

	for (size_t i = 0; i < COUNT(widths); i++)
		for (size_t j = 0; j < COUNT(presets); j++)
			for (long people = 1; people <= 1000000;
			     people *= 1000) {
				struct plan_question question = {
					presets[j], people, 9999, 1, 1};
				char *text = written(&question, widths[i]);

				expect_width(text, (size_t)widths[i]);
				cr_expect_not_null(strstr(text, "not a"));
				free(text);
			}
}

/* Length of the bar of the first line that begins with `start`. */
static int
bar(const char *text, const char *start, char mark)
{
	const char *line = strstr(text, start);
	int marks = 0;

	cr_assert_not_null(line, "%s", start);
	line += strlen(start);
	for (; *line != '\n' && *line != '\0'; line++)
		marks += *line == mark;
	return marks;
}

/* 1000 people of whom 100 have it: found 60, missed 40, false alarms 90. */
Test(planpage, bars_are_to_scale_and_nothing_small_vanishes)
{
	struct plan_preset preset = own(6000, 9000), rare = own(9990, 9000);
	struct plan_question question = {&preset, 1000, 1000, 0, 0};
	char *text = written(&question, PLANPAGE_WIDE);

	cr_expect_not_null(strstr(text, "Each mark stands for 2 people"));
	cr_expect_eq(bar(text, "\ngiven found             60.0 ", '#'), 30);
	cr_expect_eq(bar(text, "\n      missed            40.0 ", 'o'), 20);
	cr_expect_eq(bar(text, "\n      false alarms      90.0 ", '.'), 45);
	free(text);
	text = written(&question, PLANPAGE_NARROW);
	cr_expect_not_null(strstr(text, "Each mark stands for 10 people"));
	cr_expect_eq(bar(text, "\ngiven found       60.0 ", '#'), 6);
	cr_expect_eq(bar(text, "\n      missed      40.0 ", 'o'), 4);
	cr_expect_eq(bar(text, "\n      false       90.0 ", '.'), 9);
	free(text);
	question.preset = &rare;
	text = written(&question, PLANPAGE_WIDE);
	cr_expect_eq(bar(text, "\n      missed             0.1 ", '-'), 1);
	free(text);
}

Test(planpage, what_cannot_be_estimated_is_a_dash_and_an_empty_cell)
{
	struct plan_preset flags_nobody = own(0, 10000);
	struct plan_preset flags_all = own(10000, 0);
	struct plan_preset nearly = own(9999, 9000);
	struct plan_question question = {&flags_nobody, 1000, 500, 10, 500};
	char *text = written(&question, PLANPAGE_WIDE);

	cr_expect_not_null(strstr(text, "\ngiven          0.0       0.0      "
					"50.0          0.0 "
					"     -   95.0       0\n"),
			   "%s", text);
	cr_expect_not_null(strstr(text, "the formula asks for nobody"));
	free(text);
	text = written(&question, 0);
	cr_expect_not_null(strstr(text, "\n,,0.00,100.00,1000,5.00,0.00,0.00,"
					"50.00,0.00,,95.0000,10,0,5.00,,\n"),
			   "%s", text);
	free(text);
	question.preset = &flags_all;
	text = written(&question, 0);
	cr_expect_not_null(strstr(text, ",0.00,950.00,5.0000,,10,100,"), "%s",
			   text);
	free(text);
	/* Almost all is not all. */
	question.preset = &nearly;
	text = written(&question, PLANPAGE_WIDE);
	cr_expect_not_null(strstr(text, " >99.9 "), "%s", text);
	cr_expect_not_null(strstr(text, " <0.1 "), "%s", text);
	cr_expect_null(strstr(text, " 100.0"), "%s", text);
	free(text);
}

Test(planpage, a_prevalence_of_nobody_or_everybody_is_refused)
{
	static const int rows[] = {0, PLAN_WHOLE_SHARE};
	struct plan_preset preset = own(9000, 9000);

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct plan_question question = {&preset, 1000, rows[i], 0, 0};
		struct fault why = {FAULT_NONE, ""};
		char text[200] = "";
		FILE *out = fmemopen(text, sizeof text, "w");

		cr_assert_not_null(out);
		cr_expect_not(planpage_write(&question, 78, out, &why));
		cr_expect_not(planrows_write_csv(&question, out, &why));
		fclose(out);
		cr_expect_str_eq(text, "", "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect_not_null(strstr(why.sentence, "above 0 and below 100 "
							"%"),
				   "row %zu: %s", i, why.sentence);
	}
}
