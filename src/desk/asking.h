/* asking.h: what both fronts of screening ask in lines. */
#ifndef SHOAL_DESK_ASKING_H
#define SHOAL_DESK_ASKING_H

#include "desk/ask.h"
#include "desk/session.h"

/* Each ends answered, with "<", or at the end of input. */

/* The grader's initials; those there are shown as the answer to Enter. */
enum ask_result asking_grader(const struct asker *asker,
			      struct session *session);

/*
 * Whether today is the day that the clock says, else the day itself, which then
 * counts as given. It says why it is asked: the day on which the last person
 * was screened, none when there is nobody. Enter is no answer, since a flat
 * battery would date a whole day wrong; a typed day is read back, and asked
 * about when it does not fit to the last person's.
 */
enum ask_result asking_day(const struct asker *asker, struct desk *desk,
			   struct day last);

/* The same when the clock has jumped during the day; false at the end of
 * input. */
bool asking_jump(const struct asker *asker, struct desk *desk,
		 struct day before);

/*
 * Offers the unfinished person of before, if there is one; `*found` when the
 * form is now filled with it. One that is not wanted is gone, after a question
 * of its own unless the person seems to be saved.
 */
enum ask_result asking_draft(const struct asker *asker, struct session *session,
			     struct form *form, bool *found);

/* Whether to drop the person, or to finish although the person cannot be kept
 * until the next start; for who has to go today that is said first. Enter keeps
 * the person. */
enum ask_result asking_drop(const struct asker *asker, const struct desk *desk,
			    const struct form *form, bool *drops);
enum ask_result asking_finish(const struct asker *asker,
			      const struct desk *desk, const struct form *form,
			      bool *finishes);

/* What became of the person in the form when screening ended; nothing when
 * nobody was begun. */
void asking_tell_left(const struct asker *asker, const struct session *session,
		      const struct form *form);

#endif
