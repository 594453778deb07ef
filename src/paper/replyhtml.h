/* replyhtml.h: the reply form as a part of an HTML page. */
#ifndef SHOAL_PAPER_REPLYHTML_H
#define SHOAL_PAPER_REPLYHTML_H

#include "paper/wording.h"

#include <stdio.h>

/* Writes all questions of the form: those of the visit, a grid of boxes for
 * the quadrants, a table for the eyes, and what was done. */
void reply_write_html(const struct wording *wording, FILE *out);

#endif
