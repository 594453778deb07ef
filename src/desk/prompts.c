/* prompts.c: screening at the keyboard, one question a line. */
#include "desk/prompts.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/interview.h"
#include "desk/undo.h"
#include "desk/verdict.h"

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

enum menu {
	MENU_GO_ON,
	MENU_GRADER,
	MENU_FINISH,
	MENU_UNDO,
	MENU_DROP,
	MENU_ENDED
};

/* Where it goes from the menu. */
enum way { WAY_STAY, WAY_NEXT, WAY_END };

static const char menu_help[] = "1, Enter and < go on with the questions; "
				"whoever was begun stays as "
				"answered. 2 changes the initials. 3 ends the "
				"program.";

/* The keys mean the same as on the one screen. */
static enum menu
ask_menu(const struct round *round, bool begun)
{
	bool undoes = !refnum_is_none(round->session->last);
	char lines[200], back[40] = "", number[REFNUM_SIZE], keys[8];

	refnum_write(round->session->last, number);
	if (undoes)
		snprintf(back, sizeof back, " 4 take back %s\n", number);
	snprintf(lines, sizeof lines,
		 " 1 %s\n 2 another grader\n 3 finish\n%s%s",
		 begun ? "go on with this person" : "next person", back,
		 begun ? " 5 drop this person\n" : "");
	snprintf(keys, sizeof keys, "123%s%s", undoes ? "4" : "",
		 begun ? "5" : "");
	switch (ask_key(round->asker, lines, keys, '1', menu_help)) {
	case '2':
		return MENU_GRADER;
	case '3':
		return MENU_FINISH;
	case '4':
		return MENU_UNDO;
	case '5':
		return MENU_DROP;
	case '\0':
		return MENU_ENDED;
	default:
		return MENU_GO_ON;
	}
}

static char
ask_undo(const struct round *round, const struct visit *visit,
	 const char *number)
{
	char lines[VISIT_NAME_SIZE + 200] = "";
	FILE *out = fmemopen(lines, sizeof lines, "w");

	if (out == NULL)
		return '0';
	fprintf(out, "Take back %s%s%s, because of\n", number,
		visit->name[0] == '\0' ? "" : " ", visit->name);
	for (int i = 0; i < UNDO_REASONS; i++)
		fprintf(out, " %d %s\n", i + 1, undo_reasons[i]);
	fprintf(out, " 0 no, keep it\n");
	fclose(out);
	return ask_key(round->asker, lines, "1230", '0',
		       "1, 2 and 3 make the entry void: it is counted no more, "
		       "and stays in the register with the reason. 0, Enter "
		       "and < keep it.");
}

/* Takes the last person back; false at the end of input or with a fault. */
static bool
undo(struct round *round, struct fault *why)
{
	FILE *talk = round->asker->talk;
	char number[REFNUM_SIZE], key;
	struct fault paper;
	struct visit visit;
	long long entry;

	visit_init(&visit);
	if (!undo_find(round->session, &visit, &entry, why)) {
		round->failed = why->kind != FAULT_INPUT;
		if (!round->failed)
			say(round, why->sentence);
		return !round->failed;
	}
	refnum_write(visit.number, number);
	key = ask_undo(round, &visit, number);
	if (key == '\0')
		return false;
	if (key == '0' || key == '<') {
		fprintf(talk, "Nothing was taken back.\n");
		return true;
	}
	if (!undo_last(round->session, undo_reasons[key - '1'], &paper, why)) {
		round->failed = why->kind != FAULT_INPUT;
		if (!round->failed)
			say(round, why->sentence);
		return !round->failed;
	}
	fprintf(talk, "%s is void. Take its slip back.\n", number);
	if (paper.kind != FAULT_NONE)
		say(round, paper.sentence);
	tell_counts(round);
	return true;
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
	    !asking_jump(round->asker, session->desk, before))
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

/* The input ended; only what was begun is worth a fault. */
static enum way
end_within(struct round *round, const struct form *form, struct fault *why)
{
	round->failed = form_is_begun(form);
	if (round->failed)
		fault_set(why, FAULT_INPUT,
			  "the input ended in the middle of a person, who was "
			  "not kept%s",
			  draft_holds(&round->session->draft) ? " but is "
								"offered at "
								"the next start"
							      : "");
	return WAY_END;
}

/* "0" at the summary; DIALOG_LEAVE is back to the summary. */
static enum dialog_end
ask_drop(const struct round *round, const struct form *form)
{
	bool drops;

	if (asking_drop(round->asker, round->session->desk, form, &drops) ==
	    ASK_ENDED)
		return DIALOG_ENDED;
	return drops ? DIALOG_DROP : DIALOG_LEAVE;
}

