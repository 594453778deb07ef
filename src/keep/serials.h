/* serials.h: serials that may have been given out without an entry. */
#ifndef SHOAL_KEEP_SERIALS_H
#define SHOAL_KEEP_SERIALS_H

#include "base/fault.h"
#include "base/refnum.h"
#include "keep/store.h"

/*
 * A number is on somebody's slip and must never be given to somebody else, also
 * by a register that went on from an older copy, or lost entries. Such a
 * register keeps in its table `station` the serial from which it goes on, in
 * rows named serials_from_1, serials_from_2 and so on: the highest holds.
 */

/* The serial from which to give out, 1 where nothing is kept. */
bool serials_read_from(struct store *store, int form, int *serial,
		       struct fault *why);

/* Adds a row, in the caller's transaction. `serial` is 1 to 90001, the last
 * meaning that there is none left. */
bool serials_keep_from(struct store *store, int serial, struct fault *why);

/* The highest serial below the paper pads' of which a slip of this station
 * lies in the folder of slips; 0 without any. */
int serials_of_slips(const char *folder, int station);

#endif
