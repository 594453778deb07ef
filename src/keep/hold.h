/* hold.h: who may have the register of a folder open. */
#ifndef SHOAL_KEEP_HOLD_H
#define SHOAL_KEEP_HOLD_H

#include "base/fault.h"

#include <stdbool.h>

/*
 * Whoever writes into a register holds its folder together with others;
 * whoever puts another file in its place holds it alone. Without that a
 * program that has the old file open would go on saving into it, where nobody
 * looks any more. The hold is an flock on the folder of slips, which every
 * station has, so that nothing is left behind by a program that is killed (the
 * station's own folder is locked by who keeps a draft). Reading needs none.
 */
enum hold_how { HOLD_TOGETHER, HOLD_ALONE };

/* `*hold` is the hold plus what makes 0 mean none. False (FAULT_REGISTER) only
 * when another program has it otherwise: where there is nothing to hold, who
 * opens the register tells what is wrong. */
bool hold_take(const char *folder, enum hold_how how, int *hold,
	       struct fault *why);
void hold_end(int *hold);

#endif
