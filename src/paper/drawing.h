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

/*
 * The same as it looks at the slit lamp, one inline <svg>: on black, the lit
 * cornea in white, the gap left dark, the lit iris in white with lines. Paths
 * of class "cornea" and "iris" begin "Mx y..." at their outer edge; the number
 * after h is their width. The edges are one curve moved sideways, so that the
 * gap is the same at every height: from the cornea's inner edge, the grade's
 * per cent of its DRAWING_SLIT_CORNEA units. No strokes at the gap.
 */
enum { DRAWING_SLIT_CORNEA = 40 };

void drawing_write_slit(enum depth depth, const char *title, FILE *out);

#endif
