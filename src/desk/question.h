/* question.h: the questions about one person, as a table. */
#ifndef SHOAL_DESK_QUESTION_H
#define SHOAL_DESK_QUESTION_H

#include "base/field.h"
#include "clinic/visit.h"

#include <stdio.h>

/*
 * Questions in the order in which they are asked. Those with a field take
 * limits and choices from visit_fields; those about findings take their
 * choices from the table of findings, one group and eye each, at most nine,
 * so that every choice has a number key of its own.
 */
enum question {
	ASK_NUMBER, /* of a paper slip, only for a day written up later */
	ASK_NAME,
	ASK_CONTACT,
	ASK_AGE,
	ASK_SEX,
	ASK_COMPLAINTS,
	ASK_RISKS,
	ASK_PAST_RIGHT,
	ASK_PAST_LEFT,
	ASK_SIGNS_RIGHT,
	ASK_SIGNS_LEFT,
	ASK_DEPTH_RIGHT,
	ASK_WHY_RIGHT,
	ASK_DEPTH_LEFT,
	ASK_WHY_LEFT,
	ASK_PRESSURE_RIGHT,
	ASK_PRESSURE_LEFT,
	ASK_CONSENT,
	QUESTION_COUNT
};

enum answer_kind {
	ANSWER_TEXT,
	ANSWER_AGE,
	ANSWER_CHOICE, /* one of the field's words */
	ANSWER_FINDINGS,
	ANSWER_DEPTH
};

struct question_row {
	const char *title;
	const char *brief; /* the same among others, in few letters */
	enum answer_kind kind;
	const char *field;	  /* of the record; NULL for findings */
	enum finding_group group; /* GROUP_COUNT for a field */
	enum eye eye;		  /* for findings of an eye */
	const char *nothing; /* shown while nothing is recorded; "" = needed */
	const char *help;
};

extern const struct question_row question_table[QUESTION_COUNT];

/* The field of the record, or NULL for findings. */
const struct field *question_field(enum question question);

/* An answer has to be given. */
bool question_is_needed(enum question question);

/* The finding at a number key of a group's question, from 1; FINDING_COUNT
 * past the last one. How many keys there are. */
enum finding question_finding(enum finding_group group, int key);
int question_keys(enum finding_group group);

/* Makes a code readable, in place: could_not_keep_still has spaces then. */
void question_spell(char *code);

/* Writes the words of a choice, one a line, each with its number key. */
void question_write_words(const struct field *field, int columns, FILE *out);

/* Takes a number key of a choice, or one of its words in any case and with
 * spaces as they are shown, into the record. FAULT_INPUT otherwise. */
bool question_read_word(const struct field *field, const char *answer,
			void *record, struct fault *why);

/* Writes the numbered choices, one a line; nothing for a question without. */
void question_write_choices(enum question question, int columns, FILE *out);

/* Writes what may be typed, for "?" (without the picture of the grades). */
void question_write_help(enum question question, int columns, FILE *out);

#endif
