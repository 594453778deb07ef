/* planpage.h: what to expect of a screening, as a page. */
#ifndef SHOAL_DESK_PLANPAGE_H
#define SHOAL_DESK_PLANPAGE_H

#include "base/fault.h"
#include "desk/planrows.h"

#include <stdio.h>

/* Columns of the page: the wide form has a table, below that width each
 * cut-off has lines of its own. */
enum { PLANPAGE_WIDE = 78, PLANPAGE_NARROW = 40 };

/*
 * Writes per cut-off how many are flagged, found, missed and falsely alarmed,
 * the predictive values, the clinic days, the sample size, and bars to scale.
 * `columns` at least PLANPAGE_NARROW. FAULT_INPUT, nothing written, for what
 * counts/rates.h refuses of every cut-off.
 */
bool planpage_write(const struct plan_question *question, int columns,
		    FILE *out, struct fault *why);

#endif
