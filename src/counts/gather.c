/* gather.c: the rows of one tally, gathered until they agree. */
#include "counts/gather.h"

#include <string.h>

#define ASK_ANEW "ask the station for the file anew"
#define LETTERS "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
#define DIGITS "0123456789"

void
gather_begin(struct gather *gather)
{
	gather->count = 0;
	gather->used = 0;
	gather->people = 0;
	gather->mark = 0;
}

/* --- what a row is in itself ---------------------------------------------- */

/* The number of a station code of four digits, 0 when it is none. */
static int
station_of(const char *code)
{
	int number = 0;

	if (strlen(code) != 4 || strspn(code, DIGITS) != 4)
		return 0;
	for (; *code != '\0'; code++)
		number = 10 * number + (*code - '0');
	return number;
}

static bool
is_six_letters(const char *text)
{
	return strlen(text) == 6 && strspn(text, LETTERS) == 6;
}

/* "40-49", "70+" or "unknown". */
static bool
is_band(const char *band)
{
	size_t from = strspn(band, DIGITS), to;

	if (from == 0)
		return strcmp(band, "unknown") == 0;
	if (from > 3)
		return false;
	if (band[from] == '+')
		return band[from + 1] == '\0';
	if (band[from] != '-')
		return false;
	to = strspn(band + from + 1, DIGITS);
	return to > 0 && to <= 3 && band[from + 1 + to] == '\0';
}

static bool
day_is_likely(struct day day)
{
	struct day first, last;

	return day_make(GATHER_YEAR_LEAST, 1, 1, &first) &&
	       day_make(GATHER_YEAR_MOST, 12, 31, &last) &&
	       day.number >= first.number && day.number <= last.number;
}

static bool
check_head(const struct tally_row *row, const char **column, struct fault *why)
{
	*column = "station";
	if (station_of(row->station) == 0)
		return fault_set(why, FAULT_INPUT,
				 "'%s' is not a station code of four digits, "
				 "0001 to 9999; a spreadsheet drops zeros in "
				 "front; " ASK_ANEW,
				 row->station);
	*column = "device";
	if (!is_six_letters(row->device))
		return fault_set(why, FAULT_INPUT,
				 "'%s' is not six letters A to Z; " ASK_ANEW,
				 row->device);
	*column = "policy";
	if (!is_six_letters(row->policy))
		return fault_set(why, FAULT_INPUT,
				 "'%s' is not six letters A to Z; " ASK_ANEW,
				 row->policy);
	*column = "date";
	if (!day_is_likely(row->date))
		return fault_set(why, FAULT_INPUT,
				 "it is not in the years %d to %d, so the "
				 "laptop's clock was wrong; make the tally "
				 "anew there, with the right day",
				 GATHER_YEAR_LEAST, GATHER_YEAR_MOST);
	return true;
}

/* Whether parts make up the people screened. */
static bool
parts_agree(int parts, const struct tally_row *row, const char *what,
	    struct fault *why)
{
	if (parts == row->screened)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "%d people are screened, but the %s add up to "
			 "%d; " ASK_ANEW,
			 row->screened, what, parts);
}

static bool
check_sums(const struct tally_row *row, const char **column, struct fault *why)
{
	int urgencies =
		row->same_day + row->urgent + row->routine + row->no_referral;
	int depths = row->depth_0 + row->depth_5 + row->depth_15 +
		     row->depth_25 + row->depth_40 + row->depth_75 +
		     row->depth_100 + row->not_gradable;

	*column = "screened";
	if (!parts_agree(urgencies, row, "urgencies", why) ||
	    !parts_agree(depths, row, "depths", why))
		return false;
	*column = "with_symptoms";
	if (row->with_symptoms > row->screened)
		return fault_set(why, FAULT_INPUT,
				 "%d of %d people screened cannot "
				 "be; " ASK_ANEW,
				 row->with_symptoms, row->screened);
	*column = "late_entries";
	if (row->late_entries > row->screened)
		return fault_set(why, FAULT_INPUT,
				 "%d of %d people screened cannot "
				 "be; " ASK_ANEW,
				 row->late_entries, row->screened);
	*column = "age_band";
	if (is_band(row->age_band))
		return true;
	return fault_set(why, FAULT_INPUT,
			 "'%s' is not an age band such as 40-49 or 70+; a "
			 "spreadsheet may take one for a date; " ASK_ANEW,
			 row->age_band);
}

/* --- how it follows the rows before --------------------------------------- */

bool
gather_may_end(const struct gather *gather, struct fault *why)
{
	char date[DAY_SIZE];

	if (gather->count == 0)
		return true;
	day_write(gather->date, date);
	return fault_set(why, FAULT_INPUT,
			 "the tally of station %04d of %s ends after row %d of "
			 "%d, so the file was cut or rows were taken "
			 "out; " ASK_ANEW,
			 gather->station, date, gather->count, gather->rows);
}

