/* sliphtml.c: the slip as an HTML page. */
#include "paper/slip.h"

#include "base/embedded.h"
#include "base/text.h"
#include "paper/drawing.h"
#include "paper/qrcode.h"
#include "paper/replyhtml.h"
#include "paper/slipfacts.h"
#include "paper/slipfit.h"
#include "paper/template.h"

#include <string.h>

/* How the phrases of a part are set. */
struct setting {
	const char *around[2]; /* the whole part, with its heading */
	const char *each[2];   /* one phrase */
};

/* clang-format off */
static const struct setting
	bare =      {{"", ""}, {"", ""}},
	lines =     {{"", "\n"}, {"<p>", "</p>"}},
	notice =    {{"<div class=\"state\">", "</div>"}, {"<p>", "</p>"}},
	sentences = {{"", "\n"}, {"<span>", "</span> "}},
	signs =     {{"", "\n"}, {"<span class=\"sign\">", "</span> "}},
	joined =    {{"", ""}, {"<span class=\"line\">", "</span>"}},
	list =      {{"<div class=\"list\">", "</div>\n"}, {"<p>", "</p> "}},
	items =     {{"<div class=\"run items\">", "</div>\n"},
		     {"<p>", "</p> "}},
	run =       {{"<div class=\"run\">", "</div>\n"}, {"<p>", "</p> "}};

static const struct slot {
	const char *name;
	const struct setting *setting;
	enum slip_part part;
	bool has_heading;
} slots[] = {
	{"state", &notice, SLIP_STATE, false},
	{"headline", &bare, SLIP_HEADLINE, false},
	{"when", &bare, SLIP_WHEN, false},
	{"name", &bare, SLIP_NAME, false},
	{"message", &lines, SLIP_MESSAGE, false},
	{"where", &sentences, SLIP_WHERE, false},
	{"at_once", &signs, SLIP_AT_ONCE, true},
	{"ending", &sentences, SLIP_ENDING, false},
	{"clinic_urgency", &bare, SLIP_URGENCY, false},
	{"person", &joined, SLIP_PERSON, false},
	{"camp", &joined, SLIP_CAMP, false},
	{"depth_right", &lines, SLIP_DEPTH_RIGHT, false},
	{"depth_left", &lines, SLIP_DEPTH_LEFT, false},
	{"pressure_right", &joined, SLIP_PRESSURE_RIGHT, false},
	{"pressure_left", &joined, SLIP_PRESSURE_LEFT, false},
	{"findings_right", &joined, SLIP_FINDINGS_RIGHT, false},
	{"findings_left", &joined, SLIP_FINDINGS_LEFT, false},
	{"reports", &joined, SLIP_REPORTS, false},
	{"deciding", &list, SLIP_DECIDING, true},
	{"others", &items, SLIP_OTHERS, true},
	{"advice", &items, SLIP_ADVICE, true},
	{"not_done", &run, SLIP_NOT_DONE, true},
	{"cautions", &run, SLIP_CAUTIONS, true},
	{"policy", &sentences, SLIP_POLICY, false},
};
/* clang-format on */

/* One part on its way to the page. */
struct placing {
	const struct slip *slip;
	const struct setting *setting;
	const char *heading; /* or NULL */
	bool begun;
	FILE *out;
};

static const char *
words(const struct slip *slip, const char *key)
{
	const char *text = wording_text(slip->wording, key);

	return text == NULL ? key : text;
}

static void
place_phrase(void *context, const struct phrase *phrase)
{
	struct placing *to = context;

	if (!to->begun)
		fputs(to->setting->around[0], to->out);
	if (!to->begun && to->heading != NULL) {
		fputs("<h3>", to->out);
		text_write_html(to->out, words(to->slip, to->heading));
		fputs("</h3>", to->out);
	}
	to->begun = true;
	fputs(to->setting->each[0], to->out);
	phrase_write_html(to->slip->wording, phrase, to->out);
	fputs(to->setting->each[1], to->out);
}

static void
place_part(const struct slip *slip, enum slip_part part,
	   const struct setting *setting, bool has_heading, FILE *out)
{
	struct placing to = {slip, setting,
			     has_heading ? slip_heading(slip, part) : NULL,
			     false, out};

	slip_visit(slip, part, place_phrase, &to);
	if (to.begun)
		fputs(setting->around[1], out);
}

/* --- what is no list of phrases ---------------------------------------- */

static void
write_language(const struct slip *slip, FILE *out)
{
	text_write_html(out, words(slip, "wording.language"));
}

static void
write_direction(const struct slip *slip, FILE *out)
{
	text_write_html(out, words(slip, "wording.direction"));
}

static void
write_urgency(const struct slip *slip, FILE *out)
{
	fputs(tell_urgency_name(slip), out);
}

static void
write_fit(const struct slip *slip, FILE *out)
{
	enum slip_fit fit = slip_fit(slip);

	fputs(fit >= SLIP_FIT_FULL ? " full" : "", out);
	fputs(fit == SLIP_FIT_FULLEST ? " fullest" : "", out);
}

static void
write_number(const struct slip *slip, FILE *out)
{
	char number[REFNUM_SIZE];

	refnum_write(slip->visit->number, number);
	fputs(number, out);
}

/* In large type; a line to write on when there is none. */
static void
write_large_number(const struct slip *slip, FILE *out)
{
	if (refnum_is_none(slip->visit->number)) {
		text_write_html(out, words(slip, "slip.number"));
		fputs(" <span class=\"blank\"></span>", out);
		return;
	}
	fputs("<span class=\"number\">", out);
	write_number(slip, out);
	fputs("</span>", out);
}

