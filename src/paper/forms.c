/* forms.c: forms to be printed and filled in by hand. */
#include "paper/forms.h"

#include "base/embedded.h"
#include "base/text.h"
#include "clinic/depth.h"
#include "paper/drawing.h"
#include "paper/formregister.h"
#include "paper/formreply.h"
#include "paper/formslip.h"
#include "paper/formtally.h"
#include "paper/template.h"

#include <string.h>

static void
write_language(const struct form_facts *facts, FILE *out)
{
	form_words(facts, "wording.language", out);
}

static void
write_direction(const struct form_facts *facts, FILE *out)
{
	form_words(facts, "wording.direction", out);
}

static void
write_style(const struct form_facts *facts, FILE *out)
{
	(void)facts;
	fputs((const char *)embedded_forms_css, out);
}

static void
write_reply_style(const struct form_facts *facts, FILE *out)
{
	(void)facts;
	fputs((const char *)embedded_reply_css, out);
}

/* Each grade: its drawing, its number, the same in words. */
static void
write_grades(const struct form_facts *facts, FILE *out)
{
	for (int i = 0; i < DEPTH_GRADES; i++) {
		char key[32], number[8];

		depth_write((enum depth)i, number);
		snprintf(key, sizeof key, "depth_%s", number);
		fputs("<div class=\"grade\">", out);
		drawing_write_slit((enum depth)i, number, out);
		fprintf(out, "<p><b>%s</b>", number);
		form_word(facts, "eye", key, out);
		fputs("</p></div>\n", out);
	}
}

enum { PRACTICE_ROWS = 20 };

/* Two tables of eyes to be graded. */
static void
write_practice(const struct form_facts *facts, FILE *out)
{
	for (int from = 1; from <= 2 * PRACTICE_ROWS; from += PRACTICE_ROWS) {
		fputs("<table><thead><tr><th>", out);
		form_words(facts, "forms.training_eye", out);
		fputs("</th><th>", out);
		form_words(facts, "forms.training_graded", out);
		fputs("</th><th>", out);
		form_words(facts, "forms.training_true", out);
		fputs("</th></tr></thead>\n<tbody>\n", out);
		for (int i = from; i < from + PRACTICE_ROWS; i++)
			fprintf(out,
				"<tr><td><b>%d</b></td><td></td><td></td>"
				"</tr>\n",
				i);
		fputs("</tbody></table>\n", out);
	}
}

static const struct form_piece pieces[] = {
	{"language", write_language},
	{"direction", write_direction},
	{"style", write_style},
	{"reply_style", write_reply_style},
	{"pages", form_write_register},
	{"slips", form_write_slips},
	{"head", form_write_tally_head},
	{"rows", form_write_tally},
	{"sender", form_write_reply_sender},
	{"before", form_write_reply_before},
	{"eyes", form_write_reply_eyes},
	{"key", form_write_reply_key},
	{"after", form_write_reply_after},
	{"grades", write_grades},
	{"practice", write_practice},
	{"review", form_write_review},
};

static const struct row {
	const char *file;
	const unsigned char *text;
} rows[FORM_COUNT] = {
	[FORM_REGISTER] = {"paper-register.html", embedded_register_html},
	[FORM_SLIPS] = {"paper-slips.html", embedded_handslip_html},
	[FORM_TALLY] = {"tally-sheet.html", embedded_tallysheet_html},
	[FORM_REPLY] = {"reply-sheet.html", embedded_replysheet_html},
	[FORM_TRAINING] = {"training-sheet.html", embedded_training_html},
	[FORM_CARD] = {"grading-card.html", embedded_gradingcard_html},
};

/* {{section.key}} is a text of the wording, any other name a piece. */
static bool
fill(const void *context, const char *name, FILE *out)
{
	const struct form_facts *facts = context;
	const char *text = strchr(name, '.') == NULL
				   ? NULL
				   : wording_text(facts->wording, name);

	if (text != NULL && out != NULL)
		text_write_html(out, text);
	for (size_t i = 0; text == NULL && i < sizeof pieces / sizeof pieces[0];
	     i++) {
		if (strcmp(pieces[i].name, name) != 0)
			continue;
		if (out != NULL)
			pieces[i].write(facts, out);
		return true;
	}
	return text != NULL;
}

const char *
form_file(enum form form)
{
	return rows[form].file;
}

bool
form_write(enum form form, const struct form_facts *facts, FILE *out,
	   struct fault *why)
{
	return template_write((const char *)rows[form].text, fill, facts, out,
			      why);
}
