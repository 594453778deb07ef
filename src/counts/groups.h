/* groups.h: counts added up by a key. */
#ifndef SHOAL_COUNTS_GROUPS_H
#define SHOAL_COUNTS_GROUPS_H

#include "base/fault.h"
#include "counts/tally.h"

#include <stddef.h>

/*
 * A table of sums, one per key; a key is any text. Memory grows with the
 * number of keys alone. Sums are wide enough for every file there can be.
 * Each key has so many sums as groups_init_wide says, of a tally GROUPS_COUNTS.
 */
enum { GROUPS_COUNTS = 15 }; /* of TALLY_COUNTS; held together in groups.c */

struct sums {
	long long count[GROUPS_COUNTS]; /* in the order of tally_count_fields */
};

struct group;
struct groups {
	struct group *group; /* owned */
	size_t count, room;
	long long *sum; /* owned; `width` of each group */
	size_t sums;	/* room for so many */
	size_t wider;	/* sums of a group beside GROUPS_COUNTS */
	unsigned *slot; /* owned; place in `group` plus 1, 0 = free */
	size_t slots;
	char *text; /* owned; the keys, each with its NUL */
	size_t used, size;
	size_t last; /* place in `group` plus 1 of the last add; 0 = none */
};

/* An empty table of tallies' counts; takes no memory yet. */
void groups_init(struct groups *groups);
/* The same with `width` sums per key, at least GROUPS_COUNTS. */
void groups_init_wide(struct groups *groups, size_t width);
void groups_release(struct groups *groups);

/* Adds the counts `sign` (1 or -1) times to the key's sums, which begin at 0.
 * FAULT_INTERNAL when memory is short; the table is then as it was. */
bool groups_add(struct groups *groups, const char *key,
		const struct tally_counts *counts, int sign, struct fault *why);

/* The same of `width` counts, those of groups_init_wide. */
bool groups_add_wide(struct groups *groups, const char *key, const int *count,
		     int sign, struct fault *why);

/* Of tallies: the sums of a key, or NULL. Lives until the next add. */
const struct sums *groups_find(const struct groups *groups, const char *key);

/* Called per key, by the order of the keys' bytes; false stops. Keys whose
 * sums are all 0 come too, but not those from which all was taken back. */
typedef bool groups_see(void *context, const char *key, const struct sums *sums,
			struct fault *why);
bool groups_visit(struct groups *groups, groups_see *see, void *context,
		  struct fault *why);

/* The same with the `width` sums. */
typedef bool groups_see_wide(void *context, const char *key,
			     const long long *sum, struct fault *why);
bool groups_visit_wide(struct groups *groups, groups_see_wide *see,
		       void *context, struct fault *why);

#endif
