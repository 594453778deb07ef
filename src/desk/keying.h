/* keying.h: what keys do to a person's form, without a terminal. */
#ifndef SHOAL_DESK_KEYING_H
#define SHOAL_DESK_KEYING_H

#include "base/fault.h"
#include "desk/form.h"

/*
 * One question is being answered; any other can be gone to. What is typed into
 * a question stands aside until it is left and is taken then, or refused; a
 * number key of a choice or a finding counts at once. Enter at a question says
 * that it was asked: where nothing was typed, what is there is the answer (no
 * complaints, no name). Merely passing over it says nothing.
 */
enum { KEYING_TYPED_SIZE = 400 };

struct keying {
	struct form *form;
	enum question at; /* QUESTION_COUNT: the end, where Enter saves */
	char typed[KEYING_TYPED_SIZE];
	bool typing;	   /* something was typed or taken away here */
	struct fault said; /* why it was not taken; FAULT_NONE: nothing */
};

/* What became of a key. */
enum keying_effect {
	KEYING_NOTHING,
	KEYING_ANSWERED, /* the form has another answer */
	KEYING_SAVE,	 /* Enter at the end */
	KEYING_DROP,	 /* 0 at the end */
	KEYING_HELP,	 /* ? where it is no text */
	KEYING_MENU	 /* back from the first question */
};

/* Begins at the first question without an answer. */
void keying_begin(struct keying *keying, struct form *form);

/* One character. */
enum keying_effect keying_type(struct keying *keying, const char *text);

/* Takes the last character back; at first all that was there. */
enum keying_effect keying_erase(struct keying *keying);

/* Enter: takes the answer and goes on, to the end once all is answered. */
enum keying_effect keying_enter(struct keying *keying);

/* The question before, the one after without answering this one, or any other;
 * what was typed is taken. */
enum keying_effect keying_back(struct keying *keying);
enum keying_effect keying_go(struct keying *keying, enum question question);

/* The grade that the typed characters mean, DEPTH_BLANK when none yet: a grade
 * as the prompts take it, or one key for a grade that no other begins with. */
enum depth keying_grade(const struct keying *keying);

/* The answer as it stands, with what is being typed; "" before it was asked.
 * `shown` holds FORM_SHOWN_SIZE bytes. */
void keying_show(const struct keying *keying, enum question question,
		 char *shown);

/* Whether a finding of this question is recorded. */
bool keying_has(const struct form *form, enum question question, int key);

#endif
