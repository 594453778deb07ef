/* test_cover.c: which rules hold whenever another one does. */
#include "clinic/cover.h"

#include "clinic/decide.h"
#include "clinic/policycheck.h"
#include "clinic/visit.h"

#include <criterion/criterion.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* ---- a small world, gone through record by record ------------------------ */

/* Every grade of both eyes; a pressure and an age not known, and on either
 * side of every limit that the rules below have; every set of four findings
 * that a record can hold. */
static const int pressures[] = {FIELD_BLANK, 21, 22, 30};
static const int ages[] = {FIELD_BLANK, 39, 40};
static const enum finding of_person[] = {EYE_PAIN, SEVERE_EYE_PAIN};
static const enum finding of_eye[] = {RED_EYE, NOT_SEEING};

enum {
	DEPTHS = DEPTH_NO_EYE + 1,
	PRESSURES = sizeof pressures / sizeof pressures[0],
	AGES = sizeof ages / sizeof ages[0],
	PERSONS = 4, /* sets of person's findings */
	EYES = 4,    /* of an eye's */
	RECORDS = DEPTHS * DEPTHS * PRESSURES * AGES * PERSONS * EYES * EYES,
	RULES = 160,
	WORDS = (RECORDS + 63) / 64
};

static finding_set
take(const enum finding *from, int which)
{
	return ((which & 1) != 0 ? finding_bit(from[0]) : 0) |
	       ((which & 2) != 0 ? finding_bit(from[1]) : 0);
}

/* The record of that number; false when no record can be so. The left eye has
 * no pressure: no rule tried on the right one looks at it. */
static bool
record_at(int number, struct visit *visit)
{
	struct fault why;

	visit->depth_right = (enum depth)(number % DEPTHS);
	number /= DEPTHS;
	visit->depth_left = (enum depth)(number % DEPTHS);
	number /= DEPTHS;
	visit->pressure_right = pressures[number % PRESSURES];
	number /= PRESSURES;
	visit->age_years = ages[number % AGES];
	number /= AGES;
	visit->findings.person = take(of_person, number % PERSONS);
	number /= PERSONS;
	visit->findings.eye[EYE_RIGHT] = take(of_eye, number % EYES);
	number /= EYES;
	visit->findings.eye[EYE_LEFT] = take(of_eye, number % EYES);
	return visit->findings.person != finding_bit(SEVERE_EYE_PAIN) &&
	       visit_check(visit, &why);
}

/* Numbers that look drawn by lot, the same at every run. */
static int
draw(uint32_t *lot, int most)
{
	*lot = *lot * 1664525U + 1013904223U;
	return (int)((*lot >> 16) % (uint32_t)most);
}

static finding_set
draw_set(uint32_t *lot)
{
	static const enum finding any[] = {EYE_PAIN, SEVERE_EYE_PAIN, RED_EYE,
					   NOT_SEEING, ONLY_SEEING_EYE};
	finding_set set = 0;

	if (draw(lot, 4) != 0)
		return 0;
	for (int i = 0; i < 5; i++)
		if (draw(lot, 2) == 0)
			set |= finding_bit(any[i]);
	return set;
}

static void
draw_numbers(uint32_t *lot, struct rule *rule)
{
	static const int steps[] = {1, 2, 4, 6};

	if (draw(lot, 3) == 0)
		rule->depth_at_or_below_percent = (enum depth)draw(lot, 7);
	else if (draw(lot, 4) == 0)
		rule->depth_below_percent = (enum depth)(1 + draw(lot, 6));
	if (draw(lot, 2) == 0)
		rule->not_gradable_counts = draw(lot, 2);
	if (draw(lot, 6) == 0)
		rule->not_gradable = draw(lot, 2);
	if (draw(lot, 5) == 0)
		rule->unequal_steps_at_or_above = steps[draw(lot, 4)];
	if (draw(lot, 5) == 0)
		rule->pressure_at_or_above_mmhg = 22 + 8 * draw(lot, 2);
	else if (draw(lot, 6) == 0)
		rule->pressure_above_mmhg = 21 + 8 * draw(lot, 2);
	if (draw(lot, 5) == 0)
		rule->age_at_or_above_years = 40;
	else if (draw(lot, 5) == 0)
		rule->age_below_years = 40;
}

static void
hear_nothing(void *context, const struct fault *one)
{
	(void)context;
	(void)one;
}

/* A rule without a fault. */
static void
draw_rule(uint32_t *lot, struct rule *rule)
{
	do {
		rule_init(rule);
		rule->refer_within_days = draw(lot, 4);
		draw_numbers(lot, rule);
		rule->all_of = draw_set(lot);
		rule->any_of = draw_set(lot);
		rule->two_of = draw_set(lot);
		rule->none_of = draw_set(lot);
		rule->other_eye_any_of = draw_set(lot);
		rule->other_eye_none_of = draw_set(lot);
	} while (rule_check(rule, hear_nothing, NULL) > 0);
}

