/* yield.h: what became of the people screened, as the clinic's replies tell. */
#ifndef SHOAL_COUNTS_YIELD_H
#define SHOAL_COUNTS_YIELD_H

#include "base/day.h"
#include "base/fault.h"
#include "base/field.h"
#include "clinic/angle.h"
#include "clinic/policy.h"
#include "clinic/reply.h"
#include "clinic/visit.h"
#include "counts/attendance.h"

/*
 * Counts of people, none of whom is named. In each set of counts
 *   people = attended + elsewhere + not_attended + unknown,
 *   attended = open + suspect + closure + closure_glaucoma + closed
 *              + not_derivable,
 *   not_attended = cost + ... + not_known.
 * `closed` is at least suspect, but it cannot be told which; `in_time` are
 * those of `unknown` whose day to be seen by has not passed. Of somebody seen
 * elsewhere no class is counted.
 *
 * People who were not referred are counted in the same way, but a reply about
 * one of them counts only when a rule fixed beforehand had chosen the person
 * for examination (section [verify] of the policy): examined by suspicion,
 * they would make the screening look worse than it is.
 */
enum { YIELD_COUNT_MOST = 99999 };

/* The table of the counts, as TALLY_COUNTS in tally.h. */
/* clang-format off */
#define YIELD_COUNTS(COLUMN) \
COLUMN(int, people, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, attended, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, elsewhere, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, not_attended, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, unknown, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, in_time, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, open, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, suspect, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, closure, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, closure_glaucoma, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, closed, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, not_derivable, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, cost, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, sees_well, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, too_far, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, no_companion, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, other_illness, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, not_understood, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, died, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, other, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, not_known, , count, YIELD_COUNT_MOST, "people")
/* clang-format on */

struct yield_counts {
#define YIELD_MEMBER(type, name, dimension, ...) type name dimension;
	YIELD_COUNTS(YIELD_MEMBER)
};

enum { YIELD_COUNTED = sizeof(struct yield_counts) / sizeof(int) };

/* Offsets into struct yield_counts. */
extern const struct fields yield_count_fields;

void yield_counts_add(struct yield_counts *sum,
		      const struct yield_counts *more);

/* All with an angle closed in any way: suspect or worse. */
int yield_closed(const struct yield_counts *counts);

/* Whether the sums above hold; FAULT_INPUT says which does not. */
bool yield_counts_agree(const struct yield_counts *counts, struct fault *why);

/* One person to be counted. */
struct yield_person {
	const struct visit *visit;   /* not void, and judged */
	const struct reply *reply;   /* NULL = none */
	const struct policy *policy; /* its [gonioscopy] derives the class */
	bool chosen;		     /* for examination though not referred */
	struct day today;	     /* on which this is known */
};

/* The person's counts, each 0 or 1. Of a person referred or chosen whose reply
 * has a day before the screening or after today: false, FAULT_INPUT, and the
 * counts of somebody without a reply. */
bool yield_count(const struct yield_person *person, struct yield_counts *one,
		 struct fault *why);

/* The rule that decided, the first when several did; "none" when no rule did.
 * `name` holds RULE_NAME_SIZE bytes. */
void yield_rule(const struct visit *visit, char *name);

/* What a person referred is counted by. */
enum yield_per {
	YIELD_ALL,
	YIELD_PER_RULE,
	YIELD_PER_GRADE, /* of the shallower eye */
	YIELD_PER_SITE,
	YIELD_PER_GRADER,
	YIELD_PERS
};

/* "all", "rule", "grade", "site", "grader". */
const char *yield_per_word(enum yield_per per);

enum {
	YIELD_DAY = 30,		/* attended by this day after the screening */
	YIELD_LABELS_MOST = 60, /* with a row of their own, in each table */
	YIELD_CELLS_MOST = 1 + (YIELD_PERS - 1) * (YIELD_LABELS_MOST + 1),
	YIELD_LABEL_SIZE = VISIT_SITE_SIZE
};

/* The order of a table's last cell: all beyond YIELD_LABELS_MOST together. */
enum { YIELD_OTHERS = 1000 };

struct yield_cell {
	enum yield_per per;
	int order;		      /* of a grade; YIELD_OTHERS; else 0 */
	char label[YIELD_LABEL_SIZE]; /* rule, "0" to "100" or "x", ... */
	struct yield_counts counts;
	struct attendance attendance;
};

/* About 2.3 MB at most, of which as much is used as there are cells. */
struct yield {
	struct yield_counts cleared; /* not referred */
	int chosen;		     /* of them, for examination */
	int aside;		     /* of them, not chosen, yet with a reply */
	int misdated;
	/* Of those referred who attended, with an angle closed in any way if
	 * every structure seen was one place further forward, as seen, and one
	 * further back (enum angle_shift). */
	int closed[3];
	int count;
	struct yield_cell cell[YIELD_CELLS_MOST]; /* sorted; the first: all */
};

void yield_init(struct yield *yield);

/* Counts one person. Those of more rules, sites or graders than
 * YIELD_LABELS_MOST are counted together, as others: a laptop that is on the
 * road for years comes to many sites. A misdated reply is told to `hear` and
 * not counted, while its person is. False as attendance_add. */
bool yield_add(struct yield *yield, const struct yield_person *person,
	       fault_hear *hear, void *context, struct fault *why);

#endif
