/* onescreen.c: screening on one screen, person after person. */
#include "desk/onescreen.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/placing.h"
#include "desk/stagemenu.h"
#include "desk/twins.h"
#include "desk/verdict.h"

#include <string.h>

/* --- what is shown after an answer ---------------------------------------- */

/* Who may be the same person. Hands that type ahead are at the complaints by
 * now, whose keys are numbers and Enter: letters are typed by nobody who has
 * not looked. True when the entry is to be dropped. */
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
			 "a another person: go on   s the same: drop "
			 "this entry",
			 "as") == 's' &&
	       stagemenu_drop(stage);
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

static void
write_lines(const char *lines, int indent, FILE *out)
{
	while (*lines != '\0') {
		size_t length = strcspn(lines, "\n");
		char line[SESSION_WORDS_SIZE];

		snprintf(line, sizeof line, "%.*s", (int)length, lines);
		text_write_wrapped(out, line, PLACING_COLUMNS, 0, indent);
		lines += length + (lines[length] != '\0');
	}
}

/* As many faults of a policy as have room. */
static void
write_faults(const char *faults, FILE *out)
{
	enum { MOST = 4 };
	char text[PAGE_LINES_SIZE] = "", *end = text;
	FILE *wrapped = fmemopen(text, sizeof text, "w");

	if (wrapped == NULL)
		return;
	write_lines(faults, 2, wrapped);
	fclose(wrapped);
	for (int i = 0; i < MOST && *end != '\0'; i++)
		end += strcspn(end, "\n") + 1;
	fprintf(out, "%.*s%s", (int)(end - text), text,
		*end == '\0' ? ""
			     : "... 'shoal policy check' tells all of it\n");
}

/* What matters stands first, faults of a file that was changed below. */
static void
notice_policy(struct stage *stage)
{
	struct desk *desk = stage->session->desk;
	char words[SESSION_WORDS_SIZE], faults[PAGE_LINES_SIZE] = "";
	FILE *talk = desk->talk, *out;

	desk->talk = fmemopen(faults, sizeof faults, "w");
	if (desk->talk == NULL) {
		desk->talk = talk;
		return;
	}
	session_notice_policy(stage->session, words);
	fclose(desk->talk);
	desk->talk = talk;
	if (words[0] == '\0')
		return;
	out = stage_write(stage);
	if (out == NULL)
		return;
	write_lines(words, 0, out);
	write_faults(faults, out);
	fclose(out);
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
		if (!asking_jump(stage->asker, session->desk, before)) {
			stage_end(stage, STAGE_FINISHED);
			return;
		}
		stage_return(stage);
	}
	if (stage->over)
		return;
	if (!session_follow_day(session, before, &moved, &stage->why)) {
		stage_end(stage, STAGE_FAILED);
	} else if (moved) {
		begin_form(stage);
		desk_day_words(session->day, words);
		snprintf(text, sizeof text,
			 "It is now %s; people count for that day.", words);
		stage_tell(stage, text);
	}
}

/* The day and the policy are noticed over an empty form: over answers that were
 * judged by the old ones they would say what is not so. */
static void
begin_next(struct stage *stage)
{
	begin_form(stage);
	notice_day(stage);
	if (!stage->over)
		notice_policy(stage);
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
	struct decision decision;

	stage->page.saved_for_today = visit->urgency == URGENCY_SAME_DAY;
	refnum_write(visit->number, number);
	if (out == NULL)
		return;
	fprintf(out, "Saved %s  %s\n", number, visit->name);
	desk_write_urgency(&desk->policy, visit, PLACING_COLUMNS, out);
	decide(&desk->policy, visit, &decision);
	if (visit->urgency == URGENCY_SAME_DAY)
		verdict_write_instructions(desk, &decision, PLACING_COLUMNS,
					   out);
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

/* A paper number that is somebody's is asked for anew. */
static bool
refuse_number(struct stage *stage)
{
	struct form *form = stage->form;
	struct fault why;

	if (twins_check_number(stage->session->desk, form, &why))
		return false;
	form->visit.number = (struct refnum){0, 0};
	form->answered[ASK_NUMBER] = false;
	keying_go(&stage->keying, ASK_NUMBER);
	stage->keying.said = why;
	return true;
}

/* The question that was left, if any was, has its answer now. */
static void
answered(struct stage *stage, enum question question)
{
	bool left = stage->keying.at != question;

	stage->page.saved[0] = '\0';
	if (question == ASK_NUMBER && refuse_number(stage))
		return;
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
	while (stagemenu_stays(&stage))
		turn(&stage);
	canvas_close(&stage.canvas);
	*found = form_is_begun(form);
	*asked = stage.asked;
	*why = stage.why;
	return stage.outcome;
}
