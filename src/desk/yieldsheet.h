/* yieldsheet.h: the sums of collated yields as CSV. */
#ifndef SHOAL_DESK_YIELDSHEET_H
#define SHOAL_DESK_YIELDSHEET_H

#include "base/fault.h"
#include "counts/yieldsums.h"

#include <stdio.h>

/* What has to be told of the rows written. */
struct yieldsheet {
	bool mixed;    /* "mixed" stands in one */
	bool policies; /* several policies left a sensitivity out */
};

/*
 * Writes the header and a row per group: the period, the columns; of those who
 * were referred the counts and shares as 'yield --csv' has them, the bounds for
 * unknown outcomes beside each share; the number of hidden quadrants from which
 * an angle is called closed, or "mixed"; then of those not referred how many
 * were chosen for examination, and their counts; and what the screening finds,
 * by Begg and Greenes (counts/accuracy.h), with the missed on whom it rests,
 * of so many examined. Sensitivity and specificity stand only where one policy
 * judged all that were added up.
 */
bool yieldsheet_write(struct yieldsums *sums, FILE *out,
		      struct yieldsheet *told, struct fault *why);

#endif
