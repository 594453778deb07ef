/* replyquestion.c: a field of the reply, as a question. */
#include "desk/replyquestion.h"

#include "base/text.h"
#include "desk/dialog.h"

#include <ctype.h>
#include <string.h>

const struct field *
reply_question_field(int question)
{
	return &reply_fields.field[question];
}

int
reply_question_index(const char *name)
{
	return (int)(fields_find(reply_fields, name) - reply_fields.field);
}

struct reply_place
reply_question_place(int question)
{
	int base = reply_question_index("deepest_right_superior");
	int quadrant = reply_question_index("deepest_right_inferior") - base;
	int eye = reply_question_index("deepest_left_superior") - base;
	int in_eye = question - base;
	bool left = in_eye >= eye;
	struct reply_place place = {-1, -1, -1, false, false};

	if (in_eye < 0 || in_eye >= EYE_COUNT * eye)
		return place;
	in_eye -= left ? eye : 0;
	place.once = in_eye >= QUADRANT_COUNT * quadrant;
	place.first = question - (place.once
					  ? in_eye - QUADRANT_COUNT * quadrant
					  : in_eye % quadrant);
	place.end = place.once ? base + (left ? 2 : 1) * eye
			       : place.first + quadrant;
	if (!place.once && in_eye >= quadrant)
		place.before = question - quadrant;
	else if (left)
		place.before = question - eye;
	place.as_right = left && place.before == question - eye;
	return place;
}

bool
reply_question_is_keyed(int question)
{
	return reply_question_field(question)->kind == &field_choice ||
	       reply_question_field(question)->kind == &field_set;
}

/* A word as a person reads it. */
static void
spell(const char *code, char *text, size_t size)
{
	static const char line[] = "schwalbes_line";
	size_t used = 0;

	for (; *code != '\0' && used + 16 < size; code++) {
		if (strncmp(code, line, sizeof line - 1) == 0) {
			used += (size_t)snprintf(text + used, size - used,
						 "Schwalbe's line");
			code += sizeof line - 2;
			continue;
		}
		text[used++] = *code;
		if (*code == '_')
			text[used - 1] = ' ';
		if (*code == ';')
			text[used++] = ' ';
	}
	text[used] = '\0';
}

void
reply_question_value(const struct reply *reply, int question, char *shown)
{
	char value[FIELD_TEXT_SIZE];

	field_write(reply_question_field(question), reply, value, sizeof value);
	if (reply_question_is_keyed(question))
		spell(value, shown, DIALOG_SHOWN_SIZE);
	else
		snprintf(shown, DIALOG_SHOWN_SIZE, "%.*s",
			 DIALOG_SHOWN_SIZE - 1, value);
}

/* What a field's words say of eye and quadrant, ", right superior"; NULL for
 * those of the person. */
static const char *
eye_in(const char *about)
{
	const char *right = strstr(about, ", right ");

	return right != NULL ? right : strstr(about, ", left ");
}

void
reply_question_eye(int question, char *label)
{
	const char *eye = eye_in(reply_question_field(question)->about);
	bool right = eye[2] == 'r';
	const char *quadrant = eye + (right ? 8 : 7);
	bool once = strcmp(quadrant, "eye") == 0;

	snprintf(label, DIALOG_TITLE_SIZE, "%s eye%s%s",
		 right ? "RIGHT" : "LEFT", once ? "" : ", ",
		 once ? "" : quadrant);
}

void
reply_question_title(int question, char *title)
{
	const struct field *field = reply_question_field(question);
	const char *eye = eye_in(field->about);
	const char *unit = field->kind == &field_count ? field->words : "";
	size_t used;

	if (eye == NULL) {
		snprintf(title, DIALOG_TITLE_SIZE, "%s", field->about);
		title[0] = (char)toupper((unsigned char)title[0]);
		return;
	}
	reply_question_eye(question, title);
	used = strlen(title);
	snprintf(title + used, DIALOG_TITLE_SIZE - used, ": %.*s%s%s",
		 (int)(eye - field->about), field->about,
		 unit[0] == '\0' ? "" : ", in ", unit);
}

/* Which quadrant "=" repeats, where a quadrant begins: the one before it may be
 * of the other eye. */
