/* keytext.h: the keys of sealed copies, as text that can be typed. */
#ifndef SHOAL_KEEP_KEYTEXT_H
#define SHOAL_KEEP_KEYTEXT_H

#include "base/fault.h"

#include <stdbool.h>

/*
 * A key is 32 bytes, written as 64 hexadecimal digits in eight groups with
 * seven check letters behind them (a mark over the kind of key and its bytes,
 * base/mark.h), joined by hyphens:
 *   1f0c33d9-...-ABCDEFG
 * So a mistyped key is refused, and so is a private key in the place of a
 * public one. Capital digits and spaces in place of hyphens are read too.
 */
enum { KEY_BYTES = 32, KEYTEXT_SIZE = 64 + 8 + 7 + 1, KEYTEXT_CHECK_SIZE = 8 };

enum key_kind { KEY_PUBLIC, KEY_PRIVATE };

struct key {
	unsigned char bytes[KEY_BYTES];
};

/* `text` holds KEYTEXT_SIZE bytes. */
void keytext_write(const struct key *key, enum key_kind kind, char *text);

/* The check letters alone; `text` holds KEYTEXT_CHECK_SIZE bytes. */
void keytext_write_check(const struct key *key, enum key_kind kind, char *text);

/* FAULT_INPUT, which never repeats what was typed: it may be a private key. */
bool keytext_read(const char *text, enum key_kind kind, struct key *key,
		  struct fault *why);

/* The public key in the first line of a file, alone or as `key = "..."`.
 * FAULT_INPUT. */
bool keytext_read_file(const char *path, struct key *key, struct fault *why);

/* The private key, in a file made by keytext_write_private. */
bool keytext_read_private(const char *path, struct key *key, struct fault *why);

/* Makes the file of a private key, mode 0600, never over another file.
 * FAULT_OUTPUT. */
bool keytext_write_private(const char *path, const struct key *key,
			   struct fault *why);

#endif
