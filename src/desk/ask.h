/* ask.h: one question a line, one line an answer. */
#ifndef SHOAL_DESK_ASK_H
#define SHOAL_DESK_ASK_H

#include "base/fault.h"

#include <stdio.h>

enum { ASK_ANSWER_SIZE = 1024 };

enum ask_result {
	ASK_ANSWERED, /* a line, perhaps empty, trimmed */
	ASK_BACK,     /* "<" */
	ASK_HELP,     /* "?" */
	ASK_ENDED     /* end of input */
};

/*
 * Prints "question [shown]: " (without brackets when `shown` is "") on `talk`,
 * broken at spaces to leave room for an answer within `columns`, and reads
 * one line of `in` into `answer` of ASK_ANSWER_SIZE bytes. A line with a NUL
 * or longer than that is told on `talk` and asked again. When the input is no
 * terminal the answer is echoed, so that a log reads like a session.
 */
struct asker {
	FILE *in, *talk;
	bool echoes;
	int columns;
};

enum ask_result ask(const struct asker *asker, const char *question,
		    const char *shown, char *answer);

/* Asks until yes or no; `preset` answers an empty line. False only at the end
 * of input; "<" counts as no. */
bool ask_yes(const struct asker *asker, const char *question, bool preset,
	     bool *yes);

#endif
