/* odd.c: what is not wrong in a policy, but worth a look. */
#include "clinic/odd.h"

#include "clinic/cover.h"
#include "clinic/decide.h"

#include <stdarg.h>
#include <stdio.h>

enum { SENTENCE_SIZE = 4096 }; /* holds the names of all rules */

/* Counts what is told on the way to the caller's ear. */
struct teller {
	const struct policy *policy;
	odd_hear *hear;
	void *context;
	int count;
};

__attribute__((format(printf, 2, 3))) static void
tell(struct teller *teller, const char *format, ...)
{
	char sentence[SENTENCE_SIZE];
	va_list values;

	va_start(values, format);
	vsnprintf(sentence, sizeof sentence, format, values);
	va_end(values);
	teller->hear(teller->context, sentence);
	teller->count++;
}

/* Names in single quotes, joined by commas, as they come. */
struct names {
	char text[SENTENCE_SIZE - 400];
	size_t used;
};

static void
names_add(struct names *names, const char *name)
{
	if (names->used >= sizeof names->text)
		return;
	names->used += (size_t)snprintf(names->text + names->used,
					sizeof names->text - names->used,
					"%s'%s'", names->used > 0 ? ", " : "",
					name);
}

/* ---- rules --------------------------------------------------------------- */

/* The most urgent rule without which this one never decides, or NULL. Of two
 * that always hold together and say the same, the later is told. */
static const struct rule *
cover_of(const struct policy *policy, int index)
{
	const struct rule *one = &policy->rule[index], *best = NULL;

	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *other = &policy->rule[i];

		if (i == index || !rule_is_covered(one, other) ||
		    (i > index && rule_is_covered(other, one)))
			continue;
		if (best == NULL || !rule_is_as_urgent(best, other))
			best = other;
	}
	return best;
}

static void
tell_of_rule(struct teller *teller, int index, const struct rule *everybody)
{
	const struct policy *policy = teller->policy;
	const struct rule *rule = &policy->rule[index], *cover;

	if (!rule_can_hold(rule)) {
		tell(teller,
		     "rule '%s' can never hold: no record has the findings it "
		     "asks for without one that it excludes",
		     rule->name);
		return;
	}
	if (rule_implies(everybody, rule))
		tell(teller, "rule '%s' holds for everybody", rule->name);
	cover = cover_of(policy, index);
	if (cover != NULL)
		tell(teller,
		     "rule '%s' never decides by itself: whenever it holds, "
		     "'%s' holds too and is at least as urgent",
		     rule->name, cover->name);
	if (rule->rescreen_within_months > policy->rescreen_months)
		tell(teller,
		     "rule '%s' screens again after %d months, later than the "
		     "%d months when no rule holds",
		     rule->name, rule->rescreen_within_months,
		     policy->rescreen_months);
}

/* ---- what can make the answer less urgent -------------------------------- */

/* Whether the answer can hang on this rule: it sends somebody somewhere sooner
 * than no rule would. */
static bool
matters(const struct policy *policy, const struct rule *rule)
{
	return rule_can_hold(rule) &&
	       (rule->refer_within_days != FIELD_BLANK ||
		rule->rescreen_within_months < policy->rescreen_months);
}

/* Whether another rule makes up for `rule` wherever `instead` holds. */
static bool
is_made_up_for(const struct policy *policy, const struct rule *rule,
	       const struct rule *instead)
{
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *other = &policy->rule[i];

		if (rule_is_as_urgent(other, rule) &&
		    rule_implies(instead, other))
			return true;
	}
	return false;
}

/* Whether this eye's or the person's finding, where the rule would hold but
 * for it, leaves nothing as urgent. */
static bool
switches_off(const struct policy *policy, const struct rule *rule,
	     finding_set finding)
{
	struct rule instead = *rule;

	if ((rule->none_of & finding) == 0 || !matters(policy, rule))
		return false;
	instead.none_of &= ~finding;
	instead.all_of |= finding;
	return !is_made_up_for(policy, rule, &instead);
}

/* The same of the other eye's. No rule can ask for everything of the other
 * eye, so beside other_eye_any_of the finding is not asked for: that can only
 * tell too much. */
static bool
switches_off_from_other_eye(const struct policy *policy,
			    const struct rule *rule, finding_set finding)
{
	struct rule instead = *rule;

	if ((rule->other_eye_none_of & finding) == 0 || !matters(policy, rule))
		return false;
	instead.other_eye_none_of &= ~finding;
	if (instead.other_eye_any_of == 0)
		instead.other_eye_any_of = finding;
	return !is_made_up_for(policy, rule, &instead);
}

static void
tell_of_finding(struct teller *teller, enum finding finding, const char *where,
		bool (*switches)(const struct policy *policy,
				 const struct rule *rule, finding_set finding))
{
	const struct policy *policy = teller->policy;
	struct names names = {.used = 0};

	for (int i = 0; i < policy->rule_count; i++)
		if (switches(policy, &policy->rule[i], finding_bit(finding)))
			names_add(&names, policy->rule[i].name);
	if (names.used > 0)
		tell(teller,
		     "'%s'%s can make the answer less urgent: it switches off "
		     "%s",
		     finding_code(finding), where, names.text);
}

