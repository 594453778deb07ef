/* reporting.h: the page about a collation, while it is made. */
#ifndef SHOAL_DESK_REPORTING_H
#define SHOAL_DESK_REPORTING_H

#include "counts/summary.h"
#include "desk/desk.h"
#include "desk/given.h"
#include "keep/safefile.h"

/* Begun before anything is read, so that a path that cannot be written is told
 * at once; the file appears only when it is finished. */
struct reporting {
	struct summary summary; /* for summary_count and summary_account */
	struct safefile file;
};

/* The page behind --report, as outfile_open. Release it in any case. */
bool reporting_begin(struct reporting *reporting, const struct desk *desk,
		     const struct given *given, struct fault *why);
bool reporting_finish(struct reporting *reporting, struct fault *why);
void reporting_release(struct reporting *reporting);

#endif
