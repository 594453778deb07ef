/* decide.c: what the rules say about one person. */
#include "clinic/decide.h"

#include "base/text.h"

#include <stdio.h>
#include <string.h>

static bool
depth_holds(const struct rule *rule, enum depth depth)
{
	enum depth at = rule->depth_at_or_below_percent;
	enum depth below = rule->depth_below_percent;

	if (at == DEPTH_BLANK && below == DEPTH_BLANK)
		return true;
	if (depth == DEPTH_NOT_GRADABLE)
		return rule->not_gradable_counts == ANSWER_YES;
	if (!depth_is_graded(depth))
		return false;
	return (at == DEPTH_BLANK || depth <= at) &&
	       (below == DEPTH_BLANK || depth < below);
}

static bool
steps_hold(const struct rule *rule, const struct visit *visit)
{
	int wanted = rule->unequal_steps_at_or_above;

	if (wanted == FIELD_BLANK)
		return true;
	return depth_is_graded(visit->depth_right) &&
	       depth_is_graded(visit->depth_left) &&
	       depth_steps_apart(visit->depth_right, visit->depth_left) >=
		       wanted;
}

static bool
pressure_holds(const struct rule *rule, int pressure_mmhg)
{
	int at = rule->pressure_at_or_above_mmhg;
	int above = rule->pressure_above_mmhg;

	if (at == FIELD_BLANK && above == FIELD_BLANK)
		return true;
	if (pressure_mmhg == FIELD_BLANK)
		return false;
	return (at == FIELD_BLANK || pressure_mmhg >= at) &&
	       (above == FIELD_BLANK || pressure_mmhg > above);
}

static bool
has_age_condition(const struct rule *rule)
{
	return rule->age_at_or_above_years != FIELD_BLANK ||
	       rule->age_below_years != FIELD_BLANK;
}

static bool
age_holds(const struct rule *rule, int age_years)
{
	if (age_years == FIELD_BLANK)
		return true;
	return (rule->age_at_or_above_years == FIELD_BLANK ||
		age_years >= rule->age_at_or_above_years) &&
	       (rule->age_below_years == FIELD_BLANK ||
		age_years < rule->age_below_years);
}

static bool
has_two(finding_set set)
{
	return (set & (set - 1)) != 0;
}

static bool
findings_hold(const struct rule *rule, finding_set here, finding_set other)
{
	return (rule->all_of & ~here) == 0 &&
	       (rule->any_of == 0 || (rule->any_of & here) != 0) &&
	       (rule->two_of == 0 || has_two(rule->two_of & here)) &&
	       (rule->none_of & here) == 0 &&
	       (rule->other_eye_any_of == 0 ||
		(rule->other_eye_any_of & other) != 0) &&
	       (rule->other_eye_none_of & other) == 0;
}

bool
rule_holds(const struct rule *rule, const struct visit *visit, enum eye eye)
{
	enum depth depth = visit_depth(visit, eye);

	if (depth == DEPTH_NO_EYE)
		return false;
	if (rule->not_gradable == ANSWER_YES && depth != DEPTH_NOT_GRADABLE)
		return false;
	return depth_holds(rule, depth) && steps_hold(rule, visit) &&
	       pressure_holds(rule, visit_pressure(visit, eye)) &&
	       age_holds(rule, visit->age_years) &&
	       findings_hold(rule, findings_at_eye(&visit->findings, eye),
			     findings_at_eye(&visit->findings, eye_other(eye)));
}

enum visit_urgency
urgency_of_days(const struct policy *policy, int days)
{
	if (days == FIELD_BLANK)
		return URGENCY_NO_REFERRAL;
	if (days == 0)
		return URGENCY_SAME_DAY;
	return days <= policy->urgent_within_days ? URGENCY_URGENT
						  : URGENCY_ROUTINE;
}

/* Referring rules come before all others, then the shorter time. */
static long
fired_rank(const struct policy *policy, const struct fired *fired)
{
	const struct rule *rule = &policy->rule[fired->rule];

	return rule->refer_within_days != FIELD_BLANK
		       ? rule->refer_within_days
		       : 1000L + rule->rescreen_within_months;
}

/* Keeps the list sorted as it grows; equals stay in the order of the file. */
static void
add_fired(const struct policy *policy, struct decision *decision,
	  struct fired fired)
{
	long rank = fired_rank(policy, &fired);
	int place = decision->count++;

	while (place > 0 &&
	       fired_rank(policy, &decision->fired[place - 1]) > rank) {
		decision->fired[place] = decision->fired[place - 1];
		place--;
	}
	decision->fired[place] = fired;
}

void
decide(const struct policy *policy, const struct visit *visit,
       struct decision *decision)
{
	const struct rule *first;

	memset(decision, 0, sizeof *decision);
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];
		struct fired fired = {i, {false, false}, false};

		for (int eye = 0; eye < EYE_COUNT; eye++)
			fired.eye[eye] = rule_holds(rule, visit, (enum eye)eye);
		if (!fired.eye[EYE_RIGHT] && !fired.eye[EYE_LEFT])
			continue;
		fired.age_was_unknown = visit->age_years == FIELD_BLANK &&
					has_age_condition(rule);
		add_fired(policy, decision, fired);
	}
	decision->by_default = decision->count == 0;
	first = &policy->rule[decision->fired[0].rule];
	decision->within_days = decision->by_default ? FIELD_BLANK
						     : first->refer_within_days;
	decision->rescreen_months = FIELD_BLANK;
	if (decision->within_days == FIELD_BLANK)
		decision->rescreen_months =
			decision->by_default ? policy->rescreen_months
					     : first->rescreen_within_months;
	decision->urgency = urgency_of_days(policy, decision->within_days);
}

