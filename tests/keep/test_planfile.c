/* test_planfile.c: published accuracy of the test, for planning. */
#include "keep/planfile.h"

#include "base/embedded.h"
#include "base/field.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

enum { TOLD_SIZE = 4000 };

static void
hear(void *context, const struct fault *one)
{
	char *told = context;
	size_t used = strlen(told);

	snprintf(told + used, TOLD_SIZE - used, "%s\n", one->sentence);
}

static bool
read_text(const char *text, struct plan *plan, char *told, struct fault *why)
{
	told[0] = '\0';
	return planfile_read_bytes("plan.ini", text, strlen(text), plan, hear,
				   told, why);
}

/* Foster et al., Br J Ophthalmol 2000;84:186-92, table 3, and Jindal et al.,
 * Cochrane Database Syst Rev 2020;5:CD012947: per cent at 0, 5, 15, 25, 40;
 * -1 = the source has none. */
Test(planfile, the_figures_compiled_in_are_the_published_ones)
{
	static const struct {
		const char *name;
		double sensitivity[5], specificity[5];
		const char *source;
	} rows[] = {
		{"foster-occludable",
		 {17.8, 60.5, 83.7, 99.2, 100},
		 {99.6, 96.1, 85.7, 65.5, 40.3},
		 "Foster"},
		{"foster-closure",
		 {29.3, 70.7, 84.5, 100, 100},
		 {99.2, 93.7, 82.4, 62.4, 38.3},
		 "Foster"},
		{"foster-glaucoma",
		 {52.2, 91.3, 91.3, 100, 100},
		 {98.9, 92.6, 81.1, 61.1, 37.5},
		 "Foster"},
		{"cochrane-25",
		 {-0.01, -0.01, -0.01, 83, -0.01},
		 {-0.01, -0.01, -0.01, 88, -0.01},
		 "CD012947"},
	};
	char told[TOLD_SIZE];
	struct fault why = {FAULT_NONE, ""};
	struct plan plan;

	cr_assert(read_text((const char *)embedded_plan, &plan, told, &why),
		  "%s%s", told, why.sentence);
	cr_expect_str_eq(told, "");
	cr_expect_eq(plan.count, (int)COUNT(rows));
	for (size_t i = 0; i < COUNT(rows); i++) {
		const struct plan_preset *preset =
			plan_preset_find(&plan, rows[i].name);

		cr_assert_not_null(preset, "row %zu", i);
		cr_expect_not_null(strstr(preset->source, rows[i].source),
				   "row %zu: %s", i, preset->source);
		for (int j = 0; j < 5; j++) {
			cr_expect_float_eq(preset->sensitivity[j],
					   100 * rows[i].sensitivity[j], 1e-6,
					   "row %zu, cut-off %d: %d", i, j,
					   preset->sensitivity[j]);
			cr_expect_float_eq(preset->specificity[j],
					   100 * rows[i].specificity[j], 1e-6,
					   "row %zu, cut-off %d: %d", i, j,
					   preset->specificity[j]);
		}
		for (int j = 5; j < DEPTH_GRADES; j++)
			cr_expect(preset->sensitivity[j] == FIELD_BLANK &&
					  preset->specificity[j] == FIELD_BLANK,
				  "row %zu", i);
	}
	cr_expect_null(plan_preset_find(&plan, "foster"));
}

#define HEAD "[preset hill]\ncondition = \"narrow\"\nsource = \"nobody\"\n"

