/* formparts.c: pieces that several forms are made of. */
#include "paper/formparts.h"

#include "base/text.h"
#include "paper/qrcode.h"

#include <string.h>

enum { KEY_SIZE = 96 };

void
form_words(const struct form_facts *facts, const char *key, FILE *out)
{
	const char *text = wording_text(facts->wording, key);

	text_write_html(out, text == NULL ? key : text);
}

void
form_word(const struct form_facts *facts, const char *section, const char *name,
	  FILE *out)
{
	char key[KEY_SIZE];

	snprintf(key, sizeof key, "%s.%s", section, name);
	form_words(facts, key, out);
}

void
form_given(const struct form_facts *facts, const char *key, const char *value,
	   FILE *out)
{
	fputs("<span><b>", out);
	form_words(facts, key, out);
	fputs("</b> ", out);
	if (value[0] == '\0') {
		fputs("<span class=\"fill\"></span>", out);
	} else {
		fputs("<bdi>", out);
		text_write_html(out, value);
		fputs("</bdi>", out);
	}
	fputs("</span>\n", out);
}

enum eye
form_eye(const struct form_facts *facts, int place)
{
	return (place == 0) != wording_is_rtl(facts->wording) ? EYE_RIGHT
							      : EYE_LEFT;
}

void
form_write_review(const struct form_facts *facts, FILE *out)
{
	if (wording_is_reviewed(facts->wording))
		return;
	fputs("<p class=\"review\">", out);
	form_words(facts, "approval.wording_not_reviewed", out);
	fputs("</p>\n", out);
}

struct refnum
form_number(const struct form_facts *facts, int index)
{
	struct refnum number = {facts->station->code, facts->from + index};

	return number;
}

void
form_write_number(const struct form_facts *facts, int index, FILE *out)
{
	char text[REFNUM_SIZE];

	refnum_write(form_number(facts, index), text);
	fprintf(out, "<span class=\"number\">%s</span>", text);
}

void
form_write_code(const struct form_facts *facts, int index, FILE *out)
{
	char text[REFNUM_SIZE];

	refnum_write(form_number(facts, index), text);
	qrcode_write_svg(text, out);
}

void
form_line(const char *name, bool is_long, FILE *out)
{
	fprintf(out, "<span class=\"fill%s\" data-field=\"%s\"></span>",
		is_long ? " long" : "", name);
}

void
form_name(const char *name, FILE *out)
{
	fputs("<small>", out);
	for (; *name != '\0'; name++)
		fprintf(out, "%c%s", *name, *name == '_' ? "<wbr />" : "");
	fputs("</small>", out);
}

void
form_boxes(const struct form_facts *facts, const char *words, bool numbered,
	   FILE *out)
{
	const char *word;
	size_t length;

	for (int i = 0; (word = field_word(words, i, &length)) != NULL; i++) {
		char name[64];

		snprintf(name, sizeof name, "%.*s", (int)length, word);
		fputs("<span class=\"tick\"><span class=\"box\"></span>", out);
		if (numbered)
			fprintf(out, "%d ", i + 1);
		form_word(facts, "answer", name, out);
		fputs("</span> ", out);
	}
}

static bool
has_choices(const struct field *field)
{
	return strchr(field->words, '|') != NULL;
}

/* Of these several stand on a line. */
static bool
is_short(const struct field *field)
{
	if (has_choices(field))
		return strcmp(field->words, "yes|no") == 0;
	return field->kind != &field_text || field->most <= 12;
}

void
form_asked(const struct form_facts *facts, const struct field *field,
	   const char *heading, bool shown, FILE *out)
{
	bool is_long = !is_short(field);

	fprintf(out, "<p class=\"asked%s\"><b>", is_long ? "" : " short");
	form_word(facts, "column", heading, out);
	fputs("</b> ", out);
	if (shown)
		form_name(field->name, out);
	if (has_choices(field)) {
		fprintf(out, "<span data-field=\"%s\">", field->name);
		form_boxes(facts, field->words, shown, out);
		fputs("</span>", out);
	} else {
		form_line(field->name, is_long, out);
	}
	fputs("</p>\n", out);
}
