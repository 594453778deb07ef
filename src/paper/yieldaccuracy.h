/* yieldaccuracy.h: whether the screening finds the narrow angles. */
#ifndef SHOAL_PAPER_YIELDACCURACY_H
#define SHOAL_PAPER_YIELDACCURACY_H

#include "counts/yieldfigures.h"
#include "paper/leaf.h"

/*
 * Sensitivity and specificity with how many were missed, or the sentence why
 * there are none. `chosen` of those not referred had been chosen for
 * examination by the fixed rule.
 */
void yieldaccuracy_write(const struct yield_counts *referred,
			 const struct yield_counts *cleared, int chosen,
			 struct leaf *leaf);

#endif
