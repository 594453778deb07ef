/* reportparts.h: the parts of the report. */
#ifndef SHOAL_PAPER_REPORTPARTS_H
#define SHOAL_PAPER_REPORTPARTS_H

#include "counts/summary.h"

#include <stdio.h>

/* Each writes one part, escaped, in the order of the page; where there is
 * nothing to show it says so in a sentence. */
typedef void report_part(struct summary *summary, FILE *out);

/* reporttop.c */
report_part report_programme; /* names, for the title */
report_part report_first;     /* what must be known first */
report_part report_source;    /* what was counted, by which policies */
report_part report_totals;

/* reportpeople.c */
report_part report_weeks;
report_part report_sites;
report_part report_depths;

/* reportgrid.c */
report_part report_grid;

/* reportstations.c */
report_part report_funnel;
report_part report_late;

/* reportdrift.c */
report_part report_drift;

/* reportledger.c */
report_part report_ledger;

#endif
