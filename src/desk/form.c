/* form.c: the questions about one person, without a terminal. */
#include "desk/form.h"

#include "base/text.h"

#include <string.h>

void
form_init(struct form *form, bool paper)
{
	memset(form, 0, sizeof *form);
	visit_init(&form->visit);
	form->paper = paper;
}

void
form_load(struct form *form, const struct visit *visit)
{
	form_init(form, false);
	form->visit = *visit;
	for (int i = 0; i < QUESTION_COUNT; i++)
		form->answered[i] = form_asks(form, (enum question)i);
}

bool
form_asks(const struct form *form, enum question question)
{
	switch (question) {
	case ASK_NUMBER:
		return form->paper;
	case ASK_WHY_RIGHT:
		return form->visit.depth_right == DEPTH_NOT_GRADABLE;
	case ASK_WHY_LEFT:
		return form->visit.depth_left == DEPTH_NOT_GRADABLE;
	case ASK_PRESSURE_RIGHT:
		return form->visit.depth_right != DEPTH_NO_EYE ||
		       form->visit.pressure_right != FIELD_BLANK;
	case ASK_PRESSURE_LEFT:
		return form->visit.depth_left != DEPTH_NO_EYE ||
		       form->visit.pressure_left != FIELD_BLANK;
	default:
		return true;
	}
}

enum question
form_next(const struct form *form, enum question question)
{
	int next = (int)question + 1;

	while (next < QUESTION_COUNT && !form_asks(form, (enum question)next))
		next++;
	return (enum question)next;
}

enum question
form_back(const struct form *form, enum question question)
{
	int back = (int)question - 1;

	while (back >= 0 && !form_asks(form, (enum question)back))
		back--;
	return back < 0 ? question : (enum question)back;
}

enum question
form_first(const struct form *form)
{
	return form->paper ? ASK_NUMBER : ASK_NAME;
}

enum question
form_open(const struct form *form, enum question from)
{
	int question = (int)from;

	while (question < QUESTION_COUNT &&
	       (form->answered[question] ||
		!form_asks(form, (enum question)question)))
		question++;
	return (enum question)question;
}

bool
form_is_begun(const struct form *form)
{
	for (int i = 0; i < QUESTION_COUNT; i++)
		if (form->answered[i])
			return true;
	return false;
}

static void
clear_group(struct findings *findings, const struct question_row *row)
{
	finding_set others = ~findings_of_group(row->group);

	if (row->group == GROUP_SIGNS || row->group == GROUP_EYE_PAST)
		findings->eye[row->eye] &= others;
	else
		findings->person &= others;
}

static bool
answer_findings(struct form *form, const struct question_row *row,
		const char *answer, struct fault *why)
{
	struct findings read = form->visit.findings;
	int most = question_keys(row->group);
	bool sound = strspn(answer, " ,") < strlen(answer);

	clear_group(&read, row);
	for (; sound && *answer != '\0'; answer++) {
		if (*answer == ' ' || *answer == ',')
			continue;
		sound = *answer >= '1' && *answer <= '0' + most;
		if (sound)
			findings_add(&read,
				     question_finding(row->group,
						      *answer - '0'),
				     row->eye);
	}
	if (sound) {
		form->visit.findings = read;
		return true;
	}
	return fault_set(why, FAULT_INPUT,
			 "type the numbers of the lines that apply, each 1 to "
			 "%d, such as 1 3, or Enter for none",
			 most);
}

static bool
answer_age(struct form *form, char *answer, struct fault *why)
{
	size_t length = strlen(answer);
	bool estimated = length > 0 && answer[length - 1] == '*';

	if (estimated)
		answer[length - 1] = '\0';
	text_trim(answer);
	if (answer[0] == '\0')
		return fault_set(why, FAULT_INPUT,
				 "age_years: the star stands behind an age, "
				 "such as 60*");
	if (!field_read(question_field(ASK_AGE), answer, &form->visit, why))
		return false;
	form->visit.age_estimated = estimated ? ANSWER_YES : ANSWER_NO;
	return true;
}

static void
take_away(struct form *form, enum question question)
{
	if (question_table[question].kind == ANSWER_FINDINGS)
		clear_group(&form->visit.findings, &question_table[question]);
	else
		field_blank(question_field(question), &form->visit);
	if (question == ASK_AGE)
		form->visit.age_estimated = FIELD_BLANK;
}

/* What an answer makes pointless is taken away with it. */
static void
settle(struct form *form)
{
	static const enum question dependent[] = {ASK_WHY_RIGHT, ASK_WHY_LEFT,
						  ASK_PRESSURE_RIGHT,
						  ASK_PRESSURE_LEFT};

	for (size_t i = 0; i < sizeof dependent / sizeof dependent[0]; i++)
		if (!form_asks(form, dependent[i])) {
			take_away(form, dependent[i]);
			form->answered[dependent[i]] = false;
		}
}

/* An empty answer keeps what is there; some questions need one. */
static bool
keep(struct form *form, enum question question, struct fault *why)
{
	if (question_is_needed(question) &&
	    field_is_blank(question_field(question), &form->visit))
		return fault_set(why, FAULT_INPUT,
				 "an answer is needed here; ? explains");
	form->answered[question] = true;
	return true;
}

