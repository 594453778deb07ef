/* entries.h: how much the register holds. */
#ifndef SHOAL_KEEP_ENTRIES_H
#define SHOAL_KEEP_ENTRIES_H

#include "base/day.h"
#include "base/fault.h"
#include "keep/book.h"

/* The number of entries about people and of replies, void and corrected ones
 * too: it rises with everything that is saved. FAULT_REGISTER. */
bool register_entries(struct book *book, int *count, struct fault *why);

/* The same plus the number of times it went on from a copy: so what it writes
 * then has a higher revision than what was written of the copy. */
bool register_revision(struct book *book, int *revision, struct fault *why);

/* The first day from `from` on for which anybody was ever entered, void and
 * corrected entries too; none = there is no such day. FAULT_REGISTER. */
bool register_first_day_from(struct book *book, struct day from,
			     struct day *day, struct fault *why);

/* The same, the last day up to `to`. */
bool register_last_day_to(struct book *book, struct day to, struct day *day,
			  struct fault *why);

#endif
