/* fuzz.h: what the fuzzing targets share: promises held, and files in memory.
 */
#ifndef SHOAL_TESTS_FUZZ_FUZZ_H
#define SHOAL_TESTS_FUZZ_FUZZ_H

#include "base/fault.h"
#include "base/field.h"
#include "base/text.h"

#include <fcntl.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/* A broken promise ends the run; libFuzzer keeps the bytes. */
#define FUZZ_HOLD(claim) fuzz_hold(claim, #claim, __FILE__, __LINE__)

static inline void
fuzz_hold(bool claim, const char *words, const char *file, int line)
{
	if (claim)
		return;
	fprintf(stderr, "%s:%d: does not hold: %s\n", file, line, words);
	abort();
}

/* Nothing in the text can move a terminal's cursor or turn its writing round.
 * Shares no code with src/base/text.c. */
static inline bool
fuzz_is_harmless(const char *text)
{
	for (const unsigned char *at = (const unsigned char *)text; *at; at++) {
		if (*at < 0x20 || *at == 0x7f)
			return false;
		if (at[0] == 0xc2 && at[1] >= 0x80 && at[1] <= 0x9f)
			return false; /* C1 */
		if (at[0] == 0xe2 && at[1] == 0x80 &&
		    ((at[2] >= 0xa8 && at[2] <= 0xae) || at[2] == 0x8e ||
		     at[2] == 0x8f))
			return false; /* U+2028 to 202E, 200E, 200F */
		if (at[0] == 0xe2 && at[1] == 0x81 && at[2] >= 0xa6 &&
		    at[2] <= 0xa9)
			return false; /* U+2066 to 2069 */
	}
	return true;
}

/* A refusal is a finished sentence of that kind, fit to be printed. */
static inline void
fuzz_sentence(const struct fault *why, enum fault_kind kind)
{
	if (why->kind != kind)
		fprintf(stderr, "%d: %s\n", (int)why->kind, why->sentence);
	FUZZ_HOLD(why->kind == kind);
	FUZZ_HOLD(why->sentence[0] != '\0');
	FUZZ_HOLD(memchr(why->sentence, '\0', sizeof why->sentence) != NULL);
	FUZZ_HOLD(fuzz_is_harmless(why->sentence));
	FUZZ_HOLD(text_is_utf8(why->sentence, strlen(why->sentence)));
}

/* A fault_hear for faults of a policy, station, plan or wording file; the
 * context is an int that counts them. */
static inline void
fuzz_hear(void *context, const struct fault *one)
{
	static const char never[] = "the two readers disagree";
	const char *after_place = strstr(one->sentence, ": ");
	int *count = context;

	fuzz_sentence(one, FAULT_POLICY);
	FUZZ_HOLD(after_place != NULL);
	/* The scan refuses all that iniparser would read otherwise. */
	FUZZ_HOLD(strncmp(after_place + 2, never, sizeof never - 1) != 0);
	++*count;
}

/* The bytes up to the first NUL; freed by the caller. */
static inline char *
fuzz_text(const uint8_t *bytes, size_t length)
{
	char *text = malloc(length + 1);

	FUZZ_HOLD(text != NULL);
	if (length > 0)
		memcpy(text, bytes, length);
	text[length] = '\0';
	return text;
}

/* Writes a record's fields as text, joined by line feeds, to compare two. */
static inline char *
fuzz_written(struct fields fields, const void *record)
{
	char *all = NULL, value[FIELD_TEXT_SIZE];
	size_t size;
	FILE *out = open_memstream(&all, &size);

	FUZZ_HOLD(out != NULL);
	for (size_t i = 0; i < fields.count; i++) {
		field_write(&fields.field[i], record, value, sizeof value);
		fprintf(out, "%s\n", value);
	}
	fclose(out);
	return all;
}

/* A folder of this process; its path lives as long as the process. */
static inline const char *
fuzz_folder(void)
{
	static char folder[200];
	const char *base = getenv("TMPDIR");

	if (folder[0] == '\0') {
		snprintf(folder, sizeof folder, "%s/fuzz-XXXXXX",
			 base == NULL ? "/tmp" : base);
		FUZZ_HOLD(mkdtemp(folder) != NULL);
	}
	return folder;
}

/* Puts the bytes into a file of that folder and returns its path, which lives
 * until the next call. */
static inline const char *
fuzz_file(const char *name, const void *bytes, size_t length)
{
	static char path[400];
	int file;

	snprintf(path, sizeof path, "%s/%s", fuzz_folder(), name);
	file = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
	FUZZ_HOLD(file >= 0);
	FUZZ_HOLD(write(file, bytes, length) == (ssize_t)length);
	close(file);
	return path;
}

#endif