/* For a scanner. Where the library is missing the number in large type is all
 * there is, and enough. */
static void
write_code(const struct slip *slip, FILE *out)
{
	char number[REFNUM_SIZE];

	refnum_write(slip->visit->number, number);
	if (!refnum_is_none(slip->visit->number))
		qrcode_write_svg(number, out);
}

/* A warning for today, a calendar for another day, a cross for no longer valid.
 * Lines and no colours, so that they survive a copier. */
static void
write_sign(const struct slip *slip, FILE *out)
{
	const char *path = "M4 9h40v35H4ZM4 19h40M14 3v10M34 3v10M13 31l8 7 "
			   "14-13";

	fputs("<svg viewBox=\"0 0 48 48\" fill=\"none\" "
	      "stroke=\"#000\" stroke-width=\"4\" "
	      "stroke-linejoin=\"round\">",
	      out);
	if (slip->visit->state == STATE_VOID)
		path = "M7 7 41 41M41 7 7 41";
	else if (slip->decision->urgency == URGENCY_SAME_DAY)
		path = "M24 4 46 43H2ZM24 17v13M24 35v4";
	fprintf(out, "<path d=\"%s\" />", path);
	fputs("</svg>", out);
}

/* A house with an eye. */
static void
write_clinic_sign(const struct slip *slip, FILE *out)
{
	(void)slip;
	fputs("<svg viewBox=\"0 0 48 48\" fill=\"none\" "
	      "stroke=\"#000\" stroke-width=\"3\" "
	      "stroke-linejoin=\"round\">"
	      "<path d=\"M3 23 24 5 45 23M8 20v24h32V20\" />"
	      "<path d=\"M12 31q12-12 24 0q-12 12-24 0Z\" />"
	      "<circle cx=\"24\" cy=\"31\" r=\"3\" fill=\"#000\" />"
	      "</svg>",
	      out);
}

static void
write_right_drawing(const struct slip *slip, FILE *out)
{
	drawing_write_svg(slip->visit->depth_right, words(slip, "eye.drawing"),
			  out);
}

static void
write_left_drawing(const struct slip *slip, FILE *out)
{
	drawing_write_svg(slip->visit->depth_left, words(slip, "eye.drawing"),
			  out);
}

static void
write_legend(const struct slip *slip, FILE *out)
{
	if (depth_is_graded(visit_worse_depth(slip->visit)))
		text_write_html(out, words(slip, "eye.drawing"));
}

static void
write_reply_style(const struct slip *slip, FILE *out)
{
	(void)slip;
	fputs((const char *)embedded_reply_css, out);
}

static void
write_reply(const struct slip *slip, FILE *out)
{
	if (!slip_has_reply(slip))
		return;
	fputs("<div class=\"reply\">\n<p class=\"tear\">", out);
	text_write_html(out, words(slip, "reply.tear_off"));
	fputs("</p>\n<div class=\"top\"><h2>", out);
	text_write_html(out, words(slip, "reply.title"));
	fputs("</h2>", out);
	write_large_number(slip, out);
	fputs("</div>\n", out);
	write_code(slip, out);
	fputs("<p>", out);
	place_part(slip, SLIP_SENDER, &joined, false, out);
	fputs("</p>\n<p>", out);
	place_part(slip, SLIP_REPLY_CONSENT, &sentences, false, out);
	fputs("</p>\n", out);
	reply_write_html(slip->wording, out);
	fputs("</div>\n", out);
}

static const struct piece {
	const char *name;
	void (*write)(const struct slip *slip, FILE *out);
} pieces[] = {
	{"fit", write_fit},
	{"language", write_language},
	{"direction", write_direction},
	{"urgency", write_urgency},
	{"number", write_number},
	{"large_number", write_large_number},
	{"code", write_code},
	{"sign", write_sign},
	{"clinic_sign", write_clinic_sign},
	{"drawing_right", write_right_drawing},
	{"drawing_left", write_left_drawing},
	{"legend", write_legend},
	{"reply_style", write_reply_style},
	{"reply", write_reply},
};

/* --- the page ---------------------------------------------------------- */

static bool
fill_part(const struct slip *slip, const char *name, FILE *out)
{
	for (size_t i = 0; i < sizeof slots / sizeof slots[0]; i++) {
		if (strcmp(slots[i].name, name) != 0)
			continue;
		if (out != NULL)
			place_part(slip, slots[i].part, slots[i].setting,
				   slots[i].has_heading, out);
		return true;
	}
	return false;
}

static bool
fill_piece(const struct slip *slip, const char *name, FILE *out)
{
	for (size_t i = 0; i < sizeof pieces / sizeof pieces[0]; i++) {
		if (strcmp(pieces[i].name, name) != 0)
			continue;
		if (out != NULL)
			pieces[i].write(slip, out);
		return true;
	}
	return false;
}

/* {{section.key}} is a text of the wording, any other name a part. */
static bool
fill(const void *context, const char *name, FILE *out)
{
	const struct slip *slip = context;
	const char *text;

	if (strchr(name, '.') == NULL)
		return fill_part(slip, name, out) ||
		       fill_piece(slip, name, out);
	text = wording_text(slip->wording, name);
	if (text != NULL && out != NULL)
		text_write_html(out, text);
	return text != NULL;
}

bool
slip_write_html(const struct slip *slip, FILE *out, struct fault *why)
{
	return slip_check(slip, why) &&
	       template_write((const char *)embedded_slip_html, fill, slip, out,
			      why);
}
