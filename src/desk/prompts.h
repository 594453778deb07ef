/* prompts.h: screening at the keyboard, one question a line. */
#ifndef SHOAL_DESK_PROMPTS_H
#define SHOAL_DESK_PROMPTS_H

#include "desk/ask.h"
#include "desk/session.h"

/* Person after person until the nurse finishes or the input ends; `draft` (or
 * NULL) is an unfinished person to begin with. False: with `why`. */
bool prompts_screen(struct session *session, const struct asker *asker,
		    const struct form *draft, struct fault *why);

#endif
