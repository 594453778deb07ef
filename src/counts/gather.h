/* gather.h: the rows of one tally, gathered until they agree. */
#ifndef SHOAL_COUNTS_GATHER_H
#define SHOAL_COUNTS_GATHER_H

#include "base/fault.h"
#include "counts/batch.h"
#include "counts/counted.h"
#include "counts/tally.h"

#include <stddef.h>
#include <stdint.h>

enum {
	GATHER_TEXT_SIZE =
		TALLY_TEXT_SIZE +
		TALLY_ROWS_MOST * (TALLY_TEXT_SIZE + TALLY_BAND_SIZE + 7)
};

/* See counts/batch.h. Large: some 250 KiB. Holds pointers into itself, so it
 * cannot be copied. */
struct gather {
	struct batch batch;
	struct counted row[TALLY_ROWS_MOST];
	size_t used;
	char text[GATHER_TEXT_SIZE];
};

/* Tallies, for the readers. */
extern const struct batch_kind gather_kind;

void gather_begin(struct gather *gather);

/* Whether a row is sound in itself: codes, date, age band, sums. Its check
 * letters are not looked at, so that this can say more than that they are
 * wrong. `*column` is the column at fault. FAULT_INPUT. */
bool gather_check(const struct tally_row *row, const char **column,
		  struct fault *why);

/*
 * Takes the next row. `crc` is that of its values (base/mark.h);
 * `same_head` says that its columns before `sex` are those of the row before,
 * which spares comparing them. False when the row is not sound in itself, does
 * not follow the one before, or does not add up; `*column` then names the
 * column at fault. FAULT_INPUT.
 */
bool gather_add(struct gather *gather, const struct tally_row *row,
		uint32_t crc, bool same_head, const char **column,
		struct fault *why);

#endif
