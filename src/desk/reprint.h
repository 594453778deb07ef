/* reprint.h: whether a correction changes the paper that somebody holds. */
#ifndef SHOAL_DESK_REPRINT_H
#define SHOAL_DESK_REPRINT_H

#include "clinic/visit.h"
#include "desk/desk.h"

/* What a correction has done to the slip in the person's hand. */
enum reprint {
	REPRINT_NONE,  /* it reads the same */
	REPRINT_PAPER, /* the answer is the same, the slip reads otherwise */
	REPRINT_ANSWER /* what is to be done, or when, is otherwise */
};

/*
 * Compares what the slips of both say, word for word, but for the remark that
 * one is corrected and for when it was typed in. Both were judged by the
 * policy in force on the desk. Slips that cannot be compared count as
 * different: somebody who holds a right slip twice is no worse off.
 */
enum reprint reprint_after(const struct desk *desk, const struct visit *before,
			   const struct visit *after);

/* Says so, and what to do; also when somebody has to be seen sooner now. */
void reprint_tell(const struct visit *before, const struct visit *after,
		  enum reprint reprint, int columns, FILE *out);

#endif
