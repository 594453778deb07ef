/* Tests of counts/collate: which of many batches count. */
#include "counts/collate.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What came in: station, day, revision, device, content; and what becomes of
 * it: c counted, s the same again, o superseded, x in conflict. */
struct arrival {
	int station, day, revision;
	const char *device;
	uint64_t content;
};

enum { ARRIVALS_MOST = 5 };

static void
add(struct collate *collate, const struct arrival *one, unsigned file,
    bool *adds)
{
	struct batch batch = {.mark = one->content,
			      .date = {one->day},
			      .station = one->station,
			      .people = (long long)one->content / 100,
			      .known = (long long)one->content % 100,
			      .revision = one->revision};
	struct fault why;

	memcpy(batch.device, one->device, sizeof batch.device);
	cr_assert(collate_add(collate, &batch, file, 0, adds, &why));
}

/* What became of the arrivals when they came in that order. */
static void
settle(const struct arrival *arrival, const int *order, int count, bool grows,
       char *what)
{
	static const char letters[] = {[LEDGER_COUNTED] = 'c',
				       [LEDGER_SAME] = 's',
				       [LEDGER_SUPERSEDED] = 'o',
				       [LEDGER_CONFLICT] = 'x'};
	struct collate *collate = malloc(sizeof *collate);

	cr_assert_not_null(collate);
	collate_init(collate, grows);
	for (int i = 0; i < count; i++) {
		bool adds;

		add(collate, &arrival[order[i]], (unsigned)i, &adds);
	}
	collate_settle(collate);
	for (int i = 0; i < count; i++) {
		const struct collate_entry *entry = &collate->entry[i];

		what[order[i]] = letters[entry->status];
		cr_expect_eq(collate_counts(entry),
			     entry->status == LEDGER_COUNTED);
	}
	what[count] = '\0';
	collate_release(collate);
	free(collate);
}

/* Copies of one content may change places: the first to come counts. */
static void
sort_copies(const struct arrival *arrival, int count, char *what)
{
	for (int i = 0; i < count; i++)
		for (int j = i + 1; j < count; j++)
			if (what[i] == 's' && what[j] == 'c' &&
			    arrival[i].content == arrival[j].content) {
				what[i] = 'c';
				what[j] = 's';
			}
}

static bool
next_order(int *order, int count)
{
	int last = count - 2, swap = count - 1, kept;

	while (last >= 0 && order[last] > order[last + 1])
		last--;
	if (last < 0)
		return false;
	while (order[swap] < order[last])
		swap--;
	kept = order[last];
	order[last] = order[swap];
	order[swap] = kept;
	for (int low = last + 1, high = count - 1; low < high; low++, high--) {
		kept = order[low];
		order[low] = order[high];
		order[high] = kept;
	}
	return true;
}

#define A "AAAAAA"
#define Z "ZZZZZZ"
#define A2 "AAAAZZ" /* a register that went on from a copy of A's */

struct story {
	const char *title;
	struct arrival arrival[ARRIVALS_MOST];
	const char *what;
};

