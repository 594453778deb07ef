/* callsheet.h: who is to be called about a missing reply, as a page. */
#ifndef SHOAL_PAPER_CALLSHEET_H
#define SHOAL_PAPER_CALLSHEET_H

#include "clinic/visit.h"
#include "keep/stationfile.h"

#include <stdio.h>

/*
 * One HTML document for A4 across: a row per person with boxes to tick and room
 * for the reason. It holds names, and says how to treat it. Begin, a row for
 * each person, end. No script, nothing from outside, every text escaped.
 */
void callsheet_begin(const struct station *station, struct day today,
		     FILE *out);
/* `days_over`: how long ago the person was to be seen, 0 = not overdue. */
void callsheet_row(const struct visit *visit, int days_over, FILE *out);
void callsheet_end(long people, long overdue, FILE *out);

#endif
