/* test_odd.c: what is not wrong in a policy, but worth a look. */
#include "clinic/odd.h"

#include "clinic/decide.h"
#include "policies.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

/* Everything that would be told of every small policy is kept out of the way:
 * it is approved, compared with itself, and every finding is listed. */
static void
read_rules(const char *more, const char *rules, struct policy *policy)
{
	static char text[20000];

	snprintf(text, sizeof text,
		 "[policy]\nname = T\nversion = 1\n%s"
		 "[urgency]\nurgent_within_days = 14\n"
		 "[rescreen]\nmonths = 24\n[tally]\nage_bands = 40\n"
		 "[gonioscopy]\nhidden_quadrants = 2\n%s",
		 more, rules);
	policies_read(text, strlen(text), policy);
}

/* clang-format off */
#define APPROVED "approved_by = Dr T\napproved_on = 2026-03-01\n"
#define LISTED_BUT_PAIN                                                        \
	"weighs_only_with_others = nausea, haloes, blurred_sight, past_spells," \
	" sudden_sight_loss, headache, family_closure, long_sighted, "         \
	"needs_dilating, risk_medicine, new_medicine, red_eye, hazy_cornea, "  \
	"fixed_pupil, odd_pupil, blood_in_chamber, reduced_sight, injury, "    \
	"eye_operation, artificial_lens, iridotomy, past_attack, not_seeing\n"
#define PAIN RULE("pain", "all_of = eye_pain", "9")
#define RULE(name, conditions, days)                                           \
	"[rule " name "]\n" conditions "\nrefer_within_days = " days           \
	"\nsay = \"x\"\n"
#define AGAIN(name, conditions, months)                                        \
	"[rule " name "]\n" conditions "\nrescreen_within_months = " months    \
	"\nsay = \"x\"\n"
#define COVERED(one, other)                                                    \
	"rule '" one "' never decides by itself: whenever it holds, '" other   \
	"' holds too and is at least as urgent\n"
#define LESS(finding, rules)                                                   \
	"'" finding "' can make the answer less urgent: it switches off "      \
	rules "\n"
/* clang-format on */

enum { TOLD_SIZE = 4000 };

static void
hear_and_join(void *context, const char *sentence)
{
	char *text = context;
	size_t used = strlen(text);

	snprintf(text + used, TOLD_SIZE - used, "%s\n", sentence);
}

