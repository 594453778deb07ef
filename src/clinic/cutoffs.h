/* cutoffs.h: a policy's main cut-offs beside those of the built-in policy. */
#ifndef SHOAL_CLINIC_CUTOFFS_H
#define SHOAL_CLINIC_CUTOFFS_H

#include "clinic/policy.h"

/* Told one thing that is worth a look: a sentence in lower case without a full
 * stop, its subject in single quotes. It may name all rules of a policy, so it
 * can be longer than that of a fault. */
typedef void odd_hear(void *context, const char *sentence);

/*
 * Compares what refers by itself, with no finding, age or second measure
 * needed: the deepest grade that is referred, the lowest pressure that is
 * referred, and the lowest that is referred the same day. The figures to
 * compare with are those of the built-in policy, whose file names their
 * sources, as the sentences do: for the depth the Cochrane review of 2020
 * (Jindal and others, CD012947) and the Scottish community eye guideline 6.3
 * (both: at or below), the UK joint colleges (below) and Foster and others
 * 2000 (its cut-off for angle closure glaucoma); for the pressure NICE NG81;
 * for the same day the College of Optometrists' "Urgency of referrals" (C205).
 *
 * Tells each that is looser, tighter or not there at all; returns how many.
 */
int cutoffs_compare(const struct policy *policy, const struct policy *builtin,
		    odd_hear *hear, void *context);

/*
 * For each grade the rule whose cut-off it is: the deepest that a rule refers
 * by depth alone, with no finding, age or pressure needed; NULL for a grade
 * that is no cut-off. Of two rules with one cut-off the sooner. The rules live
 * as long as the policy.
 */
void cutoffs_by_depth(const struct policy *policy,
		      const struct rule *at[DEPTH_GRADES]);

#endif
