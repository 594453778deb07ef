/* reportgrid.c: on which days each station counted. */
#include "paper/reportparts.h"

#include "paper/gridchart.h"
#include "paper/reportwords.h"

#include <stdlib.h>
#include <string.h>

enum {
	DAYS_MOST = 93, /* shown day by day; more are shown by week */
	WEEK = 7,
	WEEKS_ACROSS = 26
};

/* The marks of all days of up to GRIDCHART_ROWS_MOST stations. */
struct block {
	struct day first;
	size_t days;
	unsigned char *marks; /* owned; a row of `days` per station */
	int skip;	      /* stations before this block */
	int seen;	      /* stations so far */
	int rows;
	int station[GRIDCHART_ROWS_MOST];
	int before;
	int weeks_across;
};

static void
see_day(void *context, int station, struct day day, const char *policy,
	unsigned marks)
{
	struct block *block = context;
	size_t at = (size_t)(day.number - block->first.number);

	(void)policy;
	if (station != block->before)
		block->seen++;
	block->before = station;
	if (block->seen <= block->skip ||
	    block->seen > block->skip + GRIDCHART_ROWS_MOST ||
	    day.number < block->first.number || at >= block->days)
		return;
	block->rows = block->seen - block->skip;
	block->station[block->rows - 1] = station;
	block->marks[(size_t)(block->rows - 1) * block->days + at] =
		(unsigned char)marks;
}

static unsigned
marks_of(const struct block *block, int row, int number)
{
	int at = number - block->first.number;

	if (at < 0 || (size_t)at >= block->days)
		return 0;
	return block->marks[(size_t)row * block->days + (size_t)at];
}

/* The cell of `span` days from `number` on. */
static struct gridchart_cell
cell_of(const struct block *block, int row, int number, int span)
{
	struct gridchart_cell cell = {GRIDCHART_NOTHING, 0};
	unsigned all = 0;
	int last = block->first.number + (int)block->days - 1;

	if (number > last || number + span <= block->first.number)
		cell.kind = GRIDCHART_OUTSIDE;
	for (int i = 0; i < span; i++) {
		unsigned marks = marks_of(block, row, number + i);

		all |= marks;
		cell.days += span > 1 &&
			     (marks & (CALENDAR_OPEN | CALENDAR_CLOSED)) != 0;
	}
	if ((all & CALENDAR_OPEN) != 0)
		cell.kind = GRIDCHART_OPEN;
	else if ((all & CALENDAR_CLOSED) != 0)
		cell.kind = GRIDCHART_CLOSED;
	else if ((all & CALENDAR_LEFT_OUT) != 0)
		cell.kind = GRIDCHART_LEFT_OUT;
	return cell;
}

/* Part of the grid that is one drawing: columns of `span` days. */
struct panel {
	int from, columns, span;
	char title[REPORT_WORDS_SIZE];
	struct gridchart_headings headings;
};

static bool
panel_is_empty(const struct block *block, const struct panel *panel)
{
	for (int i = 0; i < block->rows; i++)
		for (int j = 0; j < panel->columns * panel->span; j++)
			if (marks_of(block, i, panel->from + j) != 0)
				return false;
	return true;
}

static void
draw_panel(const struct block *block, const struct panel *panel, FILE *out)
{
	struct gridchart chart;
	struct gridchart_cell cells[GRIDCHART_COLUMNS_MOST];
	char label[8];

	if (panel_is_empty(block, panel))
		return;
	fprintf(out, "<div class=\"whole\"><h3>%s</h3>\n", panel->title);
	gridchart_begin(&chart, out, panel->title, block->rows, panel->columns,
			&panel->headings);
	for (int i = 0; i < block->rows; i++) {
		for (int j = 0; j < panel->columns; j++)
			cells[j] = cell_of(block, i,
					   panel->from + j * panel->span,
					   panel->span);
		snprintf(label, sizeof label, "%04d", block->station[i]);
		gridchart_row(&chart, label, cells);
	}
	gridchart_end(&chart);
	fputs("</div>\n", out);
}

