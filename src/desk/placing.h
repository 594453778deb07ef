/* placing.h: where each question stands on the screen. */
#ifndef SHOAL_DESK_PLACING_H
#define SHOAL_DESK_PLACING_H

#include "desk/form.h"

/*
 * All of one person on 80 columns by 24 rows. The examiner faces the patient,
 * so the right eye stands on the left. A column is kept free before each label
 * for the mark of the question that is being answered.
 */
struct place {
	int row, column; /* of the mark; the label follows it */
	int pad;	 /* the label takes so many columns at least */
	int width;	 /* of the answer, behind the label and a space */
	const char *label;
};

enum {
	PLACING_COLUMNS = 80,
	PLACING_HEAD = 0,      /* day, site, grader, counts */
	PLACING_EYES = 5,      /* which eye is where */
	PLACING_BARS = 9,      /* the grades to scale, right and left */
	PLACING_LEFT_BAR = 39, /* where the left eye's begins */
	PLACING_HALF = 40,     /* where the left eye's column begins */
	PLACING_DECISION = 13, /* from here on: the decision, then keys */
	PLACING_PANEL = 5      /* rows of choices above the last */
};

/* Where its answer begins. */
int placing_answer(const struct place *place);

/* The place of a question; a name has less room beside a paper number. */
struct place placing_of(const struct form *form, enum question question);

enum placing_way {
	PLACING_UP,
	PLACING_DOWN,
	PLACING_LEFTWARDS,
	PLACING_RIGHTWARDS
};

/* The question next to this one on the screen, of those that are asked; the end
 * (QUESTION_COUNT) is below all. The question itself where there is none. */
enum question placing_next_to(const struct form *form, enum question question,
			      enum placing_way way);

#endif
