/* describe.c: the rules in plain words, built from the rules themselves. */
#include "clinic/describe.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Words on their way into a buffer, one condition behind the other. */
struct words {
	char *text;
	size_t size;
};

__attribute__((format(printf, 2, 3))) static void
add(struct words *words, const char *format, ...)
{
	size_t used = strlen(words->text);
	va_list arguments;

	va_start(arguments, format);
	vsnprintf(words->text + used, words->size - used, format, arguments);
	va_end(arguments);
}

/* What stands between two conditions. */
static const char *
between(const struct words *words)
{
	return words->text[0] == '\0' ? "" : "; ";
}

void
describe_finding(enum finding finding, char *text)
{
	text_copy(text, DESCRIBE_FINDING_SIZE, finding_code(finding));
	for (; *text != '\0'; text++)
		if (*text == '_')
			*text = ' ';
}

static bool
is_one(finding_set set)
{
	return (set & (set - 1)) == 0;
}

/* "any of: red eye, hazy cornea"; a single finding needs no word before it. */
static void
add_set(struct words *words, finding_set set, const char *lead,
	const char *lead_of_one)
{
	char name[DESCRIBE_FINDING_SIZE];
	const char *comma = "";

	if (set == 0)
		return;
	add(words, "%s%s", between(words), is_one(set) ? lead_of_one : lead);
	for (int i = 0; i < FINDING_COUNT; i++) {
		if ((set & finding_bit((enum finding)i)) == 0)
			continue;
		describe_finding((enum finding)i, name);
		add(words, "%s%s", comma, name);
		comma = ", ";
	}
}

static void
add_depth(struct words *words, const struct rule *rule)
{
	const char *or_not = rule->not_gradable_counts == ANSWER_YES
				     ? ", or not gradable"
				     : "";

	/* Nothing is below the last grade. */
	if (rule->depth_at_or_below_percent != DEPTH_BLANK)
		add(words, "%sdepth %s%d %%%s", between(words),
		    rule->depth_at_or_below_percent == DEPTH_0 ? ""
							       : "at or below ",
		    depth_percent(rule->depth_at_or_below_percent), or_not);
	if (rule->depth_below_percent != DEPTH_BLANK)
		add(words, "%sdepth below %d %%%s", between(words),
		    depth_percent(rule->depth_below_percent), or_not);
	if (rule->not_gradable == ANSWER_YES)
		add(words, "%sdepth not gradable", between(words));
	if (rule->unequal_steps_at_or_above != FIELD_BLANK)
		add(words, "%sthe two eyes %d or more grades apart",
		    between(words), rule->unequal_steps_at_or_above);
}

static void
add_numbers(struct words *words, const struct rule *rule)
{
	if (rule->pressure_at_or_above_mmhg != FIELD_BLANK)
		add(words, "%spressure %d mmHg or more", between(words),
		    rule->pressure_at_or_above_mmhg);
	if (rule->pressure_above_mmhg != FIELD_BLANK)
		add(words, "%spressure above %d mmHg", between(words),
		    rule->pressure_above_mmhg);
	if (rule->age_at_or_above_years != FIELD_BLANK)
		add(words, "%sage %d or more, or not known", between(words),
		    rule->age_at_or_above_years);
	if (rule->age_below_years != FIELD_BLANK)
		add(words, "%sage below %d, or not known", between(words),
		    rule->age_below_years);
}

void
describe_conditions(const struct rule *rule, char *text, size_t size)
{
	struct words words = {text, size};

	text[0] = '\0';
	add_set(&words, rule->all_of, "all of: ", "");
	add_set(&words, rule->any_of, "any of: ", "");
	add_set(&words, rule->two_of, "at least two of: ", "at least two of: ");
	add_set(&words, rule->other_eye_any_of,
		"in the other eye any of: ", "in the other eye: ");
	add_depth(&words, rule);
	add_numbers(&words, rule);
	add_set(&words, rule->none_of,
		"but not with any of: ", "but not with: ");
	add_set(&words, rule->other_eye_none_of,
		"but not when the other eye has any of: ",
		"but not when the other eye has: ");
}

void
describe_outcome(const struct rule *rule, char *text, size_t size)
{
	int days = rule->refer_within_days;
	int months = rule->rescreen_within_months;

	if (days == 0)
		snprintf(text, size, "today");
	else if (days != FIELD_BLANK)
		snprintf(text, size, "within %d day%s", days,
			 days == 1 ? "" : "s");
	else
		snprintf(text, size, "screen again within %d month%s", months,
			 months == 1 ? "" : "s");
}

finding_set
describe_findings(const struct policy *policy)
{
	finding_set set = 0;

	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];

		set |= rule->all_of | rule->any_of | rule->two_of |
		       rule->none_of | rule->other_eye_any_of |
		       rule->other_eye_none_of;
	}
	return set;
}

/* Whether the outcome of one is due before that of the other. */
static bool
is_sooner(const struct rule *one, const struct rule *other)
{
	bool refers = one->refer_within_days != FIELD_BLANK;

	if (refers != (other->refer_within_days != FIELD_BLANK))
		return refers;
	return refers ? one->refer_within_days < other->refer_within_days
		      : one->rescreen_within_months <
				other->rescreen_within_months;
}

void
describe_by_urgency(const struct policy *policy, describe_see *see,
		    void *context)
{
	const struct rule *sorted[POLICY_RULES_MOST];
	const struct rule *rule;
	const int count = policy->rule_count;
	int place;

	for (int i = 0; i < count; i++) {
		rule = &policy->rule[i];
		for (place = i; place > 0; place--) {
			if (!is_sooner(rule, sorted[place - 1]))
				break;
			sorted[place] = sorted[place - 1];
		}
		sorted[place] = rule;
	}
	for (int i = 0; i < count; i++)
		see(context, sorted[i],
		    i == 0 || is_sooner(sorted[i - 1], sorted[i]));
}
