/* cover.c: which rules hold whenever another one does. */
#include "clinic/cover.h"

#include "clinic/decide.h"

#include <stdint.h>

/* Everything recorded that an eye's rules can see: low half the person's and
 * this eye's findings, high half the other eye's. */
typedef uint64_t seen_set;

/* Ways of meeting a rule that are tried; a rule that a person wrote has a few
 * dozen at most. */
enum { OTHER_EYE = 32, WAYS_MOST = 2000 };

/* What a rule asks of the findings, as seen from its eye. */
struct needs {
	seen_set all;
	seen_set any;	/* one of these, unless the set is empty */
	seen_set two;	/* two of these, unless the set is empty */
	seen_set there; /* one of these: the other eye's, unless empty */
	seen_set none;	/* and none of these */
};

static finding_set
of_person(finding_set set)
{
	return set & (findings_of_group(GROUP_COMPLAINTS) |
		      findings_of_group(GROUP_RISKS));
}

static finding_set
of_eye(finding_set set)
{
	return set & (findings_of_group(GROUP_SIGNS) |
		      findings_of_group(GROUP_EYE_PAST));
}

/* What a set of findings means when it is looked for at this eye. */
static seen_set
seen_here(finding_set set)
{
	seen_set seen = of_person(set) | of_eye(set);

	if ((set & finding_bit(ONLY_SEEING_EYE)) != 0)
		seen |= (seen_set)finding_bit(NOT_SEEING) << OTHER_EYE;
	return seen;
}

/* The same looked for at the other eye. */
static seen_set
seen_there(finding_set set)
{
	seen_set seen = of_person(set) | (seen_set)of_eye(set) << OTHER_EYE;

	if ((set & finding_bit(ONLY_SEEING_EYE)) != 0)
		seen |= finding_bit(NOT_SEEING);
	return seen;
}

static int
seen_count(seen_set set)
{
	int count = 0;

	for (; set != 0; set &= set - 1)
		count++;
	return count;
}

/* The set, and what is recorded with what is in it. */
static seen_set
seen_with_implied(seen_set set)
{
	struct findings found = {0, {0, 0}};

	for (int i = 0; i < ONLY_SEEING_EYE; i++)
		if ((set & finding_bit((enum finding)i)) != 0)
			findings_add(&found, (enum finding)i, EYE_RIGHT);
	return set | found.person | found.eye[EYE_RIGHT];
}

static struct needs
needs_of(const struct rule *rule)
{
	struct needs needs = {
		.all = seen_here(rule->all_of),
		.any = seen_here(rule->any_of),
		.two = seen_here(rule->two_of),
		.there = seen_there(rule->other_eye_any_of),
		.none = seen_here(rule->none_of) |
			seen_there(rule->other_eye_none_of),
	};

	/* A finding is excluded with what would be recorded beside it. */
	for (int i = 0; i < ONLY_SEEING_EYE; i++)
		if ((seen_with_implied(finding_bit((enum finding)i)) &
		     needs.none) != 0)
			needs.none |= finding_bit((enum finding)i);
	return needs;
}

static bool
needs_are_met(const struct needs *needs, seen_set found)
{
	return (needs->all & ~found) == 0 &&
	       (needs->any == 0 || (needs->any & found) != 0) &&
	       (needs->two == 0 || seen_count(needs->two & found) >= 2) &&
	       (needs->there == 0 || (needs->there & found) != 0);
}

/* The bit at a place among those of a set; of an empty set, none. */
static seen_set
bit_at(seen_set set, long place)
{
	while (place-- > 0)
		set &= set - 1;
	return set & ~(set - 1);
}

/* How many ways there are to take one bit, or none of an empty set. */
static long
ways(seen_set set)
{
	return set == 0 ? 1 : seen_count(set);
}

/*
 * Whether `other` has what it needs in every record that meets `one`. Tries
 * each way of meeting `one` with as little as can be recorded; every record
 * that meets it holds one of these, and a further finding takes nothing away
 * that is needed. With `other` NULL: whether there is no such record. False
 * when there are too many ways to try.
 */
