/* panel.h: what may be typed now, on the lowest rows. */
#ifndef SHOAL_DESK_PANEL_H
#define SHOAL_DESK_PANEL_H

#include "desk/brush.h"
#include "desk/keying.h"

enum { PANEL_KEYS = 1 }; /* rows of the keys, below all */

/* How many rows above the keys the question at hand needs. */
int panel_rows(const struct keying *keying);

/* Draws its choices with their number keys, or what may be typed. */
void panel_draw(const struct keying *keying, const struct brush *brush);

/* Draws the keys that do something now (`keys`, or NULL for those of the
 * question), or why the last answer was not taken. */
void panel_draw_last(const struct keying *keying, const char *keys,
		     const struct brush *brush);

#endif
