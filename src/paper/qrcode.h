/* qrcode.h: a short text as a square code for a scanner. */
#ifndef SHOAL_PAPER_QRCODE_H
#define SHOAL_PAPER_QRCODE_H

#include "base/fault.h"

#include <stdio.h>

/*
 * A QR code (ISO/IEC 18004) of level Q, which can still be read when a quarter
 * of it is lost. A referral number with its hyphens fits the smallest one, of
 * 21 modules; with the quiet zone of four modules that the standard asks for
 * on each side the drawing is 29 wide, so that 24 mm are 0.8 mm a module.
 */
enum { QRCODE_MODULES = 21, QRCODE_QUIET = 4 };

/*
 * One inline <svg class="code"> with the text as its title: a single black
 * path, quiet zone included, no id. Returns false, and writes nothing, when
 * the library is missing or the text does not fit: a paper has to be complete
 * without its code.
 */
bool qrcode_write_svg(const char *text, FILE *out);

/* False with the package to install (FAULT_INTERNAL) when the library is not
 * there. */
bool qrcode_is_there(struct fault *why);

#endif
