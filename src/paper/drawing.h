/* drawing.h: a depth grade as a picture, true to scale. */
#ifndef SHOAL_PAPER_DRAWING_H
#define SHOAL_PAPER_DRAWING_H

#include "clinic/depth.h"

#include <stdio.h>

/*
 * The slit section at the temporal limbus, laid flat: the cornea as a bar and
 * the gap between cornea and iris beside it, the gap's length being the
 * grade's per cent of the cornea's. In characters the cornea is 20 long (so
 * that 5 % is one character), which fits 40 columns; in SVG the cornea is
 * DRAWING_CORNEA units.
 */
enum { DRAWING_CORNEA_CHARACTERS = 20, DRAWING_CORNEA = 100 };

/* Writes e.g. "####################.....|" without a line feed, at most 40
 * characters (the iris mark is left off where it would be the 41st); a depth
 * that was not graded writes nothing. */
void drawing_write_text(enum depth depth, FILE *out);

/*
 * One inline <svg> with a title; black, white and hatching only, readable
 * after photocopying. It holds a path of class "hatch" and three rectangles of
 * class "cornea", "gap" and "iris", each beginning where the one before ends.
 * It has no id, so several may stand on one page. A depth that was not graded
 * writes nothing.
 */
void drawing_write_svg(enum depth depth, const char *title, FILE *out);

#endif
