/* prompts.c: screening at the keyboard, one question a line. */
#include "desk/prompts.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/interview.h"
#include "desk/undo.h"

#include <string.h>

/* What goes on while persons are asked. */
struct round {
	struct session *session;
	const struct asker *asker;
	bool failed; /* then there is a fault */
};

static void
say(const struct round *round, const char *words)
{
	text_write_wrapped(round->asker->talk, words, round->asker->columns, 0,
			   0);
}

static void
tell_counts(const struct round *round)
{
	char line[120];

	session_write_counts(round->session, line, sizeof line);
	say(round, line);
}

static void
tell_saved(const struct round *round, const struct visit *visit,
	   const struct fault *paper)
{
	const struct desk *desk = round->session->desk;
	char number[REFNUM_SIZE];

	refnum_write(visit->number, number);
	fprintf(desk->talk, "\nSaved %s\n", number);
	desk_write_urgency(&desk->policy, visit, desk->columns, desk->talk);
	if (paper->kind == FAULT_NONE)
		fprintf(desk->talk, "Slip: %s/slips/%s.html\n", desk->folder,
			number);
	else
		fprintf(desk->talk,
			"The slip could not be written (%s).\nThe person IS "
			"saved; print it later with: shoal slip %s\n",
			paper->sentence, number);
}

/* --- the menu ------------------------------------------------------------- */

enum menu { MENU_NEXT, MENU_GRADER, MENU_FINISH, MENU_UNDO };

static enum menu
ask_menu(const struct round *round)
{
	const struct session *session = round->session;
	bool undoes = !refnum_is_none(session->last);
	char answer[ASK_ANSWER_SIZE], number[REFNUM_SIZE];
	FILE *talk = round->asker->talk;

	refnum_write(session->last, number);
	for (;;) {
		fprintf(talk, " 1 next person\n 2 another grader\n 3 "
			      "finish\n");
		if (undoes)
			fprintf(talk, " 4 take back %s\n", number);
		if (ask(round->asker, "Number", "1", answer) == ASK_ENDED ||
		    strcmp(answer, "3") == 0)
			return MENU_FINISH;
		if (answer[0] == '\0' || strcmp(answer, "1") == 0)
			return MENU_NEXT;
		if (strcmp(answer, "2") == 0)
			return MENU_GRADER;
		if (undoes && strcmp(answer, "4") == 0)
			return MENU_UNDO;
		fprintf(talk, "Please type %s.\n",
			undoes ? "1, 2, 3 or 4" : "1, 2 or 3");
	}
}

/* Takes the last person back; false at the end of input or with a fault. */
static bool
undo(struct round *round, struct fault *why)
{
	char answer[ASK_ANSWER_SIZE], number[REFNUM_SIZE];
	FILE *talk = round->asker->talk;
	int reason;

	refnum_write(round->session->last, number);
	fprintf(talk, "Take back %s, because of\n", number);
	for (int i = 0; i < UNDO_REASONS; i++)
		fprintf(talk, " %d %s\n", i + 1, undo_reasons[i]);
	fprintf(talk, " 0 no, keep it\n");
	if (ask(round->asker, "Number", "0", answer) == ASK_ENDED)
		return false;
	reason = answer[0] - '1';
	if (reason < 0 || reason >= UNDO_REASONS || answer[1] != '\0') {
		fprintf(talk, "Nothing was taken back.\n");
		return true;
	}
	if (!undo_last(round->session, undo_reasons[reason], why)) {
		round->failed = why->kind != FAULT_INPUT;
		if (!round->failed)
			say(round, why->sentence);
		return !round->failed;
	}
	fprintf(talk, "%s is void. Take its slip back.\n", number);
	tell_counts(round);
	return true;
}

/* False ends the session. */
static bool
go_on(struct round *round, struct fault *why)
{
	switch (ask_menu(round)) {
	case MENU_GRADER:
		return asking_grader(round->asker, round->session);
	case MENU_UNDO:
		return undo(round, why);
	case MENU_NEXT:
		return true;
	default:
		return false;
	}
}

