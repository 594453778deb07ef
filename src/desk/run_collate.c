/* run_collate.c: the sums of many tallies, and what became of each file. */
#include "desk/run.h"

#include "counts/gather.h"
#include "counts/grouping.h"
#include "counts/groups.h"
#include "desk/accounts.h"
#include "desk/collating.h"
#include "desk/reporting.h"
#include "desk/sumsheet.h"
#include "keep/safefile.h"

enum { COMPLAINTS_MOST = 20 };

struct total {
	struct grouping grouping;
	struct groups groups;
	FILE *ledger;		     /* or NULL */
	struct reporting *reporting; /* or NULL */
	FILE *talk;
	long under; /* counts to be hidden are smaller; 0 = none */
	long long complaints;
};

/* A counted_see. */
static bool
see_row(void *context, const struct counted *row, int sign, struct fault *why)
{
	struct total *total = context;
	char key[GROUPING_KEY_SIZE];

	grouping_key(&total->grouping, row, key);
	return groups_add(&total->groups, key, &row->counts, sign, why);
}

/* A ledger_see. */
static bool
see_line(void *context, const struct ledger_line *line, struct fault *why)
{
	struct total *total = context;

	(void)why;
	if (total->ledger != NULL)
		accounts_write_line(total->ledger, line);
	if (line->status != LEDGER_REFUSED && line->status != LEDGER_CONFLICT)
		return true;
	if (total->complaints++ < COMPLAINTS_MOST)
		accounts_say(total->talk, line);
	return true;
}

/* --- what is printed ------------------------------------------------------ */

static void
say_totals(const struct total *total, const struct collating_totals *totals)
{
	FILE *talk = total->talk;
	const long long *of = totals->of;

	if (total->complaints > COMPLAINTS_MOST)
		fprintf(talk, "... and %lld more; %s\n",
			total->complaints - COMPLAINTS_MOST,
			total->ledger == NULL ? "--ledger FILE lists all"
					      : "the ledger lists all");
	fprintf(talk, "%lld file%s: %lld tall%s counted", totals->files,
		totals->files == 1 ? "" : "s", of[LEDGER_COUNTED],
		of[LEDGER_COUNTED] == 1 ? "y" : "ies");
	fprintf(talk, ", %lld the same again, %lld superseded, ",
		of[LEDGER_SAME], of[LEDGER_SUPERSEDED]);
	fprintf(talk, "%lld in conflict; %lld file%s refused",
		of[LEDGER_CONFLICT], of[LEDGER_REFUSED],
		of[LEDGER_REFUSED] == 1 ? "" : "s");
	if (of[LEDGER_PASSED_OVER] > 0)
		fprintf(talk, ", %lld passed over", of[LEDGER_PASSED_OVER]);
	fprintf(talk, ".\n");
}

static bool
judge(const struct collating_totals *totals, struct fault *why)
{
	if (totals->of[LEDGER_COUNTED] == 0)
		return fault_set(why, FAULT_INPUT,
				 "in what was given there is no tally to "
				 "count");
	if (totals->of[LEDGER_REFUSED] + totals->of[LEDGER_CONFLICT] == 0)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "not everything could be counted; the sums are "
			 "without what is named above");
}

/* --- running -------------------------------------------------------------- */

static bool
read_all(struct desk *desk, const struct given *given, struct total *total,
	 struct collating_totals *totals, struct fault *why)
{
	struct onlooker onlookers[2] = {
		{.row = see_row, .line = see_line, .context = total}};
	size_t count = 1;

	if (total->reporting != NULL)
		onlookers[count++] = (struct onlooker){
			.row = summary_count,
			.line = summary_account,
			.context = &total->reporting->summary};
	return collating_run(desk, &gather_kind, given->argument,
			     (size_t)given->arguments, onlookers, count, totals,
			     why);
}

/* Nothing is printed before all was read and the ledger stands. */
static bool
collate(struct desk *desk, const struct given *given, struct total *total,
	struct safefile *ledger, struct fault *why)
{
	struct collating_totals totals;

	if (!read_all(desk, given, total, &totals, why))
		return false;
	if (total->ledger != NULL &&
	    !safefile_commit(ledger, SAFEFILE_SYNCED, why))
		return false;
	if (!sumsheet_write(&total->groups, &total->grouping, total->under,
			    desk->out, why))
		return false;
	if (total->reporting != NULL &&
	    !reporting_finish(total->reporting, why))
		return false;
	say_totals(total, &totals);
	return judge(&totals, why);
}

bool
run_collate(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *path = given_value(given, "ledger");
	struct total total = {.talk = desk->talk};
	const char *page = given_value(given, "report");
	struct reporting reporting;
	struct safefile ledger = {.out = NULL};
	bool done;

	if (given_is(given, "verify"))
		return run_verify(desk, given, why);
	if (!grouping_read(&total.grouping, given_value(given, "by"),
			   given_value(given, "per"), why) ||
	    !sumsheet_read_limit(given_value(given, "public"), &total.under,
				 why))
		return false;
	if (total.under > 0 && page != NULL)
		return fault_set(why, FAULT_USAGE,
				 "the report shows every count, so it is no "
				 "public copy; give --public without --report");
	if (path != NULL) {
		if (!safefile_open(&ledger, path, why))
			return false;
		total.ledger = ledger.out;
		accounts_write_header(ledger.out);
	}
	groups_init(&total.groups);
	if (page != NULL)
		total.reporting = &reporting;
	done = (page == NULL || reporting_begin(&reporting, page, why)) &&
	       collate(desk, given, &total, &ledger, why);
	groups_release(&total.groups);
	safefile_drop(&ledger);
	if (page != NULL)
		reporting_release(&reporting);
	return done;
}