/* An eye at which something was seen or measured is there: a mistyped - would
 * take its signs out of all rules, and the alarm off the screen. */
static bool
answer_depth(struct form *form, const struct question_row *row,
	     const char *answer, struct fault *why)
{
	struct visit read = form->visit;
	bool seen = (read.findings.eye[row->eye] &
		     findings_of_group(GROUP_SIGNS)) != 0;

	if (!field_read(fields_find(visit_fields, row->field), answer, &read,
			why))
		return false;
	if (visit_depth(&read, row->eye) == DEPTH_NO_EYE &&
	    (seen || visit_pressure(&read, row->eye) != FIELD_BLANK))
		return fault_set(why, FAULT_INPUT,
				 "- says that there is no eye, but %s recorded "
				 "for it; type x when it could not be graded, "
				 "or take %s away first",
				 seen ? "signs are" : "a pressure is",
				 seen ? "the signs" : "the pressure");
	form->visit = read;
	return true;
}

/* The question stands beside the sentence: the name of its column, which a
 * sheet needs, would only puzzle. Always false. */
static bool
drop_name(enum question question, struct fault *why)
{
	const struct field *field = question_field(question);
	size_t length = field == NULL ? 0 : strlen(field->name);

	if (length > 0 && strncmp(why->sentence, field->name, length) == 0 &&
	    strncmp(why->sentence + length, ": ", 2) == 0)
		memmove(why->sentence, why->sentence + length + 2,
			strlen(why->sentence + length + 2) + 1);
	return false;
}

bool
form_answer(struct form *form, enum question question, const char *answer,
	    struct fault *why)
{
	const struct question_row *row = &question_table[question];
	char typed[1024];
	bool done = true;

	if (!text_copy(typed, sizeof typed, answer))
		return fault_set(why, FAULT_INPUT, "the answer is too long");
	if (typed[0] == '\0')
		return keep(form, question, why);
	if (strcmp(typed, "-") == 0 && row->kind != ANSWER_DEPTH) {
		if (question_is_needed(question))
			return fault_set(why, FAULT_INPUT,
					 "an answer is needed here; ? "
					 "explains");
		take_away(form, question);
	} else if (row->kind == ANSWER_FINDINGS) {
		done = answer_findings(form, row, typed, why);
	} else if (row->kind == ANSWER_CHOICE) {
		done = question_read_word(question_field(question), typed,
					  &form->visit, why);
	} else if (row->kind == ANSWER_AGE) {
		done = answer_age(form, typed, why);
	} else if (row->kind == ANSWER_DEPTH) {
		done = answer_depth(form, row, typed, why);
	} else {
		done = field_read(question_field(question), typed, &form->visit,
				  why);
	}
	if (!done)
		return drop_name(question, why);
	form->answered[question] = true;
	settle(form);
	return true;
}

static void
show_findings(const struct form *form, const struct question_row *row,
	      char *shown)
{
	const struct findings *findings = &form->visit.findings;
	finding_set set = row->group == GROUP_SIGNS ||
					  row->group == GROUP_EYE_PAST
				  ? findings->eye[row->eye]
				  : findings->person;

	set &= findings_of_group(row->group);
	for (int i = 0; i < FINDING_COUNT; i++) {
		size_t used = strlen(shown);

		if (set & finding_bit((enum finding)i))
			snprintf(shown + used, FORM_SHOWN_SIZE - used, "%s%s",
				 used > 0 ? "; " : "",
				 finding_about((enum finding)i));
	}
}

void
form_show(const struct form *form, enum question question, char *shown)
{
	const struct question_row *row = &question_table[question];
	char value[FIELD_TEXT_SIZE] = "";

	shown[0] = '\0';
	if (row->kind == ANSWER_FINDINGS) {
		show_findings(form, row, shown);
	} else {
		field_write(question_field(question), &form->visit, value,
			    sizeof value);
		if (row->kind == ANSWER_CHOICE)
			question_spell(value);
		snprintf(shown, FORM_SHOWN_SIZE, "%.*s%s", FORM_SHOWN_SIZE - 2,
			 value,
			 question == ASK_AGE &&
					 form->visit.age_estimated == ANSWER_YES
				 ? "*"
				 : "");
	}
	if (shown[0] == '\0')
		snprintf(shown, FORM_SHOWN_SIZE, "%s", row->nothing);
}

void
form_unasked(const struct form *form, struct findings *unasked)
{
	memset(unasked, 0, sizeof *unasked);
	for (int i = 0; i < QUESTION_COUNT; i++) {
		finding_set group = findings_of_group(question_table[i].group);

		if (question_table[i].kind != ANSWER_FINDINGS ||
		    form->answered[i])
			continue;
		if (question_table[i].group == GROUP_COMPLAINTS ||
		    question_table[i].group == GROUP_RISKS)
			unasked->person |= group;
		else
			unasked->eye[question_table[i].eye] |= group;
	}
}
