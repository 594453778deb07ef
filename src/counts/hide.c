/* hide.c: small counts hidden before a table leaves the programme. */
#include "counts/hide.h"

#include <stddef.h>

#define COLUMN(name) ((int)(offsetof(struct tally_counts, name) / sizeof(int)))

enum { PARTS = 2 };

/* Columns that add up to screened, from the first to the last. */
struct part {
	int first, last;
};

static const struct part parts[PARTS] = {
	{COLUMN(same_day), COLUMN(no_referral)},
	{COLUMN(depth_0), COLUMN(not_gradable)}};

/* Columns that are some of those screened. */
static const int some_of[] = {COLUMN(with_symptoms), COLUMN(late_entries)};

const char hide_word[] = "hidden";

static void
fill(struct hidden *hidden, enum hide_kind kind)
{
	for (int i = 0; i < GROUPS_COUNTS; i++)
		hidden->kind[i] = kind;
}

void
hide_nothing(struct hidden *hidden)
{
	fill(hidden, HIDE_SHOWN);
}

static bool
is_small(long long count, long long under)
{
	return count > 0 && count < under;
}

/* The shown count of the part that is smallest, 0 apart; -1 when there is
 * none. Of equal ones the first. */
static int
find_smallest(const struct sums *sums, const struct hidden *hidden,
	      const struct part *part)
{
	int found = -1;

	for (int i = part->first; i <= part->last; i++)
		if (hidden->kind[i] == HIDE_SHOWN && sums->count[i] > 0 &&
		    (found < 0 || sums->count[i] < sums->count[found]))
			found = i;
	return found;
}

struct range {
	long long least, greatest;
};

/* What a hidden count can be for its kind alone. */
static struct range
range_of_kind(const struct sums *sums, const struct hidden *hidden,
	      const struct part *part, long long under, int column)
{
	struct range range = {1, under - 1};

	if (hidden->kind[column] == HIDE_BESIDE) {
		int shown = find_smallest(sums, hidden, part);

		range.least = under;
		range.greatest =
			sums->count[shown < 0 ? COLUMN(screened) : shown];
	}
	return range;
}

/* What it can be when the hidden counts of the part have to add up as they
 * do: the others take as much, or as little, as they can. */
static struct range
range_in_part(const struct sums *sums, const struct hidden *hidden,
	      const struct part *part, long long under, int column)
{
	struct range range = range_of_kind(sums, hidden, part, under, column);
	long long sum = 0, least = 0, greatest = 0;

	for (int i = part->first; i <= part->last; i++) {
		struct range other;

		if (hidden->kind[i] == HIDE_SHOWN)
			continue;
		sum += sums->count[i];
		if (i == column)
			continue;
		other = range_of_kind(sums, hidden, part, under, i);
		least += other.least;
		greatest += other.greatest;
	}
	if (range.least < sum - greatest)
		range.least = sum - greatest;
	if (range.greatest > sum - least)
		range.greatest = sum - least;
	return range;
}

static bool
part_is_safe(const struct sums *sums, const struct hidden *hidden,
	     const struct part *part, long long under)
{
	long long sum = 0;

	for (int i = part->first; i <= part->last; i++) {
		struct range range;

		if (hidden->kind[i] == HIDE_SHOWN)
			continue;
		sum += sums->count[i];
		if (hidden->kind[i] != HIDE_SMALL)
			continue;
		range = range_in_part(sums, hidden, part, under, i);
		if (range.least == range.greatest)
			return false;
	}
	return !is_small(sum, under);
}

/* False when the part has nothing more to hide and is still not safe. */
static bool
hide_part(const struct sums *sums, const struct part *part, long long under,
	  struct hidden *hidden)
{
	for (int i = part->first; i <= part->last; i++)
		if (is_small(sums->count[i], under))
			hidden->kind[i] = HIDE_SMALL;
	while (!part_is_safe(sums, hidden, part, under)) {
		int smallest = find_smallest(sums, hidden, part);

		if (smallest < 0)
			return false;
		hidden->kind[smallest] = HIDE_BESIDE;
	}
	return true;
}

void
hide_row(const struct sums *sums, long long under, struct hidden *hidden)
{
	long long screened = sums->count[COLUMN(screened)];
	bool safe = !is_small(screened, under);

	hide_nothing(hidden);
	for (int i = 0; i < PARTS; i++)
		safe = safe && hide_part(sums, &parts[i], under, hidden);
	if (!safe) {
		fill(hidden, HIDE_WHOLE);
		return;
	}
	for (size_t i = 0; i < sizeof some_of / sizeof some_of[0]; i++) {
		long long some = sums->count[some_of[i]];

		if (is_small(some, under) || is_small(screened - some, under))
			hidden->kind[some_of[i]] = HIDE_SMALL;
	}
}

bool
hide_is_shown(const struct hidden *hidden, int column)
{
	return hidden->kind[column] == HIDE_SHOWN;
}

bool
hide_share_is_shown(const struct hidden *hidden, int column)
{
	return hide_is_shown(hidden, column) &&
	       hide_is_shown(hidden, COLUMN(screened));
}

/* They are those who are left. */
bool
hide_referred_is_shown(const struct hidden *hidden)
{
	return hide_share_is_shown(hidden, COLUMN(no_referral));
}

void
hide_join(struct hidden *total, const struct hidden *part)
{
	for (int i = 0; i < GROUPS_COUNTS; i++)
		if (part->kind[i] != HIDE_SHOWN)
			total->kind[i] = part->kind[i];
}

/* One of some_of: small itself, or all but a few. */
static struct range
range_of_some(const struct sums *sums, long long under, int column)
{
	long long screened = sums->count[COLUMN(screened)];
	struct range range = {1, under - 1};

	if (!is_small(sums->count[column], under)) {
		range.least = screened - under + 1;
		range.greatest = screened - 1;
	}
	return range;
}

bool
hide_range(const struct sums *sums, const struct hidden *hidden,
	   long long under, int column, long long *least, long long *greatest)
{
	struct range range;

	if (hidden->kind[column] == HIDE_SHOWN ||
	    hidden->kind[column] == HIDE_WHOLE)
		return false;
	range = range_of_some(sums, under, column);
	for (int i = 0; i < PARTS; i++)
		if (column >= parts[i].first && column <= parts[i].last)
			range = range_in_part(sums, hidden, &parts[i], under,
					      column);
	*least = range.least;
	*greatest = range.greatest;
	return true;
}
