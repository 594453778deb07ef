/* entries.c: how much the register holds. */
#include "keep/entries.h"

bool
register_entries(struct book *book, int *count, struct fault *why)
{
	long long people, replies = 0;

	if (!store_ask_number(&book->store,
			      "SELECT coalesce(max(entry), 0) FROM visit",
			      &people, why))
		return false;
	/* The table came with the second form. */
	if (book->form >= 2 && !store_ask_number(&book->store,
						 "SELECT coalesce(max(entry), "
						 "0) FROM reply",
						 &replies, why))
		return false;
	*count = (int)(people + replies);
	return true;
}
