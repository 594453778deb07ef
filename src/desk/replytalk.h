/* replytalk.h: a reply from the clinic, asked line by line. */
#ifndef SHOAL_DESK_REPLYTALK_H
#define SHOAL_DESK_REPLYTALK_H

#include "clinic/reply.h"
#include "desk/desk.h"
#include "desk/dialog.h"
#include "desk/replyask.h"

/* What a systematic examination needs, and how to answer. */
void reply_talk_begin(const struct asker *asker);

/*
 * Asks the questions of the form, says at once what else an answer asks the
 * examiner to look for in this person, and ends with the summary: every answer,
 * the class that follows from them with its rule, and what to look for. What
 * is to be kept is then left in form->reply, and can be kept.
 */
enum dialog_end reply_talk(struct desk *desk, const struct asker *asker,
			   const struct visit *visit, struct reply_form *form,
			   bool from_summary);

/* The class of each eye and its rule; nothing for somebody not seen. */
void reply_talk_class(const struct policy *policy, const struct reply *reply,
		      int columns, FILE *out);

#endif
