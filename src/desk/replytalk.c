/* replytalk.c: a reply from the clinic, asked line by line. */
#include "desk/replytalk.h"

#include "base/text.h"
#include "clinic/angle.h"
#include "clinic/lookfor.h"
#include "desk/replyquestion.h"

#include <string.h>

enum { LINE_SIZE = 600 };

/* A running dialog: its form. */
struct talk {
	struct desk *desk;
	const struct asker *asker;
	const struct visit *visit;
	struct reply_form *form;
	unsigned told[EYE_COUNT]; /* what to look for */
};

void
reply_talk_begin(const struct asker *asker)
{
	static const char *const lines[] = {"Before the lens touches the eye: "
					    "the patient is informed, the "
					    "eye anaesthetised, the lens "
					    "disinfected.",
					    "Dim light; a short, narrow beam, "
					    "kept off the pupil.",
					    "The inferior quadrant first, then "
					    "the others; then with "
					    "indentation."};

	for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
		fprintf(asker->talk, " - ");
		text_write_wrapped(asker->talk, lines[i], asker->columns, 3, 3);
	}
	text_write_wrapped(asker->talk,
			   "Enter alone: not recorded. = as in the quadrant "
			   "before, == so for the rest of the eye; at the left "
			   "eye's first quadrant as in the right eye. < goes "
			   "back, ? explains.",
			   asker->columns, 0, 0);
}

void
reply_talk_class(const struct policy *policy, const struct reply *reply,
		 int columns, FILE *out)
{
	for (int eye = 0;
	     reply->outcome != OUTCOME_NOT_ATTENDED && eye < EYE_COUNT; eye++) {
		char line[LINE_SIZE] = "";
		FILE *to = fmemopen(line, sizeof line, "w");

		if (to == NULL)
			return;
		angle_write(reply, (enum eye)eye, policy, to);
		fclose(to);
		fprintf(out, "Class, ");
		text_write_wrapped(out, line, columns, 7, 3);
	}
}

/* All, or only what was not told yet. */
static void
tell_look_for(struct talk *talk, const struct reply *reply, bool all)
{
	for (int eye = 0; eye < EYE_COUNT; eye++) {
		unsigned set = look_for(reply, talk->visit, (enum eye)eye);
		unsigned fresh = all ? set : set & ~talk->told[eye];

		talk->told[eye] = set;
		for (int i = 0; i < LOOK_FOR_COUNT; i++) {
			char line[LINE_SIZE];
			bool both = i == LOOK_FOR_SWELLING;

			if ((fresh & 1U << i) == 0 || (both && eye != 0))
				continue;
			snprintf(line, sizeof line, "%s%s%s",
				 both ? "" : eye_name((enum eye)eye),
				 both ? "" : " eye: ",
				 look_for_words((enum look_for)i));
			fprintf(talk->asker->talk, " > ");
			text_write_wrapped(talk->asker->talk, line,
					   talk->asker->columns, 3, 3);
		}
	}
}

static void
after(void *form, int question)
{
	struct talk *talk = form;
	struct reply reply;

	(void)question;
	reply_ask_settle(talk->form, &reply);
	tell_look_for(talk, &reply, false);
}

/* By the question's title instead of the field's name. */
static void
say_fault(const struct talk *talk, const struct fault *why)
{
	size_t length = strcspn(why->sentence, ":");
	char name[40], title[DIALOG_TITLE_SIZE + FAULT_SENTENCE_SIZE] = "";

	snprintf(name, sizeof name, "%.*s", (int)length, why->sentence);
	if (fields_find(reply_fields, name) != NULL)
		reply_question_title(reply_question_index(name), title);
	else
		length = 0;
	snprintf(title + strlen(title), FAULT_SENTENCE_SIZE, "%s",
		 why->sentence + length);
	text_write_wrapped(talk->asker->talk, title, talk->asker->columns, 0,
			   0);
}

static bool
judge(void *form)
{
	struct talk *talk = form;
	struct reply reply;
	struct fault why;
	int columns = talk->asker->columns;

	reply_ask_settle(talk->form, &reply);
	reply_talk_class(&talk->desk->policy, &reply, columns,
			 talk->asker->talk);
	tell_look_for(talk, &reply, true);
	if (reply_check(&reply, talk->visit->screened_on, talk->desk->today,
			&why))
		return true;
	say_fault(talk, &why);
	return false;
}

static int
next(const void *form, int question)
{
	return reply_ask_next(((const struct talk *)form)->form, question);
}

static int
back(const void *form, int question)
{
	return reply_ask_back(((const struct talk *)form)->form, question);
}

static bool
is_open(const void *form, int question)
{
	return reply_ask_is_open(((const struct talk *)form)->form, question);
}

static void
show(const void *form, int question, char *shown)
{
	reply_ask_show(((const struct talk *)form)->form, question, shown);
}

static bool
answer(void *form, int question, const char *text, int *last, struct fault *why)
{
	*last = question;
	return reply_ask_answer(((struct talk *)form)->form, last, text, why);
}

static void
summary_line(const void *form, int question, char *label, char *shown)
{
	reply_ask_line(((const struct talk *)form)->form, question, label,
		       shown);
}

static bool
is_begun(const struct reply_form *form)
{
	for (int i = 0; i < (int)reply_fields.count; i++)
		if (form->answered[i])
			return true;
	return false;
}

/* One "<" or 0 too many does not throw answers away. */
static enum dialog_end
ask_leave(const struct asker *asker, const struct reply_form *form,
	  const char *lead)
{
	char typed[ASK_ANSWER_SIZE];

	if (!is_begun(form))
		return DIALOG_LEAVE;
	for (;;) {
		fprintf(asker->talk,
			"%s\n"
			" 1 go on with the reply\n"
			" 2 leave; nothing of it is kept\n",
			lead);
		if (ask(asker, "Number", "1", typed) == ASK_ENDED)
			return DIALOG_ENDED;
		if (typed[0] == '\0' || strcmp(typed, "1") == 0)
			return DIALOG_SAVE;
		if (strcmp(typed, "2") == 0)
			return DIALOG_LEAVE;
	}
}

enum dialog_end
reply_talk(struct desk *desk, const struct asker *asker,
	   const struct visit *visit, struct reply_form *form,
	   bool from_summary)
{
	const struct dialog_kind kind = {(int)reply_fields.count,
					 "the reply",
					 next,
					 back,
					 is_open,
					 reply_question_is_keyed,
					 reply_question_title,
					 show,
					 reply_question_choices,
					 reply_question_help,
					 answer,
					 after,
					 reply_ask_line_end,
					 summary_line,
					 judge};
	struct talk talk = {desk, asker, visit, form, {0, 0}};
	enum dialog_end end, left;

	form->screened_on = visit->screened_on;
	do {
		end = left = dialog(asker, &kind, &talk, from_summary);
		if (end == DIALOG_LEAVE)
			end = ask_leave(asker, form,
					"There is no question before this "
					"one.");
		else if (end == DIALOG_DROP)
			end = ask_leave(asker, form, "Leave this reply?");
		from_summary |= left == DIALOG_DROP;
	} while (left != DIALOG_SAVE && end == DIALOG_SAVE);
	if (end == DIALOG_SAVE)
		reply_ask_settle(form, &form->reply);
	return end;
}
