/* form.h: the questions about one person, without a terminal. */
#ifndef SHOAL_DESK_FORM_H
#define SHOAL_DESK_FORM_H

#include "base/fault.h"
#include "clinic/visit.h"
#include "desk/question.h"

/*
 * The form knows the order of the questions, what an answer may look like and
 * what it means; it knows nothing of screens or keys. Line prompts and any
 * other front sit on it. Fields, limits and choices come from visit_fields and
 * the table of findings.
 *
 * Answers are what a nurse types: a number key of a choice ("2") or the word
 * itself ("M"); for findings the number keys of all that apply, together or
 * apart ("13", "1 3"); "*" after an age that is an estimate ("60*"). An empty
 * answer keeps what is there; "-" alone takes it away (but for a depth, where
 * it says that there is no eye: refused while signs or a pressure of that eye
 * are recorded).
 */
struct form {
	struct visit visit;
	bool answered[QUESTION_COUNT];
	bool paper; /* asks for a paper number */
};

enum { FORM_SHOWN_SIZE = 700 };

void form_init(struct form *form, bool paper);

/* A form filled with a kept person, for correcting. */
void form_load(struct form *form, const struct visit *visit);

/* Whether it is asked at all, as things stand: the reason only for an eye that
 * could not be graded, a paper number only on a paper day. */
bool form_asks(const struct form *form, enum question question);

/* The next question to ask after this one, QUESTION_COUNT when none is left;
 * the one before it, or the question itself at the beginning. */
enum question form_next(const struct form *form, enum question question);
enum question form_back(const struct form *form, enum question question);
/* The first question that is asked. */
enum question form_first(const struct form *form);

/* The first question from this one on that is asked as things stand and was
 * not answered, QUESTION_COUNT when there is none. */
enum question form_open(const struct form *form, enum question from);

/* Whether anything was answered. */
bool form_is_begun(const struct form *form);

/* Takes an answer. FAULT_INPUT leaves the form as it was. */
bool form_answer(struct form *form, enum question question, const char *answer,
		 struct fault *why);

/* The answer as it stands, in words; the words for nothing recorded before it
 * was asked. `shown` holds FORM_SHOWN_SIZE bytes. */
void form_show(const struct form *form, enum question question, char *shown);

/* The findings whose question was not answered yet. */
void form_unasked(const struct form *form, struct findings *unasked);

#endif
