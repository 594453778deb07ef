/* counted.h: a row of a tally that was read, checked and accepted. */
#ifndef SHOAL_COUNTS_COUNTED_H
#define SHOAL_COUNTS_COUNTED_H

#include "base/day.h"
#include "base/fault.h"
#include "counts/tally.h"

#include <stdbool.h>

/*
 * What collating hands on, row by row. Texts live until the call returns.
 */
struct counted {
	struct day date;
	int station; /* 1 to 9999 */
	const char *programme, *site, *policy;
	int sex;	      /* enum visit_sex; SEX_COUNT = not recorded */
	const char *age_band; /* "40-49", "70+", "unknown" */
	bool closed;	      /* the day was complete when it was counted */
	struct tally_counts counts;
};

/* Called for each row counted, `sign` 1, and with `sign` -1 for one that turns
 * out not to count after all (superseded, or in conflict). False stops and
 * hands the fault up. */
typedef bool counted_see(void *context, const struct counted *row, int sign,
			 struct fault *why);

/* What became of one tally, or of one file that was refused. */
enum ledger_status {
	LEDGER_COUNTED,
	LEDGER_SAME,	   /* the same content is counted already */
	LEDGER_SUPERSEDED, /* a higher revision is counted */
	LEDGER_CONFLICT,   /* two differ, so neither is counted */
	LEDGER_REFUSED,
	LEDGER_PASSED_OVER, /* hidden, or left by a program: no fault */
	LEDGER_STATUSES
};

/* "counted", "same", "superseded", "conflict", "refused", "passed over". */
const char *ledger_status_word(enum ledger_status status);

struct ledger_line {
	const char *path; /* as reached from what was given */
	enum ledger_status status;
	int station;	    /* 0 = not known */
	struct day date;    /* day_none() = not known */
	int revision;	    /* 0 = not known */
	const char *reason; /* a sentence: of a fault, or "revision 3 of ... is
			     * counted"; "" for a counted one */
	long row;	    /* at fault, from 1; 0 = the file as a whole */
	const char *column; /* at fault; "" = the row as a whole */
	bool went_on;	    /* superseded by a register that went on from a copy
			     * of the one that wrote it */
};

/* Called per line, by path; false stops. */
typedef bool ledger_see(void *context, const struct ledger_line *line,
			struct fault *why);

#endif
