/* replyask.c: the questions about one reply, without a terminal. */
#include "desk/replyask.h"

#include "base/text.h"
#include "desk/dialog.h"
#include "desk/question.h"
#include "desk/replyquestion.h"

#include <string.h>

static const struct field *
field_of(int question)
{
	return reply_question_field(question);
}

static bool
is_named(int question, const char *name)
{
	return strcmp(field_of(question)->name, name) == 0;
}

static bool
is_asked(const struct reply_form *form, int question)
{
	const struct field *field = field_of(question);
	int outcome = form->reply.outcome;

	if (field->origin != FIELD_TYPED || is_named(question, "number"))
		return false;
	if (is_named(question, "why_not"))
		return outcome == OUTCOME_NOT_ATTENDED;
	if (is_named(question, "seen_where"))
		return outcome == OUTCOME_ELSEWHERE;
	return outcome != OUTCOME_NOT_ATTENDED || field->need == FIELD_NEEDED ||
	       is_named(question, "next_visit");
}

void
reply_ask_init(struct reply_form *form, struct refnum number, struct day today)
{
	memset(form, 0, sizeof *form);
	reply_init(&form->reply);
	form->reply.number = number;
	form->today = today;
	form->screened_on = day_none();
}

void
reply_ask_load(struct reply_form *form, const struct reply *reply,
	       struct day today)
{
	reply_ask_init(form, reply->number, today);
	form->reply = *reply;
	for (int i = 0; i < (int)reply_fields.count; i++)
		form->answered[i] = is_asked(form, i);
}

int
reply_ask_next(const struct reply_form *form, int question)
{
	int count = (int)reply_fields.count;

	do
		question++;
	while (question < count && !is_asked(form, question));
	return question;
}

int
reply_ask_back(const struct reply_form *form, int question)
{
	int back = question - 1;

	while (back >= 0 && !is_asked(form, back))
		back--;
	return back < 0 ? question : back;
}

bool
reply_ask_is_open(const struct reply_form *form, int question)
{
	return !form->answered[question] && is_asked(form, question);
}

void
reply_ask_show(const struct reply_form *form, int question, char *shown)
{
	reply_question_value(&form->reply, question, shown);
	if (shown[0] == '\0' && field_of(question)->need != FIELD_NEEDED)
		text_copy(shown, DIALOG_SHOWN_SIZE, "not recorded");
}

/* "=" up to the end of the quadrant, "==" of the eye's quadrants. */
static bool
repeat(struct reply_form *form, int *question, bool on, struct fault *why)
{
	struct reply_place place = reply_question_place(*question);
	char *record = (char *)&form->reply;
	int end = place.end, back = *question - place.before;

	if (place.before < 0)
		return fault_set(why, FAULT_INPUT,
				 "= repeats the quadrant before, or at the "
				 "left eye's first the right eye's; there is "
				 "none before this");
	while (on && !place.once && !reply_question_place(end).once)
		end++;
	for (int to = *question; to < end; to++) {
		memcpy(record + field_of(to)->offset,
		       record + field_of(to - back)->offset,
		       field_of(to)->size);
		form->answered[to] = true;
	}
	*question = end - 1;
	return true;
}

static bool
read_keys(const struct field *field, const char *text, void *record,
	  struct fault *why)
{
	int set = 0, most = 0;
	size_t length;

	while (field_word(field->words, most, &length) != NULL)
		most++;
	for (; *text != '\0'; text++) {
		if (*text == ' ' || *text == ',')
			continue;
		if (*text < '1' || *text > '0' + most)
			return fault_set(why, FAULT_INPUT,
					 "type the numbers of the lines that "
					 "apply, each 1 to %d, such as 1 3",
					 most);
		set |= 1 << (*text - '1');
	}
	*(int *)(void *)((char *)record + field->offset) = set;
	return true;
}

/* The day on which it was learnt that somebody did not come is most often
 * today; the day somebody was seen is not. The one is never the other, so when
 * the outcome is put right the day is asked anew. */
