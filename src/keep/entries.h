/* entries.h: how much the register holds. */
#ifndef SHOAL_KEEP_ENTRIES_H
#define SHOAL_KEEP_ENTRIES_H

#include "base/fault.h"
#include "keep/book.h"

/* The number of entries about people and of replies, void and corrected ones
 * too: it rises with everything that is saved. FAULT_REGISTER. */
bool register_entries(struct book *book, int *count, struct fault *why);

#endif