/* clang-format off */
/* Rules, beside one for eye_pain within 9 days, and what is told of them. */
static const struct {
	const char *rules, *told;
} rows[] = {
	{"", ""},
	{RULE("a", "all_of = eye_pain, nausea", "9"), COVERED("a", "pain")},
	{RULE("a", "all_of = eye_pain, nausea", "8"), ""},
	{AGAIN("a", "all_of = severe_eye_pain", "6"), COVERED("a", "pain")},
	/* The most urgent one is named; of two alike, the later is told. */
	{RULE("a", "all_of = severe_eye_pain", "1")
	 RULE("b", "all_of = severe_eye_pain, nausea", "2"),
	 COVERED("b", "a")},
	{AGAIN("c", "two_of = severe_eye_pain, nausea\nage_below_years = 9",
	       "6")
	 RULE("a", "any_of = severe_eye_pain, nausea", "1"),
	 COVERED("c", "a")
	 "'nausea' stands in weighs_only_with_others, yet alone it makes rule "
	 "'a' hold\n"},
	{RULE("a", "any_of = eye_pain", "9"), COVERED("a", "pain")},
	{RULE("a", "all_of = severe_eye_pain\nnone_of = eye_pain", "0"),
	 "rule 'a' can never hold: no record has the findings it asks for "
	 "without one that it excludes\n"},
	{RULE("a", "depth_at_or_below_percent = 100\n"
		   "not_gradable_counts = yes", "30"),
	 "rule 'a' holds for everybody\n"},
	{AGAIN("a", "depth_at_or_below_percent = 40", "36"),
	 "rule 'a' screens again after 36 months, later than the 24 months "
	 "when no rule holds\n"},
	{AGAIN("a", "depth_at_or_below_percent = 40", "24"), ""},
	{RULE("a", "depth_at_or_below_percent = 25\nnone_of = iridotomy", "9")
	 RULE("b", "pressure_above_mmhg = 21\nnone_of = iridotomy", "9"),
	 LESS("iridotomy", "'a', 'b'")},
	/* Another rule makes up for it. */
	{RULE("a", "depth_at_or_below_percent = 25\nnone_of = eye_pain", "9"),
	 ""},
	{RULE("a", "depth_at_or_below_percent = 25\nnone_of = eye_pain", "8"),
	 LESS("eye_pain", "'a'")},
	{RULE("a", "depth_at_or_below_percent = 25\n"
		   "none_of = severe_eye_pain", "9"), ""},
	/* It would not have been seen sooner anyway. */
	{AGAIN("a", "depth_at_or_below_percent = 40\nnone_of = iridotomy",
	       "24"), ""},
	{AGAIN("a", "depth_at_or_below_percent = 40\nnone_of = iridotomy",
	       "23"), LESS("iridotomy", "'a'")},
	{RULE("a", "depth_at_or_below_percent = 25\n"
		   "other_eye_none_of = artificial_lens", "9"),
	 "'artificial_lens' of the other eye can make the answer less urgent: "
	 "it switches off 'a'\n"},
	{RULE("a", "depth_at_or_below_percent = 25\n"
		   "other_eye_none_of = eye_pain", "9"), ""},
	{RULE("a", "depth_at_or_below_percent = 25\n"
		   "unequal_steps_at_or_above = 2", "9"),
	 "a shallower grade of one eye can make the answer less urgent, since "
	 "it makes the eyes more alike: 'a'\n"},
	{RULE("a", "all_of = eye_pain\nunequal_steps_at_or_above = 2", "9"),
	 COVERED("a", "pain")},
	{RULE("a", "all_of = nausea\nage_below_years = 9", "9"),
	 "'nausea' stands in weighs_only_with_others, yet alone it makes rule "
	 "'a' hold\n"},
	{RULE("a", "all_of = nausea\nage_below_years = 9\n"
		   "depth_at_or_below_percent = 75", "9"), ""},
	/* Of the other eye: a rule of the fellow eye. */
	{RULE("a", "other_eye_any_of = past_attack", "9"),
	 "'past_attack' stands in weighs_only_with_others, yet alone it makes "
	 "rule 'a' hold\n"},
	{RULE("a", "all_of = only_seeing_eye", "9"),
	 "'not_seeing' stands in weighs_only_with_others, yet alone it makes "
	 "rule 'a' hold\n"},
};
/* clang-format on */

Test(odd, each_oddity_is_told_once_with_the_rule_it_stands_in)
{
	static struct policy policy;
	char rules[3000], told[TOLD_SIZE];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		int count, lines = 0;

		told[0] = '\0';
		snprintf(rules, sizeof rules, "%s%s", PAIN, rows[i].rules);
		read_rules(APPROVED LISTED_BUT_PAIN, rules, &policy);
		count = policy_tell_oddities(&policy, &policy, hear_and_join,
					     told);
		cr_expect_str_eq(told, rows[i].told, "row %zu: %s", i, told);
		for (const char *at = told; *at != '\0'; at++)
			lines += *at == '\n';
		cr_expect_eq(count, lines, "row %zu", i);
	}
}

Test(odd, what_is_missing_is_told)
{
	static struct policy policy, builtin;
	char told[TOLD_SIZE] = "";

	policies_read_default(&builtin);
	read_rules("weighs_only_with_others = headache\n",
		   RULE("a",
			"any_of = nausea, haloes, blurred_sight, "
			"past_spells, sudden_sight_loss, family_closure, "
			"needs_dilating, risk_medicine, new_medicine, "
			"red_eye, hazy_cornea, fixed_pupil, odd_pupil, "
			"blood_in_chamber, reduced_sight, injury, "
			"eye_operation, artificial_lens, iridotomy, "
			"past_attack",
			"9"),
		   &policy);
	cr_expect_eq(policy_tell_oddities(&policy, &builtin, hear_and_join,
					  told),
		     7);
	cr_expect_not_null(strstr(told, "sends the same day, this one may"));
	cr_expect_not_null(strstr(told, "refers, this one may refer later"));
	cr_expect_not_null(strstr(told, "no eye doctor has approved it"));
	cr_expect_not_null(strstr(told, "no rule refers by depth alone"));
	cr_expect_not_null(strstr(told, "no rule refers by pressure alone"));
	cr_expect_not_null(strstr(told, "these change nothing: 'eye_pain', "
					"'severe_eye_pain', "
					"'long_sighted', 'not_seeing'; those"));
}

