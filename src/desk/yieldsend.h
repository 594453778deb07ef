/* yieldsend.h: the yield files for the programme. */
#ifndef SHOAL_DESK_YIELDSEND_H
#define SHOAL_DESK_YIELDSEND_H

#include "base/day.h"
#include "base/fault.h"
#include "desk/desk.h"

/*
 * Writes yield-SSSS-YYYY-MM-rN.csv into `folder`, one per month that has a day
 * from `from` to `to` (none = the first, the last for which anybody was ever
 * entered), each with the whole month; see counts/yieldrows.h. A month all of
 * whose people are void or were moved since has a file of zeros, which takes
 * the place of an earlier one. The revisions are kept in the register, which is
 * open for writing. Says on the talk stream which.
 */
bool yieldsend_write(struct desk *desk, struct day from, struct day to,
		     const char *folder, struct fault *why);

#endif
