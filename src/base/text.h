/* text.h: words as people type and read them, in UTF-8. */
#ifndef SHOAL_BASE_TEXT_H
#define SHOAL_BASE_TEXT_H

#include "base/fault.h"

#include <stddef.h>
#include <stdio.h>

/*
 * Everything the program keeps or prints is valid UTF-8 without control
 * characters. What may harm a terminal, a slip or a spreadsheet is refused
 * where it is typed, and no refusal repeats the bad bytes.
 */

/* Whether `length` bytes are valid UTF-8 (no overlong form, no surrogate,
 * nothing above U+10FFFF). NUL counts as valid here. */
bool text_is_utf8(const char *bytes, size_t length);

/*
 * Checks one line of free text for keeping: valid UTF-8, at most `most`
 * characters (code points), no control character (C0, DEL, C1), no line or
 * paragraph separator, no bidirectional control, no code point that is not
 * assigned, no first character of = + - @ or their full-width forms (a
 * spreadsheet would take it for a formula), no space at either end.
 * FAULT_INPUT says which.
 */
bool text_check(const char *text, long most, struct fault *why);

/* Copies `from` into `to` of `size` bytes; false when it does not fit, and
 * `to` is then "". */
bool text_copy(char *to, size_t size, const char *from);

/* Cuts spaces, tabs, CR and LF from both ends, in place; returns `text`. */
char *text_trim(char *text);

/* The form used to find one person written twice: NFC with case folded and
 * runs of spaces made one. False when `size` bytes do not hold it. */
bool text_fold(const char *from, char *to, size_t size);

/* Columns the text takes on a terminal; wide characters take two, combining
 * marks none. */
int text_width(const char *text);

/* Number of code points. */
long text_length(const char *text);

/* Writes the text with & < > " ' escaped for HTML and SVG. */
void text_write_html(FILE *out, const char *text);

/*
 * Writes the text broken at spaces into lines of at most `columns`. The first
 * line goes on at column `at` (0 = at the margin); further lines begin with
 * `indent` spaces. A word longer than a line stands alone on its line. Ends
 * with a line feed.
 */
void text_write_wrapped(FILE *out, const char *text, int columns, int at,
			int indent);

/* Steps between two short ASCII words, counting one for a letter dropped,
 * added, changed, or swapped with its neighbour (the restricted
 * Damerau-Levenshtein distance). Words over 63 bytes are as far as it goes:
 * 99. For "did you mean". */
int text_distance(const char *one, const char *other);

/* The largest distance at which a suggestion still helps for this word. */
int text_distance_helpful(const char *word);

#endif