static const struct story stories[] = {
	{"one", {{14, 20522, 1, A, 7}}, "c"},
	{"a copy", {{14, 20522, 1, A, 7}, {14, 20522, 1, A, 7}}, "cs"},
	{"three copies",
	 {{14, 20522, 1, A, 7}, {14, 20522, 1, A, 7}, {14, 20522, 1, A, 7}},
	 "css"},
	{"an older revision",
	 {{14, 20522, 1, A, 7}, {14, 20522, 2, A, 8}},
	 "oc"},
	{"older revisions, copies of both",
	 {{14, 20522, 1, A, 7},
	  {14, 20522, 3, A, 8},
	  {14, 20522, 1, A, 7},
	  {14, 20522, 3, A, 8},
	  {14, 20522, 2, A, 9}},
	 "ocoso"},
	{"the same content under a higher revision",
	 {{14, 20522, 1, A, 7}, {14, 20522, 2, A, 7}},
	 "oc"},
	{"one revision, two contents",
	 {{14, 20522, 1, A, 7}, {14, 20522, 1, A, 8}},
	 "xx"},
	{"the conflict takes its copies with it",
	 {{14, 20522, 1, A, 7},
	  {14, 20522, 1, A, 8},
	  {14, 20522, 1, A, 7},
	  {14, 20522, 1, A, 8}},
	 "xxxx"},
	{"an older conflict does not matter",
	 {{14, 20522, 1, A, 7}, {14, 20522, 1, A, 8}, {14, 20522, 2, A, 9}},
	 "ooc"},
	{"a conflict does not bring an older one back",
	 {{14, 20522, 2, A, 7}, {14, 20522, 2, A, 8}, {14, 20522, 1, A, 9}},
	 "xxo"},
	{"other days are not touched by a conflict",
	 {{14, 20522, 1, A, 7}, {14, 20522, 1, A, 8}, {14, 20523, 1, A, 9}},
	 "xxc"},
	{"one code from two laptops",
	 {{14, 20522, 1, A, 7}, {14, 20530, 1, Z, 8}, {15, 20522, 1, Z, 9}},
	 "xxc"},
	{"two laptops, older revisions too",
	 {{14, 20522, 1, A, 7}, {14, 20522, 2, A, 8}, {14, 20523, 1, Z, 9}},
	 "xxx"},
	{"a copy goes on where the first one ended",
	 {{14, 20522, 2, A, 7}, {14, 20523, 1, A, 8}, {14, 20524, 1, A2, 9}},
	 "ccc"},
	{"a day of both, by equal revisions",
	 {{14, 20522, 1, A, 7}, {14, 20522, 1, A2, 8}, {14, 20523, 1, A, 9}},
	 "xxc"},
	{"an older copy does not replace a day by a higher revision",
	 {{14, 20522, 1, A, 7},
	  {14, 20522, 2, A, 8},
	  {14, 20522, 3, A2, 9},
	  {14, 20523, 1, A2, 6}},
	 "xxxc"},
	{"nor by an equal one",
	 {{14, 20522, 1, A, 7}, {14, 20522, 2, A, 8}, {14, 20522, 2, A2, 9}},
	 "xxx"},
	{"a copy, and another laptop besides",
	 {{14, 20522, 1, A, 7}, {14, 20523, 1, A2, 8}, {14, 20524, 1, Z, 9}},
	 "xxx"},
	{"the highest revisions there are",
	 {{9999, 47481, 999999, A, 7},
	  {9999, 47481, 999998, A, 8},
	  {9999, 10957, 16384, A, 7},
	  {9999, 10957, 0, A, 8}},
	 "coco"},
};

/* Of yields: content 4009 is 40 people, of whom the outcome of 9 is known. */
static const struct story grown[] = {
	{"a copy that had everything goes on",
	 {{14, 20522, 7, A, 4009}, {14, 20522, 8, A2, 4009}},
	 "oc"},
	{"and knows more by now",
	 {{14, 20522, 6, A, 3907},
	  {14, 20522, 7, A, 4009},
	  {14, 20522, 9, A2, 4111},
	  {14, 20553, 9, A2, 300}},
	 "oocc"},
	{"somebody is missing in the copy",
	 {{14, 20522, 7, A, 4009},
	  {14, 20522, 8, A2, 3909},
	  {14, 20553, 8, A2, 500}},
	 "xxc"},
	{"a reply is missing in the copy",
	 {{14, 20522, 7, A, 4009}, {14, 20522, 8, A2, 4108}},
	 "xx"},
	{"somebody was made void before the copy",
	 {{14, 20522, 6, A, 4109},
	  {14, 20522, 7, A, 4009},
	  {14, 20522, 8, A2, 4009}},
	 "ooc"},
	{"somebody was made void after a copy that had everything",
	 {{14, 20522, 7, A, 4009},
	  {14, 20522, 8, A2, 4009},
	  {14, 20522, 9, A2, 3909}},
	 "ooc"},
	{"a copy that had everything, then one that had not",
	 {{14, 20522, 7, A, 4009},
	  {14, 20522, 8, "AAAAYY", 4009},
	  {14, 20522, 9, A2, 3909}},
	 "xxx"},
	{"both went on",
	 {{14, 20522, 8, A, 4109}, {14, 20522, 8, A2, 4109}},
	 "xx"},
	{"a copy of the copy",
	 {{14, 20522, 7, A, 4009},
	  {14, 20522, 8, A2, 4009},
	  {14, 20522, 9, "AAAAYY", 4010}},
	 "ooc"},
	{"another laptop with the same code",
	 {{14, 20522, 7, A, 4009}, {14, 20522, 8, Z, 4009}},
	 "xx"},
};

/* Whatever the order: no story may end in two ways. */
static void
try_orders(const struct story *story, bool grows)
{
	int count = (int)strlen(story->what);
	int order[ARRIVALS_MOST] = {0, 1, 2, 3, 4};

	do {
		char what[ARRIVALS_MOST + 1];

		settle(story->arrival, order, count, grows, what);
		sort_copies(story->arrival, count, what);
		cr_expect_str_eq(what, story->what, "%s: %s", story->title,
				 what);
	} while (next_order(order, count));
}

