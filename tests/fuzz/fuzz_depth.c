/* fuzz_depth.c: a typed depth is refused or is the grade that an independent
 * reading of the same text finds, and it is written so that it reads the same.
 *
 * seeds: tests/fuzz/seeds/depth
 * options: -max_len=12
 */
#include "clinic/depth.h"
#include "fuzz.h"

#include <ctype.h>

/* Digits alone, of which `most` at most; their value, or -1. */
static long
digits(const char *text, size_t length, size_t most)
{
	long value = 0;

	if (length == 0 || length > most)
		return -1;
	for (size_t i = 0; i < length; i++) {
		if (!isdigit((unsigned char)text[i]))
			return -1;
		value = value * 10 + (text[i] - '0');
	}
	return value;
}

/* The share in millionths that the text says, or -1: "25", "25%", "1/4",
 * "0.25". A bare 1 says nothing: one per cent, or the whole? */
static long
share_said(const char *text)
{
	size_t length = strlen(text);
	const char *slash = strchr(text, '/'), *point = strchr(text, '.');

	if (slash != NULL) {
		long over = digits(text, (size_t)(slash - text), 9);
		long under = digits(slash + 1, strlen(slash + 1), 9);

		return over < 0 || under <= 0 || over > under
			       ? -1
			       : over * 1000000 / under;
	}
	if (point != NULL) {
		long whole = digits(text, (size_t)(point - text), 9);
		size_t places = strlen(point + 1);
		long part = digits(point + 1, places, 6);

		if (whole < 0 || whole > 1 || part < 0)
			return -1;
		while (places++ < 6)
			part *= 10;
		return whole * 1000000 + part;
	}
	if (length > 0 && text[length - 1] == '%')
		length--;
	else if (strcmp(text, "1") == 0)
		return -1;
	return digits(text, length, 9) < 0 ? -1
					   : digits(text, length, 9) * 10000;
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	struct fault why = {FAULT_NONE, ""};
	char *text = fuzz_text(bytes, length);
	enum depth depth = DEPTH_BLANK, again = DEPTH_BLANK;
	char written[4];

	if (!depth_read(text, &depth, &why)) {
		fuzz_sentence(&why, FAULT_INPUT);
		free(text);
		return 0;
	}
	FUZZ_HOLD(depth != DEPTH_BLANK);
	if (depth_is_graded(depth))
		FUZZ_HOLD(share_said(text) == depth_percent(depth) * 10000L);
	else
		FUZZ_HOLD(strlen(text) == 1 && strchr("xX-", text[0]) != NULL);
	depth_write(depth, written);
	FUZZ_HOLD(depth_read(written, &again, &why) && again == depth);
	free(text);
	return 0;
}
