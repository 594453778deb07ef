/* refnum.c: the referral number on every paper, SSSS-NNNNN-CC. */
#include "base/refnum.h"

#include <stdio.h>
#include <string.h>

enum { BODY_DIGITS = 9, ALL_DIGITS = 11 };

bool
refnum_is_none(struct refnum number)
{
	return number.serial == 0;
}

bool
refnum_is_paper(struct refnum number)
{
	return number.serial >= REFNUM_PAPER_FIRST;
}

static int
rest_by_97(const char *digits, int rest)
{
	for (; *digits != '\0'; digits++)
		rest = (rest * 10 + (*digits - '0')) % 97;
	return rest;
}

int
refnum_check_digits(const char *digits)
{
	return 98 - rest_by_97("00", rest_by_97(digits, 0));
}

void
refnum_write(struct refnum number, char *text)
{
	char body[BODY_DIGITS + 1];
	unsigned station = (unsigned)number.station % 10000;
	unsigned serial = (unsigned)number.serial % 100000;

	text[0] = '\0';
	if (refnum_is_none(number))
		return;
	snprintf(body, sizeof body, "%04u%05u", station, serial);
	snprintf(text, REFNUM_SIZE, "%04u-%05u-%02u", station, serial,
		 (unsigned)refnum_check_digits(body) % 100);
}

/* What a scanner adds at the end: Enter, a tab. */
static bool
is_end(const char *text)
{
	return text[strspn(text, " \t\r\n")] == '\0';
}

/* Keeps the digits of `text`; false at any other character or one digit too
 * many. `all` holds ALL_DIGITS + 1 bytes. */
static bool
gather_digits(const char *text, char *all, int *count)
{
	*count = 0;
	for (; !is_end(text); text++) {
		if (*text == ' ' || *text == '-')
			continue;
		if (*text < '0' || *text > '9' || *count == ALL_DIGITS)
			return false;
		all[(*count)++] = *text;
	}
	all[*count] = '\0';
	return *count == ALL_DIGITS;
}

static int
part(const char *digits, int count)
{
	int value = 0;

	for (int i = 0; i < count; i++)
		value = 10 * value + (digits[i] - '0');
	return value;
}

bool
refnum_read(const char *text, struct refnum *number, struct fault *why)
{
	char all[ALL_DIGITS + 1];
	int count, check;

	if (!gather_digits(text, all, &count))
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a referral number; it has "
				 "eleven digits, such as 0014-00001-%02d",
				 text, refnum_check_digits("001400001"));
	check = part(all + BODY_DIGITS, 2);
	if (check < 2 || check > 98 || rest_by_97(all, 0) != 1)
		return fault_set(why, FAULT_INPUT,
				 "the last two digits of '%.40s' do not fit "
				 "the others; read the number again from the "
				 "slip",
				 text);
	if (part(all, 4) == 0 || part(all + 4, 5) == 0)
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a referral number; station "
				 "and serial begin at 1",
				 text);
	number->station = part(all, 4);
	number->serial = part(all + 4, 5);
	return true;
}