Test(collate, what_counts_does_not_depend_on_the_order)
{
	for (size_t i = 0; i < sizeof stories / sizeof stories[0]; i++)
		try_orders(&stories[i], false);
	for (size_t i = 0; i < sizeof grown / sizeof grown[0]; i++)
		try_orders(&grown[i], true);
}

/* The sums are right when what `adds` said is mended by the settled status. */
Test(collate, what_seems_to_count_is_added_at_once)
{
	static const struct arrival three[] = {{14, 20522, 1, A, 7},
					       {14, 20522, 2, A, 8},
					       {14, 20522, 2, A, 9}};
	static const bool expected[] = {true, true, false};
	struct collate *collate = malloc(sizeof *collate);

	cr_assert_not_null(collate);
	collate_init(collate, false);
	for (int i = 0; i < 3; i++) {
		bool adds;

		add(collate, &three[i], 0, &adds);
		cr_expect_eq(adds, expected[i], "row %d", i);
		cr_expect_eq(collate->entry[i].added, expected[i], "row %d", i);
	}
	collate_release(collate);
	free(collate);
}

/* A refused file's tallies were never there. */
Test(collate, what_was_dropped_is_forgotten)
{
	static const struct arrival two[] = {{14, 20522, 1, A, 7},
					     {14, 20522, 2, Z, 8}};
	struct collate *collate = malloc(sizeof *collate);
	char one[7], other[7];
	bool adds;

	cr_assert_not_null(collate);
	collate_init(collate, false);
	add(collate, &two[0], 0, &adds);
	add(collate, &two[1], 1, &adds);
	collate_settle(collate);
	cr_assert(collate_two_devices(collate, 14, one, other));
	cr_expect_str_eq(one, A);
	cr_expect_str_eq(other, Z);
	collate_drop(collate, 1);
	collate_settle(collate);
	cr_expect_not(collate_two_devices(collate, 14, one, other));
	cr_expect(collate_counts(&collate->entry[0]));
	cr_expect_not(collate_counts(&collate->entry[1]));
	collate_release(collate);
	free(collate);
}

/* The ledger names the one it differs from. */
Test(collate, two_in_conflict_are_paired)
{
	static const struct arrival three[] = {{14, 20522, 1, A, 7},
					       {14, 20522, 1, A, 7},
					       {14, 20522, 1, A, 8}};
	struct collate *collate = malloc(sizeof *collate);
	bool adds;

	cr_assert_not_null(collate);
	collate_init(collate, false);
	for (unsigned i = 0; i < 3; i++)
		add(collate, &three[i], i, &adds);
	collate_settle(collate);
	collate_pair(collate);
	for (int i = 0; i < 3; i++)
		cr_expect_eq(collate_best(collate, &collate->entry[i]),
			     &collate->entry[0], "row %d", i);
	cr_expect_eq(collate->entry[0].place, 2);
	collate_release(collate);
	free(collate);
}

/* Many stations and days: the table grows, nothing is lost or mixed up. */
Test(collate, many_days_of_many_stations_are_kept_apart)
{
	enum { STATIONS = 150, DAYS = 40 };
	struct collate *collate = malloc(sizeof *collate);
	bool adds;

	cr_assert_not_null(collate);
	collate_init(collate, false);
	for (int revision = 1; revision <= 2; revision++)
		for (int station = 1; station <= STATIONS; station++)
			for (int day = 0; day < DAYS; day++) {
				struct arrival one = {station * 61,
						      20000 + day * 7, revision,
						      A, (uint64_t)revision};

				add(collate, &one, 0, &adds);
				cr_assert(adds);
			}
	collate_settle(collate);
	for (size_t i = 0; i < collate->count; i++)
		cr_assert_eq(collate_counts(&collate->entry[i]),
			     i >= STATIONS * DAYS, "entry %zu", i);
	collate_release(collate);
	free(collate);
}

Test(collate, what_came_of_a_day_is_found_by_station_and_day)
{
	static const struct arrival one = {14, 20522, 3, "ABCDEF", 1};
	static const struct day day = {20522}, other = {20523};
	struct collate *collate = malloc(sizeof *collate);
	const struct collate_entry *found;
	bool adds;

	cr_assert_not_null(collate);
	collate_init(collate, false);
	cr_expect_null(collate_find(collate, 14, day));
	add(collate, &one, 0, &adds);
	collate_settle(collate);
	found = collate_find(collate, 14, day);
	cr_assert_not_null(found);
	cr_expect_eq(found->revision, 3);
	cr_expect_null(collate_find(collate, 14, other));
	cr_expect_null(collate_find(collate, 15, day));
	collate_release(collate);
	free(collate);
}
