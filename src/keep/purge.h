/* purge.h: names of camps that are over, removed for good. */
#ifndef SHOAL_KEEP_PURGE_H
#define SHOAL_KEEP_PURGE_H

#include "base/day.h"
#include "base/fault.h"
#include "base/refnum.h"
#include "keep/book.h"

#include <stdbool.h>

/*
 * Of everybody screened before a day, as known now, name, contact and every
 * written reason are removed from all entries, and the free texts of the
 * replies (where else somebody was seen, what was done in words, the word to
 * the grader). Numbers, days, ages, grades, decisions and answers stay: every
 * tally and yield counts as before. Somebody who was referred and of whom
 * nothing was heard keeps the name, since without it nobody can be called any
 * more, unless the caller says otherwise.
 *
 * It is the one change of rows that were saved, and goes by one transaction.
 * What SQLite leaves of the old bytes is overwritten: in the file by
 * secure_delete and VACUUM, in its journal by zeros (scrub.h). The slips of
 * the same people are scrubbed too, and every slip that was never finished.
 * Doing it again does what was left undone. FAULT_REGISTER; FAULT_OUTPUT for a
 * slip.
 */
struct purge_choice {
	struct day before;
	bool waiting_too;
};

struct purge_plan {
	long long people;	/* who have something to be removed */
	long long waiting;	/* who keep their names, since they wait */
	struct day first, last; /* days of the former, or none */
};

/* Called with each number that keeps its name; false stops. */
typedef bool purge_see(void *context, struct refnum number, struct fault *why);

bool purge_plan(struct book *book, const struct purge_choice *choice,
		purge_see *see_waiting, void *context, struct purge_plan *plan,
		struct fault *why);

/* `book` was opened with BOOK_ALONE; `slips` is the folder of slips. */
bool purge_do(struct book *book, const struct purge_choice *choice,
	      const char *slips, struct fault *why);

/* Called with each file in the station's folder that may still hold names:
 * registers set aside, copies made before an upgrade, what a killed program
 * left. */
typedef void purge_hear(void *context, const char *path);

void purge_find_files(const char *folder, purge_hear *hear, void *context);

#endif
