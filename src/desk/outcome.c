/* outcome.c: what became of everything collated, told and written down. */
#include "desk/outcome.h"

#include "desk/accounts.h"

#include <string.h>

enum { COMPLAINTS_MOST = 20 };

bool
outcome_begin(struct outcome *outcome, FILE *talk,
	      const struct batch_kind *kind, const char *path,
	      struct fault *why)
{
	*outcome = (struct outcome){
		.talk = talk, .kind = kind, .listed = path != NULL};
	if (path == NULL)
		return true;
	if (!safefile_open(&outcome->ledger, path, why))
		return false;
	accounts_write_header(outcome->ledger.out);
	return true;
}

bool
outcome_see(void *context, const struct ledger_line *line, struct fault *why)
{
	struct outcome *outcome = context;

	(void)why;
	if (outcome->ledger.out != NULL)
		accounts_write_line(outcome->ledger.out, line);
	if (line->status == LEDGER_PASSED_OVER &&
	    strcmp(line->reason, outcome->kind->other[0].sentence) == 0 &&
	    outcome->others++ == 0)
		accounts_say(outcome->talk, line);
	if (line->status != LEDGER_REFUSED && line->status != LEDGER_CONFLICT)
		return true;
	if (outcome->complaints++ < COMPLAINTS_MOST)
		accounts_say(outcome->talk, line);
	return true;
}

bool
outcome_commit(struct outcome *outcome, struct fault *why)
{
	return outcome->ledger.out == NULL ||
	       safefile_commit(&outcome->ledger, SAFEFILE_SYNCED, why);
}

static void
say_totals(const struct outcome *outcome, const struct collating_totals *totals)
{
	FILE *talk = outcome->talk;
	const long long *of = totals->of;

	fprintf(talk, "%lld file%s: %lld %s counted", totals->files,
		totals->files == 1 ? "" : "s", of[LEDGER_COUNTED],
		of[LEDGER_COUNTED] == 1 ? outcome->kind->what
					: outcome->kind->many);
	fprintf(talk, ", %lld the same again, %lld superseded, ",
		of[LEDGER_SAME], of[LEDGER_SUPERSEDED]);
	fprintf(talk, "%lld in conflict; %lld file%s refused",
		of[LEDGER_CONFLICT], of[LEDGER_REFUSED],
		of[LEDGER_REFUSED] == 1 ? "" : "s");
	if (of[LEDGER_PASSED_OVER] > 0)
		fprintf(talk, ", %lld passed over", of[LEDGER_PASSED_OVER]);
	fprintf(talk, ".\n");
}

bool
outcome_judge(const struct outcome *outcome,
	      const struct collating_totals *totals, struct fault *why)
{
	const long long *of = totals->of;

	if (outcome->complaints > COMPLAINTS_MOST)
		fprintf(outcome->talk, "... and %lld more; %s\n",
			outcome->complaints - COMPLAINTS_MOST,
			outcome->listed ? "the ledger lists all"
					: "--ledger FILE lists all");
	if (outcome->others > 1)
		fprintf(outcome->talk, "... and %lld more such file%s\n",
			outcome->others - 1, outcome->others == 2 ? "" : "s");
	say_totals(outcome, totals);
	if (of[LEDGER_COUNTED] == 0)
		return fault_set(why, FAULT_INPUT,
				 "in what was given there is no %s to count",
				 outcome->kind->what);
	if (of[LEDGER_REFUSED] + of[LEDGER_CONFLICT] == 0)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "not everything could be counted; the sums are "
			 "without what is named above");
}

void
outcome_release(struct outcome *outcome)
{
	safefile_drop(&outcome->ledger);
}
