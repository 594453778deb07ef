/* card.c: the rules of a policy in plain words, as text. */
#include "paper/card.h"

#include "base/text.h"
#include "clinic/describe.h"

#include <string.h>

/* A rule on its way to the card. */
struct writing {
	const struct card *card;
	FILE *out;
};

static void
write_line(FILE *out, const char *text)
{
	text_write_wrapped(out, text, CARD_COLUMNS, 0, 0);
}

static void
write_head(const struct card *card, const char *title, FILE *out)
{
	char line[CARD_LINE_SIZE];

	fprintf(out, "%s\n", title);
	card_name(card, line);
	write_line(out, line);
	card_mark(card, line);
	write_line(out, line);
	card_approval(card, line);
	write_line(out, line);
	fputc('\n', out);
}

static void
write_tail(const struct card *card, FILE *out)
{
	char line[CARD_LINE_SIZE];

	card_cautions(card, line);
	fputc('\n', out);
	write_line(out, line);
}

static void
write_rule(void *context, const struct rule *rule, bool first)
{
	const struct writing *to = context;
	char line[CARD_LINE_SIZE], conditions[DESCRIBE_SIZE];

	if (first) {
		card_heading(to->card, rule, line);
		fprintf(to->out, "\n%s\n", line);
	}
	fprintf(to->out, " - %s: ", rule->name);
	describe_conditions(rule, conditions, sizeof conditions);
	text_write_wrapped(to->out, conditions, CARD_COLUMNS,
			   5 + (int)strlen(rule->name), 3);
}

/* A word that says itself what it means is left out. */
static void
write_words(const struct card *card, FILE *out)
{
	finding_set used = describe_findings(card->policy);
	char name[DESCRIBE_FINDING_SIZE];

	fprintf(out, "\nWhat the words mean\n");
	for (int i = 0; i < FINDING_COUNT; i++) {
		const char *about = finding_about((enum finding)i);

		describe_finding((enum finding)i, name);
		if ((used & finding_bit((enum finding)i)) == 0 ||
		    strcmp(name, about) == 0)
			continue;
		fprintf(out, " - %s: ", name);
		text_write_wrapped(out, about, CARD_COLUMNS,
				   5 + (int)strlen(name), 3);
	}
}

void
card_write_text(const struct card *card, FILE *out)
{
	struct writing to = {card, out};
	char line[CARD_LINE_SIZE];

	write_head(card, "Referral rules", out);
	write_line(out, card_how_to_read());
	describe_by_urgency(card->policy, write_rule, &to);
	fputc('\n', out);
	card_default(card, line);
	write_line(out, line);
	write_words(card, out);
	write_tail(card, out);
}

/* Nothing stands behind the last column. */
static void
write_column(int column, const char *text, FILE *out)
{
	if (column == GRID_COLUMNS - 1)
		fprintf(out, "  %s\n", text);
	else
		fprintf(out, "  %-15s", text);
}

static void
write_grid_row(const struct card *card, int row, FILE *out)
{
	char line[CARD_LINE_SIZE];

	card_row(row, line);
	fprintf(out, "%6s", line);
	for (int column = 0; column < GRID_COLUMNS; column++) {
		card_cell(card, row, (enum grid_column)column, line);
		write_column(column, line, out);
	}
}

void
card_write_grid(const struct card *card, FILE *out)
{
	char line[CARD_LINE_SIZE];

	write_head(card, "What the referral rules say at every depth", out);
	fprintf(out, "%6s", "depth");
	for (int column = 0; column < GRID_COLUMNS; column++) {
		card_column(card, (enum grid_column)column, line);
		write_column(column, line, out);
	}
	for (int row = 0; row < GRID_ROWS; row++)
		write_grid_row(card, row, out);
	fputc('\n', out);
	card_grid_note(card, line);
	write_line(out, line);
	fprintf(out, "\n%s\n\n______________________________________________\n",
		card_signature());
	write_tail(card, out);
}