static bool
needs_follow(const struct needs *one, const struct needs *other)
{
	const seen_set from[] = {one->any, one->two, one->two, one->there};
	enum { PICKS = sizeof from / sizeof from[0] };
	long total = 1;

	for (int i = 0; i < PICKS; i++)
		total *= ways(from[i]);
	if (total > WAYS_MOST)
		return false;
	for (long way = 0; way < total; way++) {
		seen_set found = one->all;
		long rest = way;

		for (int i = 0; i < PICKS; i++) {
			found |= bit_at(from[i], rest % ways(from[i]));
			rest /= ways(from[i]);
		}
		found = seen_with_implied(found);
		if (needs_are_met(one, found) && (found & one->none) == 0 &&
		    (other == NULL || !needs_are_met(other, found)))
			return false;
	}
	return true;
}

static bool
findings_follow(const struct rule *one, const struct rule *other)
{
	struct needs from = needs_of(one), to = needs_of(other);

	return (to.none & ~from.none) == 0 && needs_follow(&from, &to);
}

static void
keep_depth(struct rule *bare, const struct rule *rule)
{
	rule_init(bare);
	bare->depth_at_or_below_percent = rule->depth_at_or_below_percent;
	bare->depth_below_percent = rule->depth_below_percent;
	bare->not_gradable_counts = rule->not_gradable_counts;
	bare->not_gradable = rule->not_gradable;
	bare->unequal_steps_at_or_above = rule->unequal_steps_at_or_above;
}

static bool
depths_follow(const struct rule *one, const struct rule *other)
{
	struct rule from, to;
	struct visit visit;

	keep_depth(&from, one);
	keep_depth(&to, other);
	visit_init(&visit);
	for (int i = DEPTH_0; i <= DEPTH_NO_EYE; i++) {
		visit.depth_right = (enum depth)i;
		for (int j = DEPTH_0; j <= DEPTH_NO_EYE; j++) {
			visit.depth_left = (enum depth)j;
			if (rule_holds(&from, &visit, EYE_RIGHT) &&
			    !rule_holds(&to, &visit, EYE_RIGHT))
				return false;
		}
	}
	return true;
}

static void
keep_pressure(struct rule *bare, const struct rule *rule)
{
	rule_init(bare);
	bare->pressure_at_or_above_mmhg = rule->pressure_at_or_above_mmhg;
	bare->pressure_above_mmhg = rule->pressure_above_mmhg;
}

static void
keep_age(struct rule *bare, const struct rule *rule)
{
	rule_init(bare);
	bare->age_at_or_above_years = rule->age_at_or_above_years;
	bare->age_below_years = rule->age_below_years;
}

/* Whether `to` holds wherever `from` does, over one number of the record: not
 * recorded, and every value that can be. */
static bool
numbers_follow(const struct rule *from, const struct rule *to, const char *name)
{
	const struct field *field = fields_find(visit_fields, name);
	struct visit visit;
	int *value = (int *)(void *)((char *)&visit + field->offset);

	visit_init(&visit);
	for (long i = field->least - 1; i <= field->most; i++) {
		*value = i < field->least ? FIELD_BLANK : (int)i;
		if (rule_holds(from, &visit, EYE_RIGHT) &&
		    !rule_holds(to, &visit, EYE_RIGHT))
			return false;
	}
	return true;
}

bool
rule_can_hold(const struct rule *rule)
{
	struct needs needs = needs_of(rule);

	return !needs_follow(&needs, NULL);
}

bool
rule_implies(const struct rule *one, const struct rule *other)
{
	struct rule from, to;

	if (!rule_can_hold(one))
		return true;
	if (!findings_follow(one, other) || !depths_follow(one, other))
		return false;
	keep_pressure(&from, one);
	keep_pressure(&to, other);
	if (!numbers_follow(&from, &to, "pressure_right"))
		return false;
	keep_age(&from, one);
	keep_age(&to, other);
	return numbers_follow(&from, &to, "age_years");
}

bool
rule_is_as_urgent(const struct rule *one, const struct rule *other)
{
	if (one->refer_within_days != FIELD_BLANK)
		return other->refer_within_days == FIELD_BLANK ||
		       one->refer_within_days <= other->refer_within_days;
	return other->refer_within_days == FIELD_BLANK &&
	       one->rescreen_within_months <= other->rescreen_within_months;
}

bool
rule_is_covered(const struct rule *one, const struct rule *other)
{
	return rule_is_as_urgent(other, one) && rule_implies(one, other);
}
