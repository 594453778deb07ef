/* odd.h: what is not wrong in a policy, but worth a look. */
#ifndef SHOAL_CLINIC_ODD_H
#define SHOAL_CLINIC_ODD_H

#include "clinic/cutoffs.h"
#include "clinic/policy.h"

/*
 * Looks at a policy without a fault and tells, one sentence each:
 *  - no eye doctor has approved it;
 *  - it does not say how the clinic's replies are classed;
 *  - a rule that no record can meet, or that every eye meets;
 *  - a rule that never decides by itself, because another one always holds
 *    with it and is at least as urgent (see rule_is_covered);
 *  - a rule that screens again later than when no rule holds;
 *  - rules of the built-in policy that refer, and which no rule of this one
 *    makes up for: those of the same day first;
 *  - more days that are called urgent than in the built-in policy;
 *  - cut-offs that differ from those of the guidelines (see cutoffs_compare);
 *  - findings that can make the answer less urgent, because they switch rules
 *    off and no other rule makes up for it, and rules through which a
 *    shallower grade of one eye can;
 *  - findings that by themselves change nothing, for a person with the deepest
 *    chambers, no pressure measured and any age that is known, unless the
 *    policy lists them in weighs_only_with_others; and those listed there that
 *    do change something.
 *
 * `builtin` is the policy compiled in. Returns how many sentences were told.
 */
int policy_tell_oddities(const struct policy *policy,
			 const struct policy *builtin, odd_hear *hear,
			 void *context);

#endif
