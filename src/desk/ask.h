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

/*
 * Writes `lines` and asks for one of the number keys until one is typed; hands
 * it back, '<' for back, '\0' at the end of input. `preset` answers an empty
 * line, with '\0' none does: where Enter, which hands press without looking,
 * would decide what cannot be taken back. "?" writes `help`.
 */
char ask_key(const struct asker *asker, const char *lines, const char *keys,
	     char preset, const char *help);

enum ask_preset { ASK_PRESET_NONE, ASK_PRESET_YES, ASK_PRESET_NO };

/* The same for a yes or no: answered, back, or the input ended. */
enum ask_result ask_yes(const struct asker *asker, const char *question,
			enum ask_preset preset, const char *help, bool *yes);

#endif
