/* gather.c: the rows of one tally, gathered until they agree. */
#include "counts/gather.h"

#include <string.h>

#define ASK_ANEW "ask the station for the file anew"

void
gather_begin(struct gather *gather)
{
	batch_begin(&gather->batch);
	gather->used = 0;
}

/* --- what a row is in itself ---------------------------------------------- */

static size_t
count_digits(const char *text)
{
	size_t count = 0;

	while (text[count] >= '0' && text[count] <= '9')
		count++;
	return count;
}

/* "40-49", "70+" or "unknown". */
static bool
is_band(const char *band)
{
	size_t from = count_digits(band), to;

	if (from == 0)
		return strcmp(band, "unknown") == 0;
	if (from > 3)
		return false;
	if (band[from] == '+')
		return band[from + 1] == '\0';
	if (band[from] != '-')
		return false;
	to = count_digits(band + from + 1);
	return to > 0 && to <= 3 && band[from + 1 + to] == '\0';
}

static void
describe(const struct tally_row *row, struct batch_row *its)
{
	*its = (struct batch_row){.station = row->station,
				  .device = row->device,
				  .date = row->date,
				  .revision = row->revision,
				  .row = row->row,
				  .rows = row->rows,
				  .total = row->day_total,
				  .people = row->screened};
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
	return true;
}

static bool
check_band(const struct tally_row *row, const char **column, struct fault *why)
{
	*column = "age_band";
	if (is_band(row->age_band))
		return true;
	return fault_set(why, FAULT_INPUT,
			 "'%s' is not an age band such as 40-49 or 70+; a "
			 "spreadsheet may take one for a date; " ASK_ANEW,
			 row->age_band);
}

static bool
check_people(const struct tally_row *row, const char **column,
	     struct fault *why)
{
	return check_band(row, column, why) && check_sums(row, column, why);
}

bool
gather_check(const struct tally_row *row, const char **column,
	     struct fault *why)
{
	struct batch_row its;

	describe(row, &its);
	return batch_check_codes(&its, row->policy, column, why) &&
	       check_people(row, column, why);
}

/* --- keeping it ----------------------------------------------------------- */

static const char *
keep_text(struct gather *gather, const char *text, const char *before)
{
	return batch_keep_text(gather->text, &gather->used, text, before);
}

static void
keep_head(struct gather *gather, const struct tally_row *row,
	  struct counted *kept)
{
	const struct counted *before = gather->batch.count > 1 ? kept - 1
							       : NULL;

	kept->date = gather->batch.date;
	kept->station = gather->batch.station;
	kept->closed = row->state == 1;
	kept->programme = keep_text(gather, row->programme,
				    before == NULL ? NULL : before->programme);
	kept->site = keep_text(gather, row->site,
			       before == NULL ? NULL : before->site);
	kept->policy = keep_text(gather, row->policy,
				 before == NULL ? NULL : before->policy);
}

static void
keep_row(struct gather *gather, const struct tally_row *row, bool same_head)
{
	struct counted *kept = &gather->row[gather->batch.count - 1];
	bool begins = gather->batch.count == 1;

	if (same_head && !begins)
		*kept = kept[-1];
	else
		keep_head(gather, row, kept);
	kept->sex = row->sex;
	kept->age_band = keep_text(gather, row->age_band,
				   begins ? NULL : kept[-1].age_band);
#define KEEP_COUNT(type, name, ...) kept->counts.name = row->name;
	TALLY_COUNTS(KEEP_COUNT)
#undef KEEP_COUNT
}

/* --- taking it ------------------------------------------------------------ */

/* What every row of a tally repeats beside what struct batch_row has. */
static bool
same_rest(const struct gather *gather, const struct tally_row *row)
{
	const struct counted *before = &gather->row[gather->batch.count - 1];

	return (row->state == 1) == before->closed &&
	       strcmp(row->programme, before->programme) == 0;
}

bool
gather_add(struct gather *gather, const struct tally_row *row, uint32_t crc,
	   bool same_head, const char **column, struct fault *why)
{
	bool begins = gather->batch.count == 0;
	struct batch_row its;

	describe(row, &its);
	if (!same_head && !batch_check_codes(&its, row->policy, column, why))
		return false;
	if (!check_people(row, column, why) ||
	    !batch_add(&gather->batch, &gather_kind, &its, same_head,
		       !begins && (same_head || same_rest(gather, row)), crc,
		       column, why))
		return false;
	keep_row(gather, row, same_head);
	return true;
}

/* --- for the readers ------------------------------------------------------ */

static void
begin(void *gather)
{
	gather_begin(gather);
}

static bool
check(const void *row, const char **column, struct fault *why)
{
	return gather_check(row, column, why);
}

static bool
add(void *gather, const void *row, uint32_t crc, bool same_head,
    const char **column, struct fault *why)
{
	return gather_add(gather, row, crc, same_head, column, why);
}

const struct batch_kind gather_kind = {.what = "tally",
				       .many = "tallies",
				       .total = "day_total",
				       .people = "screened",
				       .schema = TALLY_SCHEMA,
				       .columns = &tally_columns,
				       .may_be_empty = "",
				       .other = {{"month_total", "month_total",
						  "it is a yield; 'shoal "
						  "collate --yields' adds "
						  "yields up",
						  NULL},
						 {"status", "reason",
						  "it is the ledger of an "
						  "earlier collating",
						  NULL},
						 {"screened", "late_entries",
						  "it is the total of an "
						  "earlier collating",
						  "row"}},
				       .begin = begin,
				       .check = check,
				       .add = add};
