/* page.c: one person on one screen. */
#include "desk/page.h"

#include "base/text.h"
#include "desk/panel.h"
#include "desk/placing.h"
#include "desk/verdict.h"
#include "paper/drawing.h"

#include <string.h>

/* --- the head ------------------------------------------------------------- */

static void
draw_head(const struct page *page, const struct brush *brush)
{
	const struct session *session = page->session;
	const struct visit *visit = &page->keying->form->visit;
	char day[DAY_SIZE], left[VISIT_SITE_SIZE + 120], right[80];
	int width;

	day_write(visit->screened_on, day);
	snprintf(left, sizeof left, "%s  grader %s  %s", day, visit->grader,
		 visit->site);
	snprintf(right, sizeof right, "screened %d, referred %d, same day %d",
		 session->counts.screened, session->counts.referred,
		 session->counts.same_day);
	width = (int)strlen(right);
	brush_put(brush, PLACING_HEAD, 0, PLACING_COLUMNS - width - 2,
		  BRUSH_PLAIN, left);
	brush_put(brush, PLACING_HEAD, PLACING_COLUMNS - width, width,
		  BRUSH_BOLD, right);
}

/* --- the answers ---------------------------------------------------------- */

/* Keys alone where the words have no room: all of it stays in sight. */
static void
show_within(const struct page *page, const struct brush *brush,
	    enum question question, int width, char *shown)
{
	const struct keying *keying = page->keying;
	size_t used = 0;

	keying_show(keying, question, shown);
	if (question_table[question].kind != ANSWER_FINDINGS ||
	    brush->width(shown) <= width)
		return;
	for (int key = 1; key <= question_keys(question_table[question].group);
	     key++)
		if (keying_has(keying->form, question, key))
			used += (size_t)snprintf(shown + used,
						 FORM_SHOWN_SIZE - used, "%d ",
						 key);
}

/* A grade that is being typed shows what it is taken for. */
static void
show_depth(const struct page *page, enum question question, char *shown)
{
	const struct keying *keying = page->keying;
	enum depth depth;
	struct fault ignored;

	if (question == keying->at && keying->typing &&
	    keying_grade(keying) != DEPTH_BLANK)
		depth_write(keying_grade(keying), shown);
	if (depth_read(shown, &depth, &ignored) && depth_is_graded(depth))
		snprintf(shown, FORM_SHOWN_SIZE, "%d %%", depth_percent(depth));
}

static void
show_value(const struct page *page, const struct brush *brush,
	   enum question question, int width, char *shown)
{
	show_within(page, brush, question, width, shown);
	if (question_table[question].kind == ANSWER_DEPTH)
		show_depth(page, question, shown);
	if (shown[0] == '\0' && question != page->keying->at)
		snprintf(shown, FORM_SHOWN_SIZE, "?");
}

/* One question: its mark, label and answer; where its answer ends. */
static int
draw_field(const struct page *page, const struct brush *brush,
	   enum question question)
{
	struct place place = placing_of(page->keying->form, question);
	bool here = question == page->keying->at;
	int from = placing_answer(&place);
	char shown[FORM_SHOWN_SIZE];
	const char *text = shown;

	show_value(page, brush, question, place.width, shown);
	if (here && page->keying->typing)
		text = brush_end_of(brush, shown, place.width - 1);
	brush_put(brush, place.row, place.column, 1, BRUSH_BOLD,
		  here ? ">" : " ");
	brush_put(brush, place.row, place.column + 1, from - place.column - 1,
		  here ? BRUSH_BOLD : BRUSH_PLAIN, place.label);
	return from +
	       brush->put(brush->context, place.row, from, place.width,
			  here ? BRUSH_BOLD | BRUSH_UNDERLINE : BRUSH_PLAIN,
			  text);
}

/* The grade to scale, as it is or as it is being typed. */
static void
draw_bar(const struct page *page, const struct brush *brush,
	 enum question question, int row, int column)
{
	const struct keying *keying = page->keying;
	enum depth depth = question == ASK_DEPTH_RIGHT
				   ? keying->form->visit.depth_right
				   : keying->form->visit.depth_left;
	char bar[PLACING_COLUMNS] = "";
	FILE *out = fmemopen(bar, sizeof bar, "w");

