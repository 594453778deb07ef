/* policycheck.c: what is wrong between the keys of a policy. */
#include "clinic/policycheck.h"

#include <stdio.h>

/* Counts what is told on the way to the caller's ear. */
struct teller {
	fault_hear *hear;
	void *context;
	int count;
};

static void
tell(struct teller *teller, bool wrong, const char *sentence)
{
	struct fault one;

	if (!wrong)
		return;
	fault_set(&one, FAULT_POLICY, "%s", sentence);
	teller->hear(teller->context, &one);
	teller->count++;
}

static bool
given(int value)
{
	return value != FIELD_BLANK;
}

static bool
has_condition(const struct rule *rule)
{
	return given((int)rule->depth_at_or_below_percent) ||
	       given((int)rule->depth_below_percent) ||
	       rule->not_gradable == ANSWER_YES ||
	       given(rule->unequal_steps_at_or_above) ||
	       given(rule->pressure_at_or_above_mmhg) ||
	       given(rule->pressure_above_mmhg) ||
	       given(rule->age_at_or_above_years) ||
	       given(rule->age_below_years) || rule->all_of != 0 ||
	       rule->any_of != 0 || rule->two_of != 0 ||
	       rule->other_eye_any_of != 0;
}

static int
bits(finding_set set)
{
	int count = 0;

	for (; set != 0; set &= set - 1)
		count++;
	return count;
}

static void
check_limits(const struct rule *rule, struct teller *teller)
{
	bool depth = given((int)rule->depth_at_or_below_percent) ||
		     given((int)rule->depth_below_percent);

	tell(teller,
	     given((int)rule->depth_at_or_below_percent) &&
		     given((int)rule->depth_below_percent),
	     "it has two depth limits; keep one of depth_at_or_below_percent "
	     "and depth_below_percent");
	tell(teller,
	     given(rule->pressure_at_or_above_mmhg) &&
		     given(rule->pressure_above_mmhg),
	     "it has two pressure limits; keep one of "
	     "pressure_at_or_above_mmhg and pressure_above_mmhg");
	tell(teller,
	     given(rule->age_at_or_above_years) &&
		     given(rule->age_below_years) &&
		     rule->age_at_or_above_years >= rule->age_below_years,
	     "no known age can be at or above age_at_or_above_years and below "
	     "age_below_years");
	tell(teller, rule->not_gradable_counts == ANSWER_YES && !depth,
	     "not_gradable_counts needs a depth limit beside it");
	tell(teller,
	     rule->not_gradable == ANSWER_YES && depth &&
		     rule->not_gradable_counts != ANSWER_YES,
	     "an eye cannot be graded at a depth and not gradable; take out "
	     "one of the two, or add not_gradable_counts = yes");
	tell(teller,
	     rule->not_gradable == ANSWER_YES &&
		     given(rule->unequal_steps_at_or_above),
	     "an eye that could not be graded is never steps apart from the "
	     "other; take out one of the two");
}

static void
check_sets(const struct rule *rule, struct teller *teller)
{
	finding_set wanted = rule->all_of;
	char both[FIELD_TEXT_SIZE / 6], sentence[FAULT_SENTENCE_SIZE];

	if ((wanted & rule->none_of) != 0) {
		finding_set_write(wanted & rule->none_of, both, sizeof both);
		snprintf(sentence, sizeof sentence,
			 "'%s' stands in all_of and in none_of", both);
		tell(teller, true, sentence);
	}
	tell(teller, rule->any_of != 0 && (rule->any_of & ~rule->none_of) == 0,
	     "none_of switches off everything in any_of");
	tell(teller,
	     rule->two_of != 0 && bits(rule->two_of & ~rule->none_of) < 2,
	     "two_of needs at least two findings that none_of does not switch "
	     "off");
	tell(teller,
	     rule->other_eye_any_of != 0 &&
		     (rule->other_eye_any_of & ~rule->other_eye_none_of) == 0,
	     "other_eye_none_of switches off everything in other_eye_any_of");
}

int
rule_check(const struct rule *rule, fault_hear *hear, void *context)
{
	struct teller teller = {hear, context, 0};

	tell(&teller,
	     given(rule->refer_within_days) &&
		     given(rule->rescreen_within_months),
	     "it has two outcomes; keep one of refer_within_days and "
	     "rescreen_within_months");
	tell(&teller,
	     !given(rule->refer_within_days) &&
		     !given(rule->rescreen_within_months),
	     "it has no outcome; give refer_within_days (0 to 365 days) or "
	     "rescreen_within_months (1 to 120 months)");
	tell(&teller, !has_condition(rule),
	     "it has no condition, so it would hold for everybody");
	check_limits(rule, &teller);
	check_sets(rule, &teller);
	return teller.count;
}

int
policy_check(const struct policy *policy, fault_hear *hear, void *context)
{
	struct teller teller = {hear, context, 0};

	tell(&teller, policy->rule_count == 0,
	     "it has no rule; at least one section [rule NAME] is needed");
	tell(&teller,
	     policy->approved_by[0] == '\0' &&
		     !day_is_none(policy->approved_on),
	     "approved_on is given without approved_by; name the eye doctor, "
	     "or leave both empty");
	tell(&teller,
	     policy->approved_by[0] != '\0' && day_is_none(policy->approved_on),
	     "approved_by is given without approved_on; give the day as "
	     "YYYY-MM-DD");
	tell(&teller,
	     !given(policy->hidden_quadrants) &&
		     (given(policy->pressure_raised_at_or_above_mmhg) ||
		      given(policy->cup_abnormal_at_or_above_percent)),
	     "a limit of [gonioscopy] is given without hidden_quadrants; add "
	     "hidden_quadrants (2 or 3)");
	return teller.count;
}
