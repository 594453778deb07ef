/* batch.c: rows that were sent together, and count together or not at all. */
#include "counts/batch.h"

#include <string.h>

#define ASK_ANEW "ask the station for the file anew"

void
batch_begin(struct batch *batch)
{
	batch->count = 0;
	batch->people = 0;
	batch->known = 0;
	batch->mark = 0;
}

const char *
batch_keep_text(char *texts, size_t *used, const char *text, const char *before)
{
	char *kept = texts + *used;
	size_t size = strlen(text) + 1;

	if (before != NULL && strcmp(before, text) == 0)
		return before;
	memcpy(kept, text, size);
	*used += size;
	return kept;
}

/* --- what a row is in itself ---------------------------------------------- */

/* Whether the text is so many characters, all of them from `first` to `last`.
 */
static bool
is_all(const char *text, size_t count, char first, char last)
{
	size_t length = 0;

	while (text[length] >= first && text[length] <= last)
		length++;
	return length == count && text[length] == '\0';
}

/* The number of a station code of four digits, 0 when it is none. */
static int
station_of(const char *code)
{
	int number = 0;

	if (!is_all(code, 4, '0', '9'))
		return 0;
	for (; *code != '\0'; code++)
		number = 10 * number + (*code - '0');
	return number;
}

static bool
check_letters(const char *text, const char *name, const char **column,
	      struct fault *why)
{
	*column = name;
	if (is_all(text, 6, 'A', 'Z'))
		return true;
	return fault_set(why, FAULT_INPUT,
			 "'%s' is not six letters A to Z; " ASK_ANEW, text);
}

static bool
day_is_likely(struct day day)
{
	int year, month, of_month;

	if (day_is_none(day))
		return false;
	day_parts(day, &year, &month, &of_month);
	return year >= BATCH_YEAR_LEAST && year <= BATCH_YEAR_MOST;
}

bool
batch_check_codes(const struct batch_row *row, const char *policy,
		  const char **column, struct fault *why)
{
	*column = "station";
	if (station_of(row->station) == 0)
		return fault_set(why, FAULT_INPUT,
				 "'%s' is not a station code of four digits, "
				 "0001 to 9999; a spreadsheet drops zeros in "
				 "front; " ASK_ANEW,
				 row->station);
	if (!check_letters(row->device, "device", column, why) ||
	    !check_letters(policy, "policy", column, why))
		return false;
	*column = "date";
	if (!day_is_likely(row->date))
		return fault_set(why, FAULT_INPUT,
				 "it is not in the years %d to %d, so the "
				 "laptop's clock was wrong; let the station "
				 "write the file anew, with the right day",
				 BATCH_YEAR_LEAST, BATCH_YEAR_MOST);
	return true;
}

/* --- how it follows the rows before --------------------------------------- */

bool
batch_may_end(const struct batch *batch, const struct batch_kind *kind,
	      struct fault *why)
{
	char date[DAY_SIZE];

	if (batch->count == 0)
		return true;
	day_write(batch->date, date);
	return fault_set(why, FAULT_INPUT,
			 "the %s of station %04d of %s ends after row %d of "
			 "%d, so the file was cut or rows were taken "
			 "out; " ASK_ANEW,
			 kind->what, batch->station, date, batch->count,
			 batch->rows);
}

/* Of the first row: what the others have to repeat. */
static bool
take_head(struct batch *batch, const struct batch_kind *kind,
	  const struct batch_row *row, const char **column, struct fault *why)
{
	*column = "row";
	if (row->row != 1)
		return fault_set(why, FAULT_INPUT,
				 "it is row %d of its %s, but no row of "
				 "that %s stands before it; " ASK_ANEW,
				 row->row, kind->what, kind->what);
	batch->rows = row->rows;
	batch->total = row->total;
	batch->revision = row->revision;
	batch->station = station_of(row->station);
	batch->date = row->date;
	memcpy(batch->device, row->device, sizeof batch->device);
	return true;
}

static bool
same_batch(const struct batch *batch, const struct batch_row *row)
{
	return station_of(row->station) == batch->station &&
	       row->date.number == batch->date.number &&
	       row->revision == batch->revision &&
	       strcmp(row->device, batch->device) == 0;
}

static bool
differs(const char *name, int one, int before, const char **column,
	struct fault *why)
{
	*column = name;
	if (one == before)
		return false;
	fault_set(why, FAULT_INPUT,
		  "%d differs from the row before it, which has %d; " ASK_ANEW,
		  one, before);
	return true;
}

static bool
follows(const struct batch *batch, const struct batch_kind *kind,
	const struct batch_row *row, bool same, const char **column,
	struct fault *why)
{
	*column = "row";
	if (!same || row->row == 1)
		return batch_may_end(batch, kind, why);
	if (row->row != batch->count + 1)
		return fault_set(why, FAULT_INPUT,
				 "row %d of the %s follows row %d; rows "
				 "were taken out, doubled or sorted; " ASK_ANEW,
				 row->row, kind->what, batch->count);
	return !differs("rows", row->rows, batch->rows, column, why) &&
	       !differs(kind->total, row->total, batch->total, column, why);
}

/* Mixes as splitmix64 does (from memory): any change of any row's values
 * changes the whole. */
static uint64_t
mixed(uint64_t mark, uint32_t crc)
{
	mark = (mark ^ crc) + 0x9e3779b97f4a7c15U;
	mark = (mark ^ (mark >> 30)) * 0xbf58476d1ce4e5b9U;
	mark = (mark ^ (mark >> 27)) * 0x94d049bb133111ebU;
	return mark ^ (mark >> 31);
}

static bool
total_agrees(const struct batch *batch, const struct batch_kind *kind,
	     const char **column, struct fault *why)
{
	*column = kind->total;
	if (!batch_is_whole(batch) || batch->people == batch->total)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "it is %d, but the rows' %s add up to "
			 "%lld; " ASK_ANEW,
			 batch->total, kind->people, batch->people);
}

bool
batch_add(struct batch *batch, const struct batch_kind *kind,
	  const struct batch_row *row, bool same_head, bool same_rest,
	  uint32_t crc, const char **column, struct fault *why)
{
	bool same = same_head || (same_rest && same_batch(batch, row));

	if (batch->count == 0 ? !take_head(batch, kind, row, column, why)
			      : !follows(batch, kind, row, same, column, why))
		return false;
	*column = "rows";
	if (row->row > row->rows)
		return fault_set(why, FAULT_INPUT,
				 "it is row %d of %d; " ASK_ANEW, row->row,
				 row->rows);
	batch->people += row->people;
	batch->mark = mixed(batch->mark, crc);
	batch->count++;
	return total_agrees(batch, kind, column, why);
}

bool
batch_is_whole(const struct batch *batch)
{
	return batch->count > 0 && batch->count == batch->rows;
}
