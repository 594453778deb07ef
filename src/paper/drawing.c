/* drawing.c: a depth grade as a picture, true to scale. */
#include "paper/drawing.h"

#include "base/text.h"

/* Units of the SVG. Cornea, the deepest gap and the iris make its width. */
enum { TOP = 2, HEIGHT = 16, HATCH = 10, IRIS = 12, MARGIN = 2 };
enum { TEXT_MOST = 40 };

void
drawing_write_text(enum depth depth, FILE *out)
{
	int gap;

	if (!depth_is_graded(depth))
		return;
	gap = depth_percent(depth) * DRAWING_CORNEA_CHARACTERS / 100;
	for (int i = 0; i < DRAWING_CORNEA_CHARACTERS; i++)
		fputc('#', out);
	for (int i = 0; i < gap; i++)
		fputc('.', out);
	if (DRAWING_CORNEA_CHARACTERS + gap < TEXT_MOST)
		fputc('|', out);
}

/* Slanting lines that stay inside the cornea: drawn lines survive a copier,
 * tints do not, and a pattern would need an id. */
static void
write_hatch(FILE *out)
{
	fputs("<path class=\"hatch\" d=\"", out);
	for (int x = 0; x <= DRAWING_CORNEA - HEIGHT; x += HATCH)
		fprintf(out, "M%d %dl%d -%d", MARGIN + x, TOP + HEIGHT, HEIGHT,
			HEIGHT);
	fputs("\" stroke=\"#000\" stroke-width=\"1.5\" />", out);
}

static void
write_bar(const char *class, int from, int width, const char *fill, FILE *out)
{
	fprintf(out,
		"<rect class=\"%s\" x=\"%d\" y=\"%d\" width=\"%d\" "
		"height=\"%d\" fill=\"%s\" stroke=\"#000\" />",
		class, from, TOP, width, HEIGHT, fill);
}

void
drawing_write_svg(enum depth depth, const char *title, FILE *out)
{
	int gap;

	if (!depth_is_graded(depth))
		return;
	gap = depth_percent(depth) * DRAWING_CORNEA / 100;
	fprintf(out,
		"<svg class=\"depth\" role=\"img\" viewBox=\"0 0 %d %d\">"
		"<title>",
		2 * DRAWING_CORNEA + IRIS + 2 * MARGIN, HEIGHT + 2 * TOP);
	text_write_html(out, title);
	fputs("</title>", out);
	write_hatch(out);
	write_bar("cornea", MARGIN, DRAWING_CORNEA, "none", out);
	write_bar("gap", MARGIN + DRAWING_CORNEA, gap, "none", out);
	write_bar("iris", MARGIN + DRAWING_CORNEA + gap, IRIS, "#000", out);
	fputs("</svg>", out);
}
