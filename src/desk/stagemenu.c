/* stagemenu.c: what can be done besides answering. */
#include "desk/stagemenu.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/placing.h"
#include "desk/undo.h"
#include "desk/verdict.h"

#include <signal.h>
#include <string.h>

static const char not_kept[] = "This person is not saved, and cannot be kept "
			       "for the next start.\n"
			       " 1 finish, nothing of it is kept\n 0 no, go "
			       "on\n";
static const char finish_keys[] = "1 finish   0 or Enter go on";

/* What would lose the person, after the alarm for who has to go today. */
static bool
ask_losing(struct stage *stage, const char *lines, const char *keys)
{
	FILE *out = stage_write(stage);

	if (out == NULL)
		return false;
	verdict_write_alarm(stage->session->desk, stage->form, PLACING_COLUMNS,
			    out);
	fputs(lines, out);
	fclose(out);
	return stage_ask(stage, keys, "10<\n\033") == '1';
}

bool
stagemenu_drop(struct stage *stage)
{
	return ask_losing(stage,
			  "Drop this person? Nothing of it is kept then.\n"
			  " 1 yes, drop it\n 0 no, go on\n",
			  "1 drop   0 or Enter go on");
}

bool
stagemenu_stays(struct stage *stage)
{
	int asked = stage->asked;

	if (!stage->over || stage->outcome != STAGE_ASKED || asked != SIGINT ||
	    !form_is_begun(stage->form) || draft_holds(&stage->session->draft))
		return !stage->over;
	stage->over = false;
	if (ask_losing(stage, not_kept, finish_keys))
		stage_end(stage, STAGE_ASKED);
	return !stage->over;
}

static void
change_grader(struct stage *stage)
{
	struct session *session = stage->session;
	struct visit *visit = &stage->form->visit;

	stage_leave(stage);
	if (asking_grader(stage->asker, session) == ASK_ENDED) {
		stage_end(stage, STAGE_FINISHED);
		return;
	}
	text_copy(visit->grader, sizeof visit->grader, session->grader);
	stage_return(stage);
}

static void
take_back(struct stage *stage)
{
	char number[REFNUM_SIZE], text[FAULT_SENTENCE_SIZE + 120], typed;
	struct fault paper;
	struct visit visit;
	long long entry;
	FILE *out;

	visit_init(&visit);
	if (!undo_find(stage->session, &visit, &entry, &stage->why)) {
		stage_tell(stage, stage->why.sentence);
		return;
	}
	refnum_write(visit.number, number);
	out = stage_write(stage);
	if (out == NULL)
		return;
	fprintf(out, "Take back %s %s, because of\n", number, visit.name);
	for (int i = 0; i < UNDO_REASONS; i++)
		fprintf(out, " %d %s\n", i + 1, undo_reasons[i]);
	fprintf(out, " 0 no, keep it\n");
	fclose(out);
	typed = stage_ask(stage, "1 2 3 take back   0 or Enter keep",
			  "0123<\n\033");
	if (typed < '1' || typed > '3')
		return;
	stage->page.saved[0] = '\0';
	if (!undo_last(stage->session, undo_reasons[typed - '1'], &paper,
		       &stage->why)) {
		stage_end(stage, STAGE_FAILED);
		return;
	}
	snprintf(text, sizeof text,
		 "%s is void: it is counted no more. Take its slip back.%s%s",
		 number, paper.kind == FAULT_NONE ? "" : "\n",
		 paper.kind == FAULT_NONE ? "" : paper.sentence);
	stage_tell(stage, text);
}

/* A person that was begun stays in the draft. */
static void
finish(struct stage *stage)
{
	if (form_is_begun(stage->form) &&
	    !draft_holds(&stage->session->draft) &&
	    !ask_losing(stage, not_kept, finish_keys))
		return;
	if (!stage->over)
		stage_end(stage, STAGE_FINISHED);
}

bool
stagemenu(struct stage *stage)
{
	const struct session *session = stage->session;
	bool undoes = !refnum_is_none(session->last);
	char number[REFNUM_SIZE];

	refnum_write(session->last, number);
	snprintf(stage->page.over, sizeof stage->page.over,
		 " 1 go on with this person\n 2 another grader, now %s\n 3 "
		 "finish\n 4 %s%s\n 5 drop this person\n",
		 session->grader,
		 undoes ? "take back the last person, "
			: "take back: nobody was saved since the start",
		 number);
	switch (stage_ask(stage, "1 to 5   Enter or Esc goes on",
			  "12345<\n\033")) {
	case '2':
		change_grader(stage);
		break;
	case '3':
		finish(stage);
		break;
	case '4':
		take_back(stage);
		break;
	case '5':
		return stagemenu_drop(stage);
	default:
		break;
	}
	return false;
}