int
decision_shown(const struct policy *policy, const struct decision *decision)
{
	int shown = 0;

	if (decision->within_days == FIELD_BLANK)
		return decision->count;
	while (shown < decision->count &&
	       policy->rule[decision->fired[shown].rule].refer_within_days !=
		       FIELD_BLANK)
		shown++;
	return shown;
}

bool
decision_is_deciding(const struct policy *policy,
		     const struct decision *decision, int index)
{
	return fired_rank(policy, &decision->fired[index]) ==
	       fired_rank(policy, &decision->fired[0]);
}

const char *
decision_advice(const struct policy *policy, const struct decision *decision,
		int index)
{
	const struct fired *fired = decision->fired;
	const char *advice =
		policy_advise(policy, &policy->rule[fired[index].rule]);

	for (int i = 0; i < index; i++)
		if (strcmp(policy_advise(policy, &policy->rule[fired[i].rule]),
			   advice) == 0)
			return "";
	return advice;
}

static bool
is_certain(const struct rule *rule, const struct findings *unasked,
	   enum eye eye, bool age_unasked)
{
	finding_set here = findings_at_eye(unasked, eye);
	finding_set other = findings_at_eye(unasked, eye_other(eye));

	return (rule->none_of & here) == 0 &&
	       (rule->other_eye_none_of & other) == 0 &&
	       !(age_unasked && has_age_condition(rule));
}

/* An eye whose depth is not asked yet may turn out to be missing, and no rule
 * is tried on a missing eye; one with a sign seen on it is there. */
static bool
is_surely_there(const struct visit *visit, enum eye eye)
{
	return visit_depth(visit, eye) != DEPTH_BLANK ||
	       (visit->findings.eye[eye] & findings_of_group(GROUP_SIGNS)) != 0;
}

bool
decide_all_certain_today(const struct policy *policy, const struct visit *visit,
			 const struct findings *unasked, bool age_unasked,
			 struct decision *certain)
{
	memset(certain, 0, sizeof *certain);
	certain->urgency = URGENCY_SAME_DAY;
	certain->rescreen_months = FIELD_BLANK;
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];
		struct fired fired = {i, {false, false}, false};

		if (rule->refer_within_days != 0)
			continue;
		for (int eye = 0; eye < EYE_COUNT; eye++)
			fired.eye[eye] =
				(is_surely_there(visit, (enum eye)eye) ||
				 rule_is_of_person(rule)) &&
				rule_holds(rule, visit, (enum eye)eye) &&
				is_certain(rule, unasked, (enum eye)eye,
					   age_unasked);
		if (!fired.eye[EYE_RIGHT] && !fired.eye[EYE_LEFT])
			continue;
		fired.age_was_unknown = visit->age_years == FIELD_BLANK &&
					has_age_condition(rule);
		certain->fired[certain->count++] = fired;
	}
	return certain->count > 0;
}

int
decide_certain_today(const struct policy *policy, const struct visit *visit,
		     const struct findings *unasked, bool age_unasked)
{
	struct decision certain;

	return decide_all_certain_today(policy, visit, unasked, age_unasked,
					&certain)
		       ? certain.fired[0].rule
		       : -1;
}

bool
rule_could_hold_with_pressure(const struct rule *rule,
			      const struct visit *visit, enum eye eye)
{
	struct rule without = *rule;

	if (visit_pressure(visit, eye) != FIELD_BLANK ||
	    rule_holds(rule, visit, eye))
		return false;
	without.pressure_at_or_above_mmhg = FIELD_BLANK;
	without.pressure_above_mmhg = FIELD_BLANK;
	return rule_holds(&without, visit, eye);
}

bool
rule_holds_by_unknown_age(const struct rule *rule, const struct visit *visit,
			  enum eye eye)
{
	return visit->age_years == FIELD_BLANK && has_age_condition(rule) &&
	       rule_holds(rule, visit, eye);
}

bool
rule_is_of_person(const struct rule *rule)
{
	finding_set person = findings_of_group(GROUP_COMPLAINTS) |
			     findings_of_group(GROUP_RISKS);
	finding_set used = rule->all_of | rule->any_of | rule->two_of |
			   rule->none_of | rule->other_eye_any_of |
			   rule->other_eye_none_of;

	return (used & ~person) == 0 &&
	       rule->depth_at_or_below_percent == DEPTH_BLANK &&
	       rule->depth_below_percent == DEPTH_BLANK &&
	       rule->not_gradable != ANSWER_YES &&
	       rule->unequal_steps_at_or_above == FIELD_BLANK &&
	       rule->pressure_at_or_above_mmhg == FIELD_BLANK &&
	       rule->pressure_above_mmhg == FIELD_BLANK;
}

static void
record_rules(const struct policy *policy, const struct decision *decision,
	     struct visit *visit)
{
	size_t used = 0;

	visit->rules[0] = '\0';
	for (int i = 0; i < decision->count; i++)
		used += (size_t)snprintf(
			visit->rules + used, sizeof visit->rules - used, "%s%s",
			i > 0 ? ";" : "",
			policy->rule[decision->fired[i].rule].name);
}

void
decision_record(const struct policy *policy, const char *mark,
		const struct decision *decision, struct visit *visit)
{
	visit->urgency = (int)decision->urgency;
	visit->within_days = decision->within_days;
	visit->rescreen_months = decision->rescreen_months;
	visit->see_by = day_none();
	if (decision->within_days != FIELD_BLANK &&
	    !day_is_none(visit->screened_on))
		visit->see_by = day_plus_days(visit->screened_on,
					      decision->within_days);
	record_rules(policy, decision, visit);
	text_copy(visit->policy, sizeof visit->policy, mark);
}
