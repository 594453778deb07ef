/* yieldcsv.h: a yield as CSV, for a spreadsheet. */
#ifndef SHOAL_DESK_YIELDCSV_H
#define SHOAL_DESK_YIELDCSV_H

#include "counts/yieldfigures.h"

#include <stdio.h>

/*
 * One row for all, then one per group of `per` (YIELD_ALL: of every kind):
 * per, group, the counts, then in per cent with two decimals what could be
 * estimated, an empty cell where nothing could: uptake, attended by day 30,
 * each with its 95 % interval, the median days, and per class its share of
 * those who attended with interval and the bounds over everybody sent.
 */
void yieldcsv_write(const struct yield *yield, enum yield_per per, FILE *out);

#endif
