/* policycheck.h: what is wrong between the keys of a policy. */
#ifndef SHOAL_CLINIC_POLICYCHECK_H
#define SHOAL_CLINIC_POLICYCHECK_H

#include "clinic/policy.h"

/*
 * Tells everything that is wrong between the keys of one rule: no outcome or
 * two, no condition at all, two limits of one kind, limits that cannot both
 * hold, a finding that is demanded and excluded. Returns how many faults.
 */
int rule_check(const struct rule *rule, fault_hear *hear, void *context);

/* The same between the keys outside the rules. */
int policy_check(const struct policy *policy, fault_hear *hear, void *context);

#endif
