/* tally.c: one day's people, counted for the programme. */
#include "counts/tally.h"

#include "base/mark.h"
#include "base/text.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define COLUMN_ROW(type, name, dimension, kind, most, words) \
	FIELD_COLUMN(tally_row, name, kind, most, words),
#define COUNT_ROW(type, name, dimension, kind, most, words) \
	FIELD_COLUMN(tally_counts, name, kind, most, words),

static const struct field column_rows[] = {TALLY_COLUMNS(COLUMN_ROW)};
static const struct field count_rows[] = {TALLY_COUNTS(COUNT_ROW)};

const struct fields tally_columns = {
	column_rows, sizeof column_rows / sizeof column_rows[0]};
const struct fields tally_count_fields = {
	count_rows, sizeof count_rows / sizeof count_rows[0]};

void
tally_init(struct tally *tally, const struct age_bands *bands)
{
	tally->bands = *bands;
	tally->count = 0;
}

static int *
count_of(struct tally_counts *counts, const struct field *field)
{
	return (int *)(void *)((char *)counts + field->offset);
}

static void
counts_add(struct tally_counts *sum, const struct tally_counts *more)
{
	struct tally_counts copy = *more;

	for (size_t i = 0; i < tally_count_fields.count; i++) {
		const struct field *field = &tally_count_fields.field[i];

		*count_of(sum, field) += *count_of(&copy, field);
	}
}

static int
compare_cells(const struct tally_cell *one, const struct tally_cell *other)
{
	int order = strcmp(one->site, other->site);

	if (order == 0)
		order = strcmp(one->policy, other->policy);
	if (order == 0)
		order = one->sex - other->sex;
	return order == 0 ? one->band - other->band : order;
}

/* The cell of that kind, made in its place when there is none yet. */
static struct tally_cell *
find_cell(struct tally *tally, const struct tally_cell *key)
{
	int place = 0;

	while (place < tally->count &&
	       compare_cells(&tally->cell[place], key) < 0)
		place++;
	if (place < tally->count &&
	    compare_cells(&tally->cell[place], key) == 0)
		return &tally->cell[place];
	if (tally->count == TALLY_ROWS_MOST)
		return NULL;
	memmove(&tally->cell[place + 1], &tally->cell[place],
		(size_t)(tally->count - place) * sizeof tally->cell[0]);
	tally->cell[place] = *key;
	tally->count++;
	return &tally->cell[place];
}

static void
count_person(struct tally_counts *counts, const struct visit *visit)
{
	int *by_urgency[URGENCY_COUNT] = {&counts->same_day, &counts->urgent,
					  &counts->routine,
					  &counts->no_referral};
	int *by_depth[DEPTH_GRADES] = {&counts->depth_0,  &counts->depth_5,
				       &counts->depth_15, &counts->depth_25,
				       &counts->depth_40, &counts->depth_75,
				       &counts->depth_100};
	enum depth worse = visit_worse_depth(visit);

	counts->screened++;
	++*by_urgency[visit->urgency];
	if (worse == DEPTH_BLANK)
		counts->not_gradable++;
	else
		++*by_depth[worse];
	counts->with_symptoms +=
		(visit->findings.person & findings_symptoms()) != 0;
	counts->late_entries += visit->late == 1;
}

bool
tally_add(struct tally *tally, const struct visit *visit, struct fault *why)
{
	struct tally_cell key, *cell;

	if (visit->state == STATE_VOID)
		return true;
	if (visit->urgency == FIELD_BLANK)
		return fault_set(why, FAULT_INTERNAL,
				 "a person without a decision cannot be "
				 "counted");
	memset(&key, 0, sizeof key);
	text_copy(key.site, sizeof key.site, visit->site);
	text_copy(key.policy, sizeof key.policy, visit->policy);
	key.sex = visit->sex == FIELD_BLANK ? SEX_COUNT : visit->sex;
	key.band = visit->age_years == FIELD_BLANK
			   ? tally->bands.count + 1
			   : age_band_of(&tally->bands, visit->age_years);
	cell = find_cell(tally, &key);
	if (cell == NULL)
		return fault_set(why, FAULT_INPUT,
				 "the day has more than %d kinds of people "
				 "(site, policy, sex, age band)",
				 TALLY_ROWS_MOST);
	count_person(&cell->counts, visit);
	return true;
}

