/* cardhtml.c: the rules of a policy as a page for the camp's wall. */
#include "paper/cardhtml.h"

#include "base/text.h"
#include "clinic/describe.h"

#include <string.h>

/* A rule on its way to the page. */
struct writing {
	const struct card *card;
	FILE *out;
};

static const char style[] =
	"@page{size:A4;margin:9mm}\n"
	"body{font:10pt/1.22 sans-serif;color:#000;background:#fff;margin:0}\n"
	"body.full{font-size:8.4pt}\n"
	"h1{font-size:1.8em;margin:0}\n"
	"h2{font-size:1.2em;margin:1.6mm 0 .5mm;border-bottom:.4mm solid #000;"
	"break-after:avoid}\n"
	"p{margin:0 0 .7mm;break-inside:avoid}\n"
	".state{border:.5mm solid #000;padding:.6mm 1.5mm;font-weight:bold;"
	"float:right}\n"
	".rules{columns:2;column-gap:6mm;clear:both}\n"
	".rules h2:first-child{margin-top:0}\n"
	".rules p{padding-left:3mm;text-indent:-3mm}\n"
	".end{border-top:.4mm solid #000;margin-top:1.2mm;padding-top:.8mm}\n"
	".small{font-size:.88em}\n"
	"table{border-collapse:collapse;width:100%;margin:1.2mm 0}\n"
	"td,th{border:.2mm solid #000;padding:.3mm 1.5mm;text-align:left}\n"
	"section{break-inside:avoid}\n"
	".sign{border-bottom:.3mm solid #000;height:8mm}\n"
	"@media screen{body{max-width:192mm;margin:5mm auto}}\n";

static void
write_element(FILE *out, const char *open, const char *text, const char *close)
{
	fputs(open, out);
	text_write_html(out, text);
	fputs(close, out);
}

static void
write_head(const struct card *card, FILE *out)
{
	char line[CARD_LINE_SIZE];

	fputs("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n"
	      "<meta charset=\"utf-8\">\n",
	      out);
	write_element(out, "<title>Referral rules ", card->mark, "</title>\n");
	fprintf(out, "<style>\n%s</style>\n</head>\n<body%s>\n", style,
		card->grid == NULL ? "" : " class=\"full\"");
	card_approval(card, line);
	write_element(out, "<p class=\"state\">", line, "</p>\n");
	fputs("<h1>Referral rules</h1>\n", out);
	card_name(card, line);
	write_element(out, "<p><b>", line, "</b>. ");
	card_mark(card, line);
	write_element(out, "", line, ".</p>\n");
	write_element(out, "<p>", card_how_to_read(), "</p>\n");
}

static void
write_rule(void *context, const struct rule *rule, bool first)
{
	const struct writing *to = context;
	char line[CARD_LINE_SIZE], conditions[DESCRIBE_SIZE];

	if (first) {
		card_heading(to->card, rule, line);
		write_element(to->out, "<h2>", line, "</h2>\n");
	}
	write_element(to->out, "<p><b>", rule->name, "</b>: ");
	describe_conditions(rule, conditions, sizeof conditions);
	write_element(to->out, "", conditions, "</p>\n");
}

static void
write_words(const struct card *card, FILE *out)
{
	finding_set used = describe_findings(card->policy);
	char name[DESCRIBE_FINDING_SIZE];

	fputs("<p class=\"small\">", out);
	for (int i = 0; i < FINDING_COUNT; i++) {
		const char *about = finding_about((enum finding)i);

		describe_finding((enum finding)i, name);
		if ((used & finding_bit((enum finding)i)) == 0 ||
		    strcmp(name, about) == 0)
			continue;
		write_element(out, "<b>", name, "</b>: ");
		write_element(out, "", about, ". ");
	}
	fputs("</p>\n", out);
}

static void
write_grid_row(const struct card *card, int row, FILE *out)
{
	char line[CARD_LINE_SIZE];

	card_row(row, line);
	write_element(out, "<tr><th>", line, "</th>");
	for (int column = 0; column < GRID_COLUMNS; column++) {
		card_cell(card, row, (enum grid_column)column, line);
		write_element(out, "<td>", line, "</td>");
	}
	fputs("</tr>\n", out);
}

static void
write_grid(const struct card *card, FILE *out)
{
	char line[CARD_LINE_SIZE];

	fputs("<section>\n<h2>What the rules say at every depth</h2>\n<table>\n"
	      "<tr><th>depth</th>",
	      out);
	for (int column = 0; column < GRID_COLUMNS; column++) {
		card_column(card, (enum grid_column)column, line);
		write_element(out, "<th>", line, "</th>");
	}
	fputs("</tr>\n", out);
	for (int row = 0; row < GRID_ROWS; row++)
		write_grid_row(card, row, out);
	fputs("</table>\n", out);
	card_grid_note(card, line);
	write_element(out, "<p class=\"small\">", line, "</p>\n");
	write_element(out, "<p>", card_signature(), "</p>\n");
	fputs("<p class=\"sign\"></p>\n</section>\n", out);
}

void
card_write_html(const struct card *card, FILE *out)
{
	struct writing to = {card, out};
	char line[CARD_LINE_SIZE];

	write_head(card, out);
	fputs("<div class=\"rules\">\n", out);
	describe_by_urgency(card->policy, write_rule, &to);
	card_default(card, line);
	write_element(out, "<p><b>", line, "</b></p>\n</div>\n");
	card_cautions(card, line);
	write_element(out, "<p class=\"end\">", line, "</p>\n");
	write_words(card, out);
	if (card->grid != NULL)
		write_grid(card, out);
	fputs("</body>\n</html>\n", out);
}
