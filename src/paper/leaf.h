/* leaf.h: headings, sentences and tables, on a screen or as a page. */
#ifndef SHOAL_PAPER_LEAF_H
#define SHOAL_PAPER_LEAF_H

#include <stdbool.h>
#include <stdio.h>

/*
 * What is written once stands on both: as lines of plain text that never run
 * over the edge, or as one HTML page for A4 without anything from outside.
 * Every text is escaped.
 */
enum { LEAF_COLUMNS_MOST = 8 };

struct leaf {
	FILE *out;
	bool html;
	int columns; /* of the text, at least 40 */
	const struct leaf_column *column;
	int count; /* of the table that is open */
};

/* A column of a table: its heading and, in the text, how wide it is. The first
 * is set to the left, the others to the right. */
struct leaf_column {
	const char *title;
	int width;
};

void leaf_begin(struct leaf *leaf, const char *title);
void leaf_end(const struct leaf *leaf);

void leaf_heading(const struct leaf *leaf, const char *text);

/* A paragraph; what is longer than 900 bytes is cut. */
__attribute__((format(printf, 2, 3))) void leaf_say(const struct leaf *leaf,
						    const char *format, ...);

/* A table of up to LEAF_COLUMNS_MOST columns; then its rows, then its end. A
 * first cell that is too wide stands on a line of its own. */
void leaf_table(struct leaf *leaf, const struct leaf_column *column, int count);
void leaf_row(const struct leaf *leaf, const char *const *cell);
void leaf_table_end(const struct leaf *leaf);

#endif
