/* lookup.h: what the register knows about people, days and policies. */
#ifndef SHOAL_KEEP_LOOKUP_H
#define SHOAL_KEEP_LOOKUP_H

#include "base/day.h"
#include "base/fault.h"
#include "base/refnum.h"
#include "clinic/visit.h"
#include "keep/book.h"

#include <stddef.h>

/*
 * What comes out is read by the fields' own kinds: an entry that they refuse
 * is a fault, "the register is damaged: entry 12: depth_right: ...", and never
 * guessed at. Faults are FAULT_REGISTER where nothing else is said.
 */
/* The person as known now. FAULT_INPUT when the number is not in the
 * register. `entry` may be NULL. */
bool register_find(struct book *book, struct refnum number, struct visit *visit,
		   long long *entry, struct fault *why);

/*
 * Called per person; false stops and hands its fault up. `reason` is "" for a
 * first entry. The register is not locked meanwhile, however long it takes (a
 * pager that waits for a key must not keep others from saving), and may be
 * asked anything; what is saved during a visit may or may not be seen.
 */
typedef bool register_see(void *context, const struct visit *visit,
			  const char *reason, struct fault *why);

/* Everybody as known now, by serial, void ones too; `day` none = all days. */
bool register_visit_day(struct book *book, struct day day, register_see *see,
			void *context, struct fault *why);

/* All entries of one number, oldest first. */
bool register_visit_history(struct book *book, struct refnum number,
			    register_see *see, void *context,
			    struct fault *why);

/* People, not void, who may be the same person: same folded name (not empty),
 * same sex or one not recorded, ages at most 2 years apart or one unknown, and
 * not of the visit's own number. */
bool register_visit_twins(struct book *book, const struct visit *visit,
			  register_see *see, void *context, struct fault *why);

/* The last day on which anybody was screened, as known now, not void and not
 * entered late; day_none() when there is none. */
bool register_last_day(struct book *book, struct day *day, struct fault *why);

/* The number of the last entry, 0 when there is none: as long as it is the
 * same, nothing was saved, corrected or made void. */
bool register_last_entry(struct book *book, long long *entry,
			 struct fault *why);

/* The fingerprint of the policy that judged in the last entry; "" when nobody
 * is there. */
bool register_last_policy(struct book *book, char *mark, size_t size,
			  struct fault *why);

/* The text first kept for a fingerprint into `text` of `size` bytes;
 * FAULT_REGISTER when there is none. */
bool register_policy_text(struct book *book, const char *fingerprint,
			  char *text, size_t size, struct fault *why);

#endif
