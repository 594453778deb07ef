/* outcome.c: what became of everything collated, told and written down. */
#include "desk/outcome.h"

#include "base/text.h"
#include "desk/accounts.h"
#include "desk/outfile.h"

#include <string.h>

enum { COMPLAINTS_MOST = 20 };

bool
outcome_begin(struct outcome *outcome, const struct desk *desk,
	      const struct given *given, const struct batch_kind *kind,
	      struct fault *why)
{
	*outcome = (struct outcome){.talk = desk->talk,
				    .columns = collating_columns(desk),
				    .kind = kind,
				    .listed = given_is(given, "ledger")};
	if (!outcome->listed)
		return true;
	if (!outfile_open(&outcome->ledger, desk, given, "ledger",
			  ACCOUNTS_BEGIN, why))
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
		accounts_say(outcome->talk, line, outcome->columns);
	outcome->went_on += line->went_on;
	if (line->status != LEDGER_REFUSED && line->status != LEDGER_CONFLICT)
		return true;
	if (outcome->complaints++ < COMPLAINTS_MOST)
		accounts_say(outcome->talk, line, outcome->columns);
	return true;
}

static void
say_more(const struct outcome *outcome)
{
	if (outcome->complaints > COMPLAINTS_MOST)
		fprintf(outcome->talk, "... and %lld more; %s\n",
			outcome->complaints - COMPLAINTS_MOST,
			outcome->listed ? "the ledger lists all"
					: "--ledger FILE lists all");
	if (outcome->others > 1)
		fprintf(outcome->talk, "... and %lld more such file%s\n",
			outcome->others - 1, outcome->others == 2 ? "" : "s");
}

bool
outcome_commit(struct outcome *outcome, struct fault *why)
{
	say_more(outcome);
	fflush(outcome->talk);
	return outcome->ledger.out == NULL ||
	       safefile_commit(&outcome->ledger, SAFEFILE_SYNCED, why);
}

void
outcome_say(const struct outcome *outcome, const char *text)
{
	if (outcome->columns > 0)
		text_write_wrapped(outcome->talk, text, outcome->columns, 0,
				   ACCOUNTS_INDENT);
	else
		fprintf(outcome->talk, "%s\n", text);
}

static void
say_totals(const struct outcome *outcome, const struct collating_totals *totals)
{
	const long long *of = totals->of;
	char text[300], passed_over[60] = "";

	if (of[LEDGER_PASSED_OVER] > 0)
		snprintf(passed_over, sizeof passed_over, ", %lld passed over",
			 of[LEDGER_PASSED_OVER]);
	snprintf(text, sizeof text,
		 "%lld file%s: %lld %s counted, %lld the same again, %lld "
		 "superseded, %lld in conflict; %lld file%s refused%s.",
		 totals->files, totals->files == 1 ? "" : "s",
		 of[LEDGER_COUNTED],
		 of[LEDGER_COUNTED] == 1 ? outcome->kind->what
					 : outcome->kind->many,
		 of[LEDGER_SAME], of[LEDGER_SUPERSEDED], of[LEDGER_CONFLICT],
		 of[LEDGER_REFUSED], of[LEDGER_REFUSED] == 1 ? "" : "s",
		 passed_over);
	outcome_say(outcome, text);
}

/* Never silently: were the laptop before still in use, its people would be
 * missing. */
static void
say_went_on(const struct outcome *outcome)
{
	char text[400];

	if (outcome->went_on == 0)
		return;
	snprintf(text, sizeof text,
		 "%lld %s of a register that went on from a copy %s superseded "
		 "by what was sent later. That is right when only one of the "
		 "two laptops is in use; the other needs a station code of its "
		 "own.",
		 outcome->went_on,
		 outcome->went_on == 1 ? outcome->kind->what
				       : outcome->kind->many,
		 outcome->went_on == 1 ? "was" : "were");
	outcome_say(outcome, text);
}

bool
outcome_judge(const struct outcome *outcome,
	      const struct collating_totals *totals, struct fault *why)
{
	const long long *of = totals->of;

	say_totals(outcome, totals);
	say_went_on(outcome);
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
