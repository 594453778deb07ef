/* asking.c: what both fronts of screening ask in lines. */
#include "desk/asking.h"

#include "base/text.h"
#include "desk/verdict.h"

/* A typed day so long after the last person's is taken for a slip. */
enum { DAYS_BETWEEN_CAMPS = 366, QUESTION_SIZE = 240 };

static void
say(const struct asker *asker, const char *words)
{
	text_write_wrapped(asker->talk, words, asker->columns, 0, 0);
}

/* Asks for a field of the record until it is sound. */
static enum ask_result
ask_field(const struct asker *asker, const char *question, const char *shown,
	  const char *field, const char *help, struct visit *visit)
{
	char answer[ASK_ANSWER_SIZE];
	struct fault why;

	for (;;) {
		enum ask_result result = ask(asker, question, shown, answer);

		if (result == ASK_HELP) {
			say(asker, help);
			continue;
		}
		if (result != ASK_ANSWERED ||
		    (answer[0] == '\0' && shown[0] != '\0'))
			return result;
		if (answer[0] == '\0')
			fault_set(&why, FAULT_INPUT,
				  "an answer is needed here; ? explains");
		else if (field_read(fields_find(visit_fields, field), answer,
				    visit, &why))
			return result;
		fprintf(asker->talk, "Not taken: ");
		text_write_wrapped(asker->talk, why.sentence, asker->columns,
				   11, 0);
	}
}

enum ask_result
asking_grader(const struct asker *asker, struct session *session)
{
	struct visit scratch;
	enum ask_result result;

	visit_init(&scratch);
	text_copy(scratch.grader, sizeof scratch.grader, session->grader);
	result = ask_field(asker, "Your initials", session->grader, "grader",
			   "Who looks through the slit lamp, up to 12 letters, "
			   "the same "
			   "every day: they stand beside each person and on "
			   "the slip. < "
			   "goes back.",
			   &scratch);
	if (result == ASK_ANSWERED)
		text_copy(session->grader, sizeof session->grader,
			  scratch.grader);
	return result;
}

/* --- the day -------------------------------------------------------------- */

static const char day_help[] = "Slips, the days by which people have to be "
			       "seen and tallies go by "
			       "this day. After a flat battery a laptop's "
			       "clock is wrong: look at a "
			       "phone. With 2 you type the day yourself. < "
			       "goes back.";

static enum ask_result
confirm_day(const struct asker *asker, struct day day, bool *right)
{
	char words[DESK_DAY_WORDS_SIZE], question[QUESTION_SIZE];

	desk_day_words(day, words);
	snprintf(question, sizeof question, "Today is %s. Is that right?",
		 words);
	return ask_yes(asker, question, ASK_PRESET_NONE, day_help, right);
}

/* Why a day is doubted. */
static void
tell_last(const struct asker *asker, struct day day, struct day last)
{
	char words[DESK_DAY_WORDS_SIZE], text[QUESTION_SIZE];

	if (day_is_none(last)) {
		say(asker, "Nobody is in this register yet: look whether the "
			   "laptop's clock is right.");
		return;
	}
	desk_day_words(last, words);
	snprintf(text, sizeof text, "The last person here was screened %s%s.",
		 day.number < last.number ? "LATER, on " : "on ", words);
	say(asker, text);
}

static bool
is_odd(struct day day, struct day last)
{
	return !day_is_none(last) &&
	       (day.number < last.number ||
		day.number > last.number + DAYS_BETWEEN_CAMPS);
}

/* The day as it is typed, read back in words. */
static enum ask_result
type_day(const struct asker *asker, struct day last, struct day *day)
{
	char words[DESK_DAY_WORDS_SIZE];
	struct visit scratch;
	enum ask_result result;
	bool right = false;

	visit_init(&scratch);
	do {
		result = ask_field(asker, "Today's date, as YYYY-MM-DD", "",
				   "screened_on",
				   "For example 2026-03-09. < goes back.",
				   &scratch);
		if (result != ASK_ANSWERED)
			return result;
		*day = scratch.screened_on;
		if (!is_odd(*day, last)) {
			desk_day_words(*day, words);
			fprintf(asker->talk, "So today is %s.\n", words);
			return ASK_ANSWERED;
		}
		tell_last(asker, *day, last);
		result = confirm_day(asker, *day, &right);
	} while (result == ASK_BACK || (result == ASK_ANSWERED && !right));
	return result;
}

static enum ask_result
ask_today(const struct asker *asker, struct desk *desk, struct day last)
{
	enum ask_result result;
	struct day typed;
	bool right;

	do {
		result = confirm_day(asker, desk->today, &right);
		if (result != ASK_ANSWERED || right)
			return result;
		result = type_day(asker, last, &typed);
	} while (result == ASK_BACK);
	if (result == ASK_ANSWERED) {
		desk->today = typed;
		desk->today_given = true;
	}
	return result;
}

enum ask_result
asking_day(const struct asker *asker, struct desk *desk, struct day last)
{
	tell_last(asker, desk->today, last);
	return ask_today(asker, desk, last);
}

bool
asking_jump(const struct asker *asker, struct desk *desk, struct day before)
{
	char words[DESK_DAY_WORDS_SIZE], text[QUESTION_SIZE];
	enum ask_result result;

	desk_day_words(before, words);
	snprintf(text, sizeof text,
		 "The laptop's clock has jumped: until now it was %s.", words);
	do {
		say(asker, text);
		result = ask_today(asker, desk, before);
	} while (result == ASK_BACK);
	return result == ASK_ANSWERED;
}

