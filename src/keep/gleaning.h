/* gleaning.h: which of the rows of a damaged register may be taken. */
#ifndef SHOAL_KEEP_GLEANING_H
#define SHOAL_KEEP_GLEANING_H

#include "base/fault.h"
#include "keep/book.h"
#include "keep/salvage.h"
#include "keep/store.h"

/* For mend.h, whose comment says what is taken. */
struct gleaning {
	struct store store; /* the new register, open */
	int station;
	char device[BOOK_DEVICE_LETTERS + 1]; /* found, or "" */
	int last; /* highest serial seen anywhere, below the paper pads' */
	long long people;  /* rows taken about people */
	long long refused; /* rows of people, replies and policies */
	bool starved;	   /* memory was missing for one of them */
};

/* A salvage_see that only looks for the device and for serials. */
salvage_see gleaning_look;

/* Begins a transaction and makes tables in memory for what is found; then
 * gleaning_take, a salvage_see, puts into them what may be taken. */
bool gleaning_begin(struct gleaning *gleaning, struct fault *why);
salvage_see gleaning_take;

/* Puts it all into the register's tables. `*lost` is the number of places of
 * entries that stay empty. The caller commits. */
bool gleaning_end(struct gleaning *gleaning, long long *lost,
		  struct fault *why);

#endif
