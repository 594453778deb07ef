/* waiting.h: who was sent to the clinic and has no reply yet. */
#ifndef SHOAL_DESK_WAITING_H
#define SHOAL_DESK_WAITING_H

#include "base/fault.h"
#include "clinic/visit.h"
#include "desk/desk.h"

/* `days_over` is how many days ago the person was to be seen, 0 = not overdue.
 * False stops and hands its fault up. */
typedef bool waiting_see(void *context, const struct visit *visit,
			 int days_over, struct fault *why);

/*
 * Everybody who was referred, or chosen for verification, is not void and has
 * no reply: by the day by which they were to be seen, the longest overdue
 * first, those without such a day last; within a day by number.
 */
bool waiting_visit(struct desk *desk, waiting_see *see, void *context,
		   struct fault *why);

#endif
