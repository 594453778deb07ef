/* interview.c: a person's form, asked line by line. */
#include "desk/interview.h"

#include "base/number.h"
#include "base/text.h"
#include "paper/drawing.h"

#include <string.h>

/* A running interview. */
struct talk {
	struct desk *desk;
	const struct asker *asker;
	struct form *form;
	int announced;	  /* the same-day rule already told, or -1 */
	bool twins_shown; /* for the name as it stands */
};

struct asker
interview_asker(const struct desk *desk)
{
	return (struct asker){desk->in, desk->talk, !desk->in_is_terminal,
			      desk->columns};
}

static void
show_grades(const struct talk *talk)
{
	FILE *out = talk->asker->talk;

	fprintf(out, "Cornea #, gap ., iris |\n");
	for (int i = 0; i < DEPTH_GRADES; i++) {
		fprintf(out, "%d %%\n", depth_percent((enum depth)i));
		drawing_write_text((enum depth)i, out);
		fprintf(out, "\n");
	}
}

static void
say(const struct talk *talk, const char *words)
{
	text_write_wrapped(talk->asker->talk, words, talk->asker->columns, 0,
			   0);
}

static void
help(const struct talk *talk, enum question question)
{
	FILE *out = talk->asker->talk;

	if (question_table[question].kind == ANSWER_DEPTH)
		show_grades(talk);
	question_write_help(question, talk->asker->columns, out);
	fprintf(out, "< goes back one question.\n");
}

/* Says so the moment it is certain: the rest of the questions must not hold
 * anybody up who has to go today. */
static void
announce(struct talk *talk)
{
	const struct policy *policy = &talk->desk->policy;
	FILE *out = talk->asker->talk;
	struct findings unasked;
	const struct rule *rule;
	int index;

	form_unasked(talk->form, &unasked);
	index = decide_certain_today(policy, &talk->form->visit, &unasked,
				     !talk->form->answered[ASK_AGE]);
	if (index < 0 || talk->announced >= 0) {
		talk->announced = index;
		return;
	}
	talk->announced = index;
	rule = &policy->rule[index];
	fprintf(out, "\n*** SEND TODAY ***\n");
	say(talk, rule->say);
	if (rule->advise[0] != '\0')
		say(talk, rule->advise);
	say(talk, "Arrange transport now, then finish the questions: the paper "
		  "goes along.");
	fprintf(out, "\n");
}

struct twins {
	const struct talk *talk;
	int count;
};

static bool
show_twin(void *context, const struct visit *visit, const char *reason,
	  struct fault *why)
{
	struct twins *twins = context;
	FILE *out = twins->talk->asker->talk;
	char number[REFNUM_SIZE], day[DAY_SIZE], sex[8], age[8];

	(void)reason;
	(void)why;
	if (twins->count++ == 0) {
		fprintf(out, "\n");
		say(twins->talk, "Perhaps the same person, already screened:");
	}
	refnum_write(visit->number, number);
	day_write(visit->screened_on, day);
	field_write(fields_find(visit_fields, "sex"), visit, sex, sizeof sex);
	field_write(fields_find(visit_fields, "age_years"), visit, age,
		    sizeof age);
	fprintf(out, " %s on %s, %s %s\n  ", number, day,
		sex[0] == '\0' ? "?" : sex, age[0] == '\0' ? "?" : age);
	text_write_wrapped(out, visit->name, twins->talk->asker->columns, 2, 2);
	return true;
}

/* A twin is a hint only, so a register that cannot be searched is told and
 * the interview goes on: the save will say the rest. For somebody who is kept
 * already the hint would come too late. */
static void
show_twins(struct talk *talk)
{
	struct twins twins = {talk, 0};
	struct fault why;

	if (talk->twins_shown || talk->form->visit.name[0] == '\0' ||
	    (!talk->form->paper && !refnum_is_none(talk->form->visit.number)))
		return;
	talk->twins_shown = true;
	if (!register_visit_twins(&talk->desk->book, &talk->form->visit,
				  show_twin, &twins, &why))
		say(talk, why.sentence);
	if (twins.count > 0) {
		say(talk, "If so, drop this entry at the end (0), or correct "
			  "the first one.");
		fprintf(talk->asker->talk, "\n");
	}
}

/* Asks one question until it is answered; where to go from there. */
static enum ask_result
put_question(struct talk *talk, enum question question)
{
	FILE *out = talk->asker->talk;
	char shown[FORM_SHOWN_SIZE], answer[ASK_ANSWER_SIZE];
	const char *title = question_table[question].title;
	struct fault why;

	for (;;) {
		enum ask_result result;
		bool keyed = question_table[question].kind == ANSWER_CHOICE ||
			     question_table[question].kind == ANSWER_FINDINGS;

		if (keyed) {
			fprintf(out, "%s\n", title);
			question_write_choices(question, talk->asker->columns,
					       out);
		}
		form_show(talk->form, question, shown);
		result = ask(talk->asker, keyed ? "Number" : title, shown,
			     answer);
		if (result == ASK_HELP) {
			help(talk, question);
			continue;
		}
		if (result != ASK_ANSWERED)
			return result;
		if (form_answer(talk->form, question, answer, &why))
			break;
		fprintf(out, "Not taken: ");
		text_write_wrapped(out, why.sentence, talk->asker->columns, 11,
				   0);
	}
	if (question == ASK_NAME)
		talk->twins_shown = false;
	if (question == ASK_SEX)
		show_twins(talk);
	announce(talk);
	return ASK_ANSWERED;
}

