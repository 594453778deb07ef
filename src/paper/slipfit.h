/* slipfit.h: whether a slip's page has so much to say that it is set smaller.
 */
#ifndef SHOAL_PAPER_SLIPFIT_H
#define SHOAL_PAPER_SLIPFIT_H

#include "paper/slip.h"

/*
 * Estimated from the widths of the texts, since a browser's fonts are not known
 * here. FULL: the patient's part and the clinic's would run over one A5 page,
 * so what is not for the patient is set in 8.5 points. FULLEST: that would not
 * be enough to keep the slip to two pages; 8 points. Taking a slip for fuller
 * than it is makes it only smaller.
 */
enum slip_fit { SLIP_FIT_EASY, SLIP_FIT_FULL, SLIP_FIT_FULLEST };

enum slip_fit slip_fit(const struct slip *slip);

#endif
