/* verdict.h: what can be said of a person while the form is being filled. */
#ifndef SHOAL_DESK_VERDICT_H
#define SHOAL_DESK_VERDICT_H

#include "clinic/decide.h"
#include "desk/desk.h"
#include "desk/form.h"

#include <stdio.h>

/*
 * While anything is still to be asked nobody is called well: until then only
 * what is certain for today, or what refers already, is said.
 */
enum verdict_kind {
	VERDICT_OPEN,	 /* questions are open, and nothing refers yet */
	VERDICT_TODAY,	 /* certain for today, whatever is still to come */
	VERDICT_SO_FAR,	 /* both depths are there and a rule refers, but
			  * questions are open */
	VERDICT_REFUSED, /* the answers cannot all be true */
	VERDICT_WHOLE	 /* all is answered: the decision */
};

struct verdict {
	enum verdict_kind kind;
	int rule;		  /* TODAY: the first rule that is certain */
	struct visit visit;	  /* SO_FAR, WHOLE: with the decision in it */
	struct decision decision; /* TODAY: all that is certain */
	struct fault why;	  /* REFUSED */
};

/* The rule that sends the person today whatever is still to be asked, -1 when
 * none is certain. */
int verdict_certain(const struct desk *desk, const struct form *form);

/* All such rules; false when there is none. */
bool verdict_all_certain(const struct desk *desk, const struct form *form,
			 struct decision *certain);

/* Writes them: why, what to do, and that the rest can wait. */
void verdict_write_today(const struct desk *desk,
			 const struct decision *certain, int columns,
			 FILE *out);

/* Writes what to do, by all rules that decided, in as few lines as can be, so
 * that it has room on any screen; perhaps nothing. */
void verdict_write_instructions(const struct desk *desk,
				const struct decision *decision, int columns,
				FILE *out);

/* Whether the person has to be sent the same day, as far as the answers go. */
bool verdict_is_for_today(const struct verdict *verdict);

/* For somebody who has to be sent the same day: writes so, with the reason,
 * before anything is asked by which the person could be lost. That the day is
 * over is said too. False, and nothing is written, for anybody else. */
bool verdict_write_alarm(const struct desk *desk, const struct form *form,
			 int columns, FILE *out);

/* Writes what looks odd but is allowed, wrapped to `columns`. */
void verdict_write_oddities(const struct visit *visit, int columns, FILE *out);

void verdict_reach(const struct desk *desk, const struct form *form,
		   struct verdict *verdict);

/* Writes the first line, which says what becomes of the person; at most 80
 * columns, without a line feed. */
void verdict_write_head(const struct desk *desk, const struct verdict *verdict,
			FILE *out);

/* Writes what follows the instructions: reasons, what is missing; perhaps
 * nothing. */
void verdict_write_rest(const struct desk *desk, const struct form *form,
			const struct verdict *verdict, int columns, FILE *out);

#endif