/* Of the first row: what the others have to repeat. */
static bool
take_head(struct gather *gather, const struct tally_row *row,
	  const char **column, struct fault *why)
{
	*column = "row";
	if (row->row != 1)
		return fault_set(why, FAULT_INPUT,
				 "it is row %d of its tally, but no row of "
				 "that tally stands before it; " ASK_ANEW,
				 row->row);
	gather->rows = row->rows;
	gather->day_total = row->day_total;
	gather->revision = row->revision;
	gather->station = station_of(row->station);
	gather->date = row->date;
	memcpy(gather->device, row->device, sizeof gather->device);
	return true;
}

static bool
same_tally(const struct gather *gather, const struct tally_row *row)
{
	const struct counted *before = &gather->row[gather->count - 1];

	return station_of(row->station) == gather->station &&
	       row->date.number == gather->date.number &&
	       row->revision == gather->revision &&
	       (row->state == 1) == before->closed &&
	       strcmp(row->device, gather->device) == 0 &&
	       strcmp(row->programme, before->programme) == 0;
}

static bool
follows(const struct gather *gather, const struct tally_row *row,
	bool same_head, const char **column, struct fault *why)
{
	*column = "row";
	if ((!same_head && !same_tally(gather, row)) || row->row == 1)
		return gather_may_end(gather, why);
	if (row->row != gather->count + 1)
		return fault_set(why, FAULT_INPUT,
				 "row %d of the tally follows row %d; rows "
				 "were taken out, doubled or sorted; " ASK_ANEW,
				 row->row, gather->count);
	*column = "rows";
	if (row->rows != gather->rows)
		return fault_set(why, FAULT_INPUT,
				 "%d differs from the row before it, which has "
				 "%d; " ASK_ANEW,
				 row->rows, gather->rows);
	*column = "day_total";
	if (row->day_total != gather->day_total)
		return fault_set(why, FAULT_INPUT,
				 "%d differs from the row before it, which has "
				 "%d; " ASK_ANEW,
				 row->day_total, gather->day_total);
	return true;
}

/* --- keeping it ----------------------------------------------------------- */

/* The text, kept until the tally is done; the row before often has the same. */
static const char *
keep_text(struct gather *gather, const char *text, const char *before)
{
	char *kept = gather->text + gather->used;
	size_t size = strlen(text) + 1;

	if (before != NULL && strcmp(before, text) == 0)
		return before;
	memcpy(kept, text, size);
	gather->used += size;
	return kept;
}

static void
keep_head(struct gather *gather, const struct tally_row *row,
	  struct counted *kept)
{
	const struct counted *before = gather->count > 0 ? kept - 1 : NULL;

	kept->date = gather->date;
	kept->station = gather->station;
	kept->closed = row->state == 1;
	kept->programme = keep_text(gather, row->programme,
				    before == NULL ? NULL : before->programme);
	kept->site = keep_text(gather, row->site,
			       before == NULL ? NULL : before->site);
	kept->policy = keep_text(gather, row->policy,
				 before == NULL ? NULL : before->policy);
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

static void
keep_row(struct gather *gather, const struct tally_row *row, uint32_t crc,
	 bool same_head)
{
	struct counted *kept = &gather->row[gather->count];

	if (same_head && gather->count > 0)
		*kept = kept[-1];
	else
		keep_head(gather, row, kept);
	kept->sex = row->sex;
	kept->age_band =
		keep_text(gather, row->age_band,
			  gather->count > 0 ? kept[-1].age_band : NULL);
#define KEEP_COUNT(type, name, ...) kept->counts.name = row->name;
	TALLY_COUNTS(KEEP_COUNT)
#undef KEEP_COUNT
	gather->people += row->screened;
	gather->mark = mixed(gather->mark, crc);
	gather->count++;
}

static bool
total_agrees(const struct gather *gather, const char **column,
	     struct fault *why)
{
	*column = "day_total";
	if (!gather_is_whole(gather) || gather->people == gather->day_total)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "it is %d, but the rows' screened add up to "
			 "%lld; " ASK_ANEW,
			 gather->day_total, gather->people);
}

bool
gather_add(struct gather *gather, const struct tally_row *row, uint32_t crc,
	   bool same_head, const char **column, struct fault *why)
{
	bool begins = gather->count == 0;

	if (!same_head && !check_head(row, column, why))
		return false;
	if (!check_sums(row, column, why))
		return false;
	if (begins ? !take_head(gather, row, column, why)
		   : !follows(gather, row, same_head, column, why))
		return false;
	*column = "rows";
	if (row->row > row->rows)
		return fault_set(why, FAULT_INPUT,
				 "it is row %d of %d; " ASK_ANEW, row->row,
				 row->rows);
	keep_row(gather, row, crc, same_head);
	return total_agrees(gather, column, why);
}

bool
gather_is_whole(const struct gather *gather)
{
	return gather->count > 0 && gather->count == gather->rows;
}
