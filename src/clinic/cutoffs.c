/* cutoffs.c: a policy's main cut-offs beside those of the built-in policy. */
#include "clinic/cutoffs.h"

#include <stdio.h>
#include <string.h>

enum { SENTENCE_SIZE = 600, LIMIT_SIZE = 40 };

/* A cut-off, and the rule that has it; NULL = no rule. The greater the value,
 * the more people are referred. */
struct cutoff {
	const struct rule *rule;
	int value;
};

/* Refers, with nothing asked beside one measure but what may be excluded. */
static bool
refers_by_one_measure(const struct rule *rule)
{
	return rule->refer_within_days != FIELD_BLANK &&
	       rule->not_gradable != ANSWER_YES &&
	       rule->unequal_steps_at_or_above == FIELD_BLANK &&
	       rule->age_at_or_above_years == FIELD_BLANK &&
	       rule->age_below_years == FIELD_BLANK && rule->all_of == 0 &&
	       rule->any_of == 0 && rule->two_of == 0 &&
	       rule->other_eye_any_of == 0;
}

static bool
has_depth(const struct rule *rule)
{
	return rule->depth_at_or_below_percent != DEPTH_BLANK ||
	       rule->depth_below_percent != DEPTH_BLANK;
}

static bool
has_pressure(const struct rule *rule)
{
	return rule->pressure_at_or_above_mmhg != FIELD_BLANK ||
	       rule->pressure_above_mmhg != FIELD_BLANK;
}

/* The deepest grade that a rule with a depth limit refers. */
static enum depth
deepest(const struct rule *rule)
{
	return rule->depth_at_or_below_percent != DEPTH_BLANK
		       ? rule->depth_at_or_below_percent
		       : (enum depth)(rule->depth_below_percent - 1);
}

/* The lowest pressure, in whole mmHg, that a rule with a limit refers. */
static int
lowest(const struct rule *rule)
{
	return rule->pressure_at_or_above_mmhg != FIELD_BLANK
		       ? rule->pressure_at_or_above_mmhg
		       : rule->pressure_above_mmhg + 1;
}

static void
widen(struct cutoff *cutoff, const struct rule *rule, int value)
{
	if (cutoff->rule == NULL || value > cutoff->value)
		*cutoff = (struct cutoff){rule, value};
}

void
cutoffs_by_depth(const struct policy *policy,
		 const struct rule *at[DEPTH_GRADES])
{
	for (int i = 0; i < DEPTH_GRADES; i++)
		at[i] = NULL;
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i], *other;

		if (!refers_by_one_measure(rule) || !has_depth(rule) ||
		    has_pressure(rule) || deepest(rule) < DEPTH_0)
			continue;
		other = at[deepest(rule)];
		if (other == NULL ||
		    rule->refer_within_days < other->refer_within_days)
			at[deepest(rule)] = rule;
	}
}

static struct cutoff
depth_cutoff(const struct policy *policy)
{
	const struct rule *at[DEPTH_GRADES];

	cutoffs_by_depth(policy, at);
	for (int i = DEPTH_GRADES - 1; i >= 0; i--)
		if (at[i] != NULL)
			return (struct cutoff){at[i], i};
	return (struct cutoff){NULL, 0};
}

/* Among the rules that refer within so many days. */
static struct cutoff
pressure_cutoff(const struct policy *policy, int days)
{
	struct cutoff widest = {NULL, 0};

	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];

		if (refers_by_one_measure(rule) && has_pressure(rule) &&
		    !has_depth(rule) && rule->refer_within_days <= days)
			widen(&widest, rule, -lowest(rule));
	}
	return widest;
}

static void
depth_write_limit(struct cutoff cutoff, char *text, size_t size)
{
	enum depth limit = cutoff.rule->depth_at_or_below_percent;

	if (limit != DEPTH_BLANK)
		snprintf(text, size, "%d %% or less", depth_percent(limit));
	else
		snprintf(text, size, "below %d %%",
			 depth_percent(cutoff.rule->depth_below_percent));
}

static void
pressure_write_limit(struct cutoff cutoff, char *text, size_t size)
{
	int limit = cutoff.rule->pressure_at_or_above_mmhg;

	if (limit != FIELD_BLANK)
		snprintf(text, size, "%d mmHg or more", limit);
	else
		snprintf(text, size, "more than %d mmHg",
			 cutoff.rule->pressure_above_mmhg);
}

/* One comparison: what is referred by itself, how a limit is written, whose
 * figure the built-in policy has. */
struct comparison {
	const char *what;
	void (*write)(struct cutoff cutoff, char *text, size_t size);
	const char *source;
};

/* `more` is said at the end. Returns how many sentences were told. */
static int
compare(const struct comparison *how, struct cutoff here, struct cutoff there,
	const char *more, odd_hear *hear, void *context)
{
	char sentence[SENTENCE_SIZE], limit[LIMIT_SIZE], usual[LIMIT_SIZE];

	if (there.rule == NULL ||
	    (here.rule != NULL && here.value == there.value))
		return 0;
	how->write(there, usual, sizeof usual);
	if (here.rule == NULL) {
		snprintf(sentence, sizeof sentence,
			 "no rule refers %s; the built-in policy does at %s, "
			 "the cut-off of %s",
			 how->what, usual, how->source);
	} else {
		how->write(here, limit, sizeof limit);
		snprintf(sentence, sizeof sentence,
			 "rule '%s' refers %s at %s, %s than the %s of %s%s",
			 here.rule->name, how->what, limit,
			 here.value > there.value ? "looser" : "tighter", usual,
			 how->source, more);
	}
	hear(context, sentence);
	return 1;
}

/* Whose figure a tighter depth is. */
static const char *
tighter_depth(struct cutoff here, struct cutoff usual,
	      const struct policy *builtin)
{
	const struct rule *very = policy_rule(builtin, "very-shallow");

	if (here.rule == NULL)
		return "";
	if (here.value == usual.value - 1)
		return "; so has the UK joint colleges' guidance, which does "
		       "not refer the limit itself";
	if (very != NULL && has_depth(very) && here.value == (int)deepest(very))
		return "; Foster and others 2000 have it for angle closure "
		       "glaucoma, not for every narrow angle";
	return "";
}

static const struct comparison by_depth = {"by depth alone", depth_write_limit,
					   "most studies (Cochrane review "
					   "2020) and the Scottish guideline"};

static const struct comparison by_pressure = {
	"by pressure alone", pressure_write_limit, "NICE guideline NG81"};

static const struct comparison today_by_pressure = {"the same day by pressure "
						    "alone",
						    pressure_write_limit,
						    "the College of "
						    "Optometrists (Urgency of "
						    "referrals)"};

int
cutoffs_compare(const struct policy *policy, const struct policy *builtin,
		odd_hear *hear, void *context)
{
	const struct field *days = fields_find(rule_fields, "refer_within_"
							    "days");
	struct cutoff usual = depth_cutoff(builtin);
	struct cutoff here = depth_cutoff(policy);

	return compare(&by_depth, here, usual,
		       tighter_depth(here, usual, builtin), hear, context) +
	       compare(&by_pressure, pressure_cutoff(policy, (int)days->most),
		       pressure_cutoff(builtin, (int)days->most), "", hear,
		       context) +
	       compare(&today_by_pressure, pressure_cutoff(policy, 0),
		       pressure_cutoff(builtin, 0), "", hear, context);
}
