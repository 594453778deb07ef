/* yieldgather.c: the rows of one month's yield, gathered until they agree. */
#include "counts/yieldgather.h"

#include <string.h>

#define ASK_ANEW "ask the station for the file anew"

void
yieldgather_begin(struct yieldgather *gather)
{
	batch_begin(&gather->batch);
	gather->used = 0;
}

/* --- what a row is in itself ---------------------------------------------- */

static void
describe(const struct yield_row *row, struct batch_row *its)
{
	*its = (struct batch_row){.station = row->station,
				  .device = row->device,
				  .date = row->month,
				  .revision = row->revision,
				  .row = row->row,
				  .rows = row->rows,
				  .total = row->month_total,
				  .people = row->people};
}

static void
take_counts(const struct yield_row *row, struct yield_counts *counts)
{
#define TAKE_COUNT(type, name, ...) counts->name = row->name;
	YIELD_COUNTS(TAKE_COUNT)
#undef TAKE_COUNT
}

static bool
check_month(const struct yield_row *row, const char **column, struct fault *why)
{
	char month[DAY_SIZE];

	*column = "month";
	if (yieldrows_month(row->month).number == row->month.number)
		return true;
	day_write(row->month, month);
	return fault_set(why, FAULT_INPUT,
			 "%s is not the first day of a month; " ASK_ANEW,
			 month);
}

/* Nobody is chosen of those who were referred, and of those who were not only
 * the chosen are asked about. */
static bool
check_chosen(const struct yield_row *row, const char **column,
	     struct fault *why)
{
	bool referred = row->urgency != URGENCY_NO_REFERRAL;

	*column = "chosen";
	if (row->chosen > (referred ? 0 : row->people))
		return fault_set(why, FAULT_INPUT,
				 "%d chosen of %d people %s cannot "
				 "be; " ASK_ANEW,
				 row->chosen, row->people,
				 referred ? "referred" : "not referred");
	if (referred || row->people - row->unknown <= row->chosen)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "of %d chosen the outcome of %d cannot be "
			 "known; " ASK_ANEW,
			 row->chosen, row->people - row->unknown);
}

bool
yieldgather_check(const struct yield_row *row, const char **column,
		  struct fault *why)
{
	struct yield_counts counts;
	struct batch_row its;
	struct fault fault;

	describe(row, &its);
	if (!batch_check_codes(&its, row->policy, column, why)) {
		if (strcmp(*column, "date") == 0)
			*column = "month";
		return false;
	}
	if (!check_month(row, column, why))
		return false;
	take_counts(row, &counts);
	*column = "people";
	if (!yield_counts_agree(&counts, &fault))
		return fault_set(why, FAULT_INPUT, "%s; " ASK_ANEW,
				 fault.sentence);
	return check_chosen(row, column, why);
}

/* --- keeping it ----------------------------------------------------------- */

static const char *
keep_text(struct yieldgather *gather, const char *text, const char *before)
{
	return batch_keep_text(gather->text, &gather->used, text, before);
}

static void
keep_row(struct yieldgather *gather, const struct yield_row *row)
{
	struct counted_yield *kept = &gather->row[gather->batch.count - 1];
	bool begins = gather->batch.count == 1;

	gather->as_of = row->as_of;
	kept->month = row->month;
	kept->station = gather->batch.station;
	kept->programme = keep_text(gather, row->programme,
				    begins ? NULL : kept[-1].programme);
	kept->site =
		keep_text(gather, row->site, begins ? NULL : kept[-1].site);
	kept->policy =
		keep_text(gather, row->policy, begins ? NULL : kept[-1].policy);
	kept->rule =
		keep_text(gather, row->rule, begins ? NULL : kept[-1].rule);
	kept->urgency = row->urgency;
	kept->depth = row->depth;
	kept->hidden_quadrants = row->hidden_quadrants;
	take_counts(row, &kept->counts);
	kept->chosen = row->chosen;
}

/* --- taking it ------------------------------------------------------------ */

/* What every row of a yield repeats beside what struct batch_row has. */
static bool
same_rest(const struct yieldgather *gather, const struct yield_row *row)
{
	const struct counted_yield *before =
		&gather->row[gather->batch.count - 1];

	return row->as_of.number == gather->as_of.number &&
	       row->hidden_quadrants == before->hidden_quadrants &&
	       strcmp(row->programme, before->programme) == 0;
}

bool
yieldgather_add(struct yieldgather *gather, const struct yield_row *row,
		uint32_t crc, const char **column, struct fault *why)
{
	struct batch_row its;

	describe(row, &its);
	if (!yieldgather_check(row, column, why) ||
	    !batch_add(&gather->batch, &yieldgather_kind, &its, false,
		       gather->batch.count > 0 && same_rest(gather, row), crc,
		       column, why))
		return false;
	gather->batch.known += row->people - row->unknown;
	keep_row(gather, row);
	return true;
}

/* --- for the readers ------------------------------------------------------ */

static void
begin(void *gather)
{
	yieldgather_begin(gather);
}

static bool
check(const void *row, const char **column, struct fault *why)
{
	return yieldgather_check(row, column, why);
}

static bool
add(void *gather, const void *row, uint32_t crc, bool same_head,
    const char **column, struct fault *why)
{
	(void)same_head;
	return yieldgather_add(gather, row, crc, column, why);
}

const struct batch_kind yieldgather_kind = {.what = "yield",
					    .many = "yields",
					    .total = "month_total",
					    .people = "people",
					    .schema = YIELDROWS_SCHEMA,
					    .columns = &yield_columns,
					    .may_be_empty = "hidden_quadrants",
					    .grows = true,
					    .other = {{"day_total", "day_total",
						       "it is a tally; 'shoal "
						       "collate' without "
						       "--yields adds tallies "
						       "up",
						       NULL},
						      {"status", "reason",
						       "it is the ledger of an "
						       "earlier collating",
						       NULL}},
					    .begin = begin,
					    .check = check,
					    .add = add};