static struct rule rule[RULES];
static uint64_t held[RULES][WORDS]; /* for which records */

static void
go_through_all_records(void)
{
	static struct visit visit;
	uint32_t lot = 20260310;

	visit_init(&visit);
	for (int i = 0; i < RULES; i++)
		draw_rule(&lot, &rule[i]);
	memset(held, 0, sizeof held);
	for (int r = 0; r < RECORDS; r++) {
		if (!record_at(r, &visit))
			continue;
		for (int i = 0; i < RULES; i++)
			if (rule_holds(&rule[i], &visit, EYE_RIGHT))
				held[i][r / 64] |= (uint64_t)1 << (r % 64);
	}
}

static bool
holds_never(int one)
{
	for (int w = 0; w < WORDS; w++)
		if (held[one][w] != 0)
			return false;
	return true;
}

static bool
holds_within(int one, int other)
{
	for (int w = 0; w < WORDS; w++)
		if ((held[one][w] & ~held[other][w]) != 0)
			return false;
	return true;
}

/* The whole theory against every record there can be: nothing is said to
 * imply another that one record contradicts, and nothing is overlooked. */
Test(cover, what_is_said_of_two_rules_is_so_for_every_record)
{
	int implied = 0, not_implied = 0, never = 0;

	go_through_all_records();
	for (int i = 0; i < RULES; i++) {
		bool can_hold = rule_can_hold(&rule[i]);

		cr_expect_eq(can_hold, !holds_never(i), "rule %d", i);
		never += !can_hold;
		for (int j = 0; j < RULES && can_hold; j++) {
			bool so = holds_within(i, j);

			if (i == j)
				continue;
			implied += so;
			not_implied += !so;
			cr_expect_eq(rule_implies(&rule[i], &rule[j]), so,
				     "rules %d and %d", i, j);
		}
	}
	/* The lot must have drawn enough of each kind. */
	cr_expect_gt(implied, 200, "only %d", implied);
	cr_expect_gt(not_implied, 10000, "only %d", not_implied);
	cr_expect_gt(never, 3, "only %d", never);
}

/* What it is for: a covered rule can be taken out of a policy, and nobody is
 * seen later. */
Test(cover, without_a_covered_rule_nobody_is_seen_later)
{
	enum { PAIRS = 12, STRIDE = 7 };
	static struct policy both, one;
	static struct decision with, without;
	static struct visit visit;
	int pairs = 0, decided = 0;

	go_through_all_records();
	visit_init(&visit);
	policy_init(&both);
	policy_init(&one);
	both.rescreen_months = one.rescreen_months = 24;
	both.rule_count = 2;
	one.rule_count = 1;
	for (int n = 0; n < RULES * RULES && pairs < PAIRS; n++) {
		int i = n * 37 % RULES, j = n / RULES;

		if (i == j || !rule_can_hold(&rule[i]) ||
		    !rule_is_covered(&rule[i], &rule[j]))
			continue;
		pairs++;
		both.rule[0] = rule[i];
		both.rule[1] = one.rule[0] = rule[j];
		for (int r = 0; r < RECORDS; r += STRIDE) {
			if (!record_at(r, &visit))
				continue;
			decide(&both, &visit, &with);
			decide(&one, &visit, &without);
			decided += with.count == 2;
			cr_expect_eq(with.within_days, without.within_days,
				     "rules %d and %d, record %d", i, j, r);
		}
	}
	cr_expect_eq(pairs, PAIRS);
	cr_expect_gt(decided, 0);
}

/* ---- by name ------------------------------------------------------------- */

/* "key=value key=value", '+' for ", ". */
static void
fill(struct rule *filled, const char *pairs)
{
	char text[FIELD_TEXT_SIZE], *at = text;
	struct fault why = {0};

	rule_init(filled);
	snprintf(text, sizeof text, "%s", pairs);
	while (*at != '\0') {
		char *end = at + strcspn(at, " "), *value = strchr(at, '=');
		char *next = *end == '\0' ? end : end + 1;
		const struct field *field;

		*end = '\0';
		*value++ = '\0';
		for (char *plus = value; *plus != '\0'; plus++)
			if (*plus == '+')
				*plus = ',';
		field = fields_find(rule_fields, at);
		cr_assert_not_null(field, "%s", at);
		cr_assert(field_read(field, value, filled, &why), "%s",
			  why.sentence);
		at = next;
	}
}

