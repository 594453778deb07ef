/* chart.h: counts as drawings for a page. */
#ifndef SHOAL_PAPER_CHART_H
#define SHOAL_PAPER_CHART_H

#include <stddef.h>
#include <stdio.h>

/*
 * Inline SVG of one width, so that letters have the same size in every drawing:
 * about as wide as a telephone, or half of an A4 page. A drawing has a title,
 * role="img", its figures as text, black patterns instead of colours, and
 * nothing from outside. Every text is escaped. Lengths and counts are at least
 * 0; a drawing without rows writes nothing.
 */
enum {
	CHART_WIDTH = 340,
	CHART_PARTS_MOST = 4, /* of a bar; solid, striped, dotted, empty */
	CHART_CELLS_MOST = 8
};

/* A frame for drawings of any kind, `height` units high. */
void chart_begin(FILE *out, int height, const char *title);
void chart_end(FILE *out);

/* <text> at a place; `anchor` is "start", "middle" or "end". Of what is wider
 * than `columns` characters (at least 6) the beginning and the end are shown,
 * with "..." between them: names of sites often differ at their end. */
void chart_text(FILE *out, double x, double y, const char *anchor, int columns,
		const char *text);

/* "<p class="legend">" with one sample and name per part, but for
 * parts whose name is NULL. */
void chart_legend(FILE *out, const char *const *names, int count);

struct chart_bar {
	const char *label;
	const char *words; /* its figures */
	double part[CHART_PARTS_MOST];
	int parts;
	double low, high; /* an interval drawn over it; 0 and 0 for none */
};

/*
 * Bars from left to right, one per row. `most` is the length that fills the
 * width; 0 makes every bar as long as the others, so that shares are compared.
 * With `columns` the label of at most so many characters stands before the bar
 * and the words after it; with 0 the label stands above and the words below.
 */
void chart_bars(FILE *out, const char *title, int columns, double most,
		const struct chart_bar *bars, size_t count);

struct chart_row {
	const char *label;
	long long count[CHART_CELLS_MOST]; /* people */
};

/* A table of counts with a small bar in each cell for its share of the row's
 * people; `names` are `cells` short headings. */
void chart_cells(FILE *out, const char *title, const char *const *names,
		 int cells, const struct chart_row *rows, size_t count);

#endif
