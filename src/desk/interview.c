/* interview.c: a person's form, asked line by line. */
#include "desk/interview.h"

#include "base/text.h"
#include "paper/drawing.h"

#include <string.h>

/* A running interview: the form of its dialog. */
struct talk {
	struct desk *desk;
	const struct asker *asker;
	struct form *form;
	int announced;	  /* the same-day rule already told, or -1 */
	bool twins_shown; /* for the name as it stands */
	bool judged;	  /* the summary was reached */
};

struct asker
interview_asker(const struct desk *desk)
{
	return (struct asker){desk->in, desk->talk, !desk->in_is_terminal,
			      desk->columns};
}

static void
show_grades(FILE *out)
{
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
help(int question, int columns, FILE *out)
{
	if (question_table[question].kind == ANSWER_DEPTH)
		show_grades(out);
	question_write_help((enum question)question, columns, out);
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
	say(talk, policy_say(policy, rule));
	if (rule->advise != 0)
		say(talk, policy_advise(policy, rule));
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

static void
after(void *form, int question)
{
	struct talk *talk = form;

	if (question == ASK_NAME)
		talk->twins_shown = false;
	if (question == ASK_SEX || (question == ASK_NAME && talk->judged))
		show_twins(talk);
	announce(talk);
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

/* The decision stands nearest to the prompt. */
static bool
judge(void *form)
{
	struct talk *talk = form;
	const struct policy *policy = &talk->desk->policy;
	struct visit *visit = &talk->form->visit;
	int columns = talk->asker->columns;
	struct decision decision;
	struct fault why;

	talk->judged = true;
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

static int
next(const void *form, int question)
{
	const struct talk *talk = form;

	return (int)(question < 0
			     ? form_first(talk->form)
			     : form_next(talk->form, (enum question)question));
}

static int
back(const void *form, int question)
{
	const struct talk *talk = form;

	return (int)form_back(talk->form, (enum question)question);
}

static bool
is_open(const void *form, int question)
{
	const struct talk *talk = form;

	return !talk->form->answered[question] &&
	       form_asks(talk->form, (enum question)question);
}

static bool
is_keyed(int question)
{
	return question_table[question].kind == ANSWER_CHOICE ||
	       question_table[question].kind == ANSWER_FINDINGS;
}

static void
title(int question, char *text)
{
	text_copy(text, DIALOG_TITLE_SIZE, question_table[question].title);
}

static void
show(const void *form, int question, char *shown)
{
	const struct talk *talk = form;

	form_show(talk->form, (enum question)question, shown);
}

static void
choices(int question, int columns, FILE *out)
{
	question_write_choices((enum question)question, columns, out);
}

static bool
answer(void *form, int question, const char *text, int *last, struct fault *why)
{
	struct talk *talk = form;

	*last = question;
	return form_answer(talk->form, (enum question)question, text, why);
}

enum dialog_end
interview(struct desk *desk, const struct asker *asker, struct form *form,
	  bool from_summary)
{
	static const struct dialog_kind kind = {
		QUESTION_COUNT, "the person", next, back,    is_open,
		is_keyed,	title,	      show, choices, help,
		answer,		after,	      NULL, NULL,    judge};
	struct talk talk = {desk, asker, form, -1, from_summary, false};

	return dialog(asker, &kind, &talk, from_summary);
}
