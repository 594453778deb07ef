/* run_screen.c: screening a camp day, person after person. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/ask.h"
#include "desk/interview.h"

#include <string.h>

struct counts {
	int screened, referred, same_day;
};

/* What lasts from one person to the next. */
struct session {
	struct desk *desk;
	struct asker asker;
	struct day day; /* of screening */
	bool paper;	/* a day written up later, from paper */
	const char *site;
	char grader[VISIT_GRADER_SIZE];
	struct counts counts;
};

static void
count_one(struct counts *counts, const struct visit *visit)
{
	counts->screened++;
	counts->referred += visit->urgency != URGENCY_NO_REFERRAL;
	counts->same_day += visit->urgency == URGENCY_SAME_DAY;
}

static bool
see_one(void *context, const struct visit *visit, const char *reason,
	struct fault *why)
{
	(void)reason;
	(void)why;
	if (visit->state != STATE_VOID)
		count_one(context, visit);
	return true;
}

/* The day so far, from the register; kept up to date by each save. */
static bool
count_day(struct session *session, struct fault *why)
{
	session->counts = (struct counts){0, 0, 0};
	return register_visit_day(&session->desk->book, session->day, see_one,
				  &session->counts, why);
}

static void
tell_counts(const struct session *session)
{
	const struct counts *counts = &session->counts;
	char day[DAY_SIZE], line[120];

	day_write(session->day, day);
	snprintf(line, sizeof line,
		 "%s: screened %d, referred %d, sent the same day %d.", day,
		 counts->screened, counts->referred, counts->same_day);
	text_write_wrapped(session->desk->talk, line, session->asker.columns, 0,
			   0);
}

/* Asks for a field of the record until it is sound; false at the end of
 * input. */
static bool
ask_field(const struct asker *asker, const char *question, const char *shown,
	  const char *field, struct visit *visit)
{
	char answer[ASK_ANSWER_SIZE];
	struct fault why;

	for (;;) {
		enum ask_result result = ask(asker, question, shown, answer);

		if (result == ASK_ENDED)
			return false;
		if (result == ASK_ANSWERED && answer[0] == '\0' &&
		    shown[0] != '\0')
			return true;
		if (result == ASK_ANSWERED && answer[0] != '\0' &&
		    field_read(fields_find(visit_fields, field), answer, visit,
			       &why))
			return true;
		fprintf(asker->talk, "Not taken: %s\n",
			result != ASK_ANSWERED || answer[0] == '\0'
				? "an answer is needed here"
				: why.sentence);
	}
}

static bool
ask_grader(struct session *session)
{
	struct visit scratch;

	visit_init(&scratch);
	text_copy(scratch.grader, sizeof scratch.grader, session->grader);
	if (!ask_field(&session->asker, "Your initials", session->grader,
		       "grader", &scratch))
		return false;
	text_copy(session->grader, sizeof session->grader, scratch.grader);
	return true;
}

/* A flat clock battery puts a laptop into another year; the day is confirmed
 * when it is before the last person's or more than a day after it. */
static bool
day_is_doubtful(struct desk *desk, bool *doubtful, struct fault *why)
{
	struct day last;

	*doubtful = false;
	if (desk->today_given)
		return true;
	if (!register_last_day(&desk->book, &last, why))
		return false;
	*doubtful = day_is_none(last) || desk->today.number < last.number ||
		    desk->today.number > last.number + 1;
	return true;
}

/* False at the end of input. */
static bool
confirm_day(struct desk *desk, const struct asker *asker)
{
	char words[DESK_DAY_WORDS_SIZE], question[80];
	struct visit scratch;
	bool right;

	desk_day_words(desk->today, words);
	snprintf(question, sizeof question, "Today is %s. Is that right?",
		 words);
	if (!ask_yes(asker, question, true, &right))
		return false;
	if (right)
		return true;
	visit_init(&scratch);
	if (!ask_field(asker, "Today's date, as YYYY-MM-DD", "", "screened_on",
		       &scratch))
		return false;
	desk->today = scratch.screened_on;
	desk->today_given = true;
	return true;
}

