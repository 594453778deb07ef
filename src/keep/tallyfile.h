/* tallyfile.h: the tallies of one file, each checked whole. */
#ifndef SHOAL_KEEP_TALLYFILE_H
#define SHOAL_KEEP_TALLYFILE_H

#include "base/fault.h"
#include "counts/gather.h"
#include "counts/tally.h"
#include "keep/batchtable.h"
#include "keep/tallyline.h"

#include <stddef.h>

/*
 * A file holds one tally as a rule, or those of many days and stations under
 * one header, as in a sheet of the year. It may have been saved again by a
 * spreadsheet (semicolons, tabs, byte-order mark, CRLF, more quotes, empty
 * columns behind, columns in another order): it is read if and only if the
 * check letters of every row hold. No value is guessed. One row at fault
 * refuses the whole file, also the tallies told of before.
 *
 * Rows in the form in which the program writes them are read by tallyline.h;
 * at the first other one the reader of CSV begins the file anew, and tells of
 * no tally twice. Limits: 4 KiB a row, TALLY_ROWS_MOST rows a tally; a file
 * may be of any size, and is never held whole.
 */
enum { TALLYFILE_BUFFER = 256 * 1024 };

enum tallyfile_end {
	TALLYFILE_READ,
	TALLYFILE_REFUSED, /* see the refusal */
	TALLYFILE_STOPPED  /* the one told of tallies said so */
};

/* Large (some 600 KiB), made once for many files: the next file often begins
 * like the last one. Holds nothing of use to others. */
struct tallyfile {
	struct gather gather;
	struct tallyline line;
	struct tally_row row;
	long tallies;	  /* told of in this file */
	long long offset; /* of bytes[0] in the file */
	size_t filled;
	size_t used; /* of `filled` */
	char bytes[TALLYFILE_BUFFER];
};

void tallyfile_begin(struct tallyfile *file);

/* Reads an open regular file from its start; `size` as its status has it.
 * `as_csv` leaves all to the reader of CSV. `*why` is set when it was stopped.
 */
enum tallyfile_end tallyfile_read(struct tallyfile *file, int handle,
				  long long size, bool as_csv, batch_see *see,
				  void *context, struct refusal *refusal,
				  struct fault *why);

/* Reads again the one tally at a `place` that is not negative, into `gather`.
 * False when it is not there any more. */
bool tallyfile_read_at(struct tallyfile *file, int handle, long long place);

#endif
