/* run_correct.c: correcting a person, or taking an entry back. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/changes.h"
#include "desk/daytally.h"
#include "desk/interview.h"
#include "desk/mistyped.h"
#include "desk/reprint.h"
#include "desk/undo.h"

#include <string.h>

/* A kept person on the way to a new entry. */
struct revision {
	struct desk *desk;
	struct visit before, after;
	long long entry;
	char reason[CHANGES_REASON_SIZE];
};

static bool
load(struct revision *revision, const struct given *given, struct fault *why)
{
	struct refnum number;

	if (!mistyped_read(revision->desk, given->argument[0], &number, why) ||
	    !register_find(&revision->desk->book, number, &revision->before,
			   &revision->entry, why))
		return false;
	if (revision->before.state == STATE_VOID)
		return fault_set(why, FAULT_INPUT,
				 "the entry '%s' is void already; enter the "
				 "person again",
				 given->argument[0]);
	revision->after = revision->before;
	return true;
}

/* A correction is judged by the policy that judged the person, so that mending
 * a name never changes the answer. */
static bool
use_first_policy(struct desk *desk, const struct visit *visit,
		 struct fault *why)
{
	if (strcmp(visit->policy, desk->policy_mark) == 0)
		return true;
	if (!desk_kept_policy(desk, visit->policy, desk->policy_text,
			      &desk->policy, why))
		return false;
	fprintf(desk->talk,
		"Judged by the policy of that day, %s; the one in force now "
		"is %s.\n",
		visit->policy, desk->policy_mark);
	text_copy(desk->policy_mark, sizeof desk->policy_mark, visit->policy);
	return true;
}

static bool
interview_it(struct revision *revision, struct fault *why)
{
	struct asker asker = interview_asker(revision->desk);
	struct form form;

	form_load(&form, &revision->after);
	if (interview(revision->desk, &asker, &form, NULL, true) != DIALOG_SAVE)
		return fault_set(why, FAULT_INPUT, "nothing was changed");
	revision->after = form.visit;
	return true;
}

/* New values and why; "<" at the reason goes back to the summary. */
static bool
gather(struct revision *revision, const struct given *given, struct fault *why)
{
	struct desk *desk = revision->desk;
	int sets;

	if (!changes_set(given, visit_fields, "shoal help screen",
			 &revision->after, &sets, why))
		return false;
	if (sets > 0)
		return changes_take_reason(desk, given, revision->reason, why);
	for (;;) {
		if (!interview_it(revision, why))
			return false;
		switch (changes_ask_reason(desk, given, revision->reason,
					   why)) {
		case CHANGES_REASON_GIVEN:
			return true;
		case CHANGES_REASON_NONE:
			return false;
		default:
			break;
		}
	}
}

static bool
keep(struct revision *revision, struct decision *decision, struct fault *why)
{
	struct desk *desk = revision->desk;

	desk_stamp(desk, &revision->after);
	/* Late says when the person was first typed in. */
	revision->after.late =
		revision->after.screened_on.number ==
				revision->before.screened_on.number
			? revision->before.late
			: revision->after.late;
	revision->after.state = STATE_CORRECTED;
	if (!visit_check(&revision->after, why) ||
	    !visit_check_kept(&revision->after, desk->today, why))
		return false;
	desk_judge(desk, &revision->after, decision);
	if (!changes_tell(desk, visit_fields, &revision->before,
			  &revision->after))
		return fault_set(why, FAULT_INPUT,
				 "nothing is different, so nothing was kept");
	return register_revise(&desk->book, &revision->after, revision->entry,
			       revision->reason, desk->policy_text, why);
}

bool
run_correct(struct desk *desk, const struct given *given, struct fault *why)
{
	struct revision revision = {.desk = desk};
	struct decision decision;

	if (!load(&revision, given, why) ||
	    !use_first_policy(desk, &revision.before, why))
		return false;
	changes_tell_person(desk, &revision.before);
	if (!gather(&revision, given, why) || !keep(&revision, &decision, why))
		return false;
	desk_write_urgency(&desk->policy, &revision.after, desk->columns,
			   desk->out);
	reprint_tell(&revision.before, &revision.after,
		     reprint_after(desk, &revision.before, &revision.after),
		     desk->columns, desk->out);
	fprintf(desk->out, "Saved %s\n", given->argument[0]);
	daytally_tell(desk, revision.after.screened_on);
	if (revision.before.screened_on.number !=
	    revision.after.screened_on.number)
		daytally_tell(desk, revision.before.screened_on);
	return desk_write_slips(desk, &revision.after, &desk->policy, &decision,
				why);
}

/* With a reason on the command line nothing else would be asked, and a wrong
 * number may well be somebody else's. */
static bool
may_take_back(struct desk *desk, const struct given *given, struct fault *why)
{
	struct asker asker = interview_asker(desk);
	bool yes = false;

	if (!desk->in_is_terminal || given_value(given, "reason") == NULL)
		return true;
	if (ask_yes(&asker, "Take this entry back?", ASK_PRESET_NO,
		    "1 makes the entry void: it is counted no more, and stays "
		    "in the register with the reason. 2, Enter and < change "
		    "nothing.",
		    &yes) == ASK_ANSWERED &&
	    yes)
		return true;
	return fault_set(why, FAULT_INPUT, "nothing was changed");
}

bool
run_void(struct desk *desk, const struct given *given, struct fault *why)
{
	struct revision revision = {.desk = desk};

	if (!load(&revision, given, why))
		return false;
	changes_tell_person(desk, &revision.before);
	text_write_wrapped(desk->talk,
			   "To be taken back for good: it is counted no more, "
			   "and cannot be brought back.",
			   desk->columns, 0, 0);
	if (!changes_take_reason(desk, given, revision.reason, why) ||
	    !may_take_back(desk, given, why) ||
	    !undo_entry(desk, &revision.before, revision.entry, revision.reason,
			why))
		return false;
	fprintf(desk->out,
		"%s is void: it is counted no more. Its number is never "
		"given out again. Take its slip back.\n",
		given->argument[0]);
	daytally_tell(desk, revision.before.screened_on);
	return undo_write_slips(desk, &revision.before, why);
}