/* --- one person ----------------------------------------------------------- */

/* The next day is told, any other is asked about. False at the end of input or
 * with a fault. */
static bool
notice_day(struct round *round, struct fault *why)
{
	struct session *session = round->session;
	char words[DESK_DAY_WORDS_SIZE];
	struct day before;
	bool moved;

	if (session_clock_jumped(session, &before) &&
	    !asking_day(round->asker, session->desk))
		return false;
	round->failed = !session_follow_day(session, before, &moved, why);
	if (round->failed)
		return false;
	if (moved) {
		desk_day_words(session->day, words);
		fprintf(round->asker->talk,
			"\nIt is now %s; people count for that day.\n", words);
	}
	return true;
}

static void
notice_policy(const struct round *round)
{
	char words[SESSION_WORDS_SIZE];

	session_notice_policy(round->session, words);
	if (words[0] != '\0')
		fprintf(round->asker->talk, "\n%s", words);
}

/* What the register refuses for its content, such as a paper number used
 * before, goes back to the summary; anything else ends the session. */
static enum dialog_end
interview_until_kept(struct round *round, struct form *form, struct fault *why)
{
	struct session *session = round->session;
	bool again = false;

	for (;;) {
		struct fault paper;
		enum dialog_end end = interview(session->desk, round->asker,
						form, session, again);

		if (end != DIALOG_SAVE)
			return end;
		round->failed =
			!session_keep(session, &form->visit, &paper, why);
		if (!round->failed) {
			tell_saved(round, &form->visit, &paper);
			tell_counts(round);
		}
		if (!round->failed || why->kind != FAULT_INPUT)
			return end;
		fprintf(round->asker->talk, "\n%s\n", why->sentence);
		round->failed = false;
		again = true;
	}
}

/* Whoever was begun and left is not mixed up with the next person; when the
 * nurse finishes the draft is there for the next start. */
static bool
leave(struct round *round, const struct form *form, struct fault *why)
{
	struct draft *draft = &round->session->draft;
	bool going_on = go_on(round, why);

	if (!form_is_begun(form) || round->failed)
		return going_on;
	if (going_on) {
		draft_remove(draft);
		say(round, "The person begun before was dropped.");
	} else if (draft_holds(draft)) {
		say(round, "The unfinished person is kept, and offered at the "
			   "next start.");
	}
	return going_on;
}

/* The input ended; only what was begun is worth a fault. */
static bool
end_within(struct round *round, const struct form *form, struct fault *why)
{
	round->failed = form->answered[ASK_NAME];
	if (round->failed)
		fault_set(why, FAULT_INPUT,
			  "the input ended in the middle of a person, who was "
			  "not kept%s",
			  draft_holds(&round->session->draft) ? " but is "
								"offered at "
								"the next start"
							      : "");
	return false;
}

/* False ends the session, with a fault or without. */
static bool
one_person(struct round *round, const struct form *draft, struct fault *why)
{
	struct session *session = round->session;
	struct form form;
	char line[120];

	if (!notice_day(round, why))
		return false;
	notice_policy(round);
	session_begin(session, &form);
	if (draft != NULL)
		form = *draft;
	snprintf(line, sizeof line,
		 "=== %s person (grader %s); < for the menu ===",
		 draft == NULL ? "Next" : "Unfinished", form.visit.grader);
	fprintf(round->asker->talk, "\n");
	say(round, line);
	switch (interview_until_kept(round, &form, why)) {
	case DIALOG_SAVE:
		return !round->failed;
	case DIALOG_DROP:
		draft_remove(&session->draft);
		fprintf(round->asker->talk, "Dropped; nothing of it was "
					    "kept.\n");
		return true;
	case DIALOG_LEAVE:
		return leave(round, &form, why);
	default:
		return end_within(round, &form, why);
	}
}

bool
prompts_screen(struct session *session, const struct asker *asker,
	       const struct form *draft, struct fault *why)
{
	struct round round = {session, asker, false};

	while (one_person(&round, draft, why))
		draft = NULL;
	return !round.failed;
}
