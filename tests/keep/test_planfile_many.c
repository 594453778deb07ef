/* Tests of keep/planfile: more presets than there is room for, and no text. */
#include "keep/planfile.h"

#include "base/field.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

enum { TOLD_SIZE = 2000 };

static void
hear(void *context, const struct fault *one)
{
	char *told = context;
	size_t used = strlen(told);

	snprintf(told + used, TOLD_SIZE - used, "%s\n", one->sentence);
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
