/* interview.h: a person's form, asked line by line. */
#ifndef SHOAL_DESK_INTERVIEW_H
#define SHOAL_DESK_INTERVIEW_H

#include "desk/ask.h"
#include "desk/desk.h"
#include "desk/dialog.h"
#include "desk/form.h"
#include "desk/session.h"

/*
 * Asks the questions of the form in order, says at once when the person must
 * be sent today, shows a likely twin, and ends with a summary: decision,
 * reasons and every answer, each open to correction, before anything is kept.
 * `from_summary` begins at the summary (for correcting a kept person). Each
 * answer is put aside in the session's draft; NULL keeps none.
 */
enum dialog_end interview(struct desk *desk, const struct asker *asker,
			  struct form *form, struct session *session,
			  bool from_summary);

/* How to ask on this desk. */
struct asker interview_asker(const struct desk *desk);

#endif
