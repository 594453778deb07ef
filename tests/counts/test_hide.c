/* Tests of counts/hide: what is hidden cannot be worked out again. */
#include "counts/hide.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

enum {
	SCREENED = 0,
	URGENCY = 1, /* the first of the four urgencies */
	URGENCIES = 4,
	DEPTH = 5, /* the first of the seven depths and not_gradable */
	DEPTHS = 8,
	SYMPTOMS = 13,
	LATE = 14
};

/* A row is made from one part of it, the urgencies or the depths with
 * not_gradable; everybody then stands in one place of the other part. */
struct part {
	int first, count, other;
};

static const struct part by_urgency = {URGENCY, URGENCIES, DEPTH + 6};
static const struct part by_depth = {DEPTH, DEPTHS, URGENCY + 3};

static void
row_of(const struct part *part, const int *value, struct sums *row)
{
	memset(row, 0, sizeof *row);
	for (int i = 0; i < part->count; i++) {
		row->count[part->first + i] = value[i];
		row->count[SCREENED] += value[i];
	}
	row->count[part->other] = row->count[SCREENED];
}

/* "3" where shown, "s" small, "b" beside, "w" the whole row. */
static void
describe(const struct sums *row, const struct hidden *hidden, int first,
	 int count, char *text)
{
	text[0] = '\0';
	for (int i = first; i < first + count; i++) {
		char *end = strchr(text, '\0');

		if (hidden->kind[i] == HIDE_SHOWN)
			snprintf(end, 24, "%s%lld", i > first ? " " : "",
				 row->count[i]);
		else
			snprintf(end, 24, "%s%c", i > first ? " " : "",
				 " sbw"[hidden->kind[i]]);
	}
}

/*
 * Columns of four camps with their total, limit 5, and what a reader who knows
 * the limit can work out: enumerated in Python 3.11 when the rule was designed.
 * Where only the small ones were hidden there and that was unsafe ("1+1",
 * "4+4", one alone), more has to be hidden here.
 */
Test(hide, the_small_count_examples)
{
	static const struct {
		int camp[URGENCIES];
		const char *hidden;
		int column; /* of URGENCIES */
		int least, greatest;
	} row[] = {
		{{3, 12, 6, 2}, "s 12 6 s", 0, 1, 4}, /* sum 5 */
		{{1, 12, 6, 1}, "s 12 b s", 0, 1, 2}, /* 1+1, third 6 */
		{{1, 12, 6, 1}, "s 12 b s", 2, 5, 6},
		{{4, 12, 6, 4}, "s 12 b s", 0, 1, 4}, /* 4+4 */
		{{3, 12, 6, 9}, "s 12 b 9", 0, 1, 4}, /* one alone */
		{{3, 12, 6, 9}, "s 12 b 9", 2, 5, 8},
		{{4, 12, 5, 9}, "s 12 b 9", 0, 1, 4}, /* the edge */
		{{4, 12, 5, 9}, "s 12 b 9", 2, 5, 8},
	};

	for (size_t i = 0; i < COUNT(row); i++) {
		char text[200];
		struct hidden hidden;
		struct sums sums;
		long long least = -1, greatest = -1;

		row_of(&by_urgency, row[i].camp, &sums);
		hide_row(&sums, 5, &hidden);
		describe(&sums, &hidden, URGENCY, URGENCIES, text);
		cr_expect_str_eq(text, row[i].hidden, "row %zu: %s", i, text);
		cr_expect(hide_range(&sums, &hidden, 5, URGENCY + row[i].column,
				     &least, &greatest));
		cr_expect(least == row[i].least && greatest == row[i].greatest,
			  "row %zu: %lld to %lld", i, least, greatest);
	}
}

