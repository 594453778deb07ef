/* confirm.h: what is not done by one key alone. */
#ifndef SHOAL_DESK_CONFIRM_H
#define SHOAL_DESK_CONFIRM_H

#include "desk/desk.h"
#include "desk/given.h"

/* Asks for the word to be typed, unless --yes was given; "?" explains.
 * FAULT_INPUT, "nothing was changed", for anything else and at the end of
 * input. */
bool confirm_by_word(const struct desk *desk, const struct given *given,
		     const char *word, struct fault *why);

#endif
