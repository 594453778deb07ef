/* number.c: whole numbers and decimal fractions, read strictly. */
#include "base/number.h"

#include <string.h>

enum { DIGITS_MOST = 9 }; /* fits any long */

static bool
is_plain(const char *text)
{
	size_t length = strspn(text, "0123456789");

	return length > 0 && length <= DIGITS_MOST && text[length] == '\0' &&
	       (text[0] != '0' || length == 1);
}

bool
number_read(const char *text, long least, long most, const char *unit,
	    long *value, struct fault *why)
{
	const char *gap = unit[0] == '\0' ? "" : " ";
	long read = 0;

	if (!is_plain(text))
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a plain whole number; allowed "
				 "are %ld to %ld%s%s",
				 text, least, most, gap, unit);
	for (const char *digit = text; *digit != '\0'; digit++)
		read = 10 * read + (*digit - '0');
	if (read < least || read > most)
		return fault_set(why, FAULT_INPUT,
				 "%ld is out of range; allowed are %ld to "
				 "%ld%s%s",
				 read, least, most, gap, unit);
	*value = read;
	return true;
}

enum { PLACES_MOST = 4, WHOLE_DIGITS_MOST = DIGITS_MOST - PLACES_MOST };

static bool
is_decimal(const char *text, int places)
{
	size_t whole = strspn(text, "0123456789");
	size_t behind;

	if (whole == 0 || whole > WHOLE_DIGITS_MOST ||
	    (text[0] == '0' && whole > 1))
		return false;
	if (text[whole] == '\0')
		return true;
	behind = strspn(text + whole + 1, "0123456789");
	return text[whole] == '.' && behind > 0 && behind <= (size_t)places &&
	       text[whole + 1 + behind] == '\0';
}

/* The digits as if the point were not there, filled up to `places`. */
static long
scaled(const char *text, int places)
{
	long value = 0;
	bool past_point = false;

	for (; *text != '\0'; text++) {
		if (*text == '.') {
			past_point = true;
			continue;
		}
		value = 10 * value + (*text - '0');
		places -= past_point;
	}
	while (places-- > 0)
		value *= 10;
	return value;
}

bool
number_read_decimal(const char *text, long least, long most, int places,
		    const char *unit, long *value, struct fault *why)
{
	const char *gap = unit[0] == '\0' ? "" : " ";
	long one = scaled("1", places), read;

	if (!is_decimal(text, places))
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a plain number; allowed are "
				 "%ld to %ld%s%s, with at most %d digits "
				 "behind a decimal point",
				 text, least, most, gap, unit, places);
	read = scaled(text, places);
	if (read < least * one || read > most * one)
		return fault_set(why, FAULT_INPUT,
				 "%s is out of range; allowed are %ld to "
				 "%ld%s%s",
				 text, least, most, gap, unit);
	*value = read;
	return true;
}
