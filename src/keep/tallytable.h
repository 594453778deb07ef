/* tallytable.h: the tallies of a file as any writer of CSV leaves it. */
#ifndef SHOAL_KEEP_TALLYTABLE_H
#define SHOAL_KEEP_TALLYTABLE_H

#include "base/fault.h"
#include "counts/gather.h"
#include "counts/tally.h"

#include <stdbool.h>

/* Why a file is refused, and where. */
struct refusal {
	long row;	    /* of data, from 1; 0 = the file as a whole */
	const char *column; /* "" = the row as a whole; lives for ever */
	struct fault fault; /* without row and column in front */
	bool passed_over;   /* another file of the program: no fault */
};

/* Called per tally that is whole. `place` finds it again: the byte at which it
 * begins, or, when the file was read as CSV, minus its number in the file from
 * 1. False stops. */
typedef bool tally_see(void *context, const struct gather *tally,
		       long long place, struct fault *why);

/* Columns of a tally; held together with tally_columns in tallytable.c. */
enum { TALLYTABLE_COLUMNS = 30 };

/* Set the first five; the rest is the reader's own. */
struct tallytable {
	struct gather *gather; /* room to work in */
	tally_see *see;
	void *context;
	struct refusal *refusal;
	long told; /* of so many tallies is not told again */

	long tallies;
	bool stopped, refused;
	bool misfits;			  /* the header; `refusal` has why */
	size_t place[TALLYTABLE_COLUMNS]; /* of each column in the rows */
	struct tally_row row;
};

/* Reads an open file from its start, through the reader of CSV. False when it
 * is refused, or `stopped`, and then `*why` is that of the one told. */
bool tallytable_read(struct tallytable *table, int handle, struct fault *why);

#endif
