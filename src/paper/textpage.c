/* textpage.c: lines of plain text that never run over the edge. */
#include "paper/textpage.h"

#include "base/text.h"

#include <stdbool.h>
#include <string.h>

/* Of blanks to write on, and the least that is still of use. */
enum { TEXT_SIZE = 6000, BLANK_LEAST = 12 };

static const char box[] = "[_] ";

void
page_write_rule(const struct text_page *page, char mark)
{
	for (int i = 0; i < page->columns; i++)
		fputc(mark, page->out);
	fputc('\n', page->out);
}

/* Copies `from`, putting a space into words wider than `most`; never before a
 * mark that stands on the letter before it. */
static void
break_words(const char *from, int most, char *to, size_t size)
{
	size_t used = 0;
	int width = 0;

	while (*from != '\0' && used + 8 < size) {
		char one[8];
		size_t length = 1;
		int wide;

		while (((unsigned char)from[length] & 0xc0) == 0x80)
			length++;
		snprintf(one, sizeof one, "%.*s", (int)length, from);
		wide = text_width(one);
		if (width + wide > most && *from != ' ') {
			to[used++] = ' ';
			width = 0;
		}
		memcpy(to + used, from, length);
		used += length;
		width = *from == ' ' ? 0 : width + wide;
		from += length;
	}
	to[used] = '\0';
}

void
page_write_text(const struct text_page *page, const char *text,
		const char *mark, int indent)
{
	char broken[TEXT_SIZE];

	break_words(text, page->columns - indent, broken, sizeof broken);
	fprintf(page->out, "%*s%s", indent - (int)strlen(mark), "", mark);
	text_write_wrapped(page->out, broken, page->columns, indent, indent);
}

/* A phrase on its way to the page. */
struct flow {
	const struct text_page *page;
	const char *mark; /* of the first line, then "" */
	int indent;
	char text[TEXT_SIZE];
	size_t used;
};

/* Writes what has been gathered, unless it is only the punctuation left behind
 * a value. */
static void
flow_out(struct flow *flow)
{
	const char *text = flow->text;

	flow->text[flow->used] = '\0';
	text += strspn(text, " ,;:.");
	if (*text == '\0')
		return;
	page_write_text(flow->page, text, flow->mark, flow->indent);
	flow->mark = "";
	flow->used = 0;
}

static bool
has_letter(const char *text)
{
	for (; *text != '\0'; text++)
		if ((*text >= 'a' && *text <= 'z') ||
		    (*text >= 'A' && *text <= 'Z'))
			return true;
	return false;
}

static bool
stands_alone(const struct flow *flow, const char *text)
{
	return !phrase_is_ascii(text) ||
	       (has_letter(text) && wording_is_rtl(flow->page->wording));
}

static void
flow_text(struct flow *flow, const char *text, size_t length)
{
	if (length >= sizeof flow->text - flow->used)
		return;
	memcpy(flow->text + flow->used, text, length);
	flow->used += length;
}

static void
flow_piece(void *context, const char *text, size_t length,
	   const struct phrase_value *value)
{
	struct flow *flow = context;
	bool isolated;

	if (value != NULL && value->typed && stands_alone(flow, text)) {
		flow_out(flow);
		page_write_text(flow->page, text, "", flow->indent + 2);
		return;
	}
	if (value != NULL && length == 0) {
		text = "________________";
		length = strlen(text);
	}
	isolated = value != NULL &&
		   phrase_isolates(flow->page->wording, value->text);
	if (isolated)
		flow_text(flow, phrase_isolate, strlen(phrase_isolate));
	flow_text(flow, text, length);
	if (isolated)
		flow_text(flow, phrase_isolate_end, strlen(phrase_isolate_end));
}

void
page_write_phrase(const struct text_page *page, const struct phrase *phrase,
		  const char *mark, int indent)
{
	struct flow flow = {page, mark, indent, "", 0};

	phrase_visit(page->wording, phrase, flow_piece, &flow);
	flow_out(&flow);
}

void
page_write_blank(const struct text_page *page, const char *label, int indent)
{
	int at = indent + text_width(label) + 2;

	if (page->columns - at < BLANK_LEAST) {
		page_write_text(page, label, "", indent);
		fprintf(page->out, "%*s", indent, "");
		at = indent;
	} else
		fprintf(page->out, "%*s%s: ", indent, "", label);
	for (; at < page->columns; at++)
		fputc('_', page->out);
	fputc('\n', page->out);
}

void
page_write_boxes(const struct text_page *page, const char *lead,
		 const char *const *option, size_t count, int indent)
{
	int at = 0;
	int next = lead[0] == '\0' ? indent : 2 * indent;

	if (lead[0] != '\0')
		at = fprintf(page->out, "%*s%s:", indent, "", lead) -
		     (int)strlen(lead) + text_width(lead);
	for (size_t i = 0; i < count && option[i] != NULL; i++) {
		int width = (int)strlen(box) + text_width(option[i]);

		if (at > 0 && at + 2 + width > page->columns) {
			fputc('\n', page->out);
			at = 0;
		}
		at += fprintf(page->out, "%*s", at > 0 ? 2 : next, "");
		fputs(box, page->out);
		fputs(option[i], page->out);
		at += width;
	}
	fputc('\n', page->out);
}
