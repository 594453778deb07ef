/* interview.c: a person's form, asked line by line. */
#include "desk/interview.h"

#include "base/text.h"
#include "desk/twins.h"
#include "desk/verdict.h"
#include "paper/drawing.h"

#include <string.h>

enum { TOLD_SIZE = 2000 };

/* A running interview: the form of its dialog. */
struct talk {
	struct desk *desk;
	const struct asker *asker;
	struct form *form;
	struct session *session; /* or NULL */
	bool announced;		 /* that somebody must go today */
	char told[TOLD_SIZE];	 /* with what has to be done then */
	bool twins_shown;	 /* for the name as it stands */
	bool judged;		 /* the summary was reached */
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

/* Takes the advice of all rules that are certain as told; whether any of it is
 * new. */
static bool
take_advice(struct talk *talk, const struct decision *certain)
{
	const struct policy *policy = &talk->desk->policy;
	bool is_new = !talk->announced;

	talk->announced = true;
	for (int i = 0; i < certain->count; i++) {
		const char *advice = decision_advice(policy, certain, i);
		size_t used = strlen(talk->told);

		if (strstr(talk->told, advice) != NULL)
			continue;
		is_new = true;
		snprintf(talk->told + used, sizeof talk->told - used, "%s\n",
			 advice);
	}
	return is_new;
}

/* Says so the moment it is certain: the rest of the questions must not hold
 * anybody up who has to go today; and again when more has to be done for it,
 * such as a shield over the eye. */
static void
announce(struct talk *talk)
{
	FILE *out = talk->asker->talk;
	struct decision certain;

	if (!verdict_all_certain(talk->desk, talk->form, &certain)) {
		talk->announced = false;
		talk->told[0] = '\0';
		return;
	}
	if (!take_advice(talk, &certain))
		return;
	fprintf(out, "\n*** SEND TODAY ***\n");
	verdict_write_today(talk->desk, &certain, talk->asker->columns, out);
	fprintf(out, "\n");
}

static void
show_twins(struct talk *talk)
{
	FILE *out = talk->asker->talk;
	struct fault why;
	int count;

	if (talk->twins_shown || !twins_matter(talk->form))
		return;
	talk->twins_shown = true;
	if (!twins_write(talk->desk, talk->form, talk->asker->columns, "\n",
			 out, &count, &why))
		say(talk, why.sentence);
	if (count > 0) {
		say(talk, "If so, drop this entry at the end (0), or correct "
			  "the first one.");
		fprintf(out, "\n");
	}
}

/* What was answered is put aside at once; that it cannot be is told once. */
static void
keep_draft(struct talk *talk)
{
	struct fault trouble;

	if (talk->session == NULL)
		return;
	draft_keep(&talk->session->draft, talk->form, talk->session->newest);
	if (draft_trouble(&talk->session->draft, &trouble)) {
		say(talk, "From here on an unfinished person is not kept when "
			  "the power fails:");
		say(talk, trouble.sentence);
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
	keep_draft(talk);
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
	verdict_write_oddities(visit, columns, talk->asker->talk);
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
	struct form before = *talk->form;

	*last = question;
	if (!form_answer(talk->form, (enum question)question, text, why))
		return false;
	if (question != ASK_NUMBER ||
	    twins_check_number(talk->desk, talk->form, why))
		return true;
	*talk->form = before;
	return false;
}

enum dialog_end
interview(struct desk *desk, const struct asker *asker, struct form *form,
	  struct session *session, bool from_summary)
{
	/* Who is kept already is not dropped. */
	const char *drops = from_summary && session == NULL ? "the changes"
							    : "the person";
	const struct dialog_kind kind = {QUESTION_COUNT, drops,	  next,
					 back,		 is_open, is_keyed,
					 title,		 show,	  choices,
					 help,		 answer,  after,
					 NULL,		 NULL,	  judge};
	struct talk talk = {.desk = desk,
			    .asker = asker,
			    .form = form,
			    .session = session,
			    .twins_shown = from_summary};

	return dialog(asker, &kind, &talk, from_summary);
}
