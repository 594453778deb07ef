/* onescreen.c: screening on one screen, person after person. */
#include "desk/onescreen.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/placing.h"
#include "desk/stagemenu.h"
#include "desk/twins.h"

#include <string.h>

/* --- what is shown after an answer ---------------------------------------- */

/* Who may be the same person; only a number key goes on, since Enter is what
 * hands press without looking. True when the entry is to be dropped. */
static bool
twin_drops(struct stage *stage)
{
	FILE *out = stage_write(stage);
	struct fault why;
	int count;

	stage->twins_shown = true;
	if (out == NULL)
		return false;
	if (!twins_write(stage->session->desk, stage->form, PLACING_COLUMNS, "",
			 out, &count, &why))
		text_write_wrapped(out, why.sentence, PLACING_COLUMNS, 0, 0);
	fclose(out);
	if (stage->page.over[0] == '\0')
		return false;
	return stage_ask(stage,
			 "1 another person: go on   0 the same: drop "
			 "this entry",
			 "10") == '0';
}

static void
keep_draft(struct stage *stage)
{
	struct fault trouble;
	char text[FAULT_SENTENCE_SIZE + 100];

	draft_keep(&stage->session->draft, stage->form, stage->session->newest);
	if (!draft_trouble(&stage->session->draft, &trouble))
		return;
	snprintf(text, sizeof text,
		 "From here on an unfinished person is not kept when the power "
		 "fails: %s",
		 trouble.sentence);
	stage_tell(stage, text);
}

/* --- a person from the beginning to the end ------------------------------- */

static void
begin_form(struct stage *stage)
{
	session_begin(stage->session, stage->form);
	keying_begin(&stage->keying, stage->form);
	stage->twins_shown = false;
}

/* The day and the policy, before the next person. */
static void
notice_policy(struct stage *stage)
{
	struct desk *desk = stage->session->desk;
	char words[SESSION_WORDS_SIZE];
	FILE *talk = desk->talk, *out = stage_write(stage);

	if (out == NULL)
		return;
	desk->talk = out; /* every fault of a file that was changed */
	session_notice_policy(stage->session, words);
	desk->talk = talk;
	fputs(words, out);
	fclose(out);
	if (stage->page.over[0] != '\0')
		stage_ask(stage, "Enter goes on", "\n");
}

static void
notice_day(struct stage *stage)
{
	struct session *session = stage->session;
	char words[DESK_DAY_WORDS_SIZE], text[120];
	struct day before;
	bool moved;

	if (session_clock_jumped(session, &before)) {
		stage_leave(stage);
		if (!asking_day(stage->asker, session->desk)) {
			stage_end(stage, STAGE_FINISHED);
			return;
		}
		stage_return(stage);
	}
	if (stage->over)
		return;
	if (!session_follow_day(session, before, &moved, &stage->why))
		stage_end(stage, STAGE_FAILED);
	else if (moved) {
		desk_day_words(session->day, words);
		snprintf(text, sizeof text,
			 "It is now %s; people count for that day.", words);
		stage_tell(stage, text);
	}
}

static void
begin_next(struct stage *stage)
{
	notice_day(stage);
	if (!stage->over)
		notice_policy(stage);
	begin_form(stage);
}

static void
drop(struct stage *stage)
{
	draft_remove(&stage->session->draft);
	stage->page.saved[0] = '\0';
	begin_next(stage);
}

/* What stands there until the next person is begun. */
static void
tell_saved(struct stage *stage, const struct visit *visit,
	   const struct fault *paper)
{
	const struct desk *desk = stage->session->desk;
	char *lines = stage->page.saved, number[REFNUM_SIZE];
	FILE *out = fmemopen(lines, sizeof stage->page.saved, "w");

	stage->page.saved_for_today = visit->urgency == URGENCY_SAME_DAY;
	refnum_write(visit->number, number);
	if (out == NULL)
		return;
	fprintf(out, "Saved %s  %s\n", number, visit->name);
	desk_write_urgency(&desk->policy, visit, PLACING_COLUMNS, out);
	if (paper->kind == FAULT_NONE)
		fprintf(out, "Slip: slips/%s.html\n", number);
	else
		fprintf(out,
			"The slip could not be written. The person IS saved; "
			"print it later with:\nshoal slip %s\n",
			number);
	fclose(out);
}

