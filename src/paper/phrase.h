/* phrase.h: one line of a paper, a key and what fills its placeholders. */
#ifndef SHOAL_PAPER_PHRASE_H
#define SHOAL_PAPER_PHRASE_H

#include "paper/wording.h"

#include <stddef.h>
#include <stdio.h>

/*
 * A key of the wording and the values of its placeholders. A value whose text
 * is "" is printed as a line to write on. `typed` marks what somebody typed:
 * it may be in another script than the wording. All pointers belong to the
 * caller; a NULL name ends the values.
 *
 * In a wording that is written from right to left a value of ASCII alone that
 * is more than digits (a number with hyphens, a date, a Latin name) is
 * isolated, so that it is shown from left to right whatever stands around it
 * (Unicode Standard Annex 9).
 */
enum { PHRASE_VALUES_MOST = 4 };

struct phrase_value {
	const char *name; /* without braces */
	const char *text;
	bool typed;
};

struct phrase {
	const char *key;
	struct phrase_value value[PHRASE_VALUES_MOST];
};

/* Called for each piece of a phrase: `length` bytes at `text` of the wording
 * (value is NULL), or a whole value. */
typedef void phrase_piece(void *context, const char *text, size_t length,
			  const struct phrase_value *value);

void phrase_visit(const struct wording *wording, const struct phrase *phrase,
		  phrase_piece *piece, void *context);

/* The marks around a value that is isolated, as UTF-8: U+2066 and U+2069. */
extern const char phrase_isolate[], phrase_isolate_end[];

/* Whether a value has to be isolated in this wording. */
bool phrase_isolates(const struct wording *wording, const char *text);

/* Whether it is ASCII alone. */
bool phrase_is_ascii(const char *text);

/* Writes it as plain text into `text`, cut at a whole character when `size`
 * bytes do not hold it. */
void phrase_fill(const struct wording *wording, const struct phrase *phrase,
		 char *text, size_t size);

/* Adds `next` to the list in `text` as the wording joins one. */
void phrase_join(const struct wording *wording, char *text, size_t size,
		 const char *next);

/* Writes it for HTML, all escaped; typed values stand in a <bdi> of their own,
 * a day in digits in <span class="day">; blanks are <span class="blank">. */
void phrase_write_html(const struct wording *wording,
		       const struct phrase *phrase, FILE *out);

#endif
