/* replyquestion.h: a field of the reply, as a question. */
#ifndef SHOAL_DESK_REPLYQUESTION_H
#define SHOAL_DESK_REPLYQUESTION_H

#include "clinic/reply.h"

#include <stdbool.h>
#include <stdio.h>

/* A question is the index of its field in reply_fields. */
const struct field *reply_question_field(int question);
int reply_question_index(const char *name);

/* Where a question stands among those of its quadrant, or among those asked
 * once of its eye. */
struct reply_place {
	int first, end; /* of them; `end` is one past the last. -1 where a
			   question is not about an eye */
	int before;	/* the same question of the quadrant before; of the
			   left eye's first quadrant, and of what is asked
			   once of it, that of the right eye; -1 = none */
	bool once;	/* asked once of the eye */
	bool as_right;	/* `before` is in the right eye */
};

struct reply_place reply_question_place(int question);

/* It has choices with number keys. */
bool reply_question_is_keyed(int question);

/* Title and value as a person reads them, of DIALOG_TITLE_SIZE and
 * DIALOG_SHOWN_SIZE bytes; a blank value is "". */
void reply_question_title(int question, char *title);
void reply_question_value(const struct reply *reply, int question, char *shown);

/* "RIGHT eye, superior", "LEFT eye": for questions about an eye. */
void reply_question_eye(int question, char *label);

/* The numbered choices, one a line; what may be typed, for "?". */
void reply_question_choices(int question, int columns, FILE *out);
void reply_question_help(int question, int columns, FILE *out);

#endif