Test(planfile, what_is_unclear_or_runs_the_wrong_way_is_refused)
{
	static const struct {
		const char *text, *told;
	} rows[] = {
		{HEAD "sensitivity_at_25 = 83\n", "plan.ini:1: [preset hill]: "
						  "the cut-off 25 needs both a "
						  "sensitivity and a "
						  "specificity\n"},
		{HEAD "specificity_at_0 = 83\n", "plan.ini:1: [preset hill]: "
						 "the cut-off 0 needs both a "
						 "sensitivity and a "
						 "specificity\n"},
		{HEAD, "plan.ini:1: [preset hill]: there is no cut-off; give "
		       "sensitivity_at_25 and specificity_at_25 or others\n"},
		{HEAD "sensitivity_at_15 = 90\nspecificity_at_15 = 80\n"
		      "sensitivity_at_25 = 89.9\nspecificity_at_25 = 70\n",
		 "plan.ini:1: [preset hill]: from 15 to 25 the figures run the "
		 "wrong way; with depth the sensitivity may only rise and the "
		 "specificity only fall\n"},
		{HEAD "sensitivity_at_5 = 90\nspecificity_at_5 = 80\n"
		      "sensitivity_at_25 = 90\nspecificity_at_25 = 80.1\n",
		 "plan.ini:1: [preset hill]: from 5 to 25 the figures run the "
		 "wrong way; with depth the sensitivity may only rise and the "
		 "specificity only fall\n"},
		{HEAD "sensitivity_at_25 = 83,1\nspecificity_at_25 = 88\n",
		 "plan.ini:4: sensitivity_at_25: '83,1' is not a "
		 "plain number; allowed are 0 to 100 %, with at most 2 digits "
		 "behind a decimal point\n"},
		{HEAD "sensitivity_at_25 = 100.5\nspecificity_at_25 = 88\n",
		 "plan.ini:4: sensitivity_at_25: 100.5 is out of "
		 "range; allowed are 0 to 100 %\n"},
		{"[presets]\n", NULL},
		{HEAD "sensitivity_at_30 = 83\nspecificity_at_30 = 88\n", NULL},
		{"[preset Two words]\ncondition = \"a\"\nsource = \"b\"\n"
		 "sensitivity_at_25 = 83\nspecificity_at_25 = 88\n",
		 NULL},
		{"[preset hill]\nsource = \"b\"\nsensitivity_at_25 = 83\n"
		 "specificity_at_25 = 88\n",
		 NULL},
		{"", NULL},
	};
	static const char good[] = HEAD "sensitivity_at_25 = "
					"83\nspecificity_at_25 = 88.25\n";
	char told[TOLD_SIZE];
	struct fault why;
	struct plan plan;

	cr_expect(read_text(good, &plan, told, &why), "%s", told);
	cr_expect_eq(plan.preset[0].specificity[DEPTH_25], 8825);
	for (size_t i = 0; i < COUNT(rows); i++) {
		cr_expect_not(read_text(rows[i].text, &plan, told, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, FAULT_POLICY, "row %zu", i);
		if (rows[i].told != NULL)
			cr_expect_str_eq(told, rows[i].told, "row %zu: %s", i,
					 told);
		else
			cr_expect_gt(strlen(told) + strlen(why.sentence), 20U,
				     "row %zu: %s", i, told);
	}
}

static bool
read_presets(int count, struct plan *plan, char *told, struct fault *why)
{
	static char text[8000];
	size_t used = 0;

	for (int i = 0; i < count; i++)
		used += (size_t)snprintf(text + used, sizeof text - used,
					 "[preset p%d]\ncondition = \"a\"\n"
					 "source = \"b\"\n"
					 "sensitivity_at_25 = 80\n"
					 "specificity_at_25 = 9%d.5\n",
					 i, i % 10);
	told[0] = '\0';
	return planfile_read_bytes("plan.ini", text, used, plan, hear, told,
				   why);
}

Test(planfile, sixteen_presets_are_read_and_a_seventeenth_is_refused)
{
	static struct plan plan;
	struct fault why = {FAULT_NONE, ""};
	char told[TOLD_SIZE];

	cr_assert(read_presets(PLAN_PRESETS_MOST, &plan, told, &why), "%s",
		  told);
	cr_expect_eq(plan.count, PLAN_PRESETS_MOST);
	cr_expect_eq(plan.preset[9].specificity[DEPTH_25], 9950);
	cr_expect_eq(plan.preset[9].specificity[DEPTH_5], FIELD_BLANK);
	cr_expect_not(read_presets(PLAN_PRESETS_MOST + 1, &plan, told, &why));
	cr_expect_str_eq(told, "plan.ini:81: there are more than 16 presets\n");
	cr_expect_eq(why.kind, FAULT_POLICY);
}

Test(planfile, bytes_that_are_no_text_are_refused_as_a_whole)
{
	static const char bytes[] = "\xff\xfe[\0p\0r\0";
	static struct plan plan;
	struct fault why = {FAULT_NONE, ""};
	char told[TOLD_SIZE] = "";

	cr_expect_not(planfile_read_bytes("plan.ini", bytes, sizeof bytes - 1,
					  &plan, hear, told, &why));
	cr_expect(why.kind == FAULT_POLICY && plan.count == 0 &&
			  told[0] != '\0',
		  "%s%s", told, why.sentence);
}
