/* brush.h: what draws on a screen, so that pages need to know none. */
#ifndef SHOAL_DESK_BRUSH_H
#define SHOAL_DESK_BRUSH_H

enum brush_style {
	BRUSH_PLAIN = 0,
	BRUSH_BOLD = 1,
	BRUSH_REVERSE = 2,
	BRUSH_UNDERLINE = 4
};

struct brush {
	/* At most `width` columns of the text, filled up to them where the
	 * style shows on spaces; the columns that the text takes of them. */
	int (*put)(void *context, int row, int column, int width,
		   unsigned style, const char *text);
	/* The columns of a text on that screen. */
	int (*width)(const char *text);
	void *context;
	int rows;
};

/* Nothing where there is no width. */
void brush_put(const struct brush *brush, int row, int column, int width,
	       unsigned style, const char *text);

/* The end of the text that fits into so many columns. */
const char *brush_end_of(const struct brush *brush, const char *text,
			 int width);

/* Puts the lines of a text from a row on, at most `rows` of them; how many.
 * What has no room is told in the last of them, where there is another. */
int brush_put_lines(const struct brush *brush, int row, int rows,
		    unsigned style, const char *lines);

/* The same with other words for that. */
int brush_put_most(const struct brush *brush, int row, int rows, unsigned style,
		   const char *lines, const char *more);

#endif
