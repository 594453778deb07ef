/* replies.h: the clinic's replies in the register. */
#ifndef SHOAL_KEEP_REPLIES_H
#define SHOAL_KEEP_REPLIES_H

#include "base/fault.h"
#include "base/refnum.h"
#include "clinic/reply.h"
#include "clinic/visit.h"
#include "keep/book.h"
#include "keep/lookup.h"

/*
 * As with people (register.h), rows are only added: a correction or a void is
 * a new entry that names the one before it and says why, and the last entry of
 * a number is the reply as known now. A number has one reply, for the visit
 * that led to it. A register of the first form, opened for reading, has none.
 *
 * Faults as in register.h: FAULT_INPUT is something asked for that cannot be,
 * all else FAULT_REGISTER.
 */

/*
 * Saves a new reply, with STATE_CURRENT. FAULT_INPUT when the number is not in
 * the register or its person is void, when it has a reply already, or when
 * reply_check finds fault with it by the person's day of screening and
 * `today`. On failure `reply` is unchanged and the sentence begins with "NOT
 * saved". Outside of a register_begin it is one transaction of its own.
 */
bool register_save_reply(struct book *book, struct reply *reply,
			 struct day today, struct fault *why);

/* Adds a new entry with STATE_CORRECTED or STATE_VOID and the reason (1 to
 * REGISTER_REASON_MOST characters); `entry` is the entry that was shown to the
 * user: when somebody else changed it since, it is refused (FAULT_INPUT). A
 * void one may be corrected, which brings it back. */
bool register_revise_reply(struct book *book, const struct reply *reply,
			   long long entry, const char *reason,
			   struct day today, struct fault *why);

/* The reply as known now, void or not, and its entry; entry 0 and a blank
 * reply when there is none. `entry` may be NULL. */
bool register_find_reply(struct book *book, struct refnum number,
			 struct reply *reply, long long *entry,
			 struct fault *why);

/* Called per person; `reply` is NULL where there is none or it is void. False
 * stops and hands its fault up. Nothing is locked meanwhile. */
typedef bool replies_see(void *context, const struct visit *visit,
			 const struct reply *reply, struct fault *why);

/* Everybody as known now who is not void, by serial, with the reply. */
bool register_visit_replies(struct book *book, replies_see *see, void *context,
			    struct fault *why);

#endif
