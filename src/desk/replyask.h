/* replyask.h: the questions about one reply, without a terminal. */
#ifndef SHOAL_DESK_REPLYASK_H
#define SHOAL_DESK_REPLYASK_H

#include "base/day.h"
#include "base/fault.h"
#include "clinic/reply.h"

/*
 * The questions are the typed fields of reply_fields but the number, in their
 * order, each known by its index there: no list stands beside the table. Not
 * asked is what the outcome makes pointless.
 *
 * Answers are what a screener's are (see form.h): a number key or the word, "-"
 * to take back, Enter to keep. Within an eye "=" answers the rest of a quadrant
 * as in the quadrant before it; "==" goes on to the eye's last quadrant. In the
 * left eye's first quadrant, and in what is asked once of it, they repeat the
 * right eye, each quadrant its own.
 */
enum { REPLY_ASK_MOST = 80 };

struct reply_form {
	struct reply reply; /* as typed; see reply_ask_settle */
	struct day today;   /* offered as the day on which it was learnt that
			       somebody did not come */
	struct day screened_on; /* none = not known */
	bool answered[REPLY_ASK_MOST];
};

/* A form of that number with nothing in it; one filled with a kept reply. */
void reply_ask_init(struct reply_form *form, struct refnum number,
		    struct day today);
void reply_ask_load(struct reply_form *form, const struct reply *reply,
		    struct day today);

/* The functions of a dialog (see dialog.h); `form` is a reply_form. */
int reply_ask_next(const struct reply_form *form, int question);
int reply_ask_back(const struct reply_form *form, int question);
bool reply_ask_is_open(const struct reply_form *form, int question);
void reply_ask_show(const struct reply_form *form, int question, char *shown);
bool reply_ask_answer(struct reply_form *form, int *question, const char *text,
		      struct fault *why);

/* A quadrant, and what is asked once of an eye, have a line of the summary
 * each. */
int reply_ask_line_end(int question);
void reply_ask_line(const struct reply_form *form, int question, char *label,
		    char *shown);

/* The reply as it is to be kept: without answers to what is not asked. */
void reply_ask_settle(const struct reply_form *form, struct reply *reply);

#endif
