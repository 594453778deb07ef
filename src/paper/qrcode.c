/* qrcode.c: a short text as a square code for a scanner. */
#include "paper/qrcode.h"

#include "base/library.h"
#include "base/text.h"

#include <qrencode.h>
#include <string.h>

/* The two functions that are used, under their types from the header. */
struct encoder {
	bool looked_for;
	__typeof__(&QRcode_encodeString) encode;
	__typeof__(&QRcode_free) release;
};

/* The library, which stays loaded until the program ends; NULL when it is not
 * there. It is looked for once, since a paper is written for everybody. */
static const struct encoder *
encoder(void)
{
	static struct encoder found;
	void *library;

	if (!found.looked_for) {
		found.looked_for = true;
		library = library_open("libqrencode.so.4");
		if (library != NULL &&
		    library_find(library, "QRcode_free", &found.release))
			library_find(library, "QRcode_encodeString",
				     &found.encode);
	}
	return found.encode == NULL ? NULL : &found;
}

bool
qrcode_is_there(struct fault *why)
{
	return encoder() != NULL || fault_set(why, FAULT_INTERNAL,
					      "papers carry no code for "
					      "scanners without the library "
					      "libqrencode; install the "
					      "package libqrencode4");
}

/* Each run of black modules of a row is one stroke of the path. */
static void
write_row(const unsigned char *module, int width, int y, FILE *out)
{
	for (int x = 0; x < width; x++) {
		int from = x;

		while (x < width && (module[x] & 1) != 0)
			x++;
		if (x > from)
			fprintf(out, "M%d %dh%dv1h-%dz", from + QRCODE_QUIET,
				y + QRCODE_QUIET, x - from, x - from);
	}
}

static void
write_svg(const QRcode *code, const char *title, FILE *out)
{
	int side = code->width + 2 * QRCODE_QUIET;

	fprintf(out,
		"<svg class=\"code\" role=\"img\" viewBox=\"0 0 %d %d\" "
		"shape-rendering=\"crispEdges\"><title>",
		side, side);
	text_write_html(out, title);
	fputs("</title><path fill=\"#000\" d=\"", out);
	for (int y = 0; y < code->width; y++)
		write_row(code->data + (size_t)y * (size_t)code->width,
			  code->width, y, out);
	fputs("\" /></svg>", out);
}

bool
qrcode_write_svg(const char *text, FILE *out)
{
	const struct encoder *with = encoder();
	QRcode *code;
	bool fits;

	if (with == NULL)
		return false;
	code = with->encode(text, 0, QR_ECLEVEL_Q, QR_MODE_8, 1);
	if (code == NULL)
		return false;
	fits = code->width == QRCODE_MODULES;
	if (fits)
		write_svg(code, text, out);
	with->release(code);
	return fits;
}
