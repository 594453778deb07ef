/* run_yields.c: the sums of many yields, and what became of each file. */
#include "desk/run.h"

#include "counts/yieldgather.h"
#include "counts/yieldsums.h"
#include "desk/collating.h"
#include "desk/outcome.h"
#include "desk/yieldsheet.h"

/* These are about tallies. */
static bool
stands_alone(const struct given *given, struct fault *why)
{
	static const char *const others[] = {"report", "public", "verify"};

	for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
		if (given_is(given, others[i]))
			return fault_set(why, FAULT_USAGE,
					 "--%s is about tallies and cannot be "
					 "given with --yields",
					 others[i]);
	return true;
}

static void
say_mixed(const struct outcome *outcome)
{
	outcome_say(outcome, "Where hidden_quadrants is 'mixed', stations call "
			     "an angle closed by different rules, or by none: "
			     "their classes are not the same. --per policy or "
			     "--per station keeps them apart.");
}

static void
say_policies(const struct outcome *outcome)
{
	outcome_say(outcome, "Sensitivity and specificity are left out where "
			     "several policies are added up: whom one sends, "
			     "or has examined, tells nothing of the people of "
			     "another. --per policy keeps them apart.");
}

/* Nothing is printed before all was read and the ledger stands. */
static bool
collate(struct desk *desk, const struct given *given, struct yieldsums *sums,
	struct outcome *outcome, struct fault *why)
{
	struct onlooker onlookers[] = {
		{.yield_row = yieldsums_count, .context = sums},
		{.line = outcome_see, .context = outcome}};
	struct collating_totals totals;
	struct yieldsheet told = {false, false};

	if (!collating_run(desk, &yieldgather_kind, given->argument,
			   (size_t)given->arguments, onlookers, 2, &totals,
			   why) ||
	    !outcome_commit(outcome, why) ||
	    !yieldsheet_write(sums, desk->out, &told, why))
		return false;
	if (told.mixed)
		say_mixed(outcome);
	if (told.policies)
		say_policies(outcome);
	return outcome_judge(outcome, &totals, why);
}

bool
run_yields(struct desk *desk, const struct given *given, struct fault *why)
{
	struct yieldsums sums;
	struct outcome outcome;
	bool done;

	if (!stands_alone(given, why) ||
	    !grouping_read(&sums.grouping, &grouping_yields,
			   given_value(given, "by"), given_value(given, "per"),
			   why) ||
	    !outcome_begin(&outcome, desk, given, &yieldgather_kind, why))
		return false;
	yieldsums_begin(&sums);
	done = collate(desk, given, &sums, &outcome, why);
	yieldsums_release(&sums);
	outcome_release(&outcome);
	return done;
}
