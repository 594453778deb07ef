/* chart.c: counts as drawings for a page. */
#include "paper/chart.h"

#include "base/maths.h"
#include "base/text.h"

#include <string.h>

enum {
	ROW = 17,	    /* a bar with its words beside it */
	TALL_ROW = 45,	    /* with its words above and below */
	BAR = 11,	    /* height of a bar */
	WORDS = 96,	    /* room for the words beside a bar */
	LETTER = 7,	    /* width of an average letter, rounded up */
	FIGURE = 57,	    /* tenths, of one in a line of figures */
	CELL_ROW = 25,	    /* a row of a table, and its heading */
	CELL_LABEL = 68,    /* room for the row's label */
	TEXT_COLUMNS = 54,  /* that fit the whole width */
	TEXT_SIZE = 120 * 4 /* of a label that was cut */
};

/* Solid, striped, dotted, empty. Stripes are one thick broken line, for a
 * pattern makes a printed page huge. */
static void
draw_part(FILE *out, int part, double x, double y, double width)
{
	fprintf(out,
		"<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%d\" "
		"fill=\"%s\" stroke=\"#123a4a\" />",
		x, y, width, BAR, part == 0 ? "#123a4a" : "#fff");
	if (part == 1)
		fprintf(out,
			"<path d=\"M%.1f %.1fh%.1f\" stroke=\"#123a4a\" "
			"stroke-width=\"%d\" stroke-dasharray=\"1.4 2\" />",
			x, y + BAR / 2.0, width, BAR);
	if (part == 2)
		fprintf(out,
			"<path d=\"M%.1f %.1fh%.1fm-%.1f 4h%.1f\" "
			"stroke=\"#123a4a\" stroke-width=\"1.5\" "
			"stroke-dasharray=\"1.5 3.5\" />",
			x, y + 3.5, width, width, width);
}

void
chart_begin(FILE *out, int height, const char *title)
{
	fprintf(out,
		"<svg class=\"chart\" role=\"img\" viewBox=\"0 0 %d %d\" "
		"font-family=\"Arial,'Liberation Sans','Noto Sans',sans-serif\""
		" font-size=\"11.5\" fill=\"#1b2428\" style=\"display:block;"
		"width:100%%;max-width:460px;overflow:visible;break-inside:"
		"avoid\"><title>",
		CHART_WIDTH, height);
	text_write_html(out, title);
	fputs("</title>\n", out);
}

void
chart_end(FILE *out)
{
	fputs("</svg>\n", out);
}

/* Bytes to the next character of a text that has one. */
static size_t
step(const char *text)
{
	size_t next = 1;

	while (((unsigned char)text[next] & 0xC0) == 0x80)
		next++;
	return next;
}

/* The first `columns` columns of whole characters. */
static void
copy_beginning(const char *text, int columns, char *to, size_t size)
{
	size_t used = 0, next;

	to[0] = '\0';
	for (; text[used] != '\0' && used + 8 < size; used = next) {
		next = used + step(text + used);
		memcpy(to + used, text + used, next - used);
		to[next] = '\0';
		if (text_width(to) > columns)
			break;
	}
	to[used] = '\0';
}

/* The last `columns` columns; it does not begin with an accent alone. */
static const char *
ending(const char *text, int columns)
{
	while (text_width(text) > columns)
		text += step(text);
	while (text[0] != '\0' &&
	       text_width(text + step(text)) == text_width(text))
		text += step(text);
	return text;
}

/* Up to `columns` columns of whole characters: both ends of what is wider. */
static void
shorten(const char *text, int columns, char *to, size_t size)
{
	int tail = (columns - 3) / 2;
	const char *end;

	if (text_width(text) <= columns && text_copy(to, size, text))
		return;
	copy_beginning(text, columns - 3 - tail, to, size / 2);
	end = ending(text, tail);
	if (strlen(to) + strlen(end) + 4 <= size)
		snprintf(to + strlen(to), size - strlen(to), "...%s", end);
}

void
chart_text(FILE *out, double x, double y, const char *anchor, int columns,
	   const char *text)
{
	char shown[TEXT_SIZE];

	shorten(text, columns, shown, sizeof shown);
	fprintf(out, "<text x=\"%.0f\" y=\"%.0f\"", x, y);
	if (strcmp(anchor, "start") != 0)
		fprintf(out, " text-anchor=\"%s\"", anchor);
	fputc('>', out);
	text_write_html(out, shown);
	fputs("</text>", out);
}

/* Figures are never cut: what is too wide is drawn narrower. */
static void
write_figures(FILE *out, double x, double y, double width, const char *text)
{
	fprintf(out, "<text x=\"%.1f\" y=\"%.1f\"", x, y);
	if (text_width(text) * FIGURE > width * 10)
		fprintf(out,
			" textLength=\"%.0f\" "
			"lengthAdjust=\"spacingAndGlyphs\"",
			width);
	fputc('>', out);
	text_write_html(out, text);
	fputs("</text>", out);
}

void
chart_legend(FILE *out, const char *const *names, int count)
{
	fputs("<p class=\"legend\">", out);
	for (int i = 0; i < count; i++) {
		if (names[i] == NULL)
			continue;
		fprintf(out, "<span style=\"white-space:nowrap\">"
			     "<svg width=\"24\" height=\"13\" "
			     "aria-hidden=\"true\">");
		draw_part(out, i, 1, 1, 22);
		fputs("</svg> ", out);
		text_write_html(out, names[i]);
		fputs("</span> &#160; ", out);
	}
	fputs("</p>\n", out);
}

/* --- bars --------------------------------------------------------------- */

