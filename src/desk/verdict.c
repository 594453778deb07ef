/* verdict.c: what can be said of a person while the form is being filled. */
#include "desk/verdict.h"

#include "base/text.h"

#include <string.h>

int
verdict_certain(const struct desk *desk, const struct form *form)
{
	struct findings unasked;

	form_unasked(form, &unasked);
	return decide_certain_today(&desk->policy, &form->visit, &unasked,
				    !form->answered[ASK_AGE]);
}

bool
verdict_all_certain(const struct desk *desk, const struct form *form,
		    struct decision *certain)
{
	struct findings unasked;

	form_unasked(form, &unasked);
	return decide_all_certain_today(&desk->policy, &form->visit, &unasked,
					!form->answered[ASK_AGE], certain);
}

void
verdict_write_instructions(const struct desk *desk,
			   const struct decision *decision, int columns,
			   FILE *out)
{
	const struct policy *policy = &desk->policy;
	char text[2000] = "";

	for (int i = 0;
	     i < decision->count && decision_is_deciding(policy, decision, i);
	     i++) {
		const char *advice = decision_advice(policy, decision, i);
		size_t used = strlen(text);

		if (advice[0] != '\0')
			snprintf(text + used, sizeof text - used, "%s%s",
				 used > 0 ? "; " : "", advice);
	}
	if (text[0] == '\0')
		return;
	fprintf(out, " > ");
	text_write_wrapped(out, text, columns, 3, 3);
}

void
verdict_write_today(const struct desk *desk, const struct decision *certain,
		    int columns, FILE *out)
{
	desk_write_causes(&desk->policy, certain, columns, out);
	verdict_write_instructions(desk, certain, columns, out);
	text_write_wrapped(out,
			   "Arrange transport now, then finish the questions: "
			   "the paper goes along.",
			   columns, 0, 0);
}

void
verdict_write_oddities(const struct visit *visit, int columns, FILE *out)
{
	char text[1024] = "", *line = text;
	FILE *lines = fmemopen(text, sizeof text, "w");

	if (lines == NULL)
		return;
	visit_write_oddities(visit, lines);
	fclose(lines);
	while (*line != '\0') {
		char *end = line + strcspn(line, "\n");
		bool last = *end == '\0';

		*end = '\0';
		text_write_wrapped(out, line, columns, 0, 0);
		line = last ? end : end + 1;
	}
}

/* Both depths are there: a rule that refers is worth knowing at once. */
static void
look_ahead(const struct desk *desk, struct verdict *verdict)
{
	struct fault ignored;

	verdict->kind = VERDICT_OPEN;
	if (!visit_check(&verdict->visit, &ignored))
		return;
	desk_judge(desk, &verdict->visit, &verdict->decision);
	if (verdict->visit.urgency != URGENCY_NO_REFERRAL)
		verdict->kind = VERDICT_SO_FAR;
}

void
verdict_reach(const struct desk *desk, const struct form *form,
	      struct verdict *verdict)
{
	verdict->visit = form->visit;
	verdict->rule = verdict_certain(desk, form);
	if (form_open(form, ASK_NUMBER) != QUESTION_COUNT) {
		verdict->kind = VERDICT_TODAY;
		if (!verdict_all_certain(desk, form, &verdict->decision))
			look_ahead(desk, verdict);
		return;
	}
	verdict->kind = VERDICT_REFUSED;
	if (!visit_check(&verdict->visit, &verdict->why))
		return;
	verdict->kind = VERDICT_WHOLE;
	desk_judge(desk, &verdict->visit, &verdict->decision);
}

bool
verdict_is_for_today(const struct verdict *verdict)
{
	return verdict->kind == VERDICT_TODAY ||
	       ((verdict->kind == VERDICT_WHOLE ||
		 verdict->kind == VERDICT_SO_FAR) &&
		verdict->visit.urgency == URGENCY_SAME_DAY);
}

