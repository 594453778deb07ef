/* yieldcsv.h: a yield as CSV, for a spreadsheet. */
#ifndef SHOAL_DESK_YIELDCSV_H
#define SHOAL_DESK_YIELDCSV_H

#include "counts/yieldfigures.h"

#include <stdio.h>

/*
 * One row for all, then one per group of `per` (YIELD_ALL: of every kind):
 * per, group, the counts, then in per cent with two decimals what could be
 * estimated, an empty cell where nothing could: uptake, with its 95 % interval
 * and the bounds if none, or all, of those of unknown outcome came; attended by
 * day 30; the median days; and per class its share of those who attended with
 * interval and the bounds over everybody sent.
 */
void yieldcsv_write(const struct yield *yield, enum yield_per per, FILE *out);

/* Parts of such a row, for rows that begin otherwise, each with a comma in
 * front: the counts and shares of a cell, and their titles; `times` false is
 * without day 30 and median. */
void yieldcsv_write_titles(bool times, FILE *out);
void yieldcsv_write_figures(const struct yield_cell *cell, bool times,
			    FILE *out);
/* In per cent: the value, low and high. */
void yieldcsv_write_share(const struct yield_share *share, FILE *out);

#endif
