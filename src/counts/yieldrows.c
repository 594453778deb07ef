/* yieldrows.c: yields as they travel to the programme, a file a month. */
#include "counts/yieldrows.h"

#include "base/text.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define COLUMN_ROW(type, name, dimension, kind, most, words) \
	FIELD_COLUMN(yield_row, name, kind, most, words),

static const struct field column_rows[] = {YIELD_COLUMNS(COLUMN_ROW)};

const struct fields yield_columns = {
	column_rows, sizeof column_rows / sizeof column_rows[0]};

void
yieldrows_init(struct yieldrows *rows)
{
	rows->count = 0;
}

struct day
yieldrows_month(struct day day)
{
	int year, month, of_month;

	day_parts(day, &year, &month, &of_month);
	return day_plus_days(day, 1 - of_month);
}

static int
compare_kinds(const struct yield_kind *one, const struct yield_kind *other)
{
	int order = one->month.number - other->month.number;

	if (order == 0)
		order = strcmp(one->site, other->site);
	if (order == 0)
		order = strcmp(one->policy, other->policy);
	if (order == 0)
		order = one->urgency - other->urgency;
	if (order == 0)
		order = strcmp(one->rule, other->rule);
	return order == 0 ? (int)one->depth - (int)other->depth : order;
}

/* The place of the first kind that is not before the key. */
static int
find_place(const struct yieldrows *rows, const struct yield_kind *key)
{
	int low = 0, high = rows->count;

	while (low < high) {
		int middle = low + (high - low) / 2;

		if (compare_kinds(&rows->kind[middle], key) < 0)
			low = middle + 1;
		else
			high = middle;
	}
	return low;
}

static void
name_kind(const struct visit *visit, struct yield_kind *key)
{
	memset(key, 0, sizeof *key);
	key->month = yieldrows_month(visit->screened_on);
	text_copy(key->site, sizeof key->site, visit->site);
	text_copy(key->policy, sizeof key->policy, visit->policy);
	key->urgency = visit->urgency;
	text_copy(key->rule, sizeof key->rule, "none");
	if (visit->urgency != URGENCY_NO_REFERRAL)
		yield_rule(visit, key->rule);
	key->depth = visit_worse_depth(visit);
	if (key->depth == DEPTH_BLANK)
		key->depth = DEPTH_NOT_GRADABLE;
}

bool
yieldrows_add(struct yieldrows *rows, const struct yield_person *person,
	      const struct yield_counts *one, struct fault *why)
{
	struct yield_kind key, *kind;
	int place;

	name_kind(person->visit, &key);
	place = find_place(rows, &key);
	kind = &rows->kind[place];
	if (place == rows->count || compare_kinds(kind, &key) != 0) {
		if (rows->count == YIELDROWS_MOST)
			return fault_set(why, FAULT_INPUT,
					 "there are more than %d kinds of "
					 "people; send fewer months at once "
					 "with --from and --to",
					 YIELDROWS_MOST);
		memmove(kind + 1, kind,
			(size_t)(rows->count - place) * sizeof *kind);
		*kind = key;
		rows->count++;
	}
	yield_counts_add(&kind->counts, one);
	kind->chosen += person->chosen;
	return true;
}

int
yieldrows_find(const struct yieldrows *rows, struct day month, int *first)
{
	struct yield_kind key = {.month = month};
	int past;

	*first = find_place(rows, &key);
	key.month = day_plus_months(month, 1);
	past = find_place(rows, &key);
	return past - *first;
}

static void
put_head(const struct yield_head *head, struct yield_row *row)
{
	text_copy(row->schema, sizeof row->schema, YIELDROWS_SCHEMA);
	text_copy(row->programme, sizeof row->programme, head->programme);
	snprintf(row->station, sizeof row->station, "%04u",
		 (unsigned)head->station % 10000);
	text_copy(row->device, sizeof row->device, head->device);
	row->revision = head->revision;
	row->as_of = head->as_of;
	row->hidden_quadrants = head->hidden_quadrants;
}

static void
put_kind(const struct yield_kind *kind, struct yield_row *row)
{
	text_copy(row->site, sizeof row->site, kind->site);
	text_copy(row->policy, sizeof row->policy, kind->policy);
	text_copy(row->rule, sizeof row->rule, kind->rule);
	row->month = kind->month;
	row->urgency = kind->urgency;
	row->depth = kind->depth;
	row->chosen = kind->chosen;
#define PUT_COUNT(type, name, ...) row->name = kind->counts.name;
	YIELD_COUNTS(PUT_COUNT)
#undef PUT_COUNT
}

/* For a month all of whose people were made void: a file of zeros replaces an
 * earlier one. */
static void
put_nobody(const struct yield_head *head, struct day month,
	   struct yield_kind *nobody)
{
	memset(nobody, 0, sizeof *nobody);
	nobody->month = month;
	text_copy(nobody->site, sizeof nobody->site, head->site);
	text_copy(nobody->policy, sizeof nobody->policy, head->policy);
	text_copy(nobody->rule, sizeof nobody->rule, "none");
	nobody->urgency = URGENCY_NO_REFERRAL;
	nobody->depth = DEPTH_NOT_GRADABLE;
}

bool
yieldrows_visit(const struct yieldrows *rows, struct day month,
		const struct yield_head *head, yieldrows_see *see,
		void *context, struct fault *why)
{
	struct yield_kind nobody;
	struct yield_row row;
	int first, count = yieldrows_find(rows, month, &first), total = 0;

	for (int i = 0; i < count; i++)
		total += rows->kind[first + i].counts.people;
	put_nobody(head, month, &nobody);
	memset(&row, 0, sizeof row);
	put_head(head, &row);
	row.rows = count == 0 ? 1 : count;
	row.month_total = total;
	for (row.row = 1; row.row <= row.rows; row.row++) {
		put_kind(count == 0 ? &nobody
				    : &rows->kind[first + row.row - 1],
			 &row);
		if (!yield_counts_agree(
			    count == 0
				    ? &nobody.counts
				    : &rows->kind[first + row.row - 1].counts,
			    why))
			return false;
		fields_mark(yield_columns, &row, row.check);
		if (!see(context, &row, why))
			return false;
	}
	return true;
}
