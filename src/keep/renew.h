/* renew.h: a register that goes on from a copy, or from what was left. */
#ifndef SHOAL_KEEP_RENEW_H
#define SHOAL_KEEP_RENEW_H

#include "base/fault.h"
#include "keep/store.h"

/*
 * What such a register has of its own: a device of the same family
 * (register_draw_device), so that its tallies are told from those made before,
 * which it may not know; and the serial from which it gives out numbers
 * (serials.h). The former device stays in its table `station`, as device_1 and
 * so on.
 */

/* Takes note of the revisions of the tallies in a folder that a register does
 * not know of, so that a tally made later is never written over one of them.
 * In the caller's transaction. */
bool renew_keep_revisions(struct store *store, const char *tallies, int station,
			  struct fault *why);

/* Writes all that into the file at `path`, which no station uses yet, and
 * brings it up to date where it is of an older form. FAULT_REGISTER. */
bool renew_register(const char *path, int serial_from, const char *tallies,
		    struct fault *why);

/* The next serial after the last one that is surely known, where so many may
 * have been given out since that nobody knows of: the first of the next round
 * `step`; at most 90001, which means that none is left. */
int renew_serial(int last, int step);

#endif