void
tally_total(const struct tally *tally, struct tally_counts *total)
{
	memset(total, 0, sizeof *total);
	for (int i = 0; i < tally->count; i++)
		counts_add(total, &tally->cell[i].counts);
}

int
tally_rows(const struct tally *tally)
{
	return tally->count == 0 ? 1 : tally->count;
}

void
tally_band_write(const struct tally *tally, int band, char *text, size_t size)
{
	if (band > tally->bands.count)
		snprintf(text, size, "unknown");
	else
		age_band_write(&tally->bands, band, text, size);
}

/* Sums that must agree whatever was screened. */
static bool
sums_agree(const struct tally_counts *counts, struct fault *why)
{
	int by_urgency = counts->same_day + counts->urgent + counts->routine +
			 counts->no_referral;
	int by_depth = counts->depth_0 + counts->depth_5 + counts->depth_15 +
		       counts->depth_25 + counts->depth_40 + counts->depth_75 +
		       counts->depth_100 + counts->not_gradable;

	if (by_urgency == counts->screened && by_depth == counts->screened)
		return true;
	return fault_set(why, FAULT_INTERNAL,
			 "the tally's sums disagree: %d screened, %d by "
			 "urgency, %d by depth",
			 counts->screened, by_urgency, by_depth);
}

static void
put_counts(const struct tally_counts *counts, struct tally_row *row)
{
#define PUT_COUNT(type, name, ...) row->name = counts->name;
	TALLY_COUNTS(PUT_COUNT)
#undef PUT_COUNT
}

static void
put_head(const struct tally_head *head, struct tally_row *row)
{
	text_copy(row->schema, sizeof row->schema, TALLY_SCHEMA);
	text_copy(row->programme, sizeof row->programme, head->programme);
	snprintf(row->station, sizeof row->station, "%04u",
		 (unsigned)head->station % 10000);
	text_copy(row->device, sizeof row->device, head->device);
	row->date = head->date;
	row->revision = head->revision;
	row->state = head->closed;
}

bool
tally_row(const struct tally *tally, const struct tally_head *head, int index,
	  struct tally_row *row, struct fault *why)
{
	struct tally_cell nobody = {.sex = SEX_COUNT,
				    .band = tally->bands.count + 1};
	const struct tally_cell *cell = &tally->cell[index];
	struct tally_counts total;

	if (tally->count == 0) {
		text_copy(nobody.site, sizeof nobody.site, head->site);
		text_copy(nobody.policy, sizeof nobody.policy, head->policy);
		cell = &nobody;
	}
	if (!sums_agree(&cell->counts, why))
		return false;
	memset(row, 0, sizeof *row);
	put_head(head, row);
	text_copy(row->site, sizeof row->site, cell->site);
	text_copy(row->policy, sizeof row->policy, cell->policy);
	row->sex = cell->sex;
	tally_band_write(tally, cell->band, row->age_band,
			 sizeof row->age_band);
	put_counts(&cell->counts, row);
	row->row = index + 1;
	row->rows = tally_rows(tally);
	tally_total(tally, &total);
	row->day_total = total.screened;
	tally_row_check(row, row->check);
	return true;
}

void
tally_row_check(const struct tally_row *row, char *letters)
{
	fields_mark(tally_columns, row, letters);
}

bool
tally_mark(const struct tally *tally, const struct tally_head *head,
	   char *letters, struct fault *why)
{
	struct tally_head same = *head;
	struct mark mark;

	same.revision = 0;
	mark_init(&mark);
	for (int i = 0; i < tally_rows(tally); i++) {
		struct tally_row row;

		if (!tally_row(tally, &same, i, &row, why))
			return false;
		mark_add(&mark, row.check);
	}
	mark_write(&mark, MARK_ROW_LETTERS, letters);
	return true;
}