static void
tell_of_steps(struct teller *teller)
{
	const struct policy *policy = teller->policy;
	struct names names = {.used = 0};

	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];
		struct rule instead = *rule;

		instead.unequal_steps_at_or_above = FIELD_BLANK;
		if (rule->unequal_steps_at_or_above != FIELD_BLANK &&
		    matters(policy, rule) &&
		    !is_made_up_for(policy, rule, &instead))
			names_add(&names, rule->name);
	}
	if (names.used > 0)
		tell(teller,
		     "a shallower grade of one eye can make the answer less "
		     "urgent, since it makes the eyes more alike: %s",
		     names.text);
}

/* ---- beside the built-in policy ------------------------------------------ */

/* A rule of the built-in policy is made up for when one here holds wherever it
 * does, and is as urgent. */
static void
tell_of_builtin(struct teller *teller, const struct policy *builtin)
{
	struct names today = {.used = 0}, later = {.used = 0};

	for (int i = 0; i < builtin->rule_count; i++) {
		const struct rule *rule = &builtin->rule[i];

		if (rule->refer_within_days == FIELD_BLANK ||
		    is_made_up_for(teller->policy, rule, rule))
			continue;
		names_add(rule->refer_within_days == 0 ? &today : &later,
			  rule->name);
	}
	if (today.used > 0)
		tell(teller,
		     "whom the built-in policy sends the same day, this one "
		     "may send later or not at all: its rules %s",
		     today.text);
	if (later.used > 0)
		tell(teller,
		     "whom the built-in policy refers, this one may refer "
		     "later or not at all: its rules %s",
		     later.text);
	if (teller->policy->urgent_within_days > builtin->urgent_within_days)
		tell(teller,
		     "it calls a referral within %d days urgent; the built-in "
		     "policy, within %d",
		     teller->policy->urgent_within_days,
		     builtin->urgent_within_days);
}

/* ---- findings by themselves ---------------------------------------------- */

/* A rule that holds for one of the two but not for the other, or NULL. */
static const struct rule *
difference(const struct policy *policy, const struct visit *with,
	   const struct visit *without)
{
	for (int i = 0; i < policy->rule_count; i++)
		for (int eye = 0; eye < EYE_COUNT; eye++)
			if (rule_holds(&policy->rule[i], with, (enum eye)eye) &&
			    !rule_holds(&policy->rule[i], without,
					(enum eye)eye))
				return &policy->rule[i];
	return NULL;
}

/* The rule that a finding by itself makes hold, at some age, or NULL. */
static const struct rule *
rule_of_finding(const struct policy *policy, enum finding finding, enum eye eye)
{
	const struct field *age = fields_find(visit_fields, "age_years");
	const struct rule *rule = NULL;
	struct visit with, without;

	visit_init(&without);
	without.depth_right = without.depth_left = DEPTH_100;
	with = without;
	findings_add(&with.findings, finding, eye);
	for (long i = age->least; i <= age->most && rule == NULL; i++) {
		with.age_years = without.age_years = (int)i;
		rule = difference(policy, &with, &without);
	}
	return rule;
}

static void
tell_of_lone_findings(struct teller *teller)
{
	finding_set listed = teller->policy->weighs_only_with_others;
	struct names names = {.used = 0};

	for (int i = 0; i < ONLY_SEEING_EYE; i++) {
		const struct rule *rule = rule_of_finding(
			teller->policy, (enum finding)i, EYE_RIGHT);
		const char *code = finding_code((enum finding)i);
		bool is_listed = (listed & finding_bit((enum finding)i)) != 0;

		if (rule == NULL && !is_listed)
			names_add(&names, code);
		else if (rule != NULL && is_listed)
			tell(teller,
			     "'%s' stands in weighs_only_with_others, yet "
			     "alone it makes rule '%s' hold",
			     code, rule->name);
	}
	if (names.used > 0)
		tell(teller,
		     "alone, with deep chambers and no pressure measured, "
		     "these change nothing: %s; those meant so may stand in "
		     "[policy] weighs_only_with_others",
		     names.text);
}

int
policy_tell_oddities(const struct policy *policy, const struct policy *builtin,
		     odd_hear *hear, void *context)
{
	struct teller teller = {policy, hear, context, 0};
	struct rule everybody;

	rule_init(&everybody);
	if (!policy_is_approved(policy))
		tell(&teller, "no eye doctor has approved it: fill in "
			      "approved_by and approved_on when one has read "
			      "it whole");
	if (policy->hidden_quadrants == FIELD_BLANK)
		tell(&teller, "[gonioscopy] hidden_quadrants is missing (2 or "
			      "3), so what the clinic sees cannot be classed");
	for (int i = 0; i < policy->rule_count; i++)
		tell_of_rule(&teller, i, &everybody);
	tell_of_builtin(&teller, builtin);
	teller.count += cutoffs_compare(policy, builtin, hear, context);
	for (int i = 0; i < FINDING_COUNT; i++) {
		tell_of_finding(&teller, (enum finding)i, "", switches_off);
		tell_of_finding(&teller, (enum finding)i, " of the other eye",
				switches_off_from_other_eye);
	}
	tell_of_steps(&teller);
	tell_of_lone_findings(&teller);
	return teller.count;
}
