/* agreetable.c: the table of two gradings as a picture. */
#include "desk/agreetable.h"

#include "base/maths.h"
#include "paper/chart.h"

#include <string.h>

enum {
	TEXT_SIZE = 24,
	TEXT_WIDTH = 5, /* of a cell, in characters; wider for large counts */
	/* In the units of a chart. */
	LABEL = 46,
	CELL = 42,
	CELL_HIGH = 25,
	TOP = 34
};

static long
find_most(const struct agreement_table *table)
{
	long most = 1;

	for (int i = 0; i < DEPTH_GRADES; i++)
		for (int j = 0; j < DEPTH_GRADES; j++)
			if (table->count[i][j] > most)
				most = table->count[i][j];
	return most;
}

/* A line of the picture; `row` -1 is the heading. Nothing stands behind the
 * last figure. */
static void
write_row(const struct agreement_table *table, int row, int cutoff, int width,
	  FILE *out)
{
	char cell[TEXT_SIZE];

	fprintf(out, row < 0 ? "    " : "%4d",
		row < 0 ? 0 : depth_percent((enum depth)row));
	for (int j = 0; j < DEPTH_GRADES; j++) {
		bool last = j == DEPTH_100 && row != j;
		long figure = row < 0 ? depth_percent((enum depth)j)
				      : table->count[row][j];

		if (row >= 0 && figure == 0)
			snprintf(cell, sizeof cell, row == j ? "[.]" : ". ");
		else
			snprintf(cell, sizeof cell, row == j ? "[%ld]" : "%ld ",
				 figure);
		fprintf(out, "%*.*s%s", width - last, (int)strlen(cell) - last,
			cell, j == cutoff ? "|" : "");
	}
	fputc('\n', out);
}

void
agreetable_write(const struct agreement_table *table, enum depth cutoff,
		 FILE *out)
{
	int width = snprintf(NULL, 0, "%ld", find_most(table)) + 2;

	if (width < TEXT_WIDTH)
		width = TEXT_WIDTH;
	for (int i = -1; i < DEPTH_GRADES; i++) {
		write_row(table, i, (int)cutoff, width, out);
		if (i < 0 || i != (int)cutoff)
			continue;
		fprintf(out, "    ");
		for (int j = 0; j <= DEPTH_GRADES * width; j++)
			fputc(j == (i + 1) * width ? '+' : '-', out);
		fputc('\n', out);
	}
}

/* Letters stay black on grey, so that they can be read on any paper. */
static void
draw_cell(int i, int j, long count, double share, FILE *out)
{
	int grey = 255 - (int)maths_round(110 * share);
	double x = LABEL + j * CELL, y = TOP + i * CELL_HIGH;
	char text[TEXT_SIZE];

	fprintf(out,
		"<rect x=\"%.1f\" y=\"%.1f\" width=\"%d\" height=\"%d\" "
		"fill=\"rgb(%d,%d,%d)\" stroke=\"#000\" stroke-width=\"%s\" "
		"/>",
		x + 1.5, y + 1.5, CELL - 3, CELL_HIGH - 3, grey, grey, grey,
		i == j ? "2" : ".4");
	snprintf(text, sizeof text, "%ld", count);
	if (count > 0)
		chart_text(out, x + CELL / 2.0, y + 17, "middle", 9, text);
}

void
agreetable_draw(const struct agreement_table *table, enum depth cutoff,
		FILE *out)
{
	int right = LABEL + DEPTH_GRADES * CELL;
	int bottom = TOP + DEPTH_GRADES * CELL_HIGH;
	double most = (double)find_most(table);
	char text[TEXT_SIZE];

	chart_begin(out, bottom + 2, "Table of grades");
	chart_text(out, (LABEL + right) / 2.0, 11, "middle", 40, "reference");
	chart_text(out, 0, TOP - 5, "start", 8, "grader");
	for (int i = 0; i < DEPTH_GRADES; i++) {
		snprintf(text, sizeof text, "%d %%",
			 depth_percent((enum depth)i));
		chart_text(out, LABEL + (i + 0.5) * CELL, TOP - 5, "middle", 8,
			   text);
		chart_text(out, LABEL - 6, TOP + i * CELL_HIGH + 17, "end", 8,
			   text);
		for (int j = 0; j < DEPTH_GRADES; j++)
			draw_cell(i, j, table->count[i][j],
				  (double)table->count[i][j] / most, out);
	}
	if (cutoff != DEPTH_BLANK)
		fprintf(out,
			"<path d=\"M%d %dV%dM%d %dH%d\" stroke=\"#000\" "
			"stroke-width=\"3\" />",
			LABEL + ((int)cutoff + 1) * CELL, TOP, bottom, LABEL,
			TOP + ((int)cutoff + 1) * CELL_HIGH, right);
	chart_end(out);
}
