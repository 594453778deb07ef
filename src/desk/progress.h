/* progress.h: how far it is, on one line of a terminal. */
#ifndef SHOAL_DESK_PROGRESS_H
#define SHOAL_DESK_PROGRESS_H

#include "desk/desk.h"

/*
 * Silent in the first second, and wherever the talk stream is no terminal that
 * can write a line anew. Then a line four times a second, and at the end it is
 * wiped out. Only carriage returns and spaces are written, no escapes.
 */
struct progress {
	struct desk *desk;
	long long began, shown; /* milliseconds */
	unsigned calls;
	int width; /* of what stands there; 0 = nothing */
};

void progress_begin(struct progress *progress, struct desk *desk);

/* To be called often. */
void progress_show(struct progress *progress, long long files,
		   long long tallies);

void progress_end(struct progress *progress);

#endif