/* What the register refuses for its content, such as a paper number used
 * before, goes back to the summary; anything else ends the session. */
static enum dialog_end
keep(struct round *round, struct form *form, struct fault *why)
{
	struct fault paper;

	round->failed =
		!session_keep(round->session, &form->visit, &paper, why);
	if (!round->failed) {
		tell_saved(round, &form->visit, &paper);
		tell_counts(round);
		return DIALOG_SAVE;
	}
	if (why->kind != FAULT_INPUT)
		return DIALOG_SAVE;
	fprintf(round->asker->talk, "\n%s\n", why->sentence);
	round->failed = false;
	return DIALOG_LEAVE;
}

/* Only at the first question it ends with DIALOG_LEAVE. */
static enum dialog_end
interview_until_kept(struct round *round, struct form *form, struct fault *why)
{
	struct session *session = round->session;
	enum dialog_end end =
		interview(session->desk, round->asker, form, session, false);

	for (;;) {
		if (end == DIALOG_LEAVE)
			return end;
		if (end == DIALOG_SAVE)
			end = keep(round, form, why);
		else if (end == DIALOG_DROP)
			end = ask_drop(round, form);
		if (end != DIALOG_LEAVE)
			return end;
		end = interview(session->desk, round->asker, form, session,
				true);
	}
}

static enum way
drop(const struct round *round)
{
	draft_remove(&round->session->draft);
	fprintf(round->asker->talk, "Dropped; nothing of it was kept.\n");
	return WAY_NEXT;
}

/* Whoever was begun goes on with the initials changed. */
static enum way
change_grader(struct round *round, struct form *form, struct fault *why)
{
	struct session *session = round->session;

	if (asking_grader(round->asker, session) == ASK_ENDED)
		return end_within(round, form, why);
	text_copy(form->visit.grader, sizeof form->visit.grader,
		  session->grader);
	draft_keep(&session->draft, form, session->newest);
	return form_is_begun(form) ? WAY_STAY : WAY_NEXT;
}

/* Whoever was begun is there at the next start; where that cannot be it is
 * asked. */
static enum way
finish(struct round *round, const struct form *form, struct fault *why)
{
	const struct session *session = round->session;
	bool finishes = true;

	if (form_is_begun(form) && !draft_holds(&session->draft) &&
	    asking_finish(round->asker, session->desk, form, &finishes) ==
		    ASK_ENDED)
		return end_within(round, form, why);
	if (!finishes)
		return WAY_STAY;
	asking_tell_left(round->asker, session, form);
	return WAY_END;
}

/* The menu loses nobody who was begun. */
static enum way
leave(struct round *round, struct form *form, struct fault *why)
{
	const struct desk *desk = round->session->desk;
	bool begun = form_is_begun(form);
	enum dialog_end end;

	verdict_write_alarm(desk, form, desk->columns, desk->talk);
	switch (ask_menu(round, begun)) {
	case MENU_GRADER:
		return change_grader(round, form, why);
	case MENU_FINISH:
		return finish(round, form, why);
	case MENU_UNDO:
		if (!undo(round, why))
			return round->failed ? WAY_END
					     : end_within(round, form, why);
		return begun ? WAY_STAY : WAY_NEXT;
	case MENU_DROP:
		end = ask_drop(round, form);
		if (end == DIALOG_ENDED)
			return end_within(round, form, why);
		return end == DIALOG_DROP ? drop(round) : WAY_STAY;
	case MENU_ENDED:
		return end_within(round, form, why);
	default:
		return begun ? WAY_STAY : WAY_NEXT;
	}
}

/* A person in the form, until it is done with. */
static enum way
ask_person(struct round *round, struct form *form, const char *which,
	   struct fault *why)
{
	char line[120];

	snprintf(line, sizeof line,
		 "=== %s person (grader %s); < for the menu ===", which,
		 form->visit.grader);
	fprintf(round->asker->talk, "\n");
	say(round, line);
	switch (interview_until_kept(round, form, why)) {
	case DIALOG_SAVE:
		return round->failed ? WAY_END : WAY_NEXT;
	case DIALOG_DROP:
		return drop(round);
	case DIALOG_LEAVE:
		return leave(round, form, why);
	default:
		return end_within(round, form, why);
	}
}

/* False ends the session, with a fault or without. */
static bool
one_person(struct round *round, const struct form *draft, struct fault *why)
{
	const char *which = draft == NULL ? "Next" : "Unfinished";
	struct form form;
	enum way way;

	if (!notice_day(round, why))
		return false;
	notice_policy(round);
	session_begin(round->session, &form);
	if (draft != NULL)
		form = *draft;
	do {
		way = ask_person(round, &form, which, why);
		which = "Unfinished";
	} while (way == WAY_STAY);
	return way == WAY_NEXT;
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
