/* batchfile.h: a file of tallies, or of yields, read and checked whole. */
#ifndef SHOAL_KEEP_BATCHFILE_H
#define SHOAL_KEEP_BATCHFILE_H

#include "counts/yieldgather.h"
#include "keep/batchtable.h"
#include "keep/tallyfile.h"

/* Room to read files of one kind, made once for many. Large. After a
 * batch_see was called, the rows are in the gather of its kind. */
struct batchfile {
	const struct batch_kind *kind; /* gather_kind or yieldgather_kind */
	union {
		struct tallyfile tally;
		struct {
			struct yieldgather gather;
			struct yield_row row;
		} yield;
	} of;
};

void batchfile_begin(struct batchfile *file, const struct batch_kind *kind);

bool batchfile_holds_yields(const struct batchfile *file);

/* As tallyfile_read. */
enum tallyfile_end batchfile_read(struct batchfile *file, int handle,
				  long long size, bool as_csv, batch_see *see,
				  void *context, struct refusal *refusal,
				  struct fault *why);

/* The one batch at a `place` that is not negative, read again, or NULL when it
 * is not there any more. */
const struct batch *batchfile_read_at(struct batchfile *file, int handle,
				      long long place);

#endif
