/* slipcase.c: what kind of case a slip is about. */
#include "paper/slipcase.h"

bool
slip_is_referred(const struct slip *slip)
{
	return slip->decision->urgency != URGENCY_NO_REFERRAL;
}

bool
slip_is_same_day(const struct slip *slip)
{
	return slip->decision->urgency == URGENCY_SAME_DAY;
}

bool
slip_is_check(const struct slip *slip)
{
	return !slip_is_referred(slip) &&
	       policy_verifies(slip->policy, slip->visit);
}

bool
slip_is_sent(const struct slip *slip)
{
	return slip_is_referred(slip) || slip_is_check(slip);
}

/* Whether a rule that refers takes a chamber of this depth for shallow. */
static bool
is_shallow(const struct policy *policy, enum depth depth)
{
	if (!depth_is_graded(depth))
		return false;
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];

		if (rule->refer_within_days == FIELD_BLANK)
			continue;
		if (rule->depth_at_or_below_percent != DEPTH_BLANK &&
		    depth <= rule->depth_at_or_below_percent)
			return true;
		if (rule->depth_below_percent != DEPTH_BLANK &&
		    depth < rule->depth_below_percent)
			return true;
	}
	return false;
}

bool
slip_has_shallow_eye(const struct slip *slip)
{
	return is_shallow(slip->policy, slip->visit->depth_right) ||
	       is_shallow(slip->policy, slip->visit->depth_left);
}

bool
slip_has_eye_not_graded(const struct slip *slip)
{
	return slip->visit->depth_right == DEPTH_NOT_GRADABLE ||
	       slip->visit->depth_left == DEPTH_NOT_GRADABLE;
}

bool
slip_has_normal_eye(const struct slip *slip)
{
	for (int i = 0; i < EYE_COUNT; i++) {
		enum depth depth = visit_depth(slip->visit, (enum eye)i);

		if (depth_is_graded(depth) && !is_shallow(slip->policy, depth))
			return true;
	}
	return false;
}

bool
slip_has_eye_with(const struct slip *slip, enum finding finding)
{
	return ((slip->visit->findings.eye[EYE_RIGHT] |
		 slip->visit->findings.eye[EYE_LEFT]) &
		finding_bit(finding)) != 0;
}

bool
slip_lacks_pressure(const struct slip *slip, enum eye eye)
{
	const struct visit *visit = slip->visit;

	return visit_depth(visit, eye) != DEPTH_NO_EYE &&
	       visit_pressure(visit, eye) == FIELD_BLANK;
}

bool
slip_lacks_pressures(const struct slip *slip)
{
	const struct visit *visit = slip->visit;

	return visit->pressure_right == FIELD_BLANK &&
	       visit->pressure_left == FIELD_BLANK;
}
