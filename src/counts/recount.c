/* recount.c: what tallies report beside what the register holds. */
#include "counts/recount.h"

#include <stdio.h>
#include <string.h>

enum { KEY_SIZE = TALLY_TEXT_SIZE + DAY_SIZE + 16 };

static const char *const split_names[RECOUNT_SPLITS] = {"site", "policy", "sex",
							"age_band"};
static const char *const sex_words[TALLY_SEXES] = {"F", "M", "X", "unknown"};

void
recount_init(struct recount *recount)
{
	groups_init(&recount->reported);
	groups_init(&recount->compared);
	groups_init(&recount->held);
}

void
recount_release(struct recount *recount)
{
	groups_release(&recount->reported);
	groups_release(&recount->compared);
	groups_release(&recount->held);
}

/* A day's key is its date; a split's has a digit for which, and the value. */
static bool
add_row(struct groups *groups, const struct counted *row, int sign,
	struct fault *why)
{
	const char *const value[RECOUNT_SPLITS] = {
		row->site, row->policy, sex_words[row->sex], row->age_band};
	char key[KEY_SIZE], day[DAY_SIZE];

	day_write(row->date, day);
	if (!groups_add(groups, day, &row->counts, sign, why))
		return false;
	for (int i = 0; i < RECOUNT_SPLITS; i++) {
		snprintf(key, sizeof key, "%s %d %s", day, i, value[i]);
		if (!groups_add(groups, key, &row->counts, sign, why))
			return false;
	}
	return true;
}

bool
recount_report(struct recount *recount, const struct counted *row, int sign,
	       struct fault *why)
{
	return add_row(&recount->reported, row, sign, why);
}

static bool
recount_tally(struct groups *groups, struct day day, const struct tally *tally,
	      struct fault *why)
{
	for (int i = 0; i < tally->count; i++) {
		const struct tally_cell *cell = &tally->cell[i];
		char band[TALLY_BAND_SIZE];
		struct counted row = {.date = day,
				      .site = cell->site,
				      .policy = cell->policy,
				      .sex = cell->sex,
				      .age_band = band,
				      .counts = cell->counts};

		tally_band_write(tally, cell->band, band, sizeof band);
		if (!add_row(groups, &row, 1, why))
			return false;
	}
	return true;
}

static const struct sums nothing;
static const struct tally_counts nobody;

static const struct sums *
find(const struct groups *groups, const char *key)
{
	const struct sums *sums = groups_find(groups, key);

	return sums == NULL ? &nothing : sums;
}

struct comparison {
	const struct groups *reported;
	struct recounted *recounted;
	struct sums met[RECOUNT_SPLITS]; /* reported for values recounted */
};

/* A groups_see over what was recounted. */
static bool
compare_group(void *context, const char *key, const struct sums *sums,
	      struct fault *why)
{
	struct comparison *comparison = context;
	const struct sums *reported = find(comparison->reported, key);
	const char *space = strchr(key, ' ');
	int split;

	(void)why;
	if (space == NULL)
		return true;
	split = space[1] - '0';
	for (int i = 0; i < GROUPS_COUNTS; i++) {
		comparison->met[split].count[i] += reported->count[i];
		if (reported->count[i] != sums->count[i])
			comparison->recounted->split_differs[split] = true;
	}
	return true;
}

/* Also what was reported of a value that the recount does not have at all. */
static void
compare_days(struct comparison *comparison, const struct sums *reported,
	     const struct sums *sums)
{
	struct recounted *recounted = comparison->recounted;

	recounted->reported = reported->count[0];
	recounted->recounted = sums->count[0];
	for (int i = 0; i < GROUPS_COUNTS; i++) {
		recounted->count_differs[i] = reported->count[i] !=
					      sums->count[i];
		for (int k = 0; k < RECOUNT_SPLITS; k++)
			if (comparison->met[k].count[i] != reported->count[i])
				recounted->split_differs[k] = true;
	}
}

bool
recount_compare(struct recount *recount, struct day day,
		const struct tally *tally, struct recounted *recounted,
		struct fault *why)
{
	struct comparison comparison = {.reported = &recount->reported,
					.recounted = recounted};
	struct groups groups;
	char key[DAY_SIZE];
	bool done;

	memset(recounted, 0, sizeof *recounted);
	day_write(day, key);
	if (!groups_add(&recount->compared, key, &nobody, 1, why))
		return false;
	groups_init(&groups);
	done = recount_tally(&groups, day, tally, why) &&
	       groups_visit(&groups, compare_group, &comparison, why);
	if (done)
		compare_days(&comparison, find(&recount->reported, key),
			     find(&groups, key));
	groups_release(&groups);
	return done;
}

/* --- days that nothing reports -------------------------------------------- */

bool
recount_hold(struct recount *recount, struct day day, struct fault *why)
{
	static const struct tally_counts one = {.screened = 1};
	char key[DAY_SIZE];

	day_write(day, key);
	return groups_add(&recount->held, key, &one, 1, why);
}

struct search {
	const struct recount *recount;
	recount_see *see;
	void *context;
};

/* A groups_see over what the register holds. */
static bool
see_held(void *context, const char *key, const struct sums *sums,
	 struct fault *why)
{
	const struct search *search = context;
	struct recounted recounted = {.recounted = sums->count[0]};
	struct day day;

	if (groups_find(&search->recount->compared, key) != NULL)
		return true;
	recounted.count_differs[0] = true;
	return day_read(key, &day, why) &&
	       search->see(search->context, day, &recounted, why);
}

bool
recount_visit_missing(struct recount *recount, recount_see *see, void *context,
		      struct fault *why)
{
	struct search search = {recount, see, context};

	return groups_visit(&recount->held, see_held, &search, why);
}

/* --- in words ------------------------------------------------------------- */

bool
recounted_agrees(const struct recounted *recounted)
{
	static const struct recounted same;

	return memcmp(recounted->count_differs, same.count_differs,
		      sizeof same.count_differs) == 0 &&
	       memcmp(recounted->split_differs, same.split_differs,
		      sizeof same.split_differs) == 0;
}

static size_t
add_name(char *text, size_t size, size_t used, const char *name)
{
	if (used >= size)
		return used;
	return used + (size_t)snprintf(text + used, size - used, "%s%s",
				       used == 0 ? "" : ";", name);
}

/* The splits are named only where the counts in all are the same: a person too
 * many is one too many of some age as well. */
void
recounted_write_differs(const struct recounted *recounted, char *text,
			size_t size)
{
	size_t used = 0;

	text[0] = '\0';
	for (int i = 0; i < GROUPS_COUNTS; i++)
		if (recounted->count_differs[i])
			used = add_name(text, size, used,
					tally_count_fields.field[i].name);
	if (used > 0)
		return;
	for (int i = 0; i < RECOUNT_SPLITS; i++)
		if (recounted->split_differs[i])
			used = add_name(text, size, used, split_names[i]);
}

void
recounted_write_factor(const struct recounted *recounted, char *text,
		       size_t size)
{
	if (recounted->reported == 0)
		snprintf(text, size, "-");
	else
		snprintf(text, size, "%.3f",
			 (double)recounted->recounted /
				 (double)recounted->reported);
}
