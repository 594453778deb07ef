/* yieldgroups.h: a yield by rule, grade, site and grader. */
#ifndef SHOAL_PAPER_YIELDGROUPS_H
#define SHOAL_PAPER_YIELDGROUPS_H

#include "counts/yieldfigures.h"
#include "paper/leaf.h"

/* The tables of `per`, YIELD_ALL: of every kind; in a page with bars, for which
 * chart_define_fills was called. */
void yieldgroups_write(const struct yield *yield, enum yield_per per,
		       struct leaf *leaf);

#endif
