/* outcome.h: what became of everything collated, told and written down. */
#ifndef SHOAL_DESK_OUTCOME_H
#define SHOAL_DESK_OUTCOME_H

#include "counts/batch.h"
#include "counts/counted.h"
#include "desk/collating.h"
#include "desk/desk.h"
#include "desk/given.h"
#include "keep/safefile.h"

#include <stdio.h>

/* The first few that were refused or in conflict are said at once, and the
 * first one of the other kind, since yields lie beside tallies; the ledger,
 * when one was asked for, has all. */
struct outcome {
	FILE *talk;
	int columns; /* to wrap it to; 0 = it is not wrapped */
	const struct batch_kind *kind;
	struct safefile ledger;	      /* its `out` is NULL when there is none */
	bool listed;		      /* a ledger was asked for */
	long long complaints, others; /* others: of the other kind */
	long long went_on;	      /* see struct ledger_line */
};

/* With a ledger when one is `given`. As outfile_open. */
bool outcome_begin(struct outcome *outcome, const struct desk *desk,
		   const struct given *given, const struct batch_kind *kind,
		   struct fault *why);

/* A ledger_see; the context is the outcome. */
bool outcome_see(void *outcome, const struct ledger_line *line,
		 struct fault *why);

/* The ledger stands from now on, and what was said is on the screen before any
 * sums. */
bool outcome_commit(struct outcome *outcome, struct fault *why);

/* Says something, wrapped as it has to be. */
void outcome_say(const struct outcome *outcome, const char *text);

/* Says how many of each there were. False, FAULT_INPUT, when nothing counts or
 * not all could be counted. */
bool outcome_judge(const struct outcome *outcome,
		   const struct collating_totals *totals, struct fault *why);

/* A ledger that does not stand yet is dropped. */
void outcome_release(struct outcome *outcome);

#endif
