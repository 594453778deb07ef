/* asking.h: what both fronts of screening ask in lines. */
#ifndef SHOAL_DESK_ASKING_H
#define SHOAL_DESK_ASKING_H

#include "desk/ask.h"
#include "desk/session.h"

/* Each is false at the end of input. */

/* The grader's initials; those there are shown as the answer to Enter. */
bool asking_grader(const struct asker *asker, struct session *session);

/* Whether today is the day that the clock says, else the day itself, which then
 * counts as given. */
bool asking_day(const struct asker *asker, struct desk *desk);

/* Offers the unfinished person of before, if there is one; `*found` when the
 * form is now filled with it. One that is not wanted is gone. */
bool asking_draft(const struct asker *asker, struct session *session,
		  struct form *form, bool *found);

#endif
