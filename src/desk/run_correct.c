/* run_correct.c: correcting a person, or taking an entry back. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/ask.h"
#include "desk/interview.h"
#include "keep/policyfile.h"

#include <string.h>

enum { REASON_MOST = 120, REASON_SIZE = REASON_MOST * 4 + 1 };

/* A kept person on the way to a new entry. */
struct revision {
	struct desk *desk;
	struct visit before, after;
	long long entry;
	char reason[REASON_SIZE];
};

static bool
load(struct revision *revision, const struct given *given, struct fault *why)
{
	struct refnum number;

	if (!refnum_read(given->argument[0], &number, why) ||
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
	if (!register_policy_text(&desk->book, visit->policy, desk->policy_text,
				  sizeof desk->policy_text, why) ||
	    !policyfile_read_bytes("policy kept in the register",
				   desk->policy_text, strlen(desk->policy_text),
				   &desk->policy, desk_hear, desk, why))
		return false;
	fprintf(desk->talk,
		"Judged by the policy of that day, %s; the one in force now "
		"is %s.\n",
		visit->policy, desk->policy_mark);
	text_copy(desk->policy_mark, sizeof desk->policy_mark, visit->policy);
	return true;
}

/* The reason given, or asked for. */
static bool
take_reason(struct revision *revision, const struct given *given,
	    struct fault *why)
{
	struct asker asker = interview_asker(revision->desk);
	const char *reason = given_value(given, "reason");
	char answer[ASK_ANSWER_SIZE] = "";

	if (reason == NULL) {
		if (ask(&asker, "Reason", "", answer) == ASK_ENDED)
			answer[0] = '\0';
		reason = answer;
	}
	if (reason[0] == '\0')
		return fault_set(why, FAULT_INPUT,
				 "a reason is needed; nothing was changed");
	if (!text_check(reason, REASON_MOST, why))
		return fault_at(why, "reason");
	text_copy(revision->reason, sizeof revision->reason, reason);
	return true;
}

/* "depth_left=25". Others on the machine can read a command line, so names
 * are typed at the prompt. */
static bool
apply_set(struct visit *visit, const char *text, struct fault *why)
{
	size_t length = strcspn(text, "=");
	const struct field *field;
	char name[40];

	snprintf(name, sizeof name, "%.*s", (int)length, text);
	field = fields_find(visit_fields, name);
	if (text[length] == '\0' || field == NULL ||
	    field->origin != FIELD_TYPED || strcmp(name, "number") == 0)
		return fault_set(why, FAULT_USAGE,
				 "'--set %.60s' is not FIELD=VALUE with a "
				 "field that is typed; 'shoal help screen' "
				 "lists them",
				 text);
	if (strcmp(name, "name") == 0 || strcmp(name, "contact") == 0)
		return fault_set(why, FAULT_USAGE,
				 "a %s is not given on the command line, where "
				 "others can read it; leave --set out and "
				 "correct the line in the summary",
				 name);
	return field_read(field, text + length + 1, visit, why);
}

/* As often as it is given. */
static bool
apply_sets(struct revision *revision, const struct given *given, int *count,
	   struct fault *why)
{
	*count = 0;
	for (int i = 0; i < given->options; i++) {
		if (strcmp(given->option[i].name, "set") != 0)
			continue;
		++*count;
		if (!apply_set(&revision->after, given->option[i].value, why))
			return false;
	}
	return true;
}

static bool
interview_it(struct revision *revision, struct fault *why)
{
	struct asker asker = interview_asker(revision->desk);
	struct form form;

	form_load(&form, &revision->after);
	if (interview(revision->desk, &asker, &form, true) != INTERVIEW_SAVE)
		return fault_set(why, FAULT_INPUT, "nothing was changed");
	revision->after = form.visit;
	return true;
}

static bool
tell_changes(const struct revision *revision)
{
	char before[FIELD_TEXT_SIZE], after[FIELD_TEXT_SIZE];
	bool changed = false;

	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		field_write(field, &revision->before, before, sizeof before);
		field_write(field, &revision->after, after, sizeof after);
		if (strcmp(before, after) == 0 ||
		    strcmp(field->name, "entered_at") == 0 ||
		    strcmp(field->name, "state") == 0)
			continue;
		fprintf(revision->desk->out, "%s: %s -> %s\n", field->about,
			before[0] == '\0' ? "(nothing)" : before,
			after[0] == '\0' ? "(nothing)" : after);
		changed = true;
	}
	return changed;
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
	if (!tell_changes(revision))
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
	int sets;

	if (!load(&revision, given, why) ||
	    !use_first_policy(desk, &revision.before, why) ||
	    !apply_sets(&revision, given, &sets, why) ||
	    (sets == 0 && !interview_it(&revision, why)) ||
	    !take_reason(&revision, given, why) ||
	    !keep(&revision, &decision, why))
		return false;
	desk_write_urgency(&desk->policy, &revision.after, desk->columns,
			   desk->out);
	if (revision.after.urgency != revision.before.urgency ||
	    revision.after.see_by.number != revision.before.see_by.number)
		fprintf(desk->out, "The answer has CHANGED: replace the slip "
				   "in the person's hand.\n");
	else
		fprintf(desk->out, "The answer is the same.\n");
	fprintf(desk->out, "Saved %s\n", given->argument[0]);
	return desk_write_slips(desk, &revision.after, &desk->policy, &decision,
				why);
}

bool
run_void(struct desk *desk, const struct given *given, struct fault *why)
{
	struct revision revision = {.desk = desk};

	if (!load(&revision, given, why) || !take_reason(&revision, given, why))
		return false;
	desk_stamp(desk, &revision.after);
	revision.after.late = revision.before.late;
	revision.after.state = STATE_VOID;
	if (!register_revise(&desk->book, &revision.after, revision.entry,
			     revision.reason, desk->policy_text, why))
		return false;
	fprintf(desk->out,
		"%s is void: it is counted no more. Its number is never "
		"given out again. Take its slip back.\n",
		given->argument[0]);
	return true;
}