bool
verdict_write_alarm(const struct desk *desk, const struct form *form,
		    int columns, FILE *out)
{
	const struct policy *policy = &desk->policy;
	char day[DAY_SIZE], words[100] = "*** SEND TODAY ***";
	struct verdict verdict;
	bool over = form->visit.screened_on.number < desk->today.number;

	verdict_reach(desk, form, &verdict);
	if (verdict.rule < 0 && !verdict_is_for_today(&verdict))
		return false;
	day_write(form->visit.screened_on, day);
	if (over)
		snprintf(words, sizeof words,
			 "*** THIS PERSON HAD TO BE SENT ON %s ***", day);
	text_write_wrapped(out, words, columns, 0, 0);
	if (verdict.rule >= 0)
		text_write_wrapped(
			out, policy_say(policy, &policy->rule[verdict.rule]),
			columns, 0, 0);
	if (over)
		text_write_wrapped(out,
				   "Find out at once whether the person went; "
				   "if not, call or fetch the person now.",
				   columns, 0, 0);
	return true;
}

/* The first line says what to do, the others (a policy that nobody approved)
 * are for the end. */
static void
write_urgency(const struct desk *desk, const struct verdict *verdict,
	      int columns, bool first, FILE *out)
{
	char text[600] = "";
	FILE *lines = fmemopen(text, sizeof text, "w");
	size_t length;

	if (lines == NULL)
		return;
	desk_write_urgency(&desk->policy, &verdict->visit, columns, lines);
	fclose(lines);
	length = strcspn(text, "\n");
	if (first)
		fprintf(out, "%.*s", (int)length, text);
	else if (text[length] != '\0')
		fputs(text + length + 1, out);
}

void
verdict_write_head(const struct desk *desk, const struct verdict *verdict,
		   FILE *out)
{
	enum { ONE_LINE = 200 };

	switch (verdict->kind) {
	case VERDICT_OPEN:
		fputs("No decision yet", out);
		break;
	case VERDICT_TODAY:
		fputs("*** SEND TODAY ***  Arrange transport now, then "
		      "finish: the paper goes along.",
		      out);
		break;
	case VERDICT_REFUSED:
		fputs("This cannot be saved yet", out);
		break;
	case VERDICT_SO_FAR:
		fputs("So far: ", out);
		write_urgency(desk, verdict, ONE_LINE, true, out);
		break;
	default:
		write_urgency(desk, verdict, ONE_LINE, true, out);
	}
}

static void
write_missing(const struct form *form, int columns, FILE *out)
{
	char text[QUESTION_COUNT * 40] = "Still missing:";
	const char *joint = " ";

	for (enum question at = form_open(form, ASK_NUMBER);
	     at != QUESTION_COUNT; at = form_open(form, at + 1)) {
		size_t used = strlen(text);

		snprintf(text + used, sizeof text - used, "%s%s", joint,
			 question_table[at].brief);
		joint = ", ";
	}
	text_write_wrapped(out, text, columns, 0, 0);
}

void
verdict_write_rest(const struct desk *desk, const struct form *form,
		   const struct verdict *verdict, int columns, FILE *out)
{
	switch (verdict->kind) {
	case VERDICT_OPEN:
		write_missing(form, columns, out);
		break;
	case VERDICT_TODAY:
		desk_write_causes(&desk->policy, &verdict->decision, columns,
				  out);
		break;
	case VERDICT_REFUSED:
		text_write_wrapped(out, verdict->why.sentence, columns, 0, 0);
		break;
	case VERDICT_SO_FAR:
		desk_write_causes(&desk->policy, &verdict->decision, columns,
				  out);
		write_missing(form, columns, out);
		break;
	default:
		desk_write_causes(&desk->policy, &verdict->decision, columns,
				  out);
		verdict_write_oddities(&verdict->visit, columns, out);
		write_urgency(desk, verdict, columns, false, out);
	}
}