static void
write_repeats(int question, int columns, FILE *out)
{
	struct reply_place place = reply_question_place(question);
	char eye[DIALOG_TITLE_SIZE], line[DIALOG_TITLE_SIZE + 60];

	if (place.before < 0 || place.once || place.first != question)
		return;
	reply_question_eye(place.before, eye);
	snprintf(line, sizeof line, "= as %s; == %s", eye,
		 place.as_right ? "each quadrant as in the right eye"
				: "so to the end of the eye");
	fputc(' ', out);
	text_write_wrapped(out, line, columns, 1, 3);
}

/* A line for each the first time, and one for all from the next quadrant on:
 * they are known by then, and would push the quadrants out of sight. */
void
reply_question_choices(int question, int columns, FILE *out)
{
	bool again = reply_question_place(question).before >= 0;
	const char *words = reply_question_field(question)->words, *word;
	size_t length, used = 0;
	char code[64], line[400];

	for (int i = 0; (word = field_word(words, i, &length)); i++) {
		used += (size_t)snprintf(line + used, sizeof line - used,
					 "%s%d ", used > 0 ? ", " : "", i + 1);
		snprintf(code, sizeof code, "%.*s", (int)length, word);
		spell(code, line + used, sizeof line - used);
		used += strlen(line + used);
		if (again && field_word(words, i + 1, &length) != NULL)
			continue;
		fputc(' ', out);
		text_write_wrapped(out, line, columns, 1, again ? 1 : 3);
		used = 0;
	}
	write_repeats(question, columns, out);
}

void
reply_question_help(int question, int columns, FILE *out)
{
	/* clang-format off */
	static const struct { const char *stem, *help; } helps[] = {
	{"outcome", "Attended: seen at the clinic named on the slip. "
		"Elsewhere: seen by another one. Not attended: it is known "
		"that the person did not come."},
	{"seen_on", "As YYYY-MM-DD: the day seen; for somebody who did not "
		"come, the day on which that was learnt."},
	{"deepest", "Without indentation, the eye looking straight ahead: "
		"the structure furthest back that is in sight. They are listed "
		"from front to back; the posterior meshwork is usually the "
		"pigmented one. None: looked into, and no structure seen."},
	{"iris", "The shape of the iris on its way to the angle. Plateau: "
		"flat, with a sharp bend at its edge."},
	{"inserts", "Where the iris is attached, from front to back. Far "
		"back: behind a wide ciliary body band."},
	{"indentation", "What pressing with the lens does to the angle. Stays "
		"closed: grown together."},
	{"synechiae", "Iris grown onto the meshwork or in front of it."},
	{"cup", "The height of the cup in per cent of the disc's: 60 is a "
		"ratio of 0.6."},
	{"also", "Vessels crossing the angle: new vessels. Nodules: uveitis. "
		"Narrow in one quadrant only: a mass behind the iris. Wide "
		"after an injury: recession or cleft. Both eyes and a new "
		"medicine: a swollen choroid."},
	};
	/* clang-format on */
	static const char as_right[] = "= answers this and the rest as in the "
				       "right eye.";
	static const char as_right_quadrant[] =
		"= answers this and the rest as in the same quadrant of the "
		"right eye; == also the quadrants after it, each as in the "
		"right eye.";
	static const char as_before[] = "= answers this and the rest as in the "
					"quadrant before; == "
					"also the quadrants after it, to the "
					"end of the eye.";
	struct reply_place place = reply_question_place(question);
	const char *name = reply_question_field(question)->name;
	bool needed = reply_question_field(question)->need == FIELD_NEEDED;

	for (size_t i = 0; i < sizeof helps / sizeof helps[0]; i++)
		if (strncmp(name, helps[i].stem, strlen(helps[i].stem)) == 0)
			text_write_wrapped(out, helps[i].help, columns, 0, 0);
	if (reply_question_field(question)->kind == &field_set)
		text_write_wrapped(out,
				   "Type the number of each that applies, "
				   "together or apart: 13 or 1 3.",
				   columns, 0, 0);
	if (place.before >= 0)
		text_write_wrapped(out,
				   place.once	    ? as_right
				   : place.as_right ? as_right_quadrant
						    : as_before,
				   columns, 0, 0);
	if (!needed)
		text_write_wrapped(out,
				   "Enter alone leaves it as it is: not "
				   "recorded is not the same as normal. A "
				   "minus takes an answer back.",
				   columns, 0, 0);
}
