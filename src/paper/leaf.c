/* leaf.c: headings, sentences and tables, on a screen or as a page. */
#include "paper/leaf.h"

#include "base/text.h"

#include <stdarg.h>

enum { SAID_SIZE = 900 };

static const char style[] =
	"@page{size:A4;margin:12mm}\n"
	"body{font:8.8pt/1.25 sans-serif;color:#000;background:#fff;margin:0}\n"
	"h1{font-size:1.5em;margin:0 0 1mm}\n"
	"h2{font-size:1.15em;margin:3mm 0 1mm;border-bottom:.4mm solid #000;"
	"break-after:avoid}\n"
	"p{margin:0 0 1mm}\n"
	"table{border-collapse:collapse;margin:1mm 0 2mm;width:100%}\n"
	"table,tr{break-inside:avoid}\n"
	"td,th{border-bottom:.2mm solid #000;padding:.3mm 1.5mm;"
	"text-align:right}\n"
	"td:first-child,th:first-child{text-align:left}\n"
	"figure{margin:1mm 0 2mm;break-inside:avoid}\n"
	"figure svg{width:100%;max-width:84mm}\n"
	"@media screen{body{max-width:186mm;margin:5mm auto;padding:0 3mm}}\n"
	"@media screen and (max-width:190mm){body{font-size:12pt}"
	"table{display:block;overflow-x:auto}}\n";

static void
write_element(const struct leaf *leaf, const char *name, const char *text)
{
	fprintf(leaf->out, "<%s>", name);
	text_write_html(leaf->out, text);
	fprintf(leaf->out, "</%s>", name);
}

/* A line of text, or the element with a line feed. */
static void
write_line(const struct leaf *leaf, const char *name, const char *text)
{
	if (!leaf->html) {
		text_write_wrapped(leaf->out, text, leaf->columns, 0, 0);
		return;
	}
	write_element(leaf, name, text);
	fputc('\n', leaf->out);
}

void
leaf_begin(struct leaf *leaf, const char *title)
{
	if (leaf->html) {
		fputs("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n"
		      "<meta charset=\"utf-8\">\n"
		      "<meta name=\"viewport\" "
		      "content=\"width=device-width\">\n",
		      leaf->out);
		write_line(leaf, "title", title);
		fprintf(leaf->out, "<style>\n%s</style>\n</head>\n<body>\n",
			style);
	}
	write_line(leaf, "h1", title);
}

void
leaf_end(const struct leaf *leaf)
{
	if (leaf->html)
		fputs("</body>\n</html>\n", leaf->out);
}

void
leaf_heading(const struct leaf *leaf, const char *text)
{
	if (!leaf->html)
		fputc('\n', leaf->out);
	write_line(leaf, "h2", text);
}

void
leaf_say(const struct leaf *leaf, const char *format, ...)
{
	char said[SAID_SIZE];
	va_list values;

	va_start(values, format);
	vsnprintf(said, sizeof said, format, values);
	va_end(values);
	write_line(leaf, "p", said);
}

/* In the text; the heading is a row as well. */
static void
write_cells(const struct leaf *leaf, const char *const *cell)
{
	int width = leaf->column[0].width, used = text_width(cell[0]);

	fputs(cell[0], leaf->out);
	if (used > width) {
		fputc('\n', leaf->out);
		used = 0;
	}
	fprintf(leaf->out, "%*s", width - used, "");
	for (int i = 1; i < leaf->count; i++)
		fprintf(leaf->out, "%*s", leaf->column[i].width, cell[i]);
	fputc('\n', leaf->out);
}

static void
write_row(const struct leaf *leaf, const char *name, const char *const *cell)
{
	if (!leaf->html) {
		write_cells(leaf, cell);
		return;
	}
	fputs("<tr>", leaf->out);
	for (int i = 0; i < leaf->count; i++)
		write_element(leaf, name, cell[i]);
	fputs("</tr>\n", leaf->out);
}

void
leaf_table(struct leaf *leaf, const struct leaf_column *column, int count)
{
	const char *title[LEAF_COLUMNS_MOST];

	leaf->column = column;
	leaf->count = count;
	for (int i = 0; i < count; i++)
		title[i] = column[i].title;
	if (leaf->html)
		fputs("<table>\n", leaf->out);
	write_row(leaf, "th", title);
}

void
leaf_row(const struct leaf *leaf, const char *const *cell)
{
	write_row(leaf, "td", cell);
}

void
leaf_table_end(const struct leaf *leaf)
{
	if (leaf->html)
		fputs("</table>\n", leaf->out);
}