/* Where a bar lies. */
struct place {
	double x, y, width; /* of the longest bar */
	double most;
};

static double
sum_of(const struct chart_bar *bar)
{
	double sum = 0;

	for (int i = 0; i < bar->parts; i++)
		sum += bar->part[i];
	return sum;
}

static void
draw_interval(FILE *out, const struct chart_bar *bar, const struct place *place)
{
	double low = place->x + place->width * bar->low / place->most;
	double high = place->x + place->width * bar->high / place->most;

	for (int i = 0; i < 2; i++)
		fprintf(out,
			"<path d=\"M%.1f %.1fH%.1fM%.1f %.1fv6M%.1f %.1fv6\" "
			"stroke=\"%s\" stroke-width=\"%s\" />",
			low, place->y + BAR / 2.0, high, low, place->y + 2.5,
			high, place->y + 2.5, i == 0 ? "#fff" : "#1b2428",
			i == 0 ? "4" : "1.5");
}

/* Returns where it ends. */
static double
draw_bar(FILE *out, const struct chart_bar *bar, struct place place)
{
	double x = place.x;

	if (place.most <= 0)
		place.most = sum_of(bar);
	fprintf(out, "<path d=\"M%.1f %.1fv%d\" stroke=\"#1b2428\" />", x,
		place.y - 1, BAR + 2);
	if (place.most <= 0)
		return x;
	for (int i = 0; i < bar->parts; i++) {
		double width = place.width * bar->part[i] / place.most;

		if (!(width > 0))
			continue;
		draw_part(out, i, x, place.y, width);
		x += width;
	}
	if (bar->high > 0)
		draw_interval(out, bar, &place);
	return maths_larger(x, place.x + place.width * bar->high / place.most);
}

static void
draw_beside(FILE *out, const struct chart_bar *bar, int columns, double y,
	    double most)
{
	double x = columns * LETTER + 4;
	struct place place = {x, y + 2, CHART_WIDTH - WORDS - x, most};

	chart_text(out, 0, y + BAR, "start", columns, bar->label);
	x = draw_bar(out, bar, place);
	write_figures(out, x + 5, y + BAR, CHART_WIDTH - x - 5, bar->words);
	fputc('\n', out);
}

static void
draw_between(FILE *out, const struct chart_bar *bar, double y, double most)
{
	struct place place = {1, y + 16, CHART_WIDTH - 2, most};

	fputs("<g font-weight=\"bold\">", out);
	chart_text(out, 0, y + BAR, "start", TEXT_COLUMNS - 4, bar->label);
	fputs("</g>", out);
	draw_bar(out, bar, place);
	write_figures(out, 0, y + 39, CHART_WIDTH, bar->words);
	fputc('\n', out);
}

void
chart_bars(FILE *out, const char *title, int columns, double most,
	   const struct chart_bar *bars, size_t count)
{
	int row = columns > 0 ? ROW : TALL_ROW;

	if (count == 0)
		return;
	chart_begin(out, (int)count * row + 2, title);
	for (size_t i = 0; i < count; i++) {
		double y = (double)i * row + 1;

		if (columns > 0)
			draw_beside(out, &bars[i], columns, y, most);
		else
			draw_between(out, &bars[i], y, most);
	}
	chart_end(out);
}

/* --- a table of counts -------------------------------------------------- */

/* Of a row's people, those of one cell; 0 in a row without people. */
static double
share_of(const struct chart_row *row, int cells, int cell)
{
	double sum = 0;

	for (int i = 0; i < cells; i++)
		sum += (double)row->count[i];
	return sum > 0 ? (double)row->count[cell] / sum : 0;
}

/* The largest share there is; it fills a cell. */
static double
largest_share(const struct chart_row *rows, size_t count, int cells)
{
	double largest = 0;

	for (size_t i = 0; i < count; i++)
		for (int j = 0; j < cells; j++)
			largest = maths_larger(largest,
					       share_of(&rows[i], cells, j));
	return largest;
}

static void
draw_cell(FILE *out, double x, double y, long long count, double length,
	  double width)
{
	char text[24];

	snprintf(text, sizeof text, "%lld", count);
	write_figures(out, x, y + 9.5, width, text);
	if (length > 0)
		fprintf(out,
			"<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
			"height=\"5\" fill=\"#123a4a\" />",
			x, y + 12, length);
}

void
chart_cells(FILE *out, const char *title, const char *const *names, int cells,
	    const struct chart_row *rows, size_t count)
{
	double width = (double)(CHART_WIDTH - CELL_LABEL) / cells;
	double largest = maths_larger(largest_share(rows, count, cells), 1e-9);

	if (count == 0)
		return;
	chart_begin(out, ((int)count + 1) * CELL_ROW, title);
	fputs("<g font-weight=\"bold\" font-size=\"10.5\">", out);
	for (int j = 0; j < cells; j++)
		chart_text(out, CELL_LABEL + j * width, 14, "start",
			   TEXT_COLUMNS, names[j]);
	fputs("</g>\n<g font-size=\"10.5\">", out);
	for (size_t i = 0; i < count; i++) {
		double y = (double)(i + 1) * CELL_ROW - 3;

		fprintf(out, "<path d=\"M0 %.1fH%d\" stroke=\"#71828a\" />",
			y - 1, CHART_WIDTH);
		chart_text(out, 0, y + 14, "start", 12, rows[i].label);
		for (int j = 0; j < cells; j++)
			draw_cell(out, CELL_LABEL + j * width, y,
				  rows[i].count[j],
				  (width - 3) * share_of(&rows[i], cells, j) /
					  largest,
				  width - 3);
		fputc('\n', out);
	}
	fputs("</g>", out);
	chart_end(out);
}
