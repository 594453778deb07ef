/* settle.h: sums put right once it is known which batches count. */
#ifndef SHOAL_DESK_SETTLE_H
#define SHOAL_DESK_SETTLE_H

#include "counts/collate.h"
#include "keep/batchfile.h"
#include "keep/spool.h"

/* Called for a batch to be added (1) or taken back (-1). */
typedef bool settle_see(void *context, const struct batch *batch, int sign,
			struct fault *why);

struct settle {
	struct collate *collate; /* settled */
	struct spool *spool;
	struct batchfile *file; /* room to work in */
	int input;		/* a handle of standard input, or -1 */
	settle_see *see;
	void *context;
};

/*
 * Reads again the batches that were added and do not count, and those that
 * count and were not added. FAULT_INPUT when a file is not any more what it
 * was: then no answer can be given.
 */
bool settle_sums(struct settle *settle, struct fault *why);

#endif
