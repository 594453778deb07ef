/* dialog.c: questions about one record, line by line, then a summary. */
#include "desk/dialog.h"

#include "base/number.h"
#include "base/text.h"

#include <string.h>

/* A running dialog. */
struct talk {
	const struct asker *asker;
	const struct dialog_kind *kind;
	void *form;
};

static void
help(const struct talk *talk, int question)
{
	FILE *out = talk->asker->talk;

	talk->kind->help(question, talk->asker->columns, out);
	fprintf(out, "< goes back one question.\n");
}

static enum ask_result
ask_once(const struct talk *talk, int question, char *answer)
{
	FILE *out = talk->asker->talk;
	int columns = talk->asker->columns;
	char title[DIALOG_TITLE_SIZE], shown[DIALOG_SHOWN_SIZE];
	bool keyed = talk->kind->is_keyed(question);

	talk->kind->title(question, title);
	if (keyed) {
		text_write_wrapped(out, title, columns, 0, 0);
		talk->kind->choices(question, columns, out);
	}
	talk->kind->show(talk->form, question, shown);
	return ask(talk->asker, keyed ? "Number" : title, shown, answer);
}

/* Asks one question until it is answered; where to go from there. */
static enum ask_result
put_question(const struct talk *talk, int *question)
{
	char answer[ASK_ANSWER_SIZE];
	struct fault why;

	for (;;) {
		enum ask_result result = ask_once(talk, *question, answer);

		if (result == ASK_HELP) {
			help(talk, *question);
			continue;
		}
		if (result != ASK_ANSWERED)
			return result;
		if (talk->kind->answer(talk->form, *question, answer, question,
				       &why))
			break;
		fprintf(talk->asker->talk, "Not taken: ");
		text_write_wrapped(talk->asker->talk, why.sentence,
				   talk->asker->columns, 11, 0);
	}
	talk->kind->after(talk->form, *question);
	return ASK_ANSWERED;
}

static enum dialog_end
ask_all(const struct talk *talk)
{
	const struct dialog_kind *kind = talk->kind;
	int first = kind->next(talk->form, -1), question = first;

	while (question != kind->count) {
		switch (put_question(talk, &question)) {
		case ASK_ENDED:
			return DIALOG_ENDED;
		case ASK_BACK:
			if (question == first)
				return DIALOG_LEAVE;
			question = kind->back(talk->form, question);
			break;
		default:
			question = kind->next(talk->form, question);
		}
	}
	return DIALOG_SAVE;
}

/* The first question of the line after this one's. */
static int
next_line(const struct talk *talk, int question)
{
	const struct dialog_kind *kind = talk->kind;

	if (kind->line_end != NULL && question >= 0)
		question = kind->line_end(question);
	return kind->next(talk->form, question);
}

static void
show_answers(const struct talk *talk)
{
	const struct dialog_kind *kind = talk->kind;
	FILE *out = talk->asker->talk;
	char title[DIALOG_TITLE_SIZE], shown[DIALOG_SHOWN_SIZE];
	int line = 0;

	fprintf(out, "\n--- Summary ---\n");
	for (int question = kind->next(talk->form, -1); question != kind->count;
	     question = next_line(talk, question)) {
		char text[DIALOG_TITLE_SIZE + DIALOG_SHOWN_SIZE + 8];

		if (kind->line != NULL) {
			kind->line(talk->form, question, title, shown);
		} else {
			kind->title(question, title);
			kind->show(talk->form, question, shown);
		}
		snprintf(text, sizeof text, "%s: %s", title, shown);
		fprintf(out, "%2d ", ++line);
		text_write_wrapped(out, text, talk->asker->columns, 3, 3);
	}
	fprintf(out, "\n");
}

/* A question that a correction has opened, `count` when there is none: a depth
 * that became x wants its reason. */
static int
first_open(const struct talk *talk)
{
	int question = 0;

	while (question < talk->kind->count &&
	       !talk->kind->is_open(talk->form, question))
		question++;
	return question;
}

/* Asks them; "<" leaves the rest open. False at the end of input. */
static bool
ask_opened(const struct talk *talk)
{
	enum ask_result result = ASK_ANSWERED;
	int open;

	while (result == ASK_ANSWERED &&
	       (open = first_open(talk)) != talk->kind->count)
		result = put_question(talk, &open);
	return result != ASK_ENDED;
}

/* The question on a line of the summary, `count` past the last. */
static int
question_on_line(const struct talk *talk, long line)
{
	int question = talk->kind->next(talk->form, -1);

	while (--line > 0 && question != talk->kind->count)
		question = next_line(talk, question);
	return question;
}

/* Puts the questions of one line again, and those that the answers have
 * opened; "<" leaves the rest as it is. */
static enum dialog_end
correct(const struct talk *talk, int question)
{
	const struct dialog_kind *kind = talk->kind;
	int end = kind->line_end == NULL ? question : kind->line_end(question);
	enum ask_result result;

	do
		result = put_question(talk, &question);
	while (result == ASK_ANSWERED &&
	       (question = kind->next(talk->form, question)) <= end);
	return result == ASK_ENDED || !ask_opened(talk) ? DIALOG_ENDED
							: DIALOG_LEAVE;
}

/* A question left open with "<" is asked once more before anything is kept. */
static enum dialog_end
finish(const struct talk *talk)
{
	if (first_open(talk) == talk->kind->count)
		return DIALOG_SAVE;
	return ask_opened(talk) ? DIALOG_LEAVE : DIALOG_ENDED;
}

/* The question that begins the line typed, `count` when there is none. */
static int
chosen_line(const struct talk *talk, const char *answer)
{
	struct fault ignored;
	long line;

	if (!number_read(answer, 1, talk->kind->count, "", &line, &ignored))
		return talk->kind->count;
	return question_on_line(talk, line);
}

/* One turn at the summary: DIALOG_LEAVE means look again. */
static enum dialog_end
summary_turn(const struct talk *talk)
{
	const struct dialog_kind *kind = talk->kind;
	FILE *out = talk->asker->talk;
	char answer[ASK_ANSWER_SIZE];
	bool judged;
	int question;

	show_answers(talk);
	judged = kind->judge(talk->form);
	fprintf(out, "Enter saves, 0 drops %s,\na line's number corrects it.\n",
		kind->drops);
	switch (ask(talk->asker, "Save", "yes", answer)) {
	case ASK_ENDED:
		return DIALOG_ENDED;
	case ASK_BACK:
		return correct(talk, kind->back(talk->form, kind->count));
	case ASK_HELP:
		text_write_wrapped(out,
				   "Enter saves what stands above. The number "
				   "of a line asks its question again, < the "
				   "last one.",
				   talk->asker->columns, 0, 0);
		return DIALOG_LEAVE;
	default:
		break;
	}
	if (judged && (answer[0] == '\0' || strcmp(answer, "yes") == 0))
		return finish(talk);
	if (strcmp(answer, "0") == 0)
		return DIALOG_DROP;
	question = chosen_line(talk, answer);
	if (question != kind->count)
		return correct(talk, question);
	text_write_wrapped(out, "Type the number of one of the lines above.",
			   talk->asker->columns, 0, 0);
	return DIALOG_LEAVE;
}

enum dialog_end
dialog(const struct asker *asker, const struct dialog_kind *kind, void *form,
       bool from_summary)
{
	struct talk talk = {asker, kind, form};
	enum dialog_end end = DIALOG_SAVE;

	if (!from_summary)
		end = ask_all(&talk);
	if (end != DIALOG_SAVE)
		return end;
	do
		end = summary_turn(&talk);
	while (end == DIALOG_LEAVE);
	return end;
}
