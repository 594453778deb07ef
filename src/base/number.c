/* number.c: whole numbers, read strictly. */
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
