/* yieldwords.h: shares of a yield in a few characters. */
#ifndef SHOAL_PAPER_YIELDWORDS_H
#define SHOAL_PAPER_YIELDWORDS_H

#include "counts/yieldfigures.h"

/* Each writes into `text` of YIELDWORDS_SIZE bytes and returns it. In per cent
 * with one decimal; what is some is never "0", what is not all never "100". */
enum { YIELDWORDS_SIZE = 40 };

const char *yieldwords_percent(double fraction, char *text);

/* "33.3 (25.5-42.2)", "33.3" without an interval, "-" without a share. */
const char *yieldwords_share(const struct yield_share *share, char *text);

/* "10.5-65.0", "10.5" when both are the same, or "-". */
const char *yieldwords_bounds(const struct yield_share *share, char *text);

const char *yieldwords_count(int count, char *text);

/* "person" or "people". */
const char *yieldwords_people(int count);

#endif
