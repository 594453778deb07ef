/* gridchart.c: stations down, days or weeks across, gaps to be seen. */
#include "paper/gridchart.h"

#include "paper/chart.h"

#include <stdbool.h>

enum { LEFT = 34, TOP = 14, ROW = 14, SQUARE = 8 };

static double
place_of(const struct gridchart *chart, int column)
{
	return LEFT +
	       (CHART_WIDTH - LEFT - 2.0) * (column + 0.5) / chart->columns;
}

void
gridchart_begin(struct gridchart *chart, FILE *out, const char *title, int rows,
		int columns, const struct gridchart_headings *headings)
{
	chart->out = out;
	chart->columns = columns;
	chart->rows = 0;
	chart_begin(out, TOP + rows * ROW, title);
	fputs("<g font-size=\"10\">", out);
	for (int i = 0; i < columns; i++)
		if (headings->text[i][0] != '\0')
			chart_text(out, place_of(chart, i), TOP - 4, "middle",
				   8, headings->text[i]);
	fputs("</g>\n", out);
}

/* All cells of one kind as one path; `stroke` NULL draws squares. */
static void
draw_kind(const struct gridchart *chart, const struct gridchart_cell *cells,
	  enum gridchart_kind kind, double y, const char *look,
	  const char *stroke)
{
	bool begun = false;

	for (int i = 0; i < chart->columns; i++) {
		double height = cells[i].days > 0 ? cells[i].days * SQUARE / 7.0
						  : SQUARE;

		if (cells[i].kind != kind)
			continue;
		if (!begun)
			fprintf(chart->out, "<path %s d=\"", look);
		begun = true;
		fprintf(chart->out, "M%.1f %.0f",
			place_of(chart, i) - SQUARE / 2.0, y);
		if (stroke != NULL)
			fputs(stroke, chart->out);
		else
			fprintf(chart->out, "m0 %dv-%.1fh%dv%.1fz", SQUARE,
				height, SQUARE, height);
	}
	if (begun)
		fputs("\" />", chart->out);
}

void
gridchart_row(struct gridchart *chart, const char *label,
	      const struct gridchart_cell *cells)
{
	double y = TOP + chart->rows * ROW + 3;

	chart->rows++;
	chart_text(chart->out, 0, y + SQUARE, "start", 6, label);
	draw_kind(chart, cells, GRIDCHART_NOTHING, y, "stroke=\"#1b2428\"",
		  "m3 4h2");
	draw_kind(chart, cells, GRIDCHART_LEFT_OUT, y,
		  "stroke=\"#1b2428\" stroke-width=\"1.5\"", "l8 8m0-8l-8 8");
	draw_kind(chart, cells, GRIDCHART_OPEN, y,
		  "fill=\"none\" stroke=\"#1b2428\"", NULL);
	draw_kind(chart, cells, GRIDCHART_CLOSED, y,
		  "fill=\"#123a4a\" stroke=\"#123a4a\"", NULL);
	fputc('\n', chart->out);
}

void
gridchart_end(const struct gridchart *chart)
{
	chart_end(chart->out);
}