	if (out == NULL)
		return;
	if (question == keying->at && keying->typing)
		depth = keying_grade(keying);
	drawing_write_text(depth, out);
	fclose(out);
	brush_put(brush, row, column, PLACING_COLUMNS - column, BRUSH_PLAIN,
		  bar);
}

static void
draw_answers(const struct page *page, const struct brush *brush, int *row,
	     int *column)
{
	const struct keying *keying = page->keying;

	brush_put(brush, PLACING_EYES, 1, PLACING_HALF - 2, BRUSH_BOLD,
		  "RIGHT EYE (on your left)");
	brush_put(brush, PLACING_EYES, PLACING_HALF + 1, PLACING_HALF - 2,
		  BRUSH_BOLD, "LEFT EYE (on your right)");
	for (int i = 0; i < QUESTION_COUNT; i++) {
		int end;

		if (!form_asks(keying->form, (enum question)i))
			continue;
		end = draw_field(page, brush, (enum question)i);
		if ((enum question)i != keying->at)
			continue;
		*row = placing_of(keying->form, (enum question)i).row;
		*column = end < PLACING_COLUMNS ? end : PLACING_COLUMNS - 1;
	}
	draw_bar(page, brush, ASK_DEPTH_RIGHT, PLACING_BARS, 0);
	draw_bar(page, brush, ASK_DEPTH_LEFT, PLACING_BARS + 1,
		 PLACING_LEFT_BAR);
}

/* --- the decision --------------------------------------------------------- */

static void
close_lines(FILE *lines)
{
	if (lines != NULL)
		fclose(lines);
}

/* What has to be done; nothing while no decision can be told. */
static void
write_instructions(const struct desk *desk, const struct verdict *verdict,
		   FILE *out)
{
	if (verdict->kind == VERDICT_TODAY || verdict->kind == VERDICT_SO_FAR ||
	    verdict->kind == VERDICT_WHOLE)
		verdict_write_instructions(desk, &verdict->decision,
					   PLACING_COLUMNS, out);
}

/* The first line at `row`, the rest in the rows below it: what has to be done
 * comes first, so that only reasons are cut. Who must go today has all of them
 * in reverse. */
static void
draw_decision(const struct page *page, const struct brush *brush, int row,
	      int rows, const char *more)
{
	const struct desk *desk = page->session->desk;
	const struct form *form = page->keying->form;
	char head[200] = "", rest[PAGE_LINES_SIZE] = "", todo[2100] = "";
	FILE *heads = fmemopen(head, sizeof head, "w");
	FILE *rests = fmemopen(rest, sizeof rest, "w");
	FILE *todos = fmemopen(todo, sizeof todo, "w");
	struct verdict verdict;
	unsigned style;
	int used;

	verdict_reach(desk, form, &verdict);
	style = verdict_is_for_today(&verdict) ? BRUSH_REVERSE : BRUSH_PLAIN;
	if (heads != NULL && rests != NULL && todos != NULL) {
		verdict_write_head(desk, &verdict, heads);
		write_instructions(desk, &verdict, todos);
		verdict_write_rest(desk, form, &verdict, PLACING_COLUMNS,
				   rests);
	}
	close_lines(heads);
	close_lines(rests);
	close_lines(todos);
	brush_put(brush, row, 0, PLACING_COLUMNS, style | BRUSH_BOLD, head);
	used = 1 + brush_put_lines(brush, row + 1, rows - 1, style, todo);
	brush_put_most(brush, row + used, rows - used, style, rest, more);
}

static bool
is_begun(const struct page *page)
{
	return form_is_begun(page->keying->form) || page->keying->typing;
}

static unsigned
saved_style(const struct page *page)
{
	return page->saved_for_today ? BRUSH_REVERSE | BRUSH_BOLD : BRUSH_BOLD;
}