/* Keeps the person, then the paper: what is announced as saved has been
 * committed, and a slip that cannot be written takes nothing back. */
static bool
keep(struct session *session, struct visit *visit, struct fault *why)
{
	struct desk *desk = session->desk;
	struct decision decision;
	char number[REFNUM_SIZE];
	struct fault paper;

	desk_judge(desk, visit, &decision);
	desk_stamp(desk, visit);
	if (!visit_check_kept(visit, desk->today, why) ||
	    !register_save(&desk->book, visit, desk->policy_text, why))
		return false;
	refnum_write(visit->number, number);
	fprintf(desk->talk, "\nSaved %s\n", number);
	desk_write_urgency(&desk->policy, visit, desk->columns, desk->talk);
	if (desk_write_slips(desk, visit, &desk->policy, &decision, &paper))
		fprintf(desk->talk, "Slip: %s/slips/%s.html\n", desk->folder,
			number);
	else
		fprintf(desk->talk,
			"The slip could not be written (%s).\nThe person IS "
			"saved; print it later with: shoal slip %s\n",
			paper.sentence, number);
	count_one(&session->counts, visit);
	tell_counts(session);
	return true;
}

enum menu { MENU_NEXT, MENU_GRADER, MENU_FINISH };

static enum menu
ask_menu(const struct session *session)
{
	char answer[ASK_ANSWER_SIZE];

	for (;;) {
		fprintf(session->asker.talk, " 1 next person\n 2 another "
					     "grader\n 3 finish\n");
		if (ask(&session->asker, "Number", "1", answer) == ASK_ENDED ||
		    strcmp(answer, "3") == 0)
			return MENU_FINISH;
		if (answer[0] == '\0' || strcmp(answer, "1") == 0)
			return MENU_NEXT;
		if (strcmp(answer, "2") == 0)
			return MENU_GRADER;
		fprintf(session->asker.talk, "Please type 1, 2 or 3.\n");
	}
}

static void
begin(const struct session *session, struct form *form)
{
	form_init(form, session->paper);
	form->visit.screened_on = session->day;
	text_copy(form->visit.site, sizeof form->visit.site, session->site);
	text_copy(form->visit.grader, sizeof form->visit.grader,
		  session->grader);
}

/* A session may last past midnight, and a clock may jump under it: the next
 * day is told, any other is asked about. False at the end of input. */
static bool
notice_day(struct session *session, bool *failed, struct fault *why)
{
	struct desk *desk = session->desk;
	struct day before = desk->today;
	char words[DESK_DAY_WORDS_SIZE];

	if (desk->look_at_clock == NULL)
		return true;
	desk->look_at_clock(desk);
	if (desk->today.number == before.number)
		return true;
	if (desk->today.number != before.number + 1 &&
	    !confirm_day(desk, &session->asker))
		return false;
	if (session->paper || session->day.number != before.number)
		return true;
	session->day = desk->today;
	desk_day_words(session->day, words);
	fprintf(desk->talk, "\nIt is now %s; people count for that day.\n",
		words);
	*failed = !count_day(session, why);
	return !*failed;
}

/* Whose rules will judge: said once, so that a lost file is noticed. */
static void
tell_policy(const struct session *session)
{
	const struct desk *desk = session->desk;
	char line[POLICY_NAME_SIZE * 2 + 120];

	snprintf(line, sizeof line, "Policy: %s, version %s, %s%s.",
		 desk->policy.name, desk->policy.version, desk->policy_mark,
		 desk->policy_is_built_in ? " (BUILT IN: there is no "
					    "policy.ini here)"
					  : "");
	text_write_wrapped(desk->talk, line, session->asker.columns, 0, 0);
}

