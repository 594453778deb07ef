/* salvage.h: rows read from the pages of a damaged store. */
#ifndef SHOAL_KEEP_SALVAGE_H
#define SHOAL_KEEP_SALVAGE_H

#include "base/fault.h"

#include <stdbool.h>
#include <stddef.h>

/*
 * Each page is looked at by itself, without the tree that leads to it: so a row
 * is lost only when its own page, or one that its long values go on in, is
 * damaged. The format is that of https://www.sqlite.org/fileformat.html,
 * sections 1.3 to 2.1 (header, b-tree pages, cells, overflow, records). Nothing
 * in the file is believed: every length and every page number is held against
 * what is there, and a cell that does not fit is passed over.
 */
enum {
	SALVAGE_VALUES_MOST = 96,
	SALVAGE_ROW_MOST = 70000, /* bytes of one row; more is no row of ours */
	SALVAGE_PAGE_MOST = 65536
};

struct salvage_row {
	bool is_index;	 /* a key of an index, whose last value is a row's */
	long long rowid; /* of a table's row */
	int count;
	/* Each as text, "" for NULL; a number in decimal. Texts live until the
	 * call returns. */
	const char *value[SALVAGE_VALUES_MOST];
	bool is_text[SALVAGE_VALUES_MOST];
};

/* Called per row whose bytes are all there; false stops. */
typedef bool salvage_see(void *context, const struct salvage_row *row,
			 struct fault *why);

/* Visits all rows of the file, by page. False (FAULT_REGISTER) when it cannot
 * be read at all, or `see` said so. */
bool salvage_visit(const char *path, salvage_see *see, void *context,
		   struct fault *why);

#endif
