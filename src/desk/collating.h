/* collating.h: everything given is read, and every file accounted for. */
#ifndef SHOAL_DESK_COLLATING_H
#define SHOAL_DESK_COLLATING_H

#include "counts/batch.h"
#include "counts/counted.h"
#include "counts/yieldgather.h"
#include "desk/desk.h"

#include <stddef.h>

/*
 * Who is told. Rows come while files are read, with sign -1 afterwards for
 * what does not count after all; the sums of all rows are right when
 * collating_run returns. Lines of the ledger come last, in the order of the
 * paths, one per batch and per file without any. Any may be NULL.
 */
struct onlooker {
	counted_see *row; /* of a tally */
	counted_yield_see *yield_row;
	ledger_see *line;
	void *context;
};

struct collating_totals {
	long long files; /* read or refused */
	long long of[LEDGER_STATUSES];
};

/*
 * Reads the files of one kind (gather_kind or yieldgather_kind) in the files
 * and folders given ("-" is standard input), sorted, so that
 * the same is told in the same order however they were given. What is refused
 * is told to the onlookers and is no fault here. False when no answer can be
 * given: memory, the temporary file, an onlooker's fault, or a file that
 * changed while it was read.
 */
bool collating_run(struct desk *desk, const struct batch_kind *kind,
		   const char *const path[], size_t paths,
		   const struct onlooker *onlooker, size_t onlookers,
		   struct collating_totals *totals, struct fault *why);

/* Columns to wrap talk to: those of a terminal, else 0, for one line each. */
int collating_columns(const struct desk *desk);

#endif
