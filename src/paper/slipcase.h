/* slipcase.h: what kind of case a slip is about. */
#ifndef SHOAL_PAPER_SLIPCASE_H
#define SHOAL_PAPER_SLIPCASE_H

#include "paper/slip.h"

/* Questions about the person of a slip on which its words depend. */

bool slip_is_referred(const struct slip *slip);
bool slip_is_same_day(const struct slip *slip);

/* Nothing refers, but the policy chose the person by number for a check of the
 * screening (policy_verifies). */
bool slip_is_check(const struct slip *slip);

/* Referred or chosen: somebody whom the clinic is to see. */
bool slip_is_sent(const struct slip *slip);

/* A chamber is shallow when its depth meets the depth condition of some rule
 * of the policy that refers, whatever else that rule asks; "normal" when it
 * was graded and is not shallow. No number of its own. */
bool slip_has_shallow_eye(const struct slip *slip);
bool slip_has_normal_eye(const struct slip *slip);
bool slip_has_eye_not_graded(const struct slip *slip);

/* Either eye has the finding. */
bool slip_has_eye_with(const struct slip *slip, enum finding finding);

/* The eye is there and its pressure was not measured; no pressure at all. */
bool slip_lacks_pressure(const struct slip *slip, enum eye eye);
bool slip_lacks_pressures(const struct slip *slip);

#endif
