/* agreepage.h: how far graders agree, as a page. */
#ifndef SHOAL_DESK_AGREEPAGE_H
#define SHOAL_DESK_AGREEPAGE_H

#include "clinic/policy.h"
#include "desk/gradings.h"

#include <stdio.h>

enum { AGREEPAGE_COLUMNS = 78 };

struct agreepage {
	const struct gradings *gradings;
	const struct policy *policy;
	const char *mark; /* its fingerprint */
	bool html;	  /* one page for A4, else text */
	int columns;	  /* of the text, at least 40 */
};

/*
 * Writes agreement, the missed and the over-called at each cut-off of the
 * policy with Wilson's intervals, kappa with its weights named, the table as a
 * picture, then the same in short per grader and per period. What cannot be
 * estimated is a sentence.
 */
void agreepage_write(const struct agreepage *page, FILE *out);

#endif