/* By hand from the rule in the header. */
Test(hide, what_is_hidden_of_a_row)
{
	static const struct {
		int under;
		int urgency[URGENCIES];
		int depth[DEPTHS];
		int symptoms, late;
		const char *hidden;
	} row[] = {
		/* Nobody, and nothing small. */
		{5, {0, 0, 0, 0}, {0}, 0, 0, "0 0 0 0 0 0 0 0 0 0 0 0 0 0 0"},
		{5,
		 {0, 5, 10, 15},
		 {0, 0, 0, 5, 5, 10, 10, 0},
		 5,
		 0,
		 "30 0 5 10 15 0 0 0 5 5 10 10 0 5 0"},
		/* Fewer than the limit are hidden whole, the limit is not. */
		{5,
		 {0, 0, 0, 4},
		 {0, 0, 0, 0, 0, 0, 4, 0},
		 0,
		 0,
		 "w w w w w w w w w w w w w w w"},
		{5,
		 {0, 0, 0, 5},
		 {0, 0, 0, 0, 0, 0, 5, 0},
		 0,
		 0,
		 "5 0 0 0 5 0 0 0 0 0 0 5 0 0 0"},
		/* One referred: those not referred would tell it. */
		{5,
		 {1, 0, 0, 29},
		 {0, 0, 0, 0, 5, 15, 10, 0},
		 0,
		 0,
		 "30 s 0 0 b 0 0 0 0 5 15 10 0 0 0"},
		/* A small sum of small ones is a small count too. */
		{5,
		 {1, 1, 2, 26},
		 {1, 2, 0, 0, 7, 10, 10, 0},
		 0,
		 0,
		 "30 s s s b s s 0 0 b 10 10 0 0 0"},
		/* All but a few with symptoms: the few are hidden. */
		{5,
		 {0, 0, 0, 30},
		 {0, 0, 0, 0, 5, 15, 10, 0},
		 27,
		 30,
		 "30 0 0 0 30 0 0 0 0 5 15 10 0 s 30"},
		{10,
		 {0, 0, 0, 30},
		 {0, 0, 0, 0, 5, 15, 10, 0},
		 20,
		 9,
		 "30 0 0 0 30 0 0 0 0 s 15 b 0 20 s"},
		/* 4 and 4 are all there is to hide, and have one solution. */
		{5,
		 {4, 4, 0, 0},
		 {0, 0, 0, 0, 0, 0, 8, 0},
		 0,
		 0,
		 "w w w w w w w w w w w w w w w"},
	};

	for (size_t i = 0; i < COUNT(row); i++) {
		char text[400];
		struct hidden hidden;
		struct sums sums;

		row_of(&by_urgency, row[i].urgency, &sums);
		for (int k = 0; k < DEPTHS; k++)
			sums.count[DEPTH + k] = row[i].depth[k];
		sums.count[SYMPTOMS] = row[i].symptoms;
		sums.count[LATE] = row[i].late;
		hide_row(&sums, row[i].under, &hidden);
		describe(&sums, &hidden, 0, GROUPS_COUNTS, text);
		cr_expect_str_eq(text, row[i].hidden, "row %zu: %s", i, text);
	}
}

/* All ways to fill what is hidden that fit the kinds and the sum. */
struct fill {
	const struct part *part;
	const struct sums *row;
	const struct hidden *hidden;
	int under, ceiling; /* of counts hidden beside */
	int least[DEPTHS], greatest[DEPTHS];
	int now[DEPTHS];
};

static void
keep_extremes(struct fill *fill)
{
	for (int i = 0; i < fill->part->count; i++) {
		if (fill->now[i] < fill->least[i])
			fill->least[i] = fill->now[i];
		if (fill->now[i] > fill->greatest[i])
			fill->greatest[i] = fill->now[i];
	}
}

static void
fill_all(struct fill *fill, int place, int left)
{
	int column = fill->part->first + place, from = 1, to = fill->under - 1;

	if (place == fill->part->count) {
		if (left == 0)
			keep_extremes(fill);
		return;
	}
	if (fill->hidden->kind[column] == HIDE_SHOWN)
		from = to = (int)fill->row->count[column];
	if (fill->hidden->kind[column] == HIDE_BESIDE) {
		from = fill->under;
		to = fill->ceiling;
	}
	for (int value = from; value <= to && value <= left; value++) {
		fill->now[place] = value;
		fill_all(fill, place + 1, left - value);
	}
}

static void
expect_ranges(const struct part *part, const struct sums *row,
	      const struct hidden *hidden, int under)
{
	struct fill fill = {.part = part,
			    .row = row,
			    .hidden = hidden,
			    .under = under,
			    .ceiling = (int)row->count[SCREENED]};

	for (int i = 0; i < part->count; i++) {
		int count = (int)row->count[part->first + i];

		fill.least[i] = 1000;
		if (hidden->kind[part->first + i] == HIDE_SHOWN && count > 0 &&
		    count < fill.ceiling)
			fill.ceiling = count;
	}
	fill_all(&fill, 0, (int)row->count[SCREENED]);
	for (int i = 0; i < part->count; i++) {
		long long least, greatest;
		int column = part->first + i;

		if (!hide_range(row, hidden, under, column, &least, &greatest))
			continue;
		cr_assert(least == fill.least[i] &&
				  greatest == fill.greatest[i],
			  "under %d: column %d is %d to %d, not %lld to %lld",
			  under, column, fill.least[i], fill.greatest[i], least,
			  greatest);
		cr_assert(hidden->kind[column] != HIDE_SMALL ||
			  least < greatest);
	}
}