static void
save(struct stage *stage)
{
	struct visit *visit = &stage->form->visit;
	struct fault paper, *said = &stage->keying.said;

	if (!visit_check(visit, said))
		return;
	if (session_keep(stage->session, visit, &paper, said)) {
		tell_saved(stage, visit, &paper);
		begin_next(stage);
	} else if (said->kind != FAULT_INPUT) {
		stage->why = *said;
		stage_end(stage, STAGE_FAILED);
	}
}

/* --- keys ----------------------------------------------------------------- */

static enum keying_effect
go(struct stage *stage, enum placing_way way)
{
	return keying_go(&stage->keying,
			 placing_next_to(stage->form, stage->keying.at, way));
}

static enum keying_effect
press(struct stage *stage, const struct canvas_key *key)
{
	struct keying *keying = &stage->keying;

	switch (key->event) {
	case CANVAS_TEXT:
		return keying_type(keying, key->text);
	case CANVAS_TAB:
		return keying->at == QUESTION_COUNT ? KEYING_NOTHING
						    : keying_enter(keying);
	case CANVAS_ENTER:
		return keying_enter(keying);
	case CANVAS_BACK_TAB:
		return keying_back(keying);
	case CANVAS_UP:
		return go(stage, PLACING_UP);
	case CANVAS_DOWN:
		return go(stage, PLACING_DOWN);
	case CANVAS_LEFT:
		return go(stage, PLACING_LEFTWARDS);
	case CANVAS_RIGHT:
		return go(stage, PLACING_RIGHTWARDS);
	case CANVAS_ERASE:
		return keying_erase(keying);
	case CANVAS_ESCAPE:
		return KEYING_MENU;
	default:
		return KEYING_NOTHING;
	}
}

/* The question that was left, if any was, has its answer now. */
static void
answered(struct stage *stage, enum question question)
{
	bool left = stage->keying.at != question;

	stage->page.saved[0] = '\0';
	keep_draft(stage);
	if (question == ASK_NAME && left)
		stage->twins_shown = false;
	if (!stage->over && left && !stage->twins_shown &&
	    (question == ASK_NAME || question == ASK_SEX) &&
	    stage->form->answered[ASK_SEX] && twins_matter(stage->form) &&
	    twin_drops(stage))
		drop(stage);
}

static void
turn(struct stage *stage)
{
	enum question question = stage->keying.at;
	struct canvas_key key;

	stage_draw(stage);
	stage_wait(stage, &key);
	if (stage->over)
		return;
	switch (press(stage, &key)) {
	case KEYING_ANSWERED:
		answered(stage, question);
		/* No key typed ahead may save what nobody has seen. */
		if (stage->keying.at == QUESTION_COUNT)
			canvas_forget(&stage->canvas);
		break;
	case KEYING_SAVE:
		save(stage);
		break;
	case KEYING_DROP:
		if (stagemenu_drop(stage))
			drop(stage);
		break;
	case KEYING_HELP:
		stage_help(stage);
		break;
	case KEYING_MENU:
		if (stagemenu(stage))
			drop(stage);
		break;
	default:
		break;
	}
}

enum stage_outcome
onescreen(struct session *session, const struct asker *asker, struct form *form,
	  bool *found, int *asked, struct fault *why)
{
	struct stage stage;

	memset(&stage, 0, sizeof stage);
	stage.session = session;
	stage.asker = asker;
	stage.form = form;
	stage.page.session = session;
	stage.page.keying = &stage.keying;
	stage_return(&stage);
	if (stage.over) {
		*why = stage.why;
		return STAGE_LINES;
	}
	if (*found)
		keying_begin(&stage.keying, form);
	else
		begin_next(&stage);
	while (!stage.over)
		turn(&stage);
	canvas_close(&stage.canvas);
	*found = form_is_begun(form);
	*asked = stage.asked;
	*why = stage.why;
	return stage.outcome;
}
