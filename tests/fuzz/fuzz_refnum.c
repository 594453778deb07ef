/* fuzz_refnum.c: a referral number is refused, or its eleven digits leave 1 on
 * division by 97 (ISO/IEC 7064 MOD 97-10) and are written as they were typed.
 *
 * seeds: tests/fuzz/seeds/refnum
 * options: -max_len=24
 */
#include "base/refnum.h"
#include "fuzz.h"

/* The digits of the text, and the value they have; -1 for another character
 * than those that may stand between them. */
static long long
value_of(const char *text, char *digits, size_t size)
{
	long long value = 0;
	size_t count = 0;

	for (; *text != '\0'; text++) {
		if (strchr(" -\t\r\n", *text) != NULL)
			continue;
		if (*text < '0' || *text > '9' || count == size - 1)
			return -1;
		digits[count++] = *text;
		value = value * 10 + (*text - '0');
	}
	digits[count] = '\0';
	return value;
}

static void
check_number(const char *text, struct refnum number)
{
	char written[REFNUM_SIZE], typed[12], again[12];
	struct fault why = {FAULT_NONE, ""};
	struct refnum back;
	long long value = value_of(text, typed, sizeof typed);

	FUZZ_HOLD(value % 97 == 1 && strlen(typed) == 11);
	FUZZ_HOLD(value / 10000000 == number.station && number.station >= 1);
	FUZZ_HOLD(value / 100 % 100000 == number.serial && number.serial >= 1);
	FUZZ_HOLD(value % 100 >= 2 && value % 100 <= 98);
	FUZZ_HOLD(refnum_is_paper(number) == (number.serial >= 90001));
	refnum_write(number, written);
	FUZZ_HOLD(value_of(written, again, sizeof again) == value);
	FUZZ_HOLD(written[4] == '-' && written[10] == '-');
	FUZZ_HOLD(refnum_read(written, &back, &why));
	FUZZ_HOLD(back.station == number.station &&
		  back.serial == number.serial);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	struct fault why = {FAULT_NONE, ""};
	char *text = fuzz_text(bytes, length);
	struct refnum number = {0, 0};

	if (refnum_read(text, &number, &why))
		check_number(text, number);
	else
		fuzz_sentence(&why, FAULT_INPUT);
	free(text);
	return 0;
}