/* clang-format off */
static const char of_default[] =
	"no eye doctor has approved it: fill in approved_by and "
	"approved_on when one has read it whole\n"
	LESS("artificial_lens",
	     "'fellow-eye-of-attack', 'past-attack-untreated', "
	     "'could-not-be-graded'")
	"'artificial_lens' of the other eye can make the answer less "
	"urgent: it switches off 'unequal-chambers'\n"
	LESS("iridotomy",
	     "'fellow-eye-of-attack', 'past-attack-untreated', "
	     "'iris-touching-cornea', 'unequal-chambers', "
	     "'shallow-under-forty', 'very-shallow', "
	     "'shallow-with-added-risk', 'shallow'")
	"a shallower grade of one eye can make the answer less urgent, "
	"since it makes the eyes more alike: "
	"'injured-or-operated-unequal', 'unequal-chambers'\n";
/* clang-format on */

/* The default policy: nothing is left but what the design wants seen. Its
 * list of findings that weigh only with others is complete and not too long. */
Test(odd, the_default_policy_shows_only_what_the_doctor_must_see)
{
	static struct policy policy;
	char told[TOLD_SIZE] = "";

	policies_read_default(&policy);
	policy_tell_oddities(&policy, &policy, hear_and_join, told);
	cr_expect_str_eq(told, of_default, "%s", told);
}

/* A rule of the default made slow, or taken out, whatever it asks for. */
Test(odd, what_the_default_sends_sooner_is_told)
{
	static const struct {
		const char *rule;
		int days, age;
		enum depth depth;
		const char *told; /* "" = nothing of the kind */
	} changes[] = {
		{"sudden-sight-loss", 0, FIELD_BLANK, DEPTH_BLANK, ""},
		{"sudden-sight-loss", 30, FIELD_BLANK, DEPTH_BLANK,
		 "sends the same day, this one may send later or not at all: "
		 "its rules 'sudden-sight-loss'"},
		{"sudden-sight-loss", 0, 90, DEPTH_BLANK,
		 "sends the same day, this one may send later or not at all: "
		 "its rules 'sudden-sight-loss'"},
		{"shallow", 30, FIELD_BLANK, DEPTH_15,
		 "refers, this one may refer later or not at all: its rules "
		 "'shallow'"},
		{"shallow", 30, FIELD_BLANK, DEPTH_40, ""},
		{"shallow", 7, FIELD_BLANK, DEPTH_25, ""},
	};
	static struct policy builtin, policy;

	policies_read_default(&builtin);
	for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
		char told[TOLD_SIZE] = "";
		struct rule *rule = NULL;

		policy = builtin;
		for (int j = 0; j < policy.rule_count; j++)
			if (strcmp(policy.rule[j].name, changes[i].rule) == 0)
				rule = &policy.rule[j];
		cr_assert_not_null(rule);
		rule->refer_within_days = changes[i].days;
		if (changes[i].age != FIELD_BLANK)
			rule->age_at_or_above_years = changes[i].age;
		if (changes[i].depth != DEPTH_BLANK)
			rule->depth_at_or_below_percent = changes[i].depth;
		policy_tell_oddities(&policy, &builtin, hear_and_join, told);
		if (changes[i].told[0] == '\0')
			cr_expect_null(strstr(told, "whom the built-in"),
				       "row %zu: %s", i, told);
		else
			cr_expect_not_null(strstr(told, changes[i].told),
					   "row %zu: %s", i, told);
	}
}

Test(odd, days_that_are_called_urgent_too_long_are_told)
{
	static struct policy builtin, policy;
	char told[TOLD_SIZE] = "";

	policies_read_default(&builtin);
	policy = builtin;
	policy.urgent_within_days = 90;
	policy_tell_oddities(&policy, &builtin, hear_and_join, told);
	cr_expect_not_null(strstr(told, "a referral within 90 days urgent; the "
					"built-in policy, within "),
			   "%s", told);
}
