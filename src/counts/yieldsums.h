/* yieldsums.h: the yields of many stations and months, added up. */
#ifndef SHOAL_COUNTS_YIELDSUMS_H
#define SHOAL_COUNTS_YIELDSUMS_H

#include "base/fault.h"
#include "counts/grouping.h"
#include "counts/groups.h"
#include "counts/yield.h"
#include "counts/yieldgather.h"

#include <stdbool.h>

/*
 * Grouped by month, year or all of the time together, and by programme, site,
 * station, policy, urgency, rule, depth. Stations may call an angle closed from
 * another number of hidden quadrants on; a sum over both is told of as such.
 */
extern const struct grouping_choice grouping_yields;

enum { YIELDSUMS_MIXED = -2, YIELDSUMS_QUADRANTS = 6 };

struct yieldsums {
	struct grouping grouping; /* of grouping_yields */
	struct groups groups;
};

/* The sums of one group. */
struct yieldsum {
	struct yield_counts referred;
	struct yield_counts cleared; /* not referred */
	int chosen;		     /* of them, for examination */
	int hidden_quadrants;	     /* blank, or YIELDSUMS_MIXED */
	/* One policy judged everybody and chose whom to examine: else those of
	 * one were taken to be like those of the other, whom nobody examined.
	 */
	bool one_policy;
};

/* `sums->grouping` was read. */
void yieldsums_begin(struct yieldsums *sums);
void yieldsums_release(struct yieldsums *sums);

/* A counted_yield_see; the context is the sums. FAULT_INTERNAL when memory is
 * short. */
bool yieldsums_count(void *sums, const struct counted_yield *row, int sign,
		     struct fault *why);

/* Called per group, by the order of the keys; false stops. FAULT_INPUT when a
 * sum is more than 2147483647. */
typedef bool yieldsums_see(void *context, const char *key,
			   const struct yieldsum *sum, struct fault *why);
bool yieldsums_visit(struct yieldsums *sums, yieldsums_see *see, void *context,
		     struct fault *why);

#endif
