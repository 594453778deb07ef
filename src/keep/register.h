/* register.h: the station's register of everybody screened. */
#ifndef SHOAL_KEEP_REGISTER_H
#define SHOAL_KEEP_REGISTER_H

#include "base/day.h"
#include "base/fault.h"
#include "base/refnum.h"
#include "clinic/visit.h"
#include "keep/book.h"
#include "keep/lookup.h"

/*
 * What is added to an open book about people, policies and tallies; what it
 * knows is in lookup.h. Append-only: a correction or a void is a new entry that
 * names the one before it and says why; the last entry of a number is the
 * person as known now. When a function here returns true, what it saved
 * survives a power cut (within a register_begin: once register_commit returns
 * true).
 *
 * FAULT_INPUT is something asked for that cannot be, such as a number that is
 * not in the register. Every other failure is FAULT_REGISTER and leaves the
 * register as it was; after a failed write the book takes no more.
 */
enum {
	REGISTER_REASON_MOST = 120, /* characters */
	REGISTER_SERIAL_MOST = REFNUM_PAPER_FIRST - 1
};

/*
 * Saves a new person. When visit->number is none the next serial of this
 * station is given out (1 to 90000; never one used before, also by a void
 * entry) and written into the record, with STATE_CURRENT; a paper number (this
 * station's, serial from 90001) is kept if it is not in the register yet
 * (FAULT_INPUT). `policy_text` of the fingerprint in visit->policy is kept
 * beside, once; NULL or "" = none. Outside of a begin it is one transaction of
 * its own. On failure `visit` is unchanged and the sentence begins with "NOT
 * saved".
 */
bool register_save(struct book *book, struct visit *visit,
		   const char *policy_text, struct fault *why);

/*
 * Adds a new entry for visit->number with state STATE_CORRECTED or STATE_VOID
 * and the reason (1 to REGISTER_REASON_MOST characters); `entry` is the entry
 * that was shown to the user (of register_find): when somebody else has changed
 * the person since, it is refused (FAULT_INPUT).
 */
bool register_revise(struct book *book, const struct visit *visit,
		     long long entry, const char *reason,
		     const char *policy_text, struct fault *why);

/*
 * The last tally written for a day: its revision (0 = none), whether it was
 * closed, and the mark of its content. register_keep_tally remembers a new
 * one; the last one again is fine, any other that is not a higher revision is
 * refused.
 */
struct tally_written {
	int revision;
	bool closed;
	char mark[8]; /* seven letters over the content without the revision */
};

bool register_last_tally(struct book *book, struct day day,
			 struct tally_written *last, struct fault *why);
bool register_keep_tally(struct book *book, struct day day,
			 const struct tally_written *written,
			 struct fault *why);

/* The same for whatever is written again and again: `of` is the day of a tally,
 * YYYY-MM-DD, or the month of a yield, YYYY-MM. */
bool register_last_written(struct book *book, const char *of,
			   struct tally_written *last, struct fault *why);
bool register_keep_written(struct book *book, const char *of,
			   const struct tally_written *written,
			   struct fault *why);

#endif
