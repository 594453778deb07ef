/* yieldsums.c: the yields of many stations and months, added up. */
#include "counts/yieldsums.h"

#include "base/mark.h"
#include "counts/yieldrows.h"

#include <assert.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>

/* --- grouping ------------------------------------------------------------- */

#define COLUMN_INDEX(type, name, ...) COLUMN_##name,
enum { YIELD_COLUMNS(COLUMN_INDEX) COLUMNS };

enum {
	BY_PROGRAMME,
	BY_SITE,
	BY_STATION,
	BY_POLICY,
	BY_URGENCY,
	BY_RULE,
	BY_DEPTH
};

/* Grades and urgencies are sorted as they are worse, not by their letters. */
static const char *
in_order(int place, const char *text, size_t length, char *room)
{
	snprintf(room, GROUPING_ROOM, "%c%c%.*s", 'a' + place, GROUPING_ORDER,
		 (int)length, text);
	return room;
}

static const char *
value_of_yield(const void *of, size_t column, char *room)
{
	const struct counted_yield *row = of;
	const char *urgency;
	char depth[4];
	size_t length;

	switch (column) {
	case BY_PROGRAMME:
		return row->programme;
	case BY_SITE:
		return row->site;
	case BY_POLICY:
		return row->policy;
	case BY_RULE:
		return row->rule;
	case BY_STATION:
		return grouping_station(row->station, room);
	case BY_DEPTH:
		depth_write(row->depth, depth);
		return in_order((int)row->depth, depth, strlen(depth), room);
	default:
		break;
	}
	urgency = field_word(yield_columns.field[COLUMN_urgency].words,
			     row->urgency, &length);
	return in_order(row->urgency, urgency, length, room);
}

const struct grouping_choice grouping_yields = {PERIOD_MONTH,
						"all",
						"site",
						{[BY_PROGRAMME] = "programme",
						 [BY_SITE] = "site",
						 [BY_STATION] = "station",
						 [BY_POLICY] = "policy",
						 [BY_URGENCY] = "urgency",
						 [BY_RULE] = "rule",
						 [BY_DEPTH] = "depth"},
						value_of_yield};

/* --- adding up ------------------------------------------------------------ */

enum { POLICY_BITS = 5 * MARK_POLICY_LETTERS };

/* One row's part of the sums. */
struct part {
	struct yield_counts referred, cleared;
	int chosen;
	int rows[YIELDSUMS_QUADRANTS]; /* by hidden_quadrants, blank first */
	/* Rows with anybody in them, and of these how many have each bit of
	 * their policy's letters: all or none, where there is one policy. */
	int peopled, bits[POLICY_BITS];
};

enum { WIDTH = sizeof(struct part) / sizeof(int) };
static_assert(sizeof(struct part) == (2 * YIELD_COUNTED + 2 +
				      YIELDSUMS_QUADRANTS + POLICY_BITS) *
					     sizeof(int),
	      "a part is nothing but counts");

void
yieldsums_begin(struct yieldsums *sums)
{
	groups_init_wide(&sums->groups, WIDTH);
}

void
yieldsums_release(struct yieldsums *sums)
{
	groups_release(&sums->groups);
}

static void
note_policy(const struct counted_yield *row, struct part *part)
{
	part->peopled = row->counts.people > 0;
	for (int i = 0; i < POLICY_BITS; i++)
		part->bits[i] = part->peopled &&
				((row->policy[i / 5] - 'A') >> i % 5 & 1) != 0;
}

static bool
is_one_policy(const struct part *part)
{
	for (int i = 0; i < POLICY_BITS; i++)
		if (part->bits[i] != 0 && part->bits[i] != part->peopled)
			return false;
	return true;
}

bool
yieldsums_count(void *context, const struct counted_yield *row, int sign,
		struct fault *why)
{
	struct yieldsums *sums = context;
	struct part part = {.chosen = row->chosen};
	char key[GROUPING_KEY_SIZE];

	if (row->urgency == URGENCY_NO_REFERRAL)
		part.cleared = row->counts;
	else
		part.referred = row->counts;
	part.rows[(row->hidden_quadrants + 1) % YIELDSUMS_QUADRANTS] = 1;
	note_policy(row, &part);
	grouping_key(&sums->grouping, row->month, row, key);
	return groups_add_wide(&sums->groups, key,
			       (const int *)(const void *)&part, sign, why);
}

/* --- telling -------------------------------------------------------------- */

struct visit_of_yields {
	yieldsums_see *see;
	void *context;
};

static int
quadrants_of(const struct part *part)
{
	int found = YIELDSUMS_MIXED, kinds = 0;

	for (int i = 0; i < YIELDSUMS_QUADRANTS; i++)
		if (part->rows[i] > 0) {
			found = i - 1;
			kinds++;
		}
	return kinds == 1 ? found : YIELDSUMS_MIXED;
}

static bool
see_group(void *context, const char *key, const long long *sum,
	  struct fault *why)
{
	const struct visit_of_yields *visit = context;
	int count[WIDTH] = {0};
	struct part part;
	struct yieldsum one;

	for (int i = 0; i < WIDTH; i++) {
		if (sum[i] > INT_MAX)
			return fault_set(why, FAULT_INPUT,
					 "%lld people are more than can be "
					 "added up, %d; collate fewer files",
					 sum[i], INT_MAX);
		count[i] = (int)sum[i];
	}
	memcpy(&part, count, sizeof part);
	one.referred = part.referred;
	one.cleared = part.cleared;
	one.chosen = part.chosen;
	one.hidden_quadrants = quadrants_of(&part);
	one.one_policy = is_one_policy(&part) &&
			 one.hidden_quadrants != YIELDSUMS_MIXED;
	return visit->see(visit->context, key, &one, why);
}

bool
yieldsums_visit(struct yieldsums *sums, yieldsums_see *see, void *context,
		struct fault *why)
{
	struct visit_of_yields visit = {see, context};

	return groups_visit_wide(&sums->groups, see_group, &visit, why);
}
