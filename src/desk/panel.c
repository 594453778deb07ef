/* panel.c: what may be typed now, on the lowest rows. */
#include "desk/panel.h"

#include "base/text.h"
#include "desk/placing.h"

#include <stdio.h>
#include <string.h>

enum { END_ROWS = 2, TEXT_ROWS = 3, SAID_ROWS = 3, EXPLANATION_SIZE = 2000 };

/* --- the choices ---------------------------------------------------------- */

/* Choices side by side as far as they fit, recorded ones in bold with a star.
 */
struct shelf {
	const struct brush *brush;
	int row, column;
};

static void
put_choice(struct shelf *shelf, int key, const char *words, bool chosen)
{
	char text[200];
	int width;

	snprintf(text, sizeof text, "%c%d %s", chosen ? '*' : ' ', key, words);
	width = shelf->brush->width(text);
	if (shelf->column > 0 && shelf->column + width > PLACING_COLUMNS) {
		shelf->row++;
		shelf->column = 0;
	}
	brush_put(shelf->brush, shelf->row, shelf->column, width,
		  chosen ? BRUSH_BOLD | BRUSH_UNDERLINE : BRUSH_PLAIN, text);
	shelf->column += width + 2;
}

static void
put_findings(const struct keying *keying, struct shelf *shelf)
{
	enum question at = keying->at;
	enum finding_group group = question_table[at].group;

	for (int key = 1; key <= question_keys(group); key++)
		put_choice(shelf, key,
			   finding_about(question_finding(group, key)),
			   keying_has(keying->form, at, key));
}

static void
put_words(const struct keying *keying, struct shelf *shelf)
{
	const struct field *field = question_field(keying->at);
	char chosen[FIELD_TEXT_SIZE], words[64];
	const char *word;
	size_t length;

	field_write(field, &keying->form->visit, chosen, sizeof chosen);
	for (int i = 0; (word = field_word(field->words, i, &length)); i++) {
		bool is_it;

		snprintf(words, sizeof words, "%.*s", (int)length, word);
		is_it = strcmp(words, chosen) == 0;
		question_spell(words);
		put_choice(shelf, i + 1, words, is_it);
	}
}

/* The seven grades are the most asked and have keys of their own. */
static const char grades[] = "Type the grade:  0   5   15   25   40   75   100 "
			     "  (2, 4 and 7 alone "
			     "are enough)\n"
			     "x  could not be graded    -  no eye to grade    "
			     "?  all grades as "
			     "bars\n"
			     "60 degrees, dim room, temporal edge, straight "
			     "gaze, before any "
			     "drops.\n";

/* What may be typed, as it is explained at the prompts too. */
static void
put_explanation(const struct keying *keying, const struct brush *brush, int row)
{
	char text[EXPLANATION_SIZE] = "";
	FILE *out = fmemopen(text, sizeof text, "w");

	if (out == NULL)
		return;
	if (question_table[keying->at].kind == ANSWER_DEPTH)
		fputs(grades, out);
	else
		question_write_help(keying->at, PLACING_COLUMNS, out);
	fclose(out);
	brush_put_lines(brush, row, TEXT_ROWS, BRUSH_PLAIN, text);
}

int
panel_rows(const struct keying *keying)
{
	if (keying->at == QUESTION_COUNT)
		return END_ROWS;
	return question_table[keying->at].kind == ANSWER_FINDINGS
		       ? PLACING_PANEL
		       : TEXT_ROWS;
}

void
panel_draw(const struct keying *keying, const struct brush *brush)
{
	enum question at = keying->at;
	struct shelf shelf = {brush,
			      brush->rows - PANEL_KEYS - panel_rows(keying), 0};
	struct fault ignored;

	if (at == QUESTION_COUNT)
		brush_put(brush, shelf.row, 0, PLACING_COLUMNS, BRUSH_BOLD,
			  visit_check(&keying->form->visit, &ignored)
				  ? "> Look at the answers and the decision. "
				    "Enter saves this person."
				  : "> Go back and mend the answers: < or an "
				    "arrow.");
	else if (question_table[at].kind == ANSWER_FINDINGS)
		put_findings(keying, &shelf);
	else if (question_table[at].kind == ANSWER_CHOICE)
		put_words(keying, &shelf);
	else
		put_explanation(keying, brush, shelf.row);
}

/* --- the last row --------------------------------------------------------- */

static const char *
keys_of(const struct keying *keying)
{
	enum question at = keying->at;

	if (at == QUESTION_COUNT)
		return "Enter save   0 drop   < or arrows: back to an answer   "
		       "? all of it   Esc menu";
	if (question_table[at].kind == ANSWER_FINDINGS)
		return "number: yes/no   0 none   Enter next   < back   arrows "
		       "move   ? help   Esc menu";
	return "Enter or Tab next   < or Shift-Tab back   arrows move   ? help "
	       "  Esc menu";
}

/* On the lowest rows, over what stands there. */
static void
put_refusal(const struct fault *said, const struct brush *brush)
{
	char text[FAULT_SENTENCE_SIZE + 100] = "", blank[PLACING_COLUMNS + 1];
	FILE *out = fmemopen(text, sizeof text, "w");
	int lines = 0;

	if (out == NULL)
		return;
	fprintf(out, "Not taken: ");
	text_write_wrapped(out, said->sentence, PLACING_COLUMNS, 11, 0);
	fclose(out);
	for (const char *at = text; *at != '\0'; at++)
		lines += *at == '\n';
	lines = lines < SAID_ROWS ? lines : SAID_ROWS;
	snprintf(blank, sizeof blank, "%*s", PLACING_COLUMNS, "");
	for (int i = 1; i <= lines; i++)
		brush_put(brush, brush->rows - i, 0, PLACING_COLUMNS,
			  BRUSH_PLAIN, blank);
	brush_put_lines(brush, brush->rows - lines, lines, BRUSH_BOLD, text);
}

void
panel_draw_last(const struct keying *keying, const char *keys,
		const struct brush *brush)
{
	if (keys == NULL && keying->said.kind != FAULT_NONE)
		put_refusal(&keying->said, brush);
	else
		brush_put(brush, brush->rows - PANEL_KEYS, 0, PLACING_COLUMNS,
			  BRUSH_PLAIN, keys == NULL ? keys_of(keying) : keys);
}
