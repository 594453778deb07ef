/* slipfit.h: whether a slip's page has so much to say that it is set smaller.
 */
#ifndef SHOAL_PAPER_SLIPFIT_H
#define SHOAL_PAPER_SLIPFIT_H

#include "paper/slip.h"

/*
 * Whether the patient's part and the clinic's together would run over one A5
 * page, estimated from the widths of their texts: a browser's fonts are not
 * known here. Taking a slip for full that is not makes it only smaller.
 */
bool slip_is_full(const struct slip *slip);

#endif
