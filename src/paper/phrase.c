/* phrase.c: one line of a paper, a key and what fills its placeholders. */
#include "paper/phrase.h"

#include "base/day.h"
#include "base/text.h"

#include <string.h>

enum { LIST_SIZE = 4096 };

/* Letter by letter, so that no reader of the source is misled by them. */
const char phrase_isolate[] = {'\xe2', '\x81', '\xa6', '\0'};
const char phrase_isolate_end[] = {'\xe2', '\x81', '\xa9', '\0'};

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

bool
phrase_is_ascii(const char *text)
{
	while (*text > 0)
		text++;
	return *text == '\0';
}

bool
phrase_isolates(const struct wording *wording, const char *text)
{
	return text[strspn(text, "0123456789")] != '\0' &&
	       phrase_is_ascii(text) && wording_is_rtl(wording);
}

struct filling {
	const struct wording *wording;
	char *text;
	size_t size;
	size_t used;
};

static void
fill_text(struct filling *filling, const char *text, size_t length)
{
	size_t room = filling->size - 1 - filling->used;

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

static void
fill_piece(void *context, const char *text, size_t length,
	   const struct phrase_value *value)
{
	struct filling *filling = context;
	bool isolated = value != NULL &&
			phrase_isolates(filling->wording, text);

	if (value != NULL && length == 0) {
		text = blank;
		length = sizeof blank - 1;
	}
	if (isolated)
		fill_text(filling, phrase_isolate, strlen(phrase_isolate));
	fill_text(filling, text, length);
	if (isolated)
		fill_text(filling, phrase_isolate_end,
			  strlen(phrase_isolate_end));
}

void
phrase_fill(const struct wording *wording, const struct phrase *phrase,
	    char *text, size_t size)
{
	struct filling filling = {wording, text, size, 0};

	text[0] = '\0';
	phrase_visit(wording, phrase, fill_piece, &filling);
}

void
phrase_join(const struct wording *wording, char *text, size_t size,
	    const char *next)
{
	char before[LIST_SIZE];
	struct phrase phrase = {"slip.list",
				{{"before", before, false},
				 {"next", next, false}}};

	if (text[0] == '\0') {
		text_copy(text, size, next);
		return;
	}
	if (text_copy(before, sizeof before, text))
		phrase_fill(wording, &phrase, text, size);
}

/* A phrase on its way to a page. */
struct placing {
	const struct wording *wording;
	FILE *out;
};

/* A value; a date in digits is kept on one line. */
static void
write_value(const char *text, FILE *out)
{
	char part[LIST_SIZE];

	while (*text != '\0') {
		size_t digits = strspn(text, "0123456789-");
		bool whole = digits == DAY_SIZE - 1 && text[4] == '-';
		size_t length = digits > 0 ? digits
					   : strcspn(text, "0123456789-");

		if (length >= sizeof part)
			length = sizeof part - 1;
		snprintf(part, sizeof part, "%.*s", (int)length, text);
		fputs(whole ? "<span class=\"day\">" : "", out);
		text_write_html(out, part);
		fputs(whole ? "</span>" : "", out);
		text += length;
	}
}

static void
html_piece(void *context, const char *text, size_t length,
	   const struct phrase_value *value)
{
	const struct placing *to = context;
	FILE *out = to->out;
	bool isolated, alone;
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
	isolated = phrase_isolates(to->wording, text);
	alone = value->typed || isolated;
	fputs(isolated ? "<bdi dir=\"ltr\">" : alone ? "<bdi>" : "", out);
	write_value(text, out);
	fputs(alone ? "</bdi>" : "", out);
}

void
phrase_write_html(const struct wording *wording, const struct phrase *phrase,
		  FILE *out)
{
	struct placing to = {wording, out};

	phrase_visit(wording, phrase, html_piece, &to);
}