/* A row as published (-1 = hidden, the sum last), and as it was. */
struct published {
	int shown[DEPTHS + 1];
	int was[DEPTHS];
};

struct books {
	const struct part *part;
	int under;
	struct published *row; /* owned */
	size_t count, room;
};

static void
publish(struct books *books, const int value[DEPTHS])
{
	const struct part *part = books->part;
	struct published *published = &books->row[books->count++];
	struct hidden hidden;
	struct sums row;

	cr_assert_leq(books->count, books->room);
	row_of(part, value, &row);
	hide_row(&row, books->under, &hidden);
	if (hidden.kind[SCREENED] == HIDE_SHOWN)
		expect_ranges(part, &row, &hidden, books->under);
	for (int i = 0; i <= part->count; i++) {
		int column = i == part->count ? SCREENED : part->first + i;
		bool shown = hide_is_shown(&hidden, column);

		published->shown[i] = shown ? (int)row.count[column] : -1;
		cr_assert(!shown || row.count[column] == 0 ||
				  row.count[column] >= books->under,
			  "under %d: %lld is shown", books->under,
			  row.count[column]);
		if (i < part->count)
			published->was[i] = value[i];
	}
}

/* All rows of up to `left` people. */
static void
publish_all(struct books *books, int value[DEPTHS], int place, int left)
{
	if (place == books->part->count) {
		publish(books, value);
		return;
	}
	for (value[place] = 0; value[place] <= left; value[place]++)
		publish_all(books, value, place + 1, left - value[place]);
}

static int
compare_published(const void *one, const void *other)
{
	return memcmp(one, other, sizeof(struct published));
}

/* Of all rows that look alike once published, no hidden small count is the
 * same number in each. */
static void
expect_secrets(const struct books *books)
{
	const struct published *row = books->row;

	for (size_t from = 0, to; from < books->count; from = to) {
		bool other[DEPTHS] = {false};

		for (to = from;
		     to < books->count && memcmp(row[to].shown, row[from].shown,
						 sizeof row[from].shown) == 0;
		     to++)
			for (int i = 0; i < books->part->count; i++)
				other[i] = other[i] ||
					   row[to].was[i] != row[from].was[i];
		for (int i = 0; i < books->part->count; i++)
			cr_assert(other[i] || row[from].was[i] == 0 ||
					  row[from].was[i] >= books->under,
				  "under %d: column %d is told to be %d of %d",
				  books->under, books->part->first + i,
				  row[from].was[i],
				  row[from].shown[books->part->count]);
	}
}

/* Every row of up to `most` people, published; and then read by somebody who
 * knows all of this program, the rule and the order in which it hides. */
Test(hide, no_row_tells_a_small_count_even_to_one_who_knows_the_program)
{
	static const struct {
		const struct part *part;
		int under, most;
	} size[] = {
		{&by_urgency, 4, 16}, {&by_urgency, 5, 20}, {&by_depth, 4, 8}};

	for (size_t k = 0; k < COUNT(size); k++) {
		struct books books = {.part = size[k].part,
				      .under = size[k].under,
				      .room = 20000};
		int value[DEPTHS];

		books.row = calloc(books.room, sizeof *books.row);
		cr_assert_not_null(books.row);
		publish_all(&books, value, 0, size[k].most);
		cr_assert_gt(books.count, 1000u);
		qsort(books.row, books.count, sizeof *books.row,
		      compare_published);
		expect_secrets(&books);
		free(books.row);
	}
}

Test(hide, shares_and_totals_go_with_their_counts)
{
	static const int camp[2][URGENCIES] = {{5, 6, 7, 30}, {3, 0, 0, 30}};
	struct hidden total, part;
	struct sums sums;

	hide_nothing(&total);
	row_of(&by_urgency, camp[0], &sums);
	hide_row(&sums, 5, &part);
	cr_expect(hide_share_is_shown(&part, URGENCY));
	cr_expect(hide_referred_is_shown(&part));
	hide_join(&total, &part);
	cr_expect(hide_is_shown(&total, URGENCY));
	row_of(&by_urgency, camp[1], &sums);
	hide_row(&sums, 5, &part);
	cr_expect_not(hide_share_is_shown(&part, URGENCY));
	cr_expect(hide_share_is_shown(&part, URGENCY + 1), "0 is shown");
	cr_expect_not(hide_referred_is_shown(&part), "3 of 33");
	hide_join(&total, &part);
	cr_expect_not(hide_is_shown(&total, URGENCY));
	cr_expect_not(hide_is_shown(&total, URGENCY + 3));
	cr_expect(hide_is_shown(&total, SCREENED));
}
