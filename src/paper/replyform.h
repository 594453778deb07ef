/* replyform.h: what the clinic is asked on the reply, question by question. */
#ifndef SHOAL_PAPER_REPLYFORM_H
#define SHOAL_PAPER_REPLYFORM_H

#include <stdbool.h>
#include <stddef.h>

/*
 * The reply is filled in at the slit lamp in under a minute: boxes to tick and
 * a few short lines. The table below is all of it; the forms are loops over
 * it. "Not examined" and "could not see" are two answers, neither of them
 * normal. All texts are keys of the wording.
 */
enum reply_scope {
	REPLY_VISIT,	/* asked once, before the eyes */
	REPLY_QUADRANT, /* asked of each quadrant of each eye */
	REPLY_EYE,	/* asked of each eye */
	REPLY_END	/* asked once, after the eyes */
};

enum { REPLY_OPTIONS_MOST = 8, REPLY_QUADRANTS = 4 };

struct reply_question {
	const char *key;
	enum reply_scope scope;
	bool has_line; /* a line to write on, after the boxes */
	const char *option[REPLY_OPTIONS_MOST]; /* NULL after the last */
};

extern const struct reply_question reply_questions[];
extern const size_t reply_question_count;

/* The quadrants in the order of their columns. */
extern const char *const reply_quadrants[REPLY_QUADRANTS];

#endif
