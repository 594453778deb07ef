/* brush.c: what draws on a screen, so that pages need to know none. */
#include "desk/brush.h"

#include "desk/placing.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

void
brush_put(const struct brush *brush, int row, int column, int width,
	  unsigned style, const char *text)
{
	if (width > 0)
		brush->put(brush->context, row, column, width, style, text);
}

static const char *
next_character(const char *text)
{
	do
		text++;
	while (((unsigned char)*text & 0xc0) == 0x80);
	return text;
}

/* A mark whose letter is cut off goes with it. */
const char *
brush_end_of(const struct brush *brush, const char *text, int width)
{
	while (*text != '\0' && brush->width(text) > width) {
		text = next_character(text);
		while (*text != '\0' &&
		       brush->width(text) == brush->width(next_character(text)))
			text = next_character(text);
	}
	return text;
}

int
brush_put_most(const struct brush *brush, int row, int rows, unsigned style,
	       const char *lines, const char *more)
{
	int used = 0;

	while (*lines != '\0' && used < rows) {
		char line[PLACING_COLUMNS * 4 + 1];
		size_t length = strcspn(lines, "\n");
		bool cut = rows > 1 && used + 1 == rows &&
			   lines[length] != '\0' && lines[length + 1] != '\0';

		snprintf(line, sizeof line, "%.*s", (int)length, lines);
		brush->put(brush->context, row + used, 0, PLACING_COLUMNS,
			   style, cut ? more : line);
		lines += length + (lines[length] != '\0');
		used++;
	}
	return used;
}

int
brush_put_lines(const struct brush *brush, int row, int rows, unsigned style,
		const char *lines)
{
	return brush_put_most(brush, row, rows, style, lines,
			      "... (? shows the rest)");
}