static const struct {
	const char *one, *other;
	bool implies, implied;
} pairs[] = {
	{"all_of=severe_eye_pain", "all_of=eye_pain", true, false},
	{"none_of=eye_pain all_of=red_eye",
	 "none_of=severe_eye_pain all_of=red_eye", true, false},
	{"two_of=eye_pain+nausea+haloes", "any_of=eye_pain+nausea+haloes", true,
	 false},
	{"two_of=eye_pain+nausea", "all_of=eye_pain+nausea", true, true},
	{"two_of=eye_pain+severe_eye_pain", "all_of=severe_eye_pain", true,
	 true},
	{"two_of=eye_pain+nausea+haloes", "any_of=eye_pain+nausea", true,
	 false},
	{"any_of=injury+eye_operation none_of=injury", "all_of=eye_operation",
	 true, false},
	{"other_eye_any_of=not_seeing", "all_of=only_seeing_eye", true, true},
	{"other_eye_any_of=nausea", "all_of=nausea", true, true},
	{"other_eye_any_of=past_attack", "all_of=past_attack", false, false},
	{"depth_at_or_below_percent=15", "depth_below_percent=25", true, true},
	{"depth_at_or_below_percent=25", "depth_below_percent=25", false, true},
	{"depth_at_or_below_percent=25 not_gradable_counts=yes",
	 "depth_at_or_below_percent=25", false, true},
	{"not_gradable=yes",
	 "depth_at_or_below_percent=0 not_gradable_counts=yes", true, false},
	{"unequal_steps_at_or_above=2", "unequal_steps_at_or_above=3", false,
	 true},
	{"unequal_steps_at_or_above=1", "depth_at_or_below_percent=100", true,
	 false},
	{"pressure_above_mmhg=21", "pressure_at_or_above_mmhg=22", true, true},
	{"pressure_above_mmhg=22", "pressure_at_or_above_mmhg=22", true, false},
	{"pressure_at_or_above_mmhg=1", "all_of=red_eye", false, false},
	{"age_below_years=40", "age_below_years=41", true, false},
	{"age_at_or_above_years=40 age_below_years=50", "age_below_years=50",
	 true, false},
	{"age_at_or_above_years=120", "age_at_or_above_years=119", true, false},
	/* Too many ways of meeting the first to try them all. */
	{"any_of=eye_pain+nausea+haloes+injury+red_eye+iridotomy+odd_pupil "
	 "two_of=eye_pain+nausea+haloes+injury+red_eye+iridotomy+odd_pupil "
	 "other_eye_any_of=eye_pain+nausea+haloes+injury+red_eye+iridotomy",
	 "any_of=eye_pain+nausea+haloes+injury+red_eye+iridotomy+odd_pupil",
	 false, false},
};

Test(cover, stricter_conditions_imply_weaker_ones)
{
	for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
		struct rule one, other;

		fill(&one, pairs[i].one);
		fill(&other, pairs[i].other);
		cr_expect_eq(rule_implies(&one, &other), pairs[i].implies,
			     "row %zu", i);
		cr_expect_eq(rule_implies(&other, &one), pairs[i].implied,
			     "row %zu, the other way round", i);
	}
}

static const struct {
	const char *conditions;
	bool can_hold;
} meetable[] = {
	{"all_of=severe_eye_pain none_of=eye_pain", false},
	{"all_of=eye_pain none_of=severe_eye_pain", true},
	{"any_of=severe_eye_pain+nausea none_of=eye_pain", true},
	{"two_of=severe_eye_pain+nausea none_of=eye_pain", false},
	{"all_of=nausea other_eye_none_of=nausea", false},
	{"all_of=red_eye other_eye_none_of=red_eye", true},
	{"all_of=only_seeing_eye other_eye_none_of=not_seeing", false},
	{"other_eye_any_of=only_seeing_eye none_of=not_seeing", false},
	{"all_of=only_seeing_eye+not_seeing", true},
};

Test(cover, findings_that_exclude_each_other_are_seen)
{
	for (size_t i = 0; i < sizeof meetable / sizeof meetable[0]; i++) {
		struct rule filled;

		fill(&filled, meetable[i].conditions);
		cr_expect_eq(rule_can_hold(&filled), meetable[i].can_hold,
			     "row %zu", i);
	}
}

static const struct {
	const char *one, *other;
	bool at_least;
} outcomes[] = {
	{"refer_within_days=0", "refer_within_days=1", true},
	{"refer_within_days=1", "refer_within_days=1", true},
	{"refer_within_days=2", "refer_within_days=1", false},
	{"refer_within_days=365", "rescreen_within_months=1", true},
	{"rescreen_within_months=1", "refer_within_days=365", false},
	{"rescreen_within_months=6", "rescreen_within_months=12", true},
	{"rescreen_within_months=12", "rescreen_within_months=12", true},
	{"rescreen_within_months=12", "rescreen_within_months=6", false},
};

Test(cover, a_referral_comes_before_a_rescreening)
{
	for (size_t i = 0; i < sizeof outcomes / sizeof outcomes[0]; i++) {
		struct rule one, other;

		fill(&one, outcomes[i].one);
		fill(&other, outcomes[i].other);
		cr_expect_eq(rule_is_as_urgent(&one, &other),
			     outcomes[i].at_least, "row %zu", i);
	}
}
