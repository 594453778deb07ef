/* sumsheet.h: the sums of collated tallies as CSV. */
#ifndef SHOAL_DESK_SUMSHEET_H
#define SHOAL_DESK_SUMSHEET_H

#include "base/fault.h"
#include "counts/grouping.h"
#include "counts/groups.h"

#include <stdio.h>

/* Reads the limit of a public copy, HIDE_LEAST to HIDE_MOST; NULL is 0, which
 * hides nothing. FAULT_USAGE says what is allowed. */
bool sumsheet_read_limit(const char *text, long *under, struct fault *why);

/* Parts of a row: the titles of the period and the columns; their values, as
 * grouping_key joined them. */
void sumsheet_write_titles(const struct grouping *grouping, FILE *out);
bool sumsheet_write_key(const char *key, FILE *out, struct fault *why);

/* Writes the header and a row per group: the period, the columns, then every
 * count; counts from 1 to under - 1 and what would tell them as hide_word (see
 * counts/hide.h). */
bool sumsheet_write(struct groups *groups, const struct grouping *grouping,
		    long under, FILE *out, struct fault *why);

#endif
