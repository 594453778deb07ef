/* yieldrows.h: yields as they travel to the programme, a file a month. */
#ifndef SHOAL_COUNTS_YIELDROWS_H
#define SHOAL_COUNTS_YIELDROWS_H

#include "base/day.h"
#include "base/fault.h"
#include "base/field.h"
#include "clinic/visit.h"
#include "counts/yield.h"

/*
 * One file per station and month of screening, so that no person stands in two
 * of them, as with the daily tallies. One row per site x policy x urgency x
 * rule that decided x grade of the shallower eye with anybody in it, people who
 * were not referred (urgency no_referral, rule "none") included: what was found
 * in those of them who were examined tells how many the screening misses. No
 * names. In each row the sums of yield.h hold, `chosen` of those not referred
 * had been chosen for examination, and the rows' people add up to month_total.
 * `check` is that of a tally.
 *
 * `month` is the first day of the month. The counts change as replies come in;
 * `revision` is the number of entries in the register, to which entries are
 * only ever added, or one more than the last that was written where anything
 * else has changed, such as the policy; `as_of` is the last day on which one
 * was screened or answered: so what was written later has the higher revision,
 * and the same register, policy and station file write the same file.
 */
enum {
	YIELDROWS_MOST = 3000, /* in memory, of all months */
	YIELDROWS_REVISION_MOST = 999999,
	YIELDROWS_TEXT_SIZE = 120 * 4 + 1
};

#define YIELDROWS_SCHEMA "shoal-yield-1"

/* The table of a row, as TALLY_COLUMNS in tally.h. */
/* clang-format off */
#define YIELD_COLUMNS(COLUMN) \
COLUMN(char, schema, [16], text, 15, "") \
COLUMN(char, programme, [YIELDROWS_TEXT_SIZE], text, 120, "") \
COLUMN(char, site, [YIELDROWS_TEXT_SIZE], text, 120, "") \
COLUMN(char, station, [5], text, 4, "") \
COLUMN(char, device, [7], text, 6, "") \
COLUMN(struct day, month, , day, 0, "") \
COLUMN(int, revision, , count, YIELDROWS_REVISION_MOST, "") \
COLUMN(struct day, as_of, , day, 0, "") \
COLUMN(int, hidden_quadrants, , count, 4, "") \
COLUMN(char, policy, [7], text, 6, "") \
COLUMN(int, urgency, , choice, 0, "same_day|urgent|routine|no_referral") \
COLUMN(char, rule, [RULE_NAME_SIZE], text, 40, "") \
COLUMN(enum depth, depth, , depth, 0, "") \
YIELD_COUNTS(COLUMN) \
COLUMN(int, chosen, , count, YIELD_COUNT_MOST, "people") \
COLUMN(int, row, , count, YIELDROWS_MOST, "") \
COLUMN(int, rows, , count, YIELDROWS_MOST, "") \
COLUMN(int, month_total, , count, YIELD_COUNT_MOST, "people") \
COLUMN(char, check, [FIELDS_MARK_SIZE], text, 7, "")
/* clang-format on */

struct yield_row {
	YIELD_COLUMNS(YIELD_MEMBER)
};

/* Column order, names and kinds of the CSV. */
extern const struct fields yield_columns;

/* What stands at the head of every row. */
struct yield_head {
	const char *programme;
	const char *site;   /* for a month in which nobody remains */
	const char *policy; /* the same */
	int station;
	const char *device;
	int revision;
	struct day as_of;
	int hidden_quadrants;
};

/* People of one kind. */
struct yield_kind {
	struct day month;
	char site[VISIT_SITE_SIZE];
	char policy[VISIT_POLICY_SIZE];
	int urgency;
	char rule[RULE_NAME_SIZE];
	enum depth depth;
	struct yield_counts counts;
	int chosen;
};

/* About 1.2 MB, of which as much is used as there are kinds. */
struct yieldrows {
	int count;
	struct yield_kind kind[YIELDROWS_MOST]; /* sorted, by month first */
};

void yieldrows_init(struct yieldrows *rows);

/* Counts one person with the counts that yield_count gave. FAULT_INPUT when
 * there are more than YIELDROWS_MOST kinds of people. */
bool yieldrows_add(struct yieldrows *rows, const struct yield_person *person,
		   const struct yield_counts *one, struct fault *why);

/* The first day of the month. */
struct day yieldrows_month(struct day day);

/* Of the month's kinds the first and how many there are. */
int yieldrows_find(const struct yieldrows *rows, struct day month, int *first);

/* Calls `see` with the rows of a month's file, one of zeros when nobody
 * remains. False stops. */
typedef bool yieldrows_see(void *context, const struct yield_row *row,
			   struct fault *why);
bool yieldrows_visit(const struct yieldrows *rows, struct day month,
		     const struct yield_head *head, yieldrows_see *see,
		     void *context, struct fault *why);

#endif
