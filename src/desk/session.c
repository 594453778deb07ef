/* session.c: a camp day at one laptop, person after person. */
#include "desk/session.h"

#include "base/text.h"

#include <string.h>

static void
count_one(struct session *session, const struct visit *visit)
{
	struct session_counts *counts = &session->counts;

	counts->screened++;
	counts->referred += visit->urgency != URGENCY_NO_REFERRAL;
	counts->same_day += visit->urgency == URGENCY_SAME_DAY;
}

static bool
see_one(void *context, const struct visit *visit, const char *reason,
	struct fault *why)
{
	struct session *session = context;

	(void)reason;
	(void)why;
	if (visit->state != STATE_VOID)
		count_one(session, visit);
	if (!refnum_is_paper(visit->number))
		session->newest = visit->number;
	return true;
}

bool
session_count(struct session *session, struct fault *why)
{
	session->counts = (struct session_counts){0, 0, 0};
	session->newest = (struct refnum){0, 0};
	return register_last_entry(&session->desk->book, &session->counted,
				   why) &&
	       register_visit_day(&session->desk->book, session->day, see_one,
				  session, why);
}

void
session_write_counts(const struct session *session, char *line, size_t size)
{
	const struct session_counts *counts = &session->counts;
	char day[DAY_SIZE];

	day_write(session->day, day);
	snprintf(line, size,
		 "%s: screened %d, referred %d, sent the same day %d.", day,
		 counts->screened, counts->referred, counts->same_day);
}

void
session_begin(const struct session *session, struct form *form)
{
	form_init(form, session->paper);
	form->visit.screened_on = session->day;
	text_copy(form->visit.site, sizeof form->visit.site, session->site);
	text_copy(form->visit.grader, sizeof form->visit.grader,
		  session->grader);
}

static void
add_saved(struct session *session, const struct visit *saved)
{
	if (saved->screened_on.number == session->day.number)
		count_one(session, saved);
	if (!refnum_is_paper(saved->number))
		session->newest = saved->number;
}

/* Another window may have saved people meanwhile: then the day is counted
 * anew. The person is saved, whatever a count says. */
static void
keep_count(struct session *session, const struct visit *saved)
{
	const struct session_counts before = session->counts;
	const long long counted = session->counted;
	struct fault ignored;
	long long last;

	if (register_last_entry(&session->desk->book, &last, &ignored) &&
	    last != counted + 1 && session_count(session, &ignored))
		return;
	session->counts = before;
	session->counted = counted + 1;
	add_saved(session, saved);
}

bool
session_keep(struct session *session, struct visit *visit, struct fault *paper,
	     struct fault *why)
{
	struct desk *desk = session->desk;
	struct decision decision;

	desk_judge(desk, visit, &decision);
	desk_stamp(desk, visit);
	if (!visit_check_kept(visit, desk->today, why) ||
	    !register_save(&desk->book, visit, desk->policy_text, why))
		return false;
	draft_remove(&session->draft);
	paper->kind = FAULT_NONE;
	desk_write_slips(desk, visit, &desk->policy, &decision, paper);
	session->last = visit->number;
	keep_count(session, visit);
	return true;
}

bool
session_day_is_doubtful(struct desk *desk, struct day *last, bool *doubtful,
			struct fault *why)
{
	*doubtful = false;
	if (desk->today_given)
		return true;
	if (!register_last_day(&desk->book, last, why))
		return false;
	*doubtful = day_is_none(*last) || desk->today.number < last->number ||
		    desk->today.number > last->number + 1;
	return true;
}

bool
session_clock_jumped(struct session *session, struct day *before)
{
	struct desk *desk = session->desk;

	*before = desk->today;
	if (desk->look_at_clock == NULL)
		return false;
	desk->look_at_clock(desk);
	return desk->today.number != before->number &&
	       desk->today.number != before->number + 1;
}

bool
session_follow_day(struct session *session, struct day before, bool *moved,
		   struct fault *why)
{
	*moved = session->desk->today.number != before.number &&
		 !session->paper && session->day.number == before.number;
	if (!*moved)
		return true;
	session->day = session->desk->today;
	return session_count(session, why);
}

