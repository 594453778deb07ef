/* gather.h: the rows of one tally, gathered until they agree. */
#ifndef SHOAL_COUNTS_GATHER_H
#define SHOAL_COUNTS_GATHER_H

#include "base/fault.h"
#include "counts/counted.h"
#include "counts/tally.h"

#include <stddef.h>
#include <stdint.h>

/*
 * A tally is the rows 1 to `rows` of one station, day, device and revision.
 * Rows come one by one, each with its values read and its check letters found
 * right; whether they belong together and add up is judged here. Only a tally
 * that is whole may be counted.
 */
enum {
	GATHER_TEXT_SIZE =
		TALLY_TEXT_SIZE +
		TALLY_ROWS_MOST * (TALLY_TEXT_SIZE + TALLY_BAND_SIZE + 7),
	/* Before and after, the clock of the laptop was wrong. */
	GATHER_YEAR_LEAST = 2000,
	GATHER_YEAR_MOST = 2099
};

/* Large: some 250 KiB. Holds pointers into itself, so it cannot be copied. */
struct gather {
	int count; /* rows so far; 0 = none is under way */
	int rows, day_total, revision, station;
	struct day date;
	long long people; /* screened so far */
	uint64_t mark; /* of all values of all rows, to tell contents apart */
	char device[7];
	struct counted row[TALLY_ROWS_MOST];
	size_t used;
	char text[GATHER_TEXT_SIZE];
};

void gather_begin(struct gather *gather);

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

/* Whether the last row of the tally has come. */
bool gather_is_whole(const struct gather *gather);

/* A file may end only where no tally is under way: else it was cut. */
bool gather_may_end(const struct gather *gather, struct fault *why);

#endif
