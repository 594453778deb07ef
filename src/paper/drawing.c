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

/* Units of the section: the black around it, a curve that bulges to the left
 * and begins and ends outside, and how wide the lit iris is. */
enum { AROUND = 16, TALL = 50, OUTSIDE = 2, BULGE = 10, LIT_IRIS = 34 };
enum { CURVE = TALL + 2 * OUTSIDE, FIRST_LINE = 8, NEXT_LINE = 5 };
enum { SECTION = 2 * AROUND + 2 * DRAWING_SLIT_CORNEA + LIT_IRIS };

static void
write_band(const char *class, int from, int width, FILE *out)
{
	fprintf(out,
		"<path class=\"%s\" fill=\"#fff\" d=\"M%d -%dq-%d %d 0 %d"
		"h%dq-%d -%d 0 -%dz\" />",
		class, from, OUTSIDE, BULGE, CURVE / 2, CURVE, width, BULGE,
		CURVE / 2, CURVE);
}

/* Lines that keep away from the edge at the gap. */
static void
write_iris_lines(int from, FILE *out)
{
	fputs("<path fill=\"none\" stroke=\"#000\" stroke-width=\"1\" d=\"",
	      out);
	for (int x = FIRST_LINE; x < LIT_IRIS - 2; x += NEXT_LINE)
		fprintf(out, "M%d -%dq-%d %d 0 %d", from + x, OUTSIDE, BULGE,
			CURVE / 2, CURVE);
	fputs("\" />", out);
}

void
drawing_write_slit(enum depth depth, const char *title, FILE *out)
{
	int iris;

	if (!depth_is_graded(depth))
		return;
	iris = AROUND + DRAWING_SLIT_CORNEA +
	       depth_percent(depth) * DRAWING_SLIT_CORNEA / 100;
	fprintf(out,
		"<svg class=\"slit\" role=\"img\" viewBox=\"0 0 %d %d\">"
		"<title>",
		SECTION, TALL);
	text_write_html(out, title);
	fprintf(out, "</title><path fill=\"#000\" d=\"M0 0h%dv%dH0z\" />",
		SECTION, TALL);
	write_band("cornea", AROUND, DRAWING_SLIT_CORNEA, out);
	/* Where they touch no hairline may shine through. */
	if (iris == AROUND + DRAWING_SLIT_CORNEA)
		write_band("touch", iris - 2, 4, out);
	write_band("iris", iris, LIT_IRIS, out);
	write_iris_lines(iris, out);
	fputs("</svg>", out);
}