void
session_write_policy(const struct session *session, char *words)
{
	const struct desk *desk = session->desk;

	snprintf(words, SESSION_WORDS_SIZE, "Policy: %s, version %s, %s%s.",
		 desk->policy.name, desk->policy.version, desk->policy_mark,
		 desk->policy_is_built_in ? " (BUILT IN: there is no "
					    "policy.ini here)"
					  : "");
}

void
session_notice_policy(const struct session *session, char *words)
{
	struct desk *desk = session->desk;
	char before[POLICY_MARK_SIZE];
	struct fault why;
	bool changed;

	words[0] = '\0';
	memcpy(before, desk->policy_mark, sizeof before);
	if (!desk_notice_policy(desk, &changed, &why))
		snprintf(words, SESSION_WORDS_SIZE,
			 "The policy read before, %s, stays in force.\n%s\n",
			 before, why.sentence);
	else if (changed)
		snprintf(words, SESSION_WORDS_SIZE,
			 "THE POLICY HAS CHANGED: from %s to %s.\n"
			 "From the next person on the new one decides.\n",
			 before, desk->policy_mark);
}

/* --- the draft ------------------------------------------------------------ */

/* Looks for somebody saved since the draft was begun, alike in all that is
 * typed: the power may have gone between the save and the end of the draft. */
struct likeness {
	const struct form *form;
	struct refnum before, *saved;
};

static bool
is_alike(const struct form *form, const struct visit *visit)
{
	char one[FIELD_TEXT_SIZE], other[FIELD_TEXT_SIZE];

	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		if (field->origin != FIELD_TYPED ||
		    strcmp(field->name, "number") == 0)
			continue;
		field_write(field, &form->visit, one, sizeof one);
		field_write(field, visit, other, sizeof other);
		if (strcmp(one, other) != 0)
			return false;
	}
	return true;
}

static bool
see_alike(void *context, const struct visit *visit, const char *reason,
	  struct fault *why)
{
	const struct likeness *likeness = context;
	struct refnum number = visit->number;

	(void)reason;
	(void)why;
	if ((refnum_is_paper(number)
		     ? number.serial == likeness->form->visit.number.serial
		     : number.serial > likeness->before.serial) &&
	    is_alike(likeness->form, visit))
		*likeness->saved = number;
	return true;
}

static void
describe(const struct form *form, struct refnum saved, char *words)
{
	char day[DAY_SIZE], number[REFNUM_SIZE], age[16] = "", sex[8];
	const struct visit *visit = &form->visit;
	int answers = 0;

	day_write(visit->screened_on, day);
	refnum_write(saved, number);
	field_write(fields_find(visit_fields, "age_years"), visit, age,
		    sizeof age);
	field_write(fields_find(visit_fields, "sex"), visit, sex, sizeof sex);
	for (int i = 0; i < QUESTION_COUNT; i++)
		answers += form->answered[i];
	snprintf(words, SESSION_WORDS_SIZE,
		 "An unfinished person of %s, grader %s, is here: %s, age %s, "
		 "sex %s, %d answer%s.%s%s",
		 day, visit->grader,
		 visit->name[0] == '\0' ? "no name" : visit->name,
		 age[0] == '\0' ? "not known" : age,
		 sex[0] == '\0' ? "not recorded" : sex, answers,
		 answers == 1 ? "" : "s",
		 refnum_is_none(saved) ? ""
				       : " It seems to be saved already, with "
					 "the same answers, as ",
		 number);
}

bool
session_describe_draft(struct session *session, const struct form *form,
		       struct refnum before, char *words, struct refnum *saved,
		       struct fault *why)
{
	struct likeness likeness = {form, before, saved};

	*saved = (struct refnum){0, 0};
	if (!register_visit_day(&session->desk->book, form->visit.screened_on,
				see_alike, &likeness, why))
		return false;
	describe(form, *saved, words);
	return true;
}
