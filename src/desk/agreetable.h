/* agreetable.h: the table of two gradings as a picture. */
#ifndef SHOAL_DESK_AGREETABLE_H
#define SHOAL_DESK_AGREETABLE_H

#include "clinic/depth.h"
#include "counts/agreement.h"

#include <stdio.h>

/* Rows are the grader's, columns the reference's grades; equal ones stand out,
 * and lines part what is at the cut-off or shallower from the rest (none with
 * DEPTH_BLANK). In characters: at most 40 columns for counts below 1000. */
void agreetable_write(const struct agreement_table *table, enum depth cutoff,
		      FILE *out);

/* The same as inline SVG: the fuller a cell, the darker. */
void agreetable_draw(const struct agreement_table *table, enum depth cutoff,
		     FILE *out);

#endif
