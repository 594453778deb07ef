/* run_reply.c: what the clinic writes back about a person. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/changes.h"
#include "desk/interview.h"
#include "desk/mistyped.h"
#include "desk/replycolumns.h"
#include "desk/replytalk.h"
#include "keep/replies.h"

#include <string.h>

enum { LINE_SIZE = VISIT_NAME_SIZE + VISIT_SITE_SIZE + 60 };

/* A reply on the way into the register. */
struct recording {
	struct desk *desk;
	const struct given *given;
	struct visit visit; /* the person it is about */
	struct reply before, after;
	long long entry; /* 0: there is none yet */
	bool taken_back; /* that entry, so that nothing of it goes on */
	char number[REFNUM_SIZE];
};

static bool
load(struct recording *recording, struct fault *why)
{
	struct desk *desk = recording->desk;
	struct refnum number;

	if (!mistyped_read(desk, recording->given->argument[0], &number, why) ||
	    !register_find(&desk->book, number, &recording->visit, NULL, why))
		return false;
	refnum_write(number, recording->number);
	if (recording->visit.state == STATE_VOID)
		return fault_set(why, FAULT_INPUT,
				 "the entry '%s' was made void, so it has no "
				 "reply",
				 recording->number);
	if (!register_find_reply(&desk->book, number, &recording->before,
				 &recording->entry, why))
		return false;
	recording->taken_back = recording->before.state == STATE_VOID;
	if (recording->taken_back && !given_is(recording->given, "void"))
		reply_init(&recording->before);
	recording->before.number = number;
	recording->after = recording->before;
	return true;
}

static void
tell_taken_back(const struct recording *recording)
{
	const struct desk *desk = recording->desk;

	if (recording->taken_back)
		text_write_wrapped(desk->talk,
				   "There was a reply, which was taken back; "
				   "nothing of it goes into this one.",
				   desk->columns, 0, 0);
}

/* Whose reply it is, and what to mind about it. */
static void
tell_person(const struct recording *recording)
{
	const struct visit *visit = &recording->visit;
	FILE *talk = recording->desk->talk;
	int columns = recording->desk->columns;
	char line[LINE_SIZE], day[DAY_SIZE];

	day_write(visit->screened_on, day);
	snprintf(line, sizeof line, "%s: %s, screened on %s, %s",
		 recording->number,
		 visit->name[0] == '\0' ? "no name" : visit->name, day,
		 visit->site);
	text_write_wrapped(talk, line, columns, 0, 2);
	if (visit->urgency == URGENCY_NO_REFERRAL &&
	    !policy_verifies(&recording->desk->policy, visit))
		text_write_wrapped(talk, "This person was not referred.",
				   columns, 0, 0);
	if (visit->reply_consent != ANSWER_YES)
		text_write_wrapped(talk,
				   "This person did not agree that the clinic "
				   "writes back: enter what was seen only if "
				   "the clinic has asked again.",
				   columns, 0, 0);
	tell_taken_back(recording);
}

static bool
talk_it(struct recording *recording, struct fault *why)
{
	struct asker asker = interview_asker(recording->desk);
	bool kept = recording->entry != 0 && !recording->taken_back;
	struct reply_form form;

	tell_person(recording);
	if (kept) {
		reply_ask_load(&form, &recording->before,
			       recording->desk->today);
	} else {
		reply_ask_init(&form, recording->visit.number,
			       recording->desk->today);
		reply_talk_begin(&asker);
	}
	if (reply_talk(recording->desk, &asker, &recording->visit, &form,
		       kept) != DIALOG_SAVE)
		return fault_set(why, FAULT_INPUT, "nothing was saved");
	recording->after = form.reply;
	return true;
}

static void
stamp(struct recording *recording)
{
	struct visit scratch = recording->visit;

	desk_stamp(recording->desk, &scratch);
	text_copy(recording->after.recorded_at,
		  sizeof recording->after.recorded_at, scratch.entered_at);
}

