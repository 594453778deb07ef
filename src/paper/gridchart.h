/* gridchart.h: stations down, days or weeks across, gaps to be seen. */
#ifndef SHOAL_PAPER_GRIDCHART_H
#define SHOAL_PAPER_GRIDCHART_H

#include <stdio.h>

/* A drawing as in chart.h: begun, given its rows, ended. */
enum { GRIDCHART_COLUMNS_MOST = 31, GRIDCHART_ROWS_MOST = 40 };

enum gridchart_kind {
	GRIDCHART_OUTSIDE,  /* before or after what the page is about */
	GRIDCHART_NOTHING,  /* a dot */
	GRIDCHART_LEFT_OUT, /* a cross */
	GRIDCHART_OPEN,	    /* an empty square */
	GRIDCHART_CLOSED    /* a full square */
};

struct gridchart_cell {
	enum gridchart_kind kind;
	int days; /* of seven, as the height of the square; 0 = a whole one */
};

/* Short texts over the columns, "" for none. */
struct gridchart_headings {
	char text[GRIDCHART_COLUMNS_MOST][12];
};

struct gridchart {
	FILE *out;
	int columns, rows;
};

void gridchart_begin(struct gridchart *chart, FILE *out, const char *title,
		     int rows, int columns,
		     const struct gridchart_headings *headings);
void gridchart_row(struct gridchart *chart, const char *label,
		   const struct gridchart_cell *cells);
void gridchart_end(const struct gridchart *chart);

#endif
