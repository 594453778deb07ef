/* undo.h: taking back the entry of a person. */
#ifndef SHOAL_DESK_UNDO_H
#define SHOAL_DESK_UNDO_H

#include "desk/desk.h"
#include "desk/session.h"

/* Makes the entry void, with the reason; `entry` is the one that was shown.
 * The number is never given out again. */
bool undo_entry(struct desk *desk, const struct visit *visit, long long entry,
		const char *reason, struct fault *why);

/*
 * Writes the slip's files of a void entry anew, as a paper that says that it is
 * not valid, so that the earlier one is not printed again. The files stay:
 * their names tell a register that is restored or mended which numbers were
 * given out. The fault says that the entry is void nevertheless.
 */
bool undo_write_slips(struct desk *desk, const struct visit *visit,
		      struct fault *why);

/* Why somebody is taken back right after saving, each with a number key. */
enum { UNDO_REASONS = 3 };
extern const char *const undo_reasons[UNDO_REASONS];

/* The last person saved in this session, as known now. FAULT_INPUT when there
 * is none, or when it was taken back or corrected since. */
bool undo_find(struct session *session, struct visit *visit, long long *entry,
	       struct fault *why);

/* Takes that person back and counts the day anew. A slip that cannot be written
 * takes nothing back: `paper` is then why (FAULT_NONE when it was written). */
bool undo_last(struct session *session, const char *reason, struct fault *paper,
	       struct fault *why);

#endif