static void
offer_today(struct reply_form *form, int before)
{
	bool *answered = &form->answered[reply_question_index("seen_on")];

	if ((before == OUTCOME_NOT_ATTENDED) !=
	    (form->reply.outcome == OUTCOME_NOT_ATTENDED))
		*answered = false;
	if (!*answered)
		form->reply.seen_on = form->reply.outcome ==
						      OUTCOME_NOT_ATTENDED
					      ? form->today
					      : day_none();
}

static bool
take(struct reply_form *form, int *question, const char *text,
     struct fault *why)
{
	const struct field *field = field_of(*question);
	bool keeps = text[0] == '\0', removes = strcmp(text, "-") == 0;
	int outcome = form->reply.outcome;
	bool done = true;

	if (strcmp(text, "=") == 0 || strcmp(text, "==") == 0)
		return repeat(form, question, text[1] == '=', why);
	if (field->need == FIELD_NEEDED &&
	    (removes || (keeps && field_is_blank(field, &form->reply))))
		return fault_set(why, FAULT_INPUT,
				 "an answer is needed here; ? explains");
	if (removes)
		field_blank(field, &form->reply);
	else if (!keeps && field->kind == &field_set)
		done = read_keys(field, text, &form->reply, why);
	else if (!keeps && field->kind == &field_choice)
		done = question_read_word(field, text, &form->reply, why);
	else if (!keeps)
		done = field_read(field, text, &form->reply, why);
	if (!done)
		return false;
	form->answered[*question] = true;
	if (is_named(*question, "outcome"))
		offer_today(form, outcome);
	return true;
}

/* Told at once where it was answered, not in the summary: a day before the
 * screening, an iris that inserts in front of what was seen. The answer of a
 * field that stands before is taken all the same, or a mistake in it could
 * never be put right. */
static bool
contradicts(const struct reply_form *form, int first, int last,
	    struct fault *why)
{
	struct reply reply;
	struct fault one;
	char name[40];

	reply_ask_settle(form, &reply);
	if (reply_check(&reply, form->screened_on, form->today, &one))
		return false;
	snprintf(name, sizeof name, "%.*s", (int)strcspn(one.sentence, ":"),
		 one.sentence);
	for (int i = first; i <= last; i++)
		if (is_named(i, name)) {
			fault_set(why, one.kind, "%s",
				  one.sentence + strlen(name) + 2);
			return true;
		}
	return false;
}

bool
reply_ask_answer(struct reply_form *form, int *question, const char *text,
		 struct fault *why)
{
	struct reply_form before = *form;
	int first = *question;

	if (!take(form, question, text, why))
		return false;
	if (!contradicts(form, first, *question, why))
		return true;
	*form = before;
	*question = first;
	return false;
}

int
reply_ask_line_end(int question)
{
	struct reply_place place = reply_question_place(question);

	return place.first < 0 ? question : place.end - 1;
}

void
reply_ask_line(const struct reply_form *form, int question, char *label,
	       char *shown)
{
	struct reply_place place = reply_question_place(question);
	size_t used = 0;

	if (place.first < 0) {
		reply_question_title(question, label);
		reply_ask_show(form, question, shown);
		return;
	}
	reply_question_eye(question, label);
	shown[0] = '\0';
	for (int i = place.first; i < place.end; i++) {
		char value[DIALOG_SHOWN_SIZE];
		const char *name = field_of(i)->name;

		reply_question_value(&form->reply, i, value);
		if (value[0] != '\0' && used < DIALOG_SHOWN_SIZE)
			used += (size_t)snprintf(
				shown + used, DIALOG_SHOWN_SIZE - used,
				"%s%.*s %.60s", used == 0 ? "" : ", ",
				(int)strcspn(name, "_"), name, value);
	}
	if (used == 0)
		text_copy(shown, DIALOG_SHOWN_SIZE, "not recorded");
}

void
reply_ask_settle(const struct reply_form *form, struct reply *reply)
{
	*reply = form->reply;
	for (int i = 0; i < (int)reply_fields.count; i++)
		if (field_of(i)->origin == FIELD_TYPED &&
		    !is_named(i, "number") && !is_asked(form, i))
			field_blank(field_of(i), reply);
}
