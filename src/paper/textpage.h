/* textpage.h: lines of plain text that never run over the edge. */
#ifndef SHOAL_PAPER_TEXTPAGE_H
#define SHOAL_PAPER_TEXTPAGE_H

#include "paper/phrase.h"

#include <stdio.h>

/* A page of so many columns (at least 40) as it is written. */
struct text_page {
	const struct wording *wording;
	int columns;
	FILE *out;
};

/* A line of one character repeated over the whole width. */
void page_write_rule(const struct text_page *page, char mark);

/* Text in one or more lines behind `indent` spaces, the first of which hold
 * `mark` ("- " or ""). A word wider than the line is broken. */
void page_write_text(const struct text_page *page, const char *text,
		     const char *mark, int indent);

/* The same for a phrase. A typed value that is not plain ASCII (it may run
 * from right to left or be of double width) stands on lines of its own; so
 * does Latin writing among words that run from right to left. */
void page_write_phrase(const struct text_page *page,
		       const struct phrase *phrase, const char *mark,
		       int indent);

/* "LABEL: ______", the line reaching to the edge of the page. */
void page_write_blank(const struct text_page *page, const char *label,
		      int indent);

/* Boxes to tick behind `indent` spaces, as many on a line as fit; `lead` comes
 * first, unless it is "". `option` are `count` texts at most, NULL after the
 * last. */
void page_write_boxes(const struct text_page *page, const char *lead,
		      const char *const *option, size_t count, int indent);

#endif
