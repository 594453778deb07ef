/* missed.h: what the clinic confirmed, against what two policies say. */
#ifndef SHOAL_DESK_MISSED_H
#define SHOAL_DESK_MISSED_H

#include "base/fault.h"
#include "clinic/decide.h"
#include "desk/desk.h"

/* "  new:      shallow, both-eyes": the rules that decided, most important
 * first, wrapped. */
void missed_write_rules(const struct desk *desk, const char *label,
			const struct policy *policy,
			const struct decision *decision);

/*
 * Writes which angle closures the clinic confirmed in people whom the policy in
 * force, or `other`, does not refer: each by number with the depths and the
 * rules; then how many, and how many suspects. The class is derived by the
 * policy in force for both; a person counts by the least it can be. One line
 * when the register has no reply of somebody seen.
 */
bool missed_write(struct desk *desk, const struct policy *other,
		  struct fault *why);

#endif
