/* repeats.h: rows of a sheet that are in the register already. */
#ifndef SHOAL_DESK_REPEATS_H
#define SHOAL_DESK_REPEATS_H

#include "desk/sheet.h"

#include <stdint.h>

/*
 * A sheet entered a second time doubles the camp, and people without a name
 * have no twins. So each row is compared with everybody of its day: the same
 * when every value that is typed is the same, each person standing for one row.
 * A row with a paper number of its own is never a repeat. Where people have no
 * name some are alike by chance, and at a camp more is typed into the same file
 * later: a sheet is taken for a repeat from REPEATS_LEAST such rows on that are
 * half of its rows or more.
 */
enum { REPEATS_LEAST = 3 };

struct repeats {
	long rows, found;
	uint32_t mark[SHEET_ROWS_MOST]; /* of its values; 0 = has a number */
	struct day day[SHEET_ROWS_MOST];
	bool met[SHEET_ROWS_MOST];
	struct refnum first; /* the person who stands for row `first_row` */
	long first_row;
};

void repeats_init(struct repeats *repeats);

/* Takes note of the next row. */
void repeats_note(struct repeats *repeats, const struct visit *visit);

/* Before anything of the sheet is saved: false, FAULT_INPUT, when it seems to
 * be entered already, with what to do. */
bool repeats_check(struct repeats *repeats, struct book *book,
		   struct fault *why);

#endif
