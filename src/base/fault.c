/* fault.c: what went wrong, as a finished sentence handed up to the caller. */
#include "base/fault.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Bytes of the harmless character at `at`, or 0: what is typed may stand in a
 * sentence, but no control, bidirectional mark or broken UTF-8 may reach a
 * terminal. Full checks of text are in text.h, a floor mate above. */
static size_t
harmless_length(const unsigned char *at)
{
	size_t length;

	if (at[0] < 0x80)
		return at[0] >= 0x20 && at[0] != 0x7f;
	length = at[0] >= 0xf0 ? 4 : at[0] >= 0xe0 ? 3 : 2;
	if (at[0] < 0xc2 || at[0] > 0xf4)
		return 0;
	for (size_t i = 1; i < length; i++)
		if ((at[i] & 0xc0) != 0x80)
			return 0;
	if ((at[0] == 0xc2 && at[1] < 0xa0) || (at[0] == 0xd8 && at[1] == 0x9c))
		return 0;
	if (at[0] == 0xe2 && (at[1] == 0x80 || at[1] == 0x81))
		return 0;
	return length;
}

static void
make_harmless(char *sentence)
{
	unsigned char *at = (unsigned char *)sentence;

	while (*at != '\0') {
		size_t length = harmless_length(at);

		if (length == 0)
			*at = '?';
		at += length == 0 ? 1 : length;
	}
}

bool
fault_set(struct fault *why, enum fault_kind kind, const char *format, ...)
{
	va_list arguments;

	why->kind = kind;
	va_start(arguments, format);
	vsnprintf(why->sentence, sizeof why->sentence, format, arguments);
	va_end(arguments);
	make_harmless(why->sentence);
	return false;
}

bool
fault_at(struct fault *why, const char *format, ...)
{
	char place[FAULT_PLACE_SIZE];
	size_t length, room;
	va_list arguments;

	va_start(arguments, format);
	vsnprintf(place, sizeof place - 2, format, arguments);
	va_end(arguments);
	length = strlen(place);
	memcpy(place + length, ": ", 2);
	length += 2;
	room = sizeof why->sentence - 1 - length;
	memmove(why->sentence + length, why->sentence, room);
	memcpy(why->sentence, place, length);
	why->sentence[sizeof why->sentence - 1] = '\0';
	make_harmless(why->sentence);
	return false;
}
