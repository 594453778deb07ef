/* unicode.h: what the Unicode tables say of a character. */
#ifndef SHOAL_BASE_UNICODE_H
#define SHOAL_BASE_UNICODE_H

#include "base/fault.h"

#include <stddef.h>
#include <stdint.h>

/*
 * Answers come from utf8proc. It is the one library that text needs, and only
 * for what is not ASCII: it is loaded when it is first asked, since at every
 * start that would take longer than a decision does. Where it is not installed
 * no character beyond ASCII is valid; whoever is going to take names asks
 * unicode_is_there first.
 */

/* FAULT_INTERNAL names the package that is missing. */
bool unicode_is_there(struct fault *why);

/* The code point at `text`, of at most `left` bytes; its length in bytes, or a
 * negative number when they are not UTF-8. */
long unicode_next(const char *text, size_t left, int32_t *point);

/* A control, a code point that is private or not assigned, a line or paragraph
 * separator. */
bool unicode_is_unprintable(int32_t point);

/* Columns on a terminal: 0, 1 or 2. */
int unicode_width(int32_t point);

/* NFC with case folded and what is ignorable left out, as UTF-8 into `to` of
 * `size` bytes. False when it does not fit. */
bool unicode_fold(const char *from, char *to, size_t size);

#endif