/* A policy changed during the day is told before the next person. */
static void
notice_policy(const struct session *session)
{
	struct desk *desk = session->desk;
	char before[POLICY_MARK_SIZE];
	struct fault why;
	bool changed;

	memcpy(before, desk->policy_mark, sizeof before);
	if (!desk_notice_policy(desk, &changed, &why))
		fprintf(desk->talk,
			"\n%s\nThe policy read before, %s, stays in force.\n",
			why.sentence, before);
	else if (changed)
		fprintf(desk->talk,
			"\nTHE POLICY HAS CHANGED: from %s to %s.\n"
			"From the next person on the new one decides.\n",
			before, desk->policy_mark);
}

/* What the register refuses for its content, such as a paper number used
 * before, goes back to the summary; anything else ends the session. */
static enum dialog_end
interview_until_kept(struct session *session, struct form *form, bool *failed,
		     struct fault *why)
{
	bool again = false;

	for (;;) {
		enum dialog_end end =
			interview(session->desk, &session->asker, form, again);

		if (end != DIALOG_SAVE)
			return end;
		*failed = !keep(session, &form->visit, why);
		if (!*failed || why->kind != FAULT_INPUT)
			return end;
		fprintf(session->desk->talk, "\n%s\n", why->sentence);
		*failed = false;
		again = true;
	}
}

/* False ends the session: with `why` untouched at the end of input or when
 * the nurse finishes. */
static bool
one_person(struct session *session, bool *failed, struct fault *why)
{
	FILE *talk = session->desk->talk;
	char line[120];
	struct form form;

	if (!notice_day(session, failed, why))
		return false;
	notice_policy(session);
	begin(session, &form);
	snprintf(line, sizeof line,
		 "=== Next person (grader %s); < for the menu ===",
		 session->grader);
	fprintf(talk, "\n");
	text_write_wrapped(talk, line, session->asker.columns, 0, 0);
	switch (interview_until_kept(session, &form, failed, why)) {
	case DIALOG_SAVE:
		return !*failed;
	case DIALOG_DROP:
		fprintf(talk, "Dropped; nothing of it was kept.\n");
		return true;
	case DIALOG_LEAVE:
		switch (ask_menu(session)) {
		case MENU_GRADER:
			return ask_grader(session);
		case MENU_NEXT:
			return true;
		default:
			return false;
		}
	default:
		*failed = form.answered[ASK_NAME];
		if (*failed)
			fault_set(why, FAULT_INPUT,
				  "the input ended in the middle of a person, "
				  "who was not kept");
		return false;
	}
}

static bool
set_day(struct session *session, const struct given *given, struct fault *why)
{
	const char *date = given_value(given, "date");

	session->day = session->desk->today;
	if (date == NULL)
		return true;
	if (!day_read(date, &session->day, why))
		return false;
	session->paper = session->day.number < session->desk->today.number;
	if (session->day.number > session->desk->today.number)
		return fault_set(why, FAULT_INPUT,
				 "--date %s is after today; people are entered "
				 "on their day or later",
				 date);
	return true;
}

static bool
set_site(struct session *session, const struct given *given, struct fault *why)
{
	const char *site = given_value(given, "site");

	session->site = site == NULL ? session->desk->station.site : site;
	return text_check(session->site, 60, why) || fault_at(why, "--site");
}

bool
run_screen(struct desk *desk, const struct given *given, struct fault *why)
{
	struct session session = {.desk = desk};
	bool doubtful, failed = false;

	if (given_is(given, "csv"))
		return run_sheet(desk, given, why);
	session.asker = interview_asker(desk);
	if (!day_is_doubtful(desk, &doubtful, why))
		return false;
	if (doubtful && !confirm_day(desk, &session.asker))
		return true;
	if (!set_day(&session, given, why) || !set_site(&session, given, why))
		return false;
	tell_policy(&session);
	if (!ask_grader(&session))
		return true;
	if (!count_day(&session, why))
		return false;
	while (one_person(&session, &failed, why))
		;
	if (failed || !count_day(&session, why))
		return false;
	tell_counts(&session);
	return true;
}