/* Months, each beginning at its first day. Returns the day after. */
static struct day
month_panel(struct day day, struct panel *panel)
{
	struct day next;
	int year, month, of_month;

	memset(panel, 0, sizeof *panel);
	day_parts(day, &year, &month, &of_month);
	day.number -= of_month - 1;
	next = day_plus_months(day, 1);
	panel->from = day.number;
	panel->span = 1;
	panel->columns = next.number - day.number;
	snprintf(panel->title, sizeof panel->title, "%s %d",
		 day_month_name(month), year);
	for (int i = 0; i < panel->columns; i++)
		if (i == 0 || i % 5 == 4)
			snprintf(panel->headings.text[i],
				 sizeof panel->headings.text[i], "%d", i + 1);
	return next;
}

static struct day
week_panel(struct day day, int across, struct panel *panel)
{
	struct day monday = calendar_monday(calendar_week(day));
	char first[DAY_WEEK_SIZE], last[DAY_WEEK_SIZE], week[DAY_WEEK_SIZE];

	memset(panel, 0, sizeof *panel);
	panel->from = monday.number;
	panel->span = WEEK;
	panel->columns = across;
	day_write_week(monday, first);
	day_write_week(day_plus_days(monday, WEEK * (across - 1)), last);
	snprintf(panel->title, sizeof panel->title, "%s to %s", first, last);
	for (int i = 0; i < across; i += 4) {
		day_write_week(day_plus_days(monday, i * WEEK), week);
		snprintf(panel->headings.text[i],
			 sizeof panel->headings.text[i], "%.3s", week + 5);
	}
	return day_plus_days(monday, WEEK * across);
}

static void
draw_block(const struct block *block, FILE *out)
{
	struct panel panel;
	struct day day = block->first;
	int end = day.number + (int)block->days;

	while (day.number < end) {
		day = block->days <= DAYS_MOST
			      ? month_panel(day, &panel)
			      : week_panel(day, block->weeks_across, &panel);
		draw_panel(block, &panel, out);
	}
}

static void
draw_all(struct summary *summary, struct block *block, FILE *out)
{
	do {
		memset(block->marks, 0, block->days * GRIDCHART_ROWS_MOST);
		block->seen = block->rows = block->before = 0;
		calendar_visit(&summary->calendar, see_day, block);
		draw_block(block, out);
		block->skip += GRIDCHART_ROWS_MOST;
	} while (block->skip < block->seen);
}

/* As few drawings as hold the weeks, all with the same number. */
static int
even_weeks(const struct calendar_facts *facts)
{
	int weeks =
		calendar_week(facts->last) - calendar_week(facts->first) + 1;
	int drawings = (weeks + WEEKS_ACROSS - 1) / WEEKS_ACROSS;

	return (weeks + drawings - 1) / drawings;
}

void
report_grid(struct summary *summary, FILE *out)
{
	struct calendar_facts facts = calendar_facts(&summary->calendar);
	struct block block = {.first = facts.first};

	if (facts.days == 0) {
		fputs("<p>No station counted on any day.</p>\n", out);
		return;
	}
	block.days = (size_t)(facts.last.number - facts.first.number) + 1;
	block.weeks_across = even_weeks(&facts);
	block.marks = malloc(block.days * GRIDCHART_ROWS_MOST);
	if (block.marks == NULL) {
		fputs("<p>There was no memory to draw the days.</p>\n", out);
		return;
	}
	fputs(block.days <= DAYS_MOST
		      ? "<p>Full square: a tally of a complete day. Empty "
			"square: of a day still open. Cross: one came and is "
			"left out. Dot: none is counted.</p>\n"
		      : "<p>A column is a week. The higher a bar, the more of "
			"the seven days have a tally; it is empty when one of "
			"them was still open. Cross: one came and is left out. "
			"Dot: none is counted.</p>\n",
	      out);
	fputs("<div class=\"two\">\n", out);
	draw_all(summary, &block, out);
	fputs("</div>\n", out);
	free(block.marks);
}
