/* tallyline.h: a row of a tally as the program itself writes it, read fast. */
#ifndef SHOAL_KEEP_TALLYLINE_H
#define SHOAL_KEEP_TALLYLINE_H

#include "base/mark.h"
#include "counts/tally.h"

#include <stddef.h>
#include <stdint.h>

/*
 * Reads only the one form in which the program writes rows: all columns in
 * their order, commas, no quotes, LF. Whatever else there is, be it sound or
 * not, is left to the reader of CSV (tallyfile.h), which comes to the same
 * values for every row read here. There are no sentences: false means "not by
 * me". Rows of one tally share the columns before `sex`, so these are read
 * once and afterwards only compared.
 */
enum { TALLYLINE_MOST = 4096 }; /* bytes, without the line end */

struct tallyline {
	size_t head;   /* bytes of `bytes` with the comma; 0 = none yet */
	size_t end[9]; /* where each of the nine head columns ends */
	uint32_t crc;  /* of the head's values, the joint behind them too */
	struct mark_table table;
	char bytes[TALLYLINE_MOST];
};

/* Nothing was read yet. */
void tallyline_begin(struct tallyline *state);

/* To be called after a line that was not read. */
void tallyline_forget(struct tallyline *state);

/* Whether a line, without its LF, is the header as the program writes it. */
bool tallyline_is_header(const char *line, size_t length);

/*
 * Reads one line, `length` bytes without its LF, which it alters. `row` is
 * that of the line before, or anything before the first; all columns but
 * `check` are set and sound by themselves, and the check letters are right.
 * `*crc` is that of the values, `*same_head` whether the columns before `sex`
 * are those of the line before.
 */
bool tallyline_read(struct tallyline *state, char *line, size_t length,
		    struct tally_row *row, uint32_t *crc, bool *same_head);

#endif
