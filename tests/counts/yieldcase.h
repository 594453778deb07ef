/* yieldcase.h: people screened and replies about them, for tests. */
#ifndef SHOAL_TESTS_COUNTS_YIELDCASE_H
#define SHOAL_TESTS_COUNTS_YIELDCASE_H

#include "base/text.h"
#include "counts/yield.h"

#include <criterion/criterion.h>
#include <stdlib.h>

/* 1 March 2026. */
enum { CASE_DAY = 20513 };

/* A person and what the clinic wrote; `person` points at the others. */
struct yieldcase {
	struct visit visit;
	struct reply reply;
	struct policy policy;
	struct yield_person person;
};

/* Screened on CASE_DAY, sent to be seen within 30 days; no reply; 60 days
 * have passed. Two quadrants hidden count, a pressure of 22 is raised. */
static inline void
case_begin(struct yieldcase *one, int serial)
{
	struct visit *visit = &one->visit;

	visit_init(visit);
	visit->number = (struct refnum){14, serial};
	visit->screened_on = (struct day){CASE_DAY};
	visit->see_by = day_plus_days(visit->screened_on, 30);
	visit->depth_right = DEPTH_25;
	visit->depth_left = DEPTH_100;
	visit->urgency = URGENCY_ROUTINE;
	visit->state = STATE_CURRENT;
	text_copy(visit->site, sizeof visit->site, "Mavi school");
	text_copy(visit->grader, sizeof visit->grader, "NT");
	text_copy(visit->rules, sizeof visit->rules, "shallow;borderline");
	text_copy(visit->policy, sizeof visit->policy, "ABCDEF");
	reply_init(&one->reply);
	policy_init(&one->policy);
	one->policy.hidden_quadrants = 2;
	one->policy.pressure_raised_at_or_above_mmhg = 22;
	one->person = (struct yield_person){
		.visit = visit,
		.policy = &one->policy,
		.today = day_plus_days(visit->screened_on, 60)};
}

/* A reply: came on that day after the screening. `found` is o, s, c, g for the
 * classes, n for narrow but not known which, ? for nothing examined. */
static inline void
case_came(struct yieldcase *one, int day, char found)
{
	struct reply *reply = &one->reply;
	int deepest = found == '?'   ? STRUCTURE_NOT_EXAMINED
		      : found == 'o' ? STRUCTURE_CILIARY_BODY_BAND
				     : STRUCTURE_NONE;

	reply_init(reply);
	reply->number = one->visit.number;
	reply->outcome = OUTCOME_ATTENDED;
	reply->seen_on = day_plus_days(one->visit.screened_on, day);
	one->person.reply = reply;
	for (int eye = 0; eye < EYE_COUNT; eye++) {
		for (int i = 0; i < QUADRANT_COUNT; i++) {
			reply->deepest[eye][i] = deepest;
			if (found != '?' && found != 'n')
				reply->synechiae[eye][i] = ANSWER_NO;
		}
		if (found == '?' || found == 'n')
			continue;
		reply->pressure[eye] = found == 'c' || found == 'g' ? 30 : 15;
		reply->disc[eye] = found == 'g' ? HEALTH_GLAUCOMA
						: HEALTH_NORMAL;
	}
}

/* A reply that tells of no examination. */
static inline void
case_absent(struct yieldcase *one, enum reply_outcome outcome, int why_not)
{
	struct reply *reply = &one->reply;

	reply_init(reply);
	reply->number = one->visit.number;
	reply->outcome = outcome;
	reply->why_not = why_not;
	reply->seen_on = day_plus_days(one->visit.screened_on, 20);
	one->person.reply = reply;
}

static inline void
case_never_told(void *context, const struct fault *one)
{
	(void)context;
	cr_assert_fail("told: %s", one->sentence);
}

/* Counts somebody of whom nothing is told. */
static inline void
case_add(struct yield *yield, const struct yieldcase *one)
{
	struct fault why;

	cr_assert(yield_add(yield, &one->person, case_never_told, NULL, &why),
		  "%s", why.sentence);
}

/* To be freed. */
static inline struct yield *
new_yield(void)
{
	struct yield *yield = malloc(sizeof *yield);

	cr_assert_not_null(yield);
	yield_init(yield);
	return yield;
}

/* Adds `many` people of whom nothing but the outcome differs. */
static inline void
add_many(struct yield *yield, struct yieldcase *one, int many)
{
	for (int i = 0; i < many; i++)
		case_add(yield, one);
}

#endif
