/* batchtable.h: the batches of a file as any writer of CSV leaves it. */
#ifndef SHOAL_KEEP_BATCHTABLE_H
#define SHOAL_KEEP_BATCHTABLE_H

#include "base/fault.h"
#include "counts/batch.h"

#include <stdbool.h>
#include <stddef.h>

/* Why a file is refused, and where. */
struct refusal {
	long row;	    /* of data, from 1; 0 = the file as a whole */
	const char *column; /* "" = the row as a whole; lives for ever */
	struct fault fault; /* without row and column in front */
	bool passed_over;   /* another file of the program: no fault */
};

/* Called per batch that is whole; its rows are in what gathered it. `place`
 * finds it again: the byte at which it begins, or, when the file was read as
 * CSV, minus its number in the file from 1. False stops. */
typedef bool batch_see(void *context, const struct batch *batch,
		       long long place, struct fault *why);

/* More than the columns of any kind; held together with the kinds in
 * batchtable.c. */
enum { BATCHTABLE_COLUMNS = 64 };

/* Set the first seven; the rest is the reader's own. */
struct batchtable {
	const struct batch_kind *kind;
	struct batch *gather; /* room to work in: what gathers the kind */
	void *row;	      /* the same: a row of the kind */
	batch_see *see;
	void *context;
	struct refusal *refusal;
	long told; /* of so many batches is not told again */

	long batches;
	bool stopped, refused;
	bool misfits;			  /* the header; `refusal` has why */
	size_t place[BATCHTABLE_COLUMNS]; /* of each column in the rows */
};

/* Reads an open file from its start, through the reader of CSV: commas,
 * semicolons or tabs, a byte-order mark, CRLF, quotes, empty columns behind,
 * columns in any order. False when it is refused, or `stopped`, and then `*why`
 * is that of the one told. */
bool batchtable_read(struct batchtable *table, int handle, struct fault *why);

#endif