/* --- who was begun -------------------------------------------------------- */

/* Two choices, the second of which is Enter and loses nobody. */
static enum ask_result
ask_losing(const struct asker *asker, const struct desk *desk,
	   const struct form *form, const char *lines, const char *help,
	   bool *loses)
{
	char key;

	fprintf(asker->talk, "\n");
	verdict_write_alarm(desk, form, asker->columns, asker->talk);
	key = ask_key(asker, lines, "10", '0', help);
	*loses = key == '1';
	if (key == '\0')
		return ASK_ENDED;
	return key == '<' ? ASK_BACK : ASK_ANSWERED;
}

enum ask_result
asking_drop(const struct asker *asker, const struct desk *desk,
	    const struct form *form, bool *drops)
{
	return ask_losing(asker, desk, form,
			  "Drop this person?\nNothing of it is kept then.\n"
			  " 1 yes, drop it\n 0 no, go on\n",
			  "1 forgets all that was answered for this person; 0, "
			  "Enter and < keep it.",
			  drops);
}

enum ask_result
asking_finish(const struct asker *asker, const struct desk *desk,
	      const struct form *form, bool *finishes)
{
	return ask_losing(asker, desk, form,
			  "This person is not saved, and cannot\nbe kept for "
			  "the next start.\n"
			  " 1 finish, nothing of it is kept\n 0 no, go on\n",
			  "1 ends the program and forgets all that was "
			  "answered "
			  "for this person; 0, Enter and < go on.",
			  finishes);
}

static const char draft_help[] = "1 goes on with the answers that are there; "
				 "all of them are shown again "
				 "before anything is saved. 2 drops the "
				 "person.";

/* The clock was ahead when the person was begun: nobody is entered before their
 * day. */
static void
mend_day(const struct asker *asker, const struct desk *desk, struct form *form)
{
	char words[DESK_DAY_WORDS_SIZE], text[QUESTION_SIZE];

	if (form->visit.screened_on.number <= desk->today.number)
		return;
	form->visit.screened_on = desk->today;
	desk_day_words(desk->today, words);
	snprintf(text, sizeof text,
		 "That day is still to come: the person counts for today, %s.",
		 words);
	say(asker, text);
}

/* One that seems to be saved already is no loss, but may be somebody else with
 * the same answers: there Enter is no answer. */
static enum ask_result
offer_draft(const struct asker *asker, struct session *session,
	    struct form *form, const char *words, bool saved, bool *wanted)
{
	enum ask_result result;
	bool drops;

	say(asker, words);
	mend_day(asker, session->desk, form);
	do {
		verdict_write_alarm(session->desk, form, asker->columns,
				    asker->talk);
		result = ask_yes(asker, "Go on with this person?",
				 saved ? ASK_PRESET_NONE : ASK_PRESET_YES,
				 draft_help, wanted);
		if (result == ASK_BACK || result == ASK_ENDED)
			return result;
		drops = !*wanted;
		if (drops && !saved)
			result =
				asking_drop(asker, session->desk, form, &drops);
	} while (result == ASK_BACK);
	*wanted = !drops;
	if (drops && result == ASK_ANSWERED) {
		draft_remove(&session->draft);
		say(asker, saved ? "Dropped; the person stays saved."
				 : "Dropped; nothing of it was kept.");
	}
	return result;
}

/* A draft that cannot be understood or compared is told and kept beside. */
static void
set_draft_by(const struct asker *asker, struct session *session,
	     const struct fault *why)
{
	char kept[SAFEFILE_PATH_SIZE], words[SAFEFILE_PATH_SIZE + 160];
	struct fault trouble;

	say(asker, "The unfinished person of before cannot be read:");
	say(asker, why->sentence);
	if (!draft_set_by(&session->draft, kept, &trouble)) {
		say(asker, trouble.sentence);
		say(asker, "Until it is moved, nobody unfinished is kept for "
			   "the next start.");
		return;
	}
	snprintf(words, sizeof words,
		 "It is kept as '%s'. It may hold a name: show it to the "
		 "supervisor.",
		 kept);
	say(asker, words);
}

enum ask_result
asking_draft(const struct asker *asker, struct session *session,
	     struct form *form, bool *found)
{
	char words[SESSION_WORDS_SIZE];
	struct refnum before, saved = {0, 0};
	struct fault why;

	if (!draft_find(&session->draft, form, &before, found, &why) ||
	    (*found && !session_describe_draft(session, form, before, words,
					       &saved, &why))) {
		*found = false;
		set_draft_by(asker, session, &why);
		return ASK_ANSWERED;
	}
	if (!*found)
		return ASK_ANSWERED;
	return offer_draft(asker, session, form, words, !refnum_is_none(saved),
			   found);
}

void
asking_tell_left(const struct asker *asker, const struct session *session,
		 const struct form *form)
{
	if (!form_is_begun(form))
		return;
	say(asker, draft_holds(&session->draft) ? "The unfinished person is "
						  "kept, and offered at "
						  "the next start."
						: "The unfinished person was "
						  "not kept.");
	verdict_write_alarm(session->desk, form, asker->columns, asker->talk);
}
