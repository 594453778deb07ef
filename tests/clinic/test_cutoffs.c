/* test_cutoffs.c: a policy's main cut-offs beside those of the built-in one. */
#include "clinic/cutoffs.h"

#include "policies.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

/* A policy of these rules and nothing odd beside them. */
static void
read_rules(const char *rules, struct policy *policy)
{
	static const char head[] = "[policy]\nname = T\nversion = 1\n"
				   "[urgency]\nurgent_within_days = 14\n"
				   "[rescreen]\nmonths = 24\n"
				   "[tally]\nage_bands = 40\n";
	static char text[20000];

	snprintf(text, sizeof text, "%s%s", head, rules);
	policies_read(text, strlen(text), policy);
}

enum { TOLD_SIZE = 4000 };

static void
hear_and_join(void *context, const char *sentence)
{
	char *text = context;
	size_t used = strlen(text);

	snprintf(text + used, TOLD_SIZE - used, "%s\n", sentence);
}

/* clang-format off */
#define RULE(name, conditions, days)                                           \
	"[rule " name "]\n" conditions "\nrefer_within_days = " days           \
	"\nsay = \"x\"\n"
#define DEPTH(name, percent)                                                   \
	RULE(name, "depth_at_or_below_percent = " percent, "30")
#define PRESSURE(name, mmhg, days)                                             \
	RULE(name, "pressure_at_or_above_mmhg = " mmhg, days)
/* clang-format on */

/* The figures and their sources: 25 or less in most studies of the Cochrane
 * review (Jindal and others 2020, CD012947) and in the Scottish community eye
 * guideline, section 6.3; below 25 by the UK joint colleges; 5 for angle
 * closure glaucoma in Foster and others 2000, table 3 (sensitivity 91.3 %,
 * specificity 92.6 %); 24 mmHg in NICE NG81; 40 mmHg the same day in the
 * College of Optometrists' "Urgency of referrals" (C205). */
#define USUAL_DEPTH DEPTH("d", "25")
#define USUAL_PRESSURE PRESSURE("p", "24", "30") PRESSURE("q", "40", "0")
#define BY_DEPTH                                                       \
	"25 % or less of most studies (Cochrane review 2020) and the " \
	"Scottish guideline"

/* clang-format off */
static const struct {
	const char *rules, *told;
} rows[] = {
	{USUAL_DEPTH USUAL_PRESSURE, ""},
	/* The same grades, said the other way. */
	{RULE("d", "depth_below_percent = 40", "30") USUAL_PRESSURE, ""},
	{RULE("d", "depth_below_percent = 25", "30") USUAL_PRESSURE,
	 "rule 'd' refers by depth alone at below 25 %, tighter than the "
	 BY_DEPTH "; so has the UK joint colleges' guidance, which does not "
	 "refer the limit itself\n"},
	{DEPTH("d", "40") USUAL_PRESSURE,
	 "rule 'd' refers by depth alone at 40 % or less, looser than the "
	 BY_DEPTH "\n"},
	/* The loosest counts, whatever else is excluded. */
	{USUAL_DEPTH RULE("e", "depth_at_or_below_percent = 75\n"
			       "none_of = iridotomy", "90") USUAL_PRESSURE,
	 "rule 'e' refers by depth alone at 75 % or less, looser than the "
	 BY_DEPTH "\n"},
	{DEPTH("d", "5") USUAL_PRESSURE,
	 "rule 'd' refers by depth alone at 5 % or less, tighter than the "
	 BY_DEPTH "; Foster and others 2000 have it for angle closure "
	 "glaucoma, not for every narrow angle\n"},
	{DEPTH("d", "0") USUAL_PRESSURE,
	 "rule 'd' refers by depth alone at 0 % or less, tighter than the "
	 BY_DEPTH "\n"},
	/* Not by depth alone. */
	{RULE("d", "depth_at_or_below_percent = 25\nage_below_years = 40", "1")
	 RULE("e", "depth_at_or_below_percent = 25\nall_of = nausea", "1")
	 RULE("f", "depth_at_or_below_percent = 25\n"
		   "unequal_steps_at_or_above = 1", "1")
	 RULE("g", "depth_at_or_below_percent = 25\n"
		   "pressure_above_mmhg = 21", "1") USUAL_PRESSURE,
	 "no rule refers by depth alone; the built-in policy does at 25 % or "
	 "less, the cut-off of most studies (Cochrane review 2020) and the "
	 "Scottish guideline\n"},
	{USUAL_DEPTH PRESSURE("p", "22", "30") PRESSURE("q", "40", "0"),
	 "rule 'p' refers by pressure alone at 22 mmHg or more, looser than "
	 "the 24 mmHg or more of NICE guideline NG81\n"},
	{USUAL_DEPTH RULE("p", "pressure_above_mmhg = 23", "30")
	 PRESSURE("q", "40", "0"), ""},
	{USUAL_DEPTH RULE("p", "pressure_above_mmhg = 24", "30")
	 PRESSURE("q", "40", "0"),
	 "rule 'p' refers by pressure alone at more than 24 mmHg, tighter than "
	 "the 24 mmHg or more of NICE guideline NG81\n"},
	{USUAL_DEPTH PRESSURE("p", "24", "30") PRESSURE("q", "45", "0"),
	 "rule 'q' refers the same day by pressure alone at 45 mmHg or more, "
	 "tighter than the 40 mmHg or more of the College of Optometrists "
	 "(Urgency of referrals)\n"},
	{USUAL_DEPTH PRESSURE("p", "24", "0"),
	 "rule 'p' refers the same day by pressure alone at 24 mmHg or more, "
	 "looser than the 40 mmHg or more of the College of Optometrists "
	 "(Urgency of referrals)\n"},
	{USUAL_DEPTH PRESSURE("p", "24", "1"),
	 "no rule refers the same day by pressure alone; the built-in policy "
	 "does at 40 mmHg or more, the cut-off of the College of Optometrists "
	 "(Urgency of referrals)\n"},
};
/* clang-format on */

Test(cutoffs, each_that_differs_from_a_guideline_is_told_with_its_source)
{
	static struct policy builtin, policy;
	char told[TOLD_SIZE];

	policies_read_default(&builtin);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		int count, lines = 0;

		told[0] = '\0';
		read_rules(rows[i].rules, &policy);
		count = cutoffs_compare(&policy, &builtin, hear_and_join, told);
		cr_expect_str_eq(told, rows[i].told, "row %zu: %s", i, told);
		for (const char *at = told; *at != '\0'; at++)
			lines += *at == '\n';
		cr_expect_eq(count, lines, "row %zu", i);
	}
}

Test(cutoffs, each_cut_off_by_depth_alone_is_found_with_its_soonest_rule)
{
	static struct policy policy;
	static const char rules[] = RULE("a", "depth_below_percent = 40", "30")
		DEPTH("b", "25") RULE("c", "depth_at_or_below_percent = 5", "9")
			RULE("d", "depth_below_percent = 15", "2")
				RULE("e",
				     "depth_at_or_below_percent = 15\n"
				     "age_below_years = 40",
				     "1") USUAL_PRESSURE;
	static const char *const is[DEPTH_GRADES] = {
		[DEPTH_5] = "d", [DEPTH_25] = "a"};
	const struct rule *at[DEPTH_GRADES];

	read_rules(rules, &policy);
	cutoffs_by_depth(&policy, at);
	for (int i = 0; i < DEPTH_GRADES; i++)
		cr_expect_str_eq(at[i] == NULL ? "" : at[i]->name,
				 is[i] == NULL ? "" : is[i], "grade %d", i);
}
