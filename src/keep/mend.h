/* mend.h: what can be read of a damaged register goes into a new one. */
#ifndef SHOAL_KEEP_MEND_H
#define SHOAL_KEEP_MEND_H

#include "base/day.h"
#include "base/fault.h"
#include "base/refnum.h"
#include "keep/copies.h"
#include "keep/setaside.h"
#include "keep/safefile.h"

#include <stdbool.h>

/*
 * Rows are read page by page (salvage.h). An entry is taken only when all its
 * fields are read and written the same again, its number is the station's with
 * right check digits, and its name folds to the key kept beside it; where two
 * rows claim one place neither is taken; a policy only when its text has the
 * fingerprint. Nothing is repaired: it is taken as it was, or not at all. What
 * cannot be noticed is a letter or digit altered into another one that is
 * allowed: SQLite keeps no check of its values.
 *
 * An entry that revises one that is lost is put behind the last that is left of
 * its number, or becomes its first. An entry that is lost may have been a
 * correction: then the older answer stands, which is why the user is told to
 * compare with the slips.
 *
 * Numbers go on after every one that stands in a row, a key of an index or the
 * name of a slip, from the next hundred, and the device is another of the same
 * family (renew.h). What was there is kept aside (setaside.h).
 */
struct mend_done {
	struct copy_facts facts; /* of the new register */
	long long refused;	 /* rows that were there and not taken */
	long long lost;		 /* places of entries with nothing to take */
	int serial_from;
	struct setaside put;
};

/* Called with each number that was surely given out and has no entry. */
typedef void mend_hear(void *context, struct refnum number);

/* `*sound` true: nothing is damaged, and nothing was done. FAULT_REGISTER when
 * there is nothing to mend from; the file is then as it was. */
bool mend_register(const char *folder, int station, struct day today,
		   mend_hear *hear, void *context, bool *sound,
		   struct mend_done *done, struct fault *why);

#endif