/* Before the first answer the person saved last stands there, or nothing. */
static void
draw_outcome(const struct page *page, const struct brush *brush, int rows)
{
	if (is_begun(page))
		draw_decision(page, brush, PLACING_DECISION, rows,
			      "... (? shows the rest)");
	else
		brush_put_lines(
			brush, PLACING_DECISION, rows, saved_style(page),
			page->saved[0] == '\0' ? "New person" : page->saved);
}

/* What stands above a question or a notice, which takes the rest: the head of
 * the decision, or who was saved with the decision. Its rows. */
static int
draw_above(const struct page *page, const struct brush *brush)
{
	char two[PAGE_LINES_SIZE];
	size_t length;

	if (is_begun(page) || page->saved[0] == '\0') {
		draw_outcome(page, brush, 1);
		return 1;
	}
	length = strcspn(page->saved, "\n");
	length += page->saved[length] != '\0';
	length += strcspn(page->saved + length, "\n");
	snprintf(two, sizeof two, "%.*s", (int)length, page->saved);
	return brush_put_lines(brush, PLACING_DECISION, 2, saved_style(page),
			       two);
}

/* --- the whole ------------------------------------------------------------ */

void
page_draw(const struct page *page, const struct brush *brush, int *row,
	  int *column)
{
	int panel = panel_rows(page->keying);
	int rows = brush->rows - PANEL_KEYS - PLACING_DECISION;

	*row = brush->rows - PANEL_KEYS;
	*column = 0;
	draw_head(page, brush);
	draw_answers(page, brush, row, column);
	if (page->over[0] != '\0') {
		int above = draw_above(page, brush);

		brush_put_lines(brush, PLACING_DECISION + above, rows - above,
				BRUSH_BOLD, page->over);
		*row = brush->rows - PANEL_KEYS;
		*column = 0;
	} else {
		draw_outcome(page, brush, rows - panel);
		panel_draw(page->keying, brush);
	}
	panel_draw_last(page->keying, page->over[0] == '\0' ? NULL : page->keys,
			brush);
}

/* --- other pages ---------------------------------------------------------- */

static void
write_grades(FILE *out)
{
	fprintf(out, "\nCornea #, gap ., iris |\n");
	for (int i = 0; i < DEPTH_GRADES; i++) {
		fprintf(out, "%4d %%  ", depth_percent((enum depth)i));
		drawing_write_text((enum depth)i, out);
		fprintf(out, "\n");
	}
}

static const char on_slip[] = "... (the slip has all of them)";

void
page_draw_help(const struct page *page, const struct brush *brush)
{
	enum question at = page->keying->at;
	char text[PAGE_LINES_SIZE] = "";
	FILE *out;
	int used;

	brush_put(brush, brush->rows - 1, 0, PLACING_COLUMNS, BRUSH_PLAIN,
		  "Any key goes back to the form.");
	if (at == QUESTION_COUNT) {
		draw_decision(page, brush, 0, brush->rows - 2, on_slip);
		return;
	}
	out = fmemopen(text, sizeof text, "w");
	if (out == NULL)
		return;
	fprintf(out, "%s\n\n", question_table[at].title);
	question_write_help(at, PLACING_COLUMNS, out);
	if (question_table[at].kind == ANSWER_DEPTH)
		write_grades(out);
	fprintf(out, "\n");
	question_write_choices(at, PLACING_COLUMNS, out);
	fclose(out);
	used = 1 +
	       brush_put_lines(brush, 0, brush->rows - 2, BRUSH_PLAIN, text);
	if (is_begun(page) && used < brush->rows - 4)
		draw_decision(page, brush, used, brush->rows - 2 - used,
			      on_slip);
}

void
page_draw_small(const struct brush *brush)
{
	static const char *const lines[] = {"This window is too small.",
					    "80 columns by 24 rows",
					    "are needed. Nothing is",
					    "lost: make it larger."};

	for (int i = 0; i < 4 && i < brush->rows; i++)
		brush_put(brush, i, 0, (int)strlen(lines[i]), BRUSH_BOLD,
			  lines[i]);
}
