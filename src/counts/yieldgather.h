/* yieldgather.h: the rows of one month's yield, gathered until they agree. */
#ifndef SHOAL_COUNTS_YIELDGATHER_H
#define SHOAL_COUNTS_YIELDGATHER_H

#include "base/fault.h"
#include "counts/batch.h"
#include "counts/yield.h"
#include "counts/yieldrows.h"

#include <stddef.h>
#include <stdint.h>

/* A row of a yield that was read, checked and accepted. Texts live as long as
 * what gathered them. */
struct counted_yield {
	struct day month; /* its first day */
	int station;	  /* 1 to 9999 */
	const char *programme, *site, *policy, *rule;
	int urgency;
	enum depth depth;     /* of the shallower eye */
	int hidden_quadrants; /* from so many on an angle is called closed;
				 blank: no policy says */
	struct yield_counts counts;
	int chosen;
};

/* As counted_see. */
typedef bool counted_yield_see(void *context, const struct counted_yield *row,
			       int sign, struct fault *why);

enum {
	YIELDGATHER_TEXT_SIZE =
		YIELDROWS_TEXT_SIZE +
		YIELDROWS_MOST * (YIELDROWS_TEXT_SIZE + RULE_NAME_SIZE + 7)
};

/* See counts/batch.h. Some 2 MiB, of which as much is used as there are rows.
 * Holds pointers into itself, so it cannot be copied. */
struct yieldgather {
	struct batch batch;
	struct day as_of;
	struct counted_yield row[YIELDROWS_MOST];
	size_t used;
	char text[YIELDGATHER_TEXT_SIZE];
};

/* Yields, for the readers. */
extern const struct batch_kind yieldgather_kind;

void yieldgather_begin(struct yieldgather *gather);

/* As gather_check and gather_add. */
bool yieldgather_check(const struct yield_row *row, const char **column,
		       struct fault *why);
bool yieldgather_add(struct yieldgather *gather, const struct yield_row *row,
		     uint32_t crc, const char **column, struct fault *why);

#endif