static enum interview_end
ask_all(struct talk *talk)
{
	enum question question = form_first(talk->form);

	while (question != QUESTION_COUNT) {
		switch (put_question(talk, question)) {
		case ASK_ENDED:
			return INTERVIEW_ENDED;
		case ASK_BACK:
			if (question == form_first(talk->form))
				return INTERVIEW_LEAVE;
			question = form_back(talk->form, question);
			break;
		default:
			question = form_next(talk->form, question);
		}
	}
	return INTERVIEW_SAVE;
}

static void
show_answers(const struct talk *talk)
{
	FILE *out = talk->asker->talk;
	int columns = talk->asker->columns;
	char shown[FORM_SHOWN_SIZE], label[64];
	int line = 0;

	fprintf(out, "\n--- Summary ---\n");
	for (enum question question = form_first(talk->form);
	     question != QUESTION_COUNT;
	     question = form_next(talk->form, question)) {
		form_show(talk->form, question, shown);
		snprintf(label, sizeof label, "%2d %s: ", ++line,
			 question_table[question].title);
		fprintf(out, "%s", label);
		text_write_wrapped(out, shown, columns, (int)strlen(label), 3);
	}
	fprintf(out, "\n");
}

static void
show_oddities(const struct talk *talk)
{
	char text[1024] = "", *line = text;
	FILE *lines = fmemopen(text, sizeof text, "w");

	if (lines == NULL)
		return;
	visit_write_oddities(&talk->form->visit, lines);
	fclose(lines);
	while (*line != '\0') {
		char *end = line + strcspn(line, "\n");
		bool last = *end == '\0';

		*end = '\0';
		say(talk, line);
		line = last ? end : end + 1;
	}
}

/* Every answer with its number, then the decision nearest to the prompt. True
 * when there is one. */
static bool
show_summary(const struct talk *talk)
{
	const struct policy *policy = &talk->desk->policy;
	struct visit *visit = &talk->form->visit;
	int columns = talk->asker->columns;
	struct decision decision;
	struct fault why;

	show_answers(talk);
	if (!visit_check(visit, &why)) {
		say(talk, why.sentence);
		return false;
	}
	desk_judge(talk->desk, visit, &decision);
	desk_write_urgency(policy, visit, columns, talk->asker->talk);
	desk_write_reasons(policy, &decision, columns, talk->asker->talk);
	show_oddities(talk);
	return true;
}

/* A question that a correction has opened, QUESTION_COUNT when there is none: a
 * depth that became x wants its reason. */
static enum question
first_open(const struct form *form)
{
	int i = 0;

	while (i < QUESTION_COUNT &&
	       (form->answered[i] || !form_asks(form, (enum question)i)))
		i++;
	return (enum question)i;
}

/* Asks them; "<" leaves the rest open. False at the end of input. */
static bool
ask_opened(struct talk *talk)
{
	enum ask_result result = ASK_ANSWERED;
	enum question open;

	while (result == ASK_ANSWERED &&
	       (open = first_open(talk->form)) != QUESTION_COUNT)
		result = put_question(talk, open);
	return result != ASK_ENDED;
}

/* The question on a line of the summary, QUESTION_COUNT past the last. */
static enum question
question_on_line(const struct talk *talk, long line)
{
	enum question question = form_first(talk->form);

	while (--line > 0 && question != QUESTION_COUNT)
		question = form_next(talk->form, question);
	return question;
}

/* The last line, for "<" at the summary. */
static enum question
last_question(const struct talk *talk)
{
	return form_back(talk->form, QUESTION_COUNT);
}

/* Puts one question again, and those that its answer has opened. */
static enum interview_end
correct(struct talk *talk, enum question question)
{
	if (put_question(talk, question) == ASK_ENDED || !ask_opened(talk))
		return INTERVIEW_ENDED;
	show_twins(talk);
	return INTERVIEW_LEAVE;
}

/* A question left open with "<" is asked once more before anything is kept. */
static enum interview_end
finish(struct talk *talk)
{
	if (first_open(talk->form) == QUESTION_COUNT)
		return INTERVIEW_SAVE;
	return ask_opened(talk) ? INTERVIEW_LEAVE : INTERVIEW_ENDED;
}

/* One turn at the summary: INTERVIEW_LEAVE means look again. */
static enum interview_end
summary_turn(struct talk *talk)
{
	char answer[ASK_ANSWER_SIZE];
	bool judged = show_summary(talk);
	struct fault why;
	long line;

	fprintf(talk->asker->talk, "Enter saves, 0 drops the person,\n"
				   "a line's number corrects it.\n");
	switch (ask(talk->asker, "Save", "yes", answer)) {
	case ASK_ENDED:
		return INTERVIEW_ENDED;
	case ASK_BACK:
		return correct(talk, last_question(talk));
	default:
		break;
	}
	if (judged && (answer[0] == '\0' || strcmp(answer, "yes") == 0))
		return finish(talk);
	if (strcmp(answer, "0") == 0)
		return INTERVIEW_DROP;
	if (number_read(answer, 1, QUESTION_COUNT, "", &line, &why) &&
	    question_on_line(talk, line) != QUESTION_COUNT)
		return correct(talk, question_on_line(talk, line));
	say(talk, "Type the number of one of the lines above.");
	return INTERVIEW_LEAVE;
}

enum interview_end
interview(struct desk *desk, const struct asker *asker, struct form *form,
	  bool from_summary)
{
	struct talk talk = {desk, asker, form, -1, from_summary};
	enum interview_end end = INTERVIEW_SAVE;

	if (!from_summary)
		end = ask_all(&talk);
	if (end != INTERVIEW_SAVE)
		return end;
	do
		end = summary_turn(&talk);
	while (end == INTERVIEW_LEAVE);
	return end;
}
