/* onescreen.h: screening on one screen, person after person. */
#ifndef SHOAL_DESK_ONESCREEN_H
#define SHOAL_DESK_ONESCREEN_H

#include "desk/ask.h"
#include "desk/session.h"
#include "desk/stage.h"

/*
 * Takes the terminal over until it ends; the terminal is then as before.
 * `*found` says that `form` holds an unfinished person to begin with, and
 * afterwards, with STAGE_LINES, that it holds one for the prompts. `why`
 * is then why the terminal cannot be used. With STAGE_ASKED `*asked` is the
 * signal; the unfinished person is in the draft.
 */
enum stage_outcome onescreen(struct session *session, const struct asker *asker,
			     struct form *form, bool *found, int *asked,
			     struct fault *why);

#endif
