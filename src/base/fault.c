/* fault.c: what went wrong, as a finished sentence handed up to the caller. */
#include "base/fault.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Bytes of the UTF-8 character at `at`, or 0 when it is broken: cut short, an
 * overlong form, a surrogate, or above U+10FFFF (RFC 3629, section 4). */
static size_t
sound_length(const unsigned char *at)
{
	size_t length = at[0] >= 0xf0 ? 4 : at[0] >= 0xe0 ? 3 : 2;

	if (at[0] < 0x80)
		return 1;
	if (at[0] < 0xc2 || at[0] > 0xf4)
		return 0;
	for (size_t i = 1; i < length; i++)
		if ((at[i] & 0xc0) != 0x80)
			return 0;
	if ((at[0] == 0xe0 && at[1] < 0xa0) ||
	    (at[0] == 0xed && at[1] > 0x9f) ||
	    (at[0] == 0xf0 && at[1] < 0x90) || (at[0] == 0xf4 && at[1] > 0x8f))
		return 0;
	return length;
}

/* U+200E, U+200F, U+2028 to U+202E, U+2066 to U+2069, U+061C: marks of
 * direction, ends of lines and paragraphs. */
static bool
turns_or_breaks(const unsigned char *at)
{
	if (at[0] == 0xd8)
		return at[1] == 0x9c;
	if (at[0] != 0xe2)
		return false;
	if (at[1] == 0x80)
		return at[2] == 0x8e || at[2] == 0x8f ||
		       (at[2] >= 0xa8 && at[2] <= 0xae);
	return at[1] == 0x81 && at[2] >= 0xa6 && at[2] <= 0xa9;
}

/* Bytes of the harmless character at `at`, or 0: what is typed may stand in a
 * sentence, but no control, bidirectional mark or broken UTF-8 may reach a
 * terminal. Full checks of text are in text.h, a floor mate above. */
static size_t
harmless_length(const unsigned char *at)
{
	size_t length = sound_length(at);

	if (at[0] < 0x20 || at[0] == 0x7f)
		return 0;
	if (length > 1 &&
	    ((at[0] == 0xc2 && at[1] < 0xa0) || turns_or_breaks(at)))
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
