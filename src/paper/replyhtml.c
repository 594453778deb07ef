/* replyhtml.c: the reply form as a part of an HTML page. */
#include "paper/replyhtml.h"

#include "base/text.h"
#include "clinic/findings.h"
#include "paper/replyform.h"

static void
write_words(const struct wording *wording, const char *key, FILE *out)
{
	const char *text = wording_text(wording, key);

	text_write_html(out, text == NULL ? key : text);
}

static void
write_boxes(const struct wording *wording,
	    const struct reply_question *question, FILE *out)
{
	for (size_t i = 0;
	     i < REPLY_OPTIONS_MOST && question->option[i] != NULL; i++) {
		fputs("<span class=\"tick\"><span class=\"box\"></span>", out);
		write_words(wording, question->option[i], out);
		fputs("</span> ", out);
	}
}

/* A question asked once. */
static void
write_asked(const struct wording *wording,
	    const struct reply_question *question, FILE *out)
{
	fprintf(out, "<p class=\"asked%s\"><b>",
		question->has_line ? " short" : "");
	write_words(wording, question->key, out);
	fputs("</b> ", out);
	write_boxes(wording, question, out);
	if (question->has_line)
		fputs("<span class=\"write\"></span>", out);
	fputs("</p>\n", out);
}

static void
write_eye_heads(const struct wording *wording, int columns, FILE *out)
{
	/* The right eye on the left, whichever is read first. */
	bool right_first = !wording_is_rtl(wording);

	for (int i = 0; i < EYE_COUNT; i++) {
		fprintf(out, "<th class=\"thick\" colspan=\"%d\"><b>", columns);
		write_words(wording,
			    (i == 0) == right_first ? "slip.right_eye"
						    : "slip.left_eye",
			    out);
		fputs("</b></th>", out);
	}
	fputs("</tr>\n", out);
}

/* One cell per quadrant, of both eyes: its name, or (NULL) an empty cell that
 * is itself the box. */
static void
write_quadrant_cells(const struct wording *wording, const char *const *key,
		     FILE *out)
{
	const char *tag = key == NULL ? "td" : "th";

	for (int i = 0; i < EYE_COUNT * REPLY_QUADRANTS; i++) {
		fprintf(out, "<%s%s>", tag,
			i % REPLY_QUADRANTS == 0 ? " class=\"thick\"" : "");
		if (key != NULL)
			write_words(wording, key[i % REPLY_QUADRANTS], out);
		fprintf(out, "</%s>", tag);
	}
	fputs("</tr>\n", out);
}

static void
write_grid(const struct wording *wording, const struct reply_question *question,
	   FILE *out)
{
	fputs("<p class=\"asked\"><b>", out);
	write_words(wording, question->key, out);
	fputs("</b></p>\n<table class=\"grid\">\n<tr>"
	      "<th class=\"name\" rowspan=\"2\"></th>",
	      out);
	write_eye_heads(wording, REPLY_QUADRANTS, out);
	fputs("<tr>", out);
	write_quadrant_cells(wording, reply_quadrants, out);
	for (size_t i = 0;
	     i < REPLY_OPTIONS_MOST && question->option[i] != NULL; i++) {
		fputs("<tr><th class=\"name\">", out);
		write_words(wording, question->option[i], out);
		fputs("</th>", out);
		write_quadrant_cells(wording, NULL, out);
	}
	fputs("</table>\n", out);
}

static void
write_eye_row(const struct wording *wording,
	      const struct reply_question *question, FILE *out)
{
	fputs("<tr><td class=\"name\"><b>", out);
	write_words(wording, question->key, out);
	fputs("</b></td>", out);
	for (int eye = 0; eye < EYE_COUNT; eye++) {
		fputs("<td class=\"thick\">", out);
		write_boxes(wording, question, out);
		fputs("</td>", out);
	}
	fputs("</tr>\n", out);
}

static void
write_scope(const struct wording *wording, enum reply_scope scope, FILE *out)
{
	for (size_t i = 0; i < reply_question_count; i++) {
		const struct reply_question *question = &reply_questions[i];

		if (question->scope != scope)
			continue;
		if (scope == REPLY_QUADRANT)
			write_grid(wording, question, out);
		else if (scope == REPLY_EYE)
			write_eye_row(wording, question, out);
		else
			write_asked(wording, question, out);
	}
}

void
reply_write_html(const struct wording *wording, FILE *out)
{
	write_scope(wording, REPLY_VISIT, out);
	write_scope(wording, REPLY_QUADRANT, out);
	fputs("<table class=\"per-eye\">\n<tr><th class=\"name\"></th>", out);
	write_eye_heads(wording, 1, out);
	write_scope(wording, REPLY_EYE, out);
	fputs("</table>\n", out);
	write_scope(wording, REPLY_END, out);
}
