/* phrase.c: one line of a paper, a key and what fills its placeholders. */
#include "paper/phrase.h"

#include "base/text.h"

#include <string.h>

static const char blank[] = "________________";

static const struct phrase_value *
value_of(const struct phrase *phrase, const char *name)
{
	for (int i = 0; i < PHRASE_VALUES_MOST; i++)
		if (phrase->value[i].name != NULL &&
		    strcmp(phrase->value[i].name, name) == 0)
			return &phrase->value[i];
	return NULL;
}

void
phrase_visit(const struct wording *wording, const struct phrase *phrase,
	     phrase_piece *piece, void *context)
{
	const char *text = wording_text(wording, phrase->key);
	char name[WORDING_NAME_SIZE];

	if (text == NULL)
		text = phrase->key;
	while (*text != '\0') {
		size_t length = strcspn(text, "{");
		const struct phrase_value *value = NULL;
		const char *after = NULL;

		if (length > 0)
			piece(context, text, length, NULL);
		text += length;
		if (*text == '\0')
			return;
		after = wording_placeholder(text, name);
		if (after != NULL)
			value = value_of(phrase, name);
		if (value == NULL) { /* seen in tests at the latest */
			piece(context, text, strlen(text), NULL);
			return;
		}
		piece(context, value->text, strlen(value->text), value);
		text = after;
	}
}

struct filling {
	char *text;
	size_t size;
	size_t used;
};

static void
fill_piece(void *context, const char *text, size_t length,
	   const struct phrase_value *value)
{
	struct filling *filling = context;
	size_t room = filling->size - 1 - filling->used;

	if (value != NULL && length == 0) {
		text = blank;
		length = sizeof blank - 1;
	}
	if (length > room) {
		length = room;
		while (length > 0 &&
		       ((unsigned char)text[length] & 0xc0) == 0x80)
			length--;
	}
	memcpy(filling->text + filling->used, text, length);
	filling->used += length;
	filling->text[filling->used] = '\0';
}

void
phrase_fill(const struct wording *wording, const struct phrase *phrase,
	    char *text, size_t size)
{
	struct filling filling = {text, size, 0};

	text[0] = '\0';
	phrase_visit(wording, phrase, fill_piece, &filling);
}

static void
html_piece(void *context, const char *text, size_t length,
	   const struct phrase_value *value)
{
	FILE *out = context;
	char part[INI_LINE_MOST + 1];

	if (value == NULL) {
		/* The wording's own text: a line of a file at most. */
		snprintf(part, sizeof part, "%.*s", (int)length, text);
		text_write_html(out, part);
		return;
	}
	if (length == 0) {
		fputs("<span class=\"blank\"></span>", out);
		return;
	}
	fputs(value->typed ? "<bdi>" : "", out);
	text_write_html(out, text);
	fputs(value->typed ? "</bdi>" : "", out);
}

void
phrase_write_html(const struct wording *wording, const struct phrase *phrase,
		  FILE *out)
{
	phrase_visit(wording, phrase, html_piece, out);
}
