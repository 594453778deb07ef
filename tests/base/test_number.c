/* test_number.c: what looks like a number but is none is refused. */
#include "base/number.h"

#include <criterion/criterion.h>
#include <string.h>

Test(number, plain_digits_within_the_range_are_read)
{
	static const struct {
		const char *text;
		long least, most, value;
	} rows[] = {
		{"0", 0, 120, 0},
		{"7", 0, 120, 7},
		{"120", 0, 120, 120},
		{"1", 1, 99, 1},
		{"99", 1, 99, 99},
		{"10", 10, 10, 10},
		{"999999999", 0, 999999999, 999999999},
	};
	struct fault why;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		long value = -5;

		cr_expect(number_read(rows[i].text, rows[i].least, rows[i].most,
				      "years", &value, &why),
			  "row %zu: %s", i, rows[i].text);
		cr_expect_eq(value, rows[i].value, "row %zu", i);
	}
}

Test(number, everything_else_is_refused_with_the_range)
{
	static const char *const rows[] = {
		"",
		" ",
		" 5",
		"5 ",
		"5\t",
		"+5",
		"-5",
		"-0",
		"05",
		"00",
		"007",
		"5.0",
		"5,0",
		"5.",
		".5",
		"1e1",
		"0x10",
		"5%",
		"5 years",
		"5/1",
		"five",
		"5_0",
		"5'0",
		"1234567890",
		"99999999999999999999999999",
		"\xef\xbc\x95",	 /* full-width 5 */
		"\xd9\xa5",	 /* Arabic-Indic 5 */
		"\xe0\xa5\xab",	 /* Devanagari 5 */
		"5\xc2\xa0",	 /* no-break space */
		"5\xe2\x88\x92", /* minus sign */
		"\xc2\xb2",	 /* superscript 2 */
		"NaN",
		"inf",
		"true",
		"O",
		"l",
	};
	struct fault why;
	long value = -5;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect(!number_read(rows[i], 0, 999999999, "", &value, &why),
			  "row %zu: '%s'", i, rows[i]);
		cr_expect_eq(value, -5, "row %zu: left alone", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect(strstr(why.sentence, "is not a plain whole number; "
					       "allowed are 0 "
					       "to 999999999"),
			  "row %zu: %s", i, why.sentence);
	}
}

Test(number, sentences_name_the_number_the_range_and_the_unit)
{
	static const struct {
		const char *text;
		long least, most;
		const char *unit, *sentence;
	} rows[] = {
		{"abc", 0, 120, "years",
		 "'abc' is not a plain whole number; allowed are 0 to 120 "
		 "years"},
		{"25,5", 1, 99, "mmHg",
		 "'25,5' is not a plain whole number; allowed are 1 to 99 "
		 "mmHg"},
		{"x", 1, 6, "",
		 "'x' is not a plain whole number; allowed are 1 to 6"},
		{"121", 0, 120, "years",
		 "121 is out of range; allowed are 0 to 120 years"},
		{"0", 1, 99, "mmHg",
		 "0 is out of range; allowed are 1 to 99 mmHg"},
		{"100", 1, 99, "", "100 is out of range; allowed are 1 to 99"},
	};
	struct fault why;
	long value = -5;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect(!number_read(rows[i].text, rows[i].least,
				       rows[i].most, rows[i].unit, &value,
				       &why),
			  "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
		cr_expect_eq(value, -5, "row %zu: left alone", i);
	}
}

Test(number, decimal_fractions_are_read_in_units_of_their_last_place)
{
	static const struct {
		const char *text;
		int places;
		long value;
	} rows[] = {
		{"6.8", 2, 680},   {"6.80", 2, 680},
		{"0.5", 2, 50},	   {"0", 2, 0},
		{"0.0", 2, 0},	   {"0.01", 2, 1},
		{"100", 2, 10000}, {"100.00", 2, 10000},
		{"99.6", 1, 996},  {"12.3456", 4, 123456},
		{"7", 1, 70},
	};
	struct fault why;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		long value = -5;

		cr_expect(number_read_decimal(rows[i].text, 0, 100,
					      rows[i].places, "%", &value,
					      &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_eq(value, rows[i].value, "row %zu: %ld", i, value);
	}
}

Test(number, what_is_no_plain_decimal_fraction_is_refused)
{
	static const char *const rows[] = {
		"",
		".",
		".5",
		"5.",
		"6,8",
		"6.8.1",
		"6..8",
		"06.8",
		"00.5",
		"-6.8",
		"+6.8",
		" 6.8",
		"6.8 ",
		"6.8%",
		"6.8 %",
		"6.812",
		"1e1",
		"6.8e0",
		"0x6",
		"1/4",
		"6 8",
		"123456",
		"nan",
		"inf",
		"6.a",
		"6.\xd9\xa8",
		"6\xc2\xb7"
		"8",
		"6\xd9\xab"
		"8",
	};
	struct fault why;
	long value = -5;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect_not(number_read_decimal(rows[i], 0, 100, 2, "%",
						  &value, &why),
			      "row %zu: '%s'", i, rows[i]);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect(strstr(why.sentence, "is not a plain number; allowed "
					       "are 0 to 100 "
					       "%, with at most 2 digits "
					       "behind a decimal "
					       "point"),
			  "row %zu: %s", i, why.sentence);
	}
	cr_expect_not(
		number_read_decimal("100.01", 1, 100, 2, "%", &value, &why));
	cr_expect_str_eq(why.sentence, "100.01 is out of range; allowed are 1 "
				       "to 100 %");
	cr_expect_not(
		number_read_decimal("0.99", 1, 100, 2, "%", &value, &why));
	cr_expect_eq(value, -5, "left alone");
}
