/* formreply.c: the reply with a drawing of the angle. */
#include "paper/formreply.h"

#include "base/text.h"
#include "clinic/reply.h"

#include <string.h>

enum { NAME_SIZE = 48, PER_QUADRANT = 5 };

static const char *const eye_keys[EYE_COUNT] = {
	[EYE_RIGHT] = "slip.right_eye", [EYE_LEFT] = "slip.left_eye"};

/* Named NAME_EYE or NAME_EYE_QUADRANT. */
static bool
is_of_eye(const struct field *field, enum eye eye)
{
	const char *name = eye_name(eye);
	size_t length = strlen(name);

	for (const char *at = strchr(field->name, '_'); at != NULL;
	     at = strchr(at + 1, '_'))
		if (strncmp(at + 1, name, length) == 0 &&
		    (at[1 + length] == '\0' || at[1 + length] == '_'))
			return true;
	return false;
}

static size_t
first_of_eye(enum eye eye)
{
	size_t i = 0;

	while (!is_of_eye(&reply_fields.field[i], eye))
		i++;
	return i;
}

/* The part of a field's name before its eye. */
static void
copy_stem(const struct field *field, char *stem)
{
	const char *right = strstr(field->name, "_right");
	const char *left = strstr(field->name, "_left");
	const char *end = right != NULL ? right : left;

	snprintf(stem, NAME_SIZE, "%.*s",
		 (int)(end == NULL ? strlen(field->name)
				   : (size_t)(end - field->name)),
		 field->name);
}

static void
ask(const struct form_facts *facts, const struct field *field, FILE *out)
{
	char stem[NAME_SIZE];

	copy_stem(field, stem);
	if (field->origin == FIELD_TYPED)
		form_asked(facts, field, stem, true, out);
}

void
form_write_reply_sender(const struct form_facts *facts, FILE *out)
{
	form_given(facts, "forms.programme", facts->station->programme, out);
	form_given(facts, "column.site", facts->station->site, out);
}

void
form_write_reply_before(const struct form_facts *facts, FILE *out)
{
	for (size_t i = 0; i < first_of_eye(EYE_RIGHT); i++)
		ask(facts, &reply_fields.field[i], out);
}

void
form_write_reply_after(const struct form_facts *facts, FILE *out)
{
	size_t i = first_of_eye(EYE_LEFT);

	while (is_of_eye(&reply_fields.field[i], EYE_LEFT))
		i++;
	for (; i < reply_fields.count; i++)
		ask(facts, &reply_fields.field[i], out);
}

/* --- an eye --------------------------------------------------------------- */

static void
write_label(const struct form_facts *facts, const char *key, int x, int y,
	    FILE *out)
{
	fprintf(out, "<text x=\"%d\" y=\"%d\" text-anchor=\"middle\">", x, y);
	form_words(facts, key, out);
	fputs("</text>", out);
}

/* The cornea, the angle in which the structures lie, and the pupil, cut into
 * four quadrants. The nose is between the eyes. */
static void
write_drawing(const struct form_facts *facts, enum eye eye, FILE *out)
{
	bool nose_right = eye == EYE_RIGHT;

	fputs("<svg class=\"quadrants\" viewBox=\"0 0 200 200\" "
	      "font-size=\"10\" role=\"img\"><title>",
	      out);
	form_words(facts, eye_keys[eye], out);
	fputs("</title><g fill=\"none\" stroke=\"#000\" "
	      "stroke-width=\"1.5\"><circle cx=\"100\" cy=\"100\" r=\"82\" "
	      "/><circle cx=\"100\" cy=\"100\" r=\"56\" /><circle cx=\"100\" "
	      "cy=\"100\" r=\"22\" /><path d=\"M42 42 84 84M158 42 116 84M42 "
	      "158 84 116M158 158 116 116\" /></g>",
	      out);
	write_label(facts, "reply.superior", 100, 13, out);
	write_label(facts, "reply.inferior", 100, 195, out);
	write_label(facts, "reply.nasal", nose_right ? 139 : 61, 103, out);
	write_label(facts, "reply.temporal", nose_right ? 61 : 139, 103, out);
	fputs("</svg>\n", out);
}

static void
write_heads(const struct form_facts *facts, const struct field *first,
	    FILE *out)
{
	fputs("<table><thead><tr><th>", out);
	form_words(facts, "forms.reply_quadrant", out);
	fputs("</th>", out);
	for (int i = 0; i < PER_QUADRANT; i++) {
		char stem[NAME_SIZE];

		copy_stem(&first[i], stem);
		fputs("<th>", out);
		form_word(facts, "column", stem, out);
		form_name(stem, out);
		fputs("</th>", out);
	}
	fputs("</tr></thead>\n<tbody>\n", out);
}

static const struct field *
write_quadrants(const struct form_facts *facts, const struct field *field,
		FILE *out)
{
	write_heads(facts, field, out);
	for (int i = 0; i < QUADRANT_COUNT; i++) {
		fputs("<tr><th>", out);
		form_word(facts, "reply", quadrant_name((enum quadrant)i), out);
		fputs("</th>", out);
		for (int j = 0; j < PER_QUADRANT; j++, field++)
			fprintf(out, "<td data-field=\"%s\"></td>",
				field->name);
		fputs("</tr>\n", out);
	}
	fputs("</tbody></table>\n", out);
	return field;
}

void
form_write_reply_eyes(const struct form_facts *facts, FILE *out)
{
	for (int eye = 0; eye < EYE_COUNT; eye++) {
		const struct field *field =
			&reply_fields.field[first_of_eye((enum eye)eye)];

		fputs("<div class=\"eye\"><h2>", out);
		form_words(facts, eye_keys[eye], out);
		fputs("</h2>\n", out);
		write_drawing(facts, (enum eye)eye, out);
		field = write_quadrants(facts, field, out);
		for (; is_of_eye(field, (enum eye)eye); field++)
			ask(facts, field, out);
		fputs("</div>\n", out);
	}
}

/* The answers of the columns, with their numbers. */
void
form_write_reply_key(const struct form_facts *facts, FILE *out)
{
	const struct field *field =
		&reply_fields.field[first_of_eye(EYE_RIGHT)];

	for (int i = 0; i < PER_QUADRANT; i++, field++) {
		char stem[NAME_SIZE];
		const char *word;
		size_t length;

		copy_stem(field, stem);
		fputs("<div><b>", out);
		form_word(facts, "column", stem, out);
		fputs("</b>", out);
		for (int j = 0;
		     (word = field_word(field->words, j, &length)) != NULL;
		     j++) {
			char name[NAME_SIZE];

			snprintf(name, sizeof name, "%.*s", (int)length, word);
			fprintf(out, "<p>%d ", j + 1);
			form_word(facts, "answer", name, out);
			fputs("</p>", out);
		}
		fputs("</div>\n", out);
	}
}
