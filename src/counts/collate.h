/* collate.h: which of many batches count. */
#ifndef SHOAL_COUNTS_COLLATE_H
#define SHOAL_COUNTS_COLLATE_H

#include "base/fault.h"
#include "counts/counted.h"
#include "counts/batch.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/*
 * Batches are tallies, or yields, never both. For each station and day only the
 * highest revision counts, and once however often it was copied. Where the
 * highest revision comes with two contents, or one station's code from two
 * devices, nobody can say which is right: none of them counts. So what counts
 * depends on what was given alone, not on its order; of equal ones the first is
 * the one that counts.
 *
 * Yields grow (batch.h): where a register went on from a copy, its file of a
 * month takes the place of the one before by the higher revision, when it, or
 * one in between, has as many people and as many known outcomes at least. What
 * the copy did not have is missing in it: then neither counts, as with tallies.
 *
 * Of each a small entry is kept, never its rows. While they come, the
 * one that seems to count is added up at once; when all have come,
 * collate_settle says of each what became of it, and the caller takes back what
 * was added wrongly and adds what was not.
 */
struct collate_entry {
	uint64_t mark;	   /* of its content */
	long long place;   /* in its file; afterwards see collate_settle */
	unsigned file;	   /* the caller's number of it */
	unsigned day : 17; /* of 1970-2099, see BATCH_YEAR_LEAST */
	unsigned station : 14;
	unsigned added : 1;   /* is in the caller's sums */
	unsigned device : 29; /* its letters as a number */
	unsigned status : 3;  /* enum ledger_status */
	unsigned revision : 30;
	unsigned copies : 1;	/* of the best one: see collate_settle */
	unsigned dropped : 1;	/* its file was refused: it was never there */
	unsigned people, known; /* of a batch that grows */
};

/* A station's day and the best entry of it so far. The key stands here too, so
 * that looking for another day does not read entries all over the memory. */
struct collate_slot {
	uint32_t key;	/* day and station */
	uint32_t entry; /* its place plus 1, 0 = free */
};

#define COLLATE_STATIONS 10000U

struct collate {
	bool grows;		     /* what comes does; see batch.h */
	struct collate_entry *entry; /* owned */
	size_t count, room;
	struct collate_slot *slot; /* owned */
	size_t slots;
	bool dropped; /* any of the entries */
	/* Per station the first two devices, plus 1; 0 = none. */
	unsigned device[COLLATE_STATIONS][2];
};

void collate_init(struct collate *collate, bool grows);
void collate_release(struct collate *collate);

/* Takes note of one whole batch. `*adds`: it seems to count, add it up.
 * FAULT_INTERNAL when memory is short. */
bool collate_add(struct collate *collate, const struct batch *batch,
		 unsigned file, long long place, bool *adds, struct fault *why);

/* The entries from `first` on are of a file that was refused after all. */
void collate_drop(struct collate *collate, size_t first);

/* Gives every entry that is not dropped its status. Two devices of one family
 * (keep/book.h: the first four letters are the same) are a register and one
 * that went on from a copy of it: both count, but not for one day, unless what
 * comes grows. The best entry of such a day has `copies`. */
void collate_settle(struct collate *collate);

/* Whether the entry belongs into the sums. */
bool collate_counts(const struct collate_entry *entry);

/* After all places were used: of two that differ, `place` of the entry that
 * counts best becomes the number of the first one it differs from. */
void collate_pair(struct collate *collate);

/* The entry that stands for the entry's station and day: the first one of the
 * highest revision. */
const struct collate_entry *collate_best(const struct collate *collate,
					 const struct collate_entry *entry);

/* The same for a station (1 to 9999) and day; NULL when nothing came of it. */
const struct collate_entry *collate_find(const struct collate *collate,
					 unsigned station, struct day day);

/* The letters of the entry's device, 7 bytes with the NUL. */
void collate_device(const struct collate_entry *entry, char *letters);

/* Whether two devices gave this station's code, and their letters (7 bytes
 * each, with the NUL). */
bool collate_two_devices(const struct collate *collate, unsigned station,
			 char *one, char *other);

#endif