static bool
keep(struct recording *recording, struct fault *why)
{
	struct desk *desk = recording->desk;
	char reason[CHANGES_REASON_SIZE];

	stamp(recording);
	if (!reply_check(&recording->after, recording->visit.screened_on,
			 desk->today, why))
		return false;
	if (recording->entry == 0)
		return register_save_reply(&desk->book, &recording->after,
					   desk->today, why);
	/* Entering one anew that was taken back is a difference of its own. */
	if (recording->after.state != STATE_VOID &&
	    !changes_tell(desk, reply_fields, &recording->before,
			  &recording->after) &&
	    !recording->taken_back)
		return fault_set(why, FAULT_INPUT,
				 "nothing is different, so nothing was kept");
	return changes_take_reason(desk, recording->given, reason, why) &&
	       register_revise_reply(&desk->book, &recording->after,
				     recording->entry, reason, desk->today,
				     why);
}

static bool
take_back(struct recording *recording, struct fault *why)
{
	if (recording->entry == 0 || recording->taken_back)
		return fault_set(why, FAULT_INPUT, "'%s' has no reply",
				 recording->number);
	changes_tell_person(recording->desk, &recording->visit);
	recording->after.state = STATE_VOID;
	if (!keep(recording, why))
		return false;
	fprintf(recording->desk->out,
		"The reply for %s is taken back; it stays in the register "
		"with the reason.\n",
		recording->number);
	return true;
}

/* The day somebody was seen is not the day it was learnt that somebody did not
 * come: where the outcome changes from one to the other, it is said anew. */
static bool
check_day_set(const struct recording *recording, struct fault *why)
{
	const struct given *given = recording->given;
	int before = recording->before.outcome,
	    after = recording->after.outcome;

	if (before < 0 ||
	    (before == OUTCOME_NOT_ATTENDED) == (after == OUTCOME_NOT_ATTENDED))
		return true;
	for (int i = 0; i < given->options; i++)
		if (strcmp(given->option[i].name, "set") == 0 &&
		    strncmp(given->option[i].value, "seen_on=", 8) == 0)
			return true;
	return fault_set(why, FAULT_INPUT,
			 "seen_on: the day kept is %s; give the day %s with "
			 "'--set seen_on=YYYY-MM-DD', too",
			 before == OUTCOME_NOT_ATTENDED ? "the one on which it "
							  "was learnt that the "
							  "person did not come"
							: "the one on which "
							  "the person was seen",
			 before == OUTCOME_NOT_ATTENDED ? "seen"
							: "it was learnt");
}

static bool
record(struct recording *recording, struct fault *why)
{
	struct desk *desk = recording->desk;
	struct reply_columns columns;
	int sets;

	reply_columns_init(&columns);
	if (!load(recording, why))
		return false;
	if (given_is(recording->given, "void"))
		return take_back(recording, why);
	if (!changes_set(recording->given, columns.fields,
			 "shoal reply --fields", &recording->after, &sets,
			 why) ||
	    (sets == 0 ? !talk_it(recording, why)
		       : !check_day_set(recording, why)))
		return false;
	if (sets > 0)
		tell_taken_back(recording);
	recording->after.state = STATE_CORRECTED;
	if (!keep(recording, why))
		return false;
	/* The summary has shown it. */
	if (sets > 0)
		reply_talk_class(&desk->policy, &recording->after,
				 desk->columns, desk->out);
	fprintf(desk->out, "Saved the reply for %s\n", recording->number);
	return true;
}

static bool
print_names(struct desk *desk)
{
	struct reply_columns columns;

	reply_columns_init(&columns);
	reply_columns_write(&columns, desk->columns, desk->out);
	return true;
}

bool
run_reply(struct desk *desk, const struct given *given, struct fault *why)
{
	struct recording recording = {.desk = desk, .given = given};
	const char *csv = given_value(given, "csv");

	if (given_is(given, "fields"))
		return print_names(desk);
	if ((csv == NULL) != (given->arguments == 1))
		return fault_set(why, FAULT_USAGE,
				 "give a referral number, or a sheet with "
				 "--csv FILE; usage: shoal reply NUMBER");
	if (!desk_open(desk, NEED_POLICY | NEED_STATION | NEED_BOOK_WRITE, why))
		return false;
	return csv == NULL ? record(&recording, why)
			   : run_replysheet(desk, given, why);
}
