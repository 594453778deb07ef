/* cover.h: which rules hold whenever another one does. */
#ifndef SHOAL_CLINIC_COVER_H
#define SHOAL_CLINIC_COVER_H

#include "clinic/policy.h"

/*
 * Compares what rules ask for, over everything that a record can hold: a grade
 * for each eye (or could not be graded, or no other eye), a pressure measured
 * or not, an age known or not, and any findings, where severe_eye_pain comes
 * with eye_pain, a finding of the person is seen from both eyes, and
 * only_seeing_eye of one eye is not_seeing of the other.
 *
 * The parts of a record are free of each other, and a rule is a condition on
 * each part, so one rule implies another exactly when it does so part by part.
 * The answers are exact for rules without a fault (see policycheck.h), but for
 * one with so many findings that they can be met in thousands of ways, which is
 * taken to imply none and to hold for somebody. A rule that only several others
 * together imply is implied by none of them.
 */

/* Whether any record meets the rule's findings: severe_eye_pain cannot be
 * there when eye_pain is excluded, for example. Its other conditions can
 * always be met. */
bool rule_can_hold(const struct rule *rule);

/* Whether `other` holds for an eye whenever `one` holds for that eye. */
bool rule_implies(const struct rule *one, const struct rule *other);

/* Whether the outcome of `one` is at least as urgent: fewer or as many days,
 * a referral before a re-screening, fewer or as many months. */
bool rule_is_as_urgent(const struct rule *one, const struct rule *other);

/* Whether `one` can never decide without `other`: it implies `other`, which is
 * at least as urgent. */
bool rule_is_covered(const struct rule *one, const struct rule *other);

#endif
