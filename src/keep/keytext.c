/* keytext.c: the keys of sealed copies, as text that can be typed. */
#include "keep/keytext.h"

#include "base/mark.h"
#include "base/text.h"
#include "keep/safefile.h"

#include <stdio.h>
#include <string.h>

enum { FILE_SIZE = 2048, GROUP_BYTES = 4 };

static const char digits[] = "0123456789abcdef";
static const char first_line[] = "shoal private key 1";

static const char *
kind_word(enum key_kind kind)
{
	return kind == KEY_PUBLIC ? "public" : "private";
}

/* --- writing -------------------------------------------------------------- */

void
keytext_write_check(const struct key *key, enum key_kind kind, char *text)
{
	struct mark mark;

	mark_init(&mark);
	mark_add(&mark, kind_word(kind));
	mark_joined(&mark, (const char *)key->bytes, sizeof key->bytes);
	mark_write(&mark, MARK_ROW_LETTERS, text);
}

void
keytext_write(const struct key *key, enum key_kind kind, char *text)
{
	for (int i = 0; i < KEY_BYTES; i++) {
		*text++ = digits[key->bytes[i] >> 4];
		*text++ = digits[key->bytes[i] & 15];
		if (i % GROUP_BYTES == GROUP_BYTES - 1)
			*text++ = '-';
	}
	keytext_write_check(key, kind, text);
}

/* --- reading -------------------------------------------------------------- */

/* The next character that counts, as a small letter. */
static char
next_character(const char **text)
{
	while (**text == '-' || **text == ' ')
		(*text)++;
	if (**text >= 'A' && **text <= 'Z')
		return (char)(*(*text)++ - 'A' + 'a');
	return **text == '\0' ? '\0' : *(*text)++;
}

static bool
not_a_key(enum key_kind kind, const char *what, struct fault *why)
{
	return fault_set(why, FAULT_INPUT,
			 "this is no %s key: %s; a key is eight groups of "
			 "eight digits 0-9 a-f and seven check letters, as "
			 "'shoal key' prints it",
			 kind_word(kind), what);
}

bool
keytext_read(const char *text, enum key_kind kind, struct key *key,
	     struct fault *why)
{
	char check[KEYTEXT_CHECK_SIZE];
	struct key read = {{0}};

	for (int i = 0; i < 2 * KEY_BYTES; i++) {
		char one = next_character(&text);
		const char *at = one == '\0' ? NULL : strchr(digits, one);

		if (at == NULL)
			return not_a_key(kind,
					 one == '\0' ? "it is too short"
						     : "a character in it is "
						       "no such digit",
					 why);
		read.bytes[i / 2] =
			(unsigned char)(i % 2 == 0 ? (at - digits) << 4
						   : read.bytes[i / 2] |
							     (at - digits));
	}
	keytext_write_check(&read, kind, check);
	for (int i = 0; i < KEYTEXT_CHECK_SIZE; i++) {
		char one = next_character(&text);
		char wanted = check[i] == '\0' ? '\0'
					       : (char)(check[i] - 'A' + 'a');

		if (one != wanted)
			return not_a_key(kind,
					 "its check letters do not hold, so it "
					 "was mistyped or is of the other kind",
					 why);
	}
	*key = read;
	return true;
}

/* One line of a file into `line`, trimmed; the rest behind it. */
static char *
take_line(char **rest)
{
	char *line = *rest;
	size_t length = strcspn(line, "\n");

	*rest = line + length + (line[length] == '\n');
	line[length] = '\0';
	return text_trim(line);
}

bool
keytext_read_file(const char *path, struct key *key, struct fault *why)
{
	char bytes[FILE_SIZE], *rest = bytes, *line;
	size_t length;

	if (!safefile_read(path, bytes, sizeof bytes, &length, FAULT_INPUT,
			   why))
		return false;
	line = take_line(&rest);
	if (strcmp(line, first_line) == 0) {
		memset(bytes, 0, sizeof bytes);
		return fault_set(why, FAULT_INPUT,
				 "'%.100s' holds the private key, which "
				 "belongs in the office and not on a laptop; "
				 "name a file with the public one",
				 path);
	}
	if (strncmp(line, "key", 3) == 0 && strchr(line, '"') != NULL) {
		line = strchr(line, '"') + 1;
		line[strcspn(line, "\"")] = '\0';
	}
	return keytext_read(line, KEY_PUBLIC, key, why) ||
	       fault_at(why, "'%.100s'", path);
}

bool
keytext_read_private(const char *path, struct key *key, struct fault *why)
{
	char bytes[FILE_SIZE], *rest = bytes;
	bool done = false;
	size_t length;

	if (!safefile_read(path, bytes, sizeof bytes, &length, FAULT_INPUT,
			   why))
		return false;
	if (strcmp(take_line(&rest), first_line) != 0)
		fault_set(why, FAULT_INPUT,
			  "this is no file of a private key; 'shoal key' makes "
			  "one");
	else
		done = keytext_read(take_line(&rest), KEY_PRIVATE, key, why);
	memset(bytes, 0, sizeof bytes);
	return done || fault_at(why, "'%.100s'", path);
}

bool
keytext_write_private(const char *path, const struct key *key,
		      struct fault *why)
{
	char text[KEYTEXT_SIZE];
	struct safefile file;

	if (safefile_exists(path))
		return fault_set(why, FAULT_OUTPUT,
				 "'%.300s' is there already, and a key is "
				 "never written over: copies sealed to it "
				 "could not be opened any more",
				 path);
	if (!safefile_open(&file, path, why))
		return false;
	keytext_write(key, KEY_PRIVATE, text);
	fprintf(file.out,
		"%s\n%s\n\n"
		"Whoever has this file can read every copy sealed to its "
		"public key. Without it\n"
		"none of them can be read any more. Keep it in the "
		"programme's office, never on a\n"
		"laptop that goes to a camp, and a second one in another safe "
		"place.\n",
		first_line, text);
	return safefile_commit(&file, SAFEFILE_FIRST, why);
}
