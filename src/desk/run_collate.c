/* run_collate.c: the sums of many tallies, and what became of each file. */
#include "desk/run.h"

#include "counts/gather.h"
#include "counts/grouping.h"
#include "counts/groups.h"
#include "desk/collating.h"
#include "desk/outcome.h"
#include "desk/reporting.h"
#include "desk/sumsheet.h"

/* clang-format off */
const char collate_details[] =
"PATH is a tally file or a folder of them, whatever came by stick or mail; - "
"is standard input. Prints the sums as CSV: the period of --by, the columns "
"of --per, then every count. For each station and day only the highest "
"revision counts, and once however often it was copied. A file that a "
"spreadsheet has saved again is counted if and only if the check letters of "
"every row hold.\n"
"\n"
"Every file is accounted for: --ledger FILE lists what was counted, what is "
"the same again, superseded, in conflict or refused, and why. Two different "
"files of one revision, or one station code from two laptops, are in conflict "
"and neither counts. With anything refused or in conflict the exit status is "
"3, and the rest is counted.\n"
"\n"
"--public N makes a copy that may leave the programme: counts from 1 to N - 1 "
"and what would tell them are printed as the word hidden, and a row of fewer "
"than N people is hidden whole; 0 stays 0. It protects one table. Publish no "
"second one of the same days and people by other columns or periods: one "
"subtracted from the other may tell what is hidden.\n"
"\n"
"--verify DIR counts the days of one station again, from the register in its "
"folder DIR (only read), and prints per tally the people reported, the people "
"in the register, the second divided by the first, and which columns differ; "
"then each day with people of which no tally was given. The exit status is 3 "
"when anything differs or is missing.\n"
"\n"
"--yields adds up the files of 'yield --send' in place of tallies, with the "
"same care: of those referred the counts, and in per cent who attended and what "
"was found, with 95 % intervals and the bounds if none, or all, of those of "
"unknown outcome have it; then those not referred, and sensitivity and "
"specificity where one policy chose whom to examine (--per policy). --per '' "
"adds up everything. Small numbers can point to a person: not to publish.\n"
"\n"
"For example:\n"
"  shoal collate --by month --per site,sex --ledger ledger.csv tallies/\n"
"  shoal collate --yields --per station tallies/";
/* clang-format on */

struct total {
	struct grouping grouping;
	struct groups groups;
	struct outcome outcome;
	struct reporting *reporting; /* or NULL */
	long under; /* counts to be hidden are smaller; 0 = none */
};

/* A counted_see. */
static bool
see_row(void *context, const struct counted *row, int sign, struct fault *why)
{
	struct total *total = context;
	char key[GROUPING_KEY_SIZE];

	grouping_key(&total->grouping, row->date, row, key);
	return groups_add(&total->groups, key, &row->counts, sign, why);
}

static bool
read_all(struct desk *desk, const struct given *given, struct total *total,
	 struct collating_totals *totals, struct fault *why)
{
	struct onlooker onlookers[3] = {{.row = see_row, .context = total},
					{.line = outcome_see,
					 .context = &total->outcome}};
	size_t count = 2;

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
	struct fault *why)
{
	struct collating_totals totals;

	if (!read_all(desk, given, total, &totals, why) ||
	    !outcome_commit(&total->outcome, why) ||
	    !sumsheet_write(&total->groups, &total->grouping, total->under,
			    desk->out, why))
		return false;
	if (total->reporting != NULL &&
	    !reporting_finish(total->reporting, why))
		return false;
	return outcome_judge(&total->outcome, &totals, why);
}

static bool
read_options(const struct given *given, struct total *total, struct fault *why)
{
	if (!grouping_read(&total->grouping, &grouping_tallies,
			   given_value(given, "by"), given_value(given, "per"),
			   why) ||
	    !sumsheet_read_limit(given_value(given, "public"), &total->under,
				 why))
		return false;
	if (total->under == 0 || !given_is(given, "report"))
		return true;
	return fault_set(why, FAULT_USAGE,
			 "the report shows every count, so it is no public "
			 "copy; give --public without --report");
}

static bool
collate_tallies(struct desk *desk, const struct given *given, struct fault *why)
{
	bool with_page = given_is(given, "report");
	struct reporting reporting;
	struct total total = {.reporting = NULL};
	bool done;

	if (with_page)
		total.reporting = &reporting;
	if (!read_options(given, &total, why) ||
	    !outcome_begin(&total.outcome, desk, given, &gather_kind, why))
		return false;
	groups_init(&total.groups);
	done = (!with_page || reporting_begin(&reporting, desk, given, why)) &&
	       collate(desk, given, &total, why);
	groups_release(&total.groups);
	outcome_release(&total.outcome);
	if (with_page)
		reporting_release(&reporting);
	return done;
}

bool
run_collate(struct desk *desk, const struct given *given, struct fault *why)
{
	if (given_is(given, "yields"))
		return run_yields(desk, given, why);
	if (given_is(given, "verify"))
		return run_verify(desk, given, why);
	return collate_tallies(desk, given, why);
}
