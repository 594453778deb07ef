/* batch.h: rows that were sent together, and count together or not at all. */
#ifndef SHOAL_COUNTS_BATCH_H
#define SHOAL_COUNTS_BATCH_H

#include "base/day.h"
#include "base/fault.h"
#include "base/field.h"

#include <stdbool.h>
#include <stdint.h>

/*
 * A batch is the rows 1 to `rows` of one station, day (of a yield: month),
 * device and revision: a daily tally, or a month's yield. Rows come one by one,
 * each with its values read and its check letters found right; whether they
 * belong together and add up is judged here. Only a batch that is whole may be
 * counted.
 */
enum {
	/* Before and after, the clock of the laptop was wrong. */
	BATCH_YEAR_LEAST = 2000,
	BATCH_YEAR_MOST = 2099
};

struct batch {
	int count; /* rows so far; 0 = none is under way */
	int rows, total, revision, station;
	struct day date;  /* of a yield, the first of its month */
	long long people; /* so far */
	long long known;  /* of a yield: whose outcome is known */
	uint64_t mark; /* of all values of all rows, to tell contents apart */
	char device[7];
};

/* What a row says of its batch. */
struct batch_row {
	const char *station, *device;
	struct day date;
	int revision, row, rows, total, people;
};

/*
 * A kind of batch, for the readers: its table, whose first column is the schema
 * and whose last are the check letters, and what gathers its rows. A `gather`
 * begins with its struct batch.
 */
struct batch_kind {
	const char *what;  /* "tally" */
	const char *many;  /* "tallies" */
	const char *total; /* the column with the sum of all rows' people */
	const char *people;
	const char *schema;
	const struct fields *columns;
	const char *may_be_empty; /* a column, or "" */
	/* Each is sent again and again as more comes to be known of the same
	 * people, so that a later one holds what an earlier one held. */
	bool grows;
	/* Columns by which another table of the program is known, with what is
	 * said of it; the other kind first; ends with NULL. */
	struct batch_other {
		const char *column, *and_column, *sentence;
		const char *without; /* or NULL */
	} other[4];
	void (*begin)(void *gather);
	/* Whether a row is sound in itself; see gather_check. */
	bool (*check)(const void *row, const char **column, struct fault *why);
	/* Takes the next row; see gather_add. */
	bool (*add)(void *gather, const void *row, uint32_t crc, bool same_head,
		    const char **column, struct fault *why);
};

void batch_begin(struct batch *batch);

/* Keeps a text behind those in `texts`, of which `*used` bytes are filled;
 * there must be room. The text of the row before (or NULL) is taken again where
 * it is the same, as it is most often. */
const char *batch_keep_text(char *texts, size_t *used, const char *text,
			    const char *before);

/* Whether codes and date of a row can be; `*column` is the one at fault.
 * FAULT_INPUT. */
bool batch_check_codes(const struct batch_row *row, const char *policy,
		       const char **column, struct fault *why);

/*
 * Takes the next row. `crc` is that of its values (base/mark.h). `same_head`:
 * all columns that the rows of a batch share are those of the row before;
 * `same_rest`: those are that stand in no struct batch_row. False when the row
 * does not follow the one before or the whole does not add up; `*column` then
 * names the column at fault. FAULT_INPUT.
 */
bool batch_add(struct batch *batch, const struct batch_kind *kind,
	       const struct batch_row *row, bool same_head, bool same_rest,
	       uint32_t crc, const char **column, struct fault *why);

/* Whether the last row has come. */
bool batch_is_whole(const struct batch *batch);

/* A file may end only where no batch is under way: else it was cut. */
bool batch_may_end(const struct batch *batch, const struct batch_kind *kind,
		   struct fault *why);

#endif
