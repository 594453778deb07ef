/* test_refnum.c: the referral number finds slips of the pen. */
#include "base/refnum.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

/* The number a reader should get from eleven digits; false when refused. */
static bool
is_read(const char *text)
{
	struct refnum number = {-1, -1};
	struct fault why;

	return refnum_read(text, &number, &why);
}

Test(refnum, check_digits_are_those_of_iso_7064_mod_97_10)
{
	static const struct {
		const char *body;
		int check;
		const char *source;
	} rows[] = {
		/* Published. */
		{"794", 44, "the standard's example (from memory), recomputed"},
		{"99991234567890121414", 90,
		 "python3-stdnum 1.18, iso7064 mod_97_10 docstring (seen)"},
		{"4354111611551114", 31,
		 "python3-stdnum 1.18, iso7064 mod_97_10 docstring (seen)"},
		/* WEST12345698765432GB with A = 10 .. Z = 35. */
		{"32142829123456987654321611", 82,
		 "IBAN example GB82 WEST 1234 5698 7654 32 (from memory), "
		 "recomputed"},
		/* Made up; computed with python3-stdnum 1.18. */
		{"0", 98, "computed"},
		{"1", 95, "computed"},
		{"96", 4, "computed"},
		{"97", 98, "computed"},
		{"98", 95, "computed"},
		{"0001", 95, "computed"},
		{"2605010001", 38, "computed"},
		{"0726050001", 33, "computed"},
		{"000000", 98, "computed"},
		{"999999", 20, "computed"},
		{"123456789012345678901234567890", 39, "computed"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		cr_expect_eq(refnum_check_digits(rows[i].body), rows[i].check,
			     "row %zu: %s, %s", i, rows[i].body,
			     rows[i].source);
}

Test(refnum, every_serial_of_some_stations_goes_there_and_back)
{
	static const int stations[] = {1, 14, 999, 9999};
	char text[REFNUM_SIZE], front[REFNUM_SIZE];
	struct refnum number, read;
	struct fault why;

	for (size_t i = 0; i < sizeof stations / sizeof stations[0]; i++)
		for (int serial = 1; serial <= REFNUM_SERIAL_MOST; serial++) {
			number = (struct refnum){stations[i], serial};
			refnum_write(number, text);
			snprintf(front, sizeof front, "%04u-%05u-",
				 (unsigned)stations[i] % 10000,
				 (unsigned)serial % 100000);
			cr_assert_eq(strncmp(text, front, 11), 0, "%s", text);
			cr_assert_eq(strlen(text), 13, "%s", text);
			cr_assert(refnum_read(text, &read, &why), "%s: %s",
				  text, why.sentence);
			cr_assert(read.station == number.station &&
					  read.serial == number.serial,
				  "%s", text);
		}
}

Test(refnum, numbers_that_are_none_or_from_paper_are_known)
{
	static const struct {
		struct refnum number;
		bool none, paper;
	} rows[] = {
		{{0, 0}, true, false},	    {{14, 0}, true, false},
		{{14, 1}, false, false},    {{14, 90000}, false, false},
		{{14, 90001}, false, true}, {{9999, 99999}, false, true},
	};
	char text[REFNUM_SIZE];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect_eq(refnum_is_none(rows[i].number), rows[i].none,
			     "row %zu", i);
		cr_expect_eq(refnum_is_paper(rows[i].number), rows[i].paper,
			     "row %zu", i);
		refnum_write(rows[i].number, text);
		cr_expect_eq(text[0] == '\0', rows[i].none, "row %zu", i);
	}
}

/* Counts the texts tried and tells each that is read though it should not. */
static long
expect_refused(const char *right, const char *wrong)
{
	if (strcmp(right, wrong) == 0)
		return 0;
	cr_expect(!is_read(wrong), "%s was read for %s", wrong, right);
	return 1;
}

static long
change_one_or_twins(const char *right)
{
	char wrong[12];
	long tried = 0;

	for (int i = 0; i < 11; i++)
		for (char digit = '0'; digit <= '9'; digit++) {
			memcpy(wrong, right, sizeof wrong);
			wrong[i] = digit;
			tried += expect_refused(right, wrong);
			if (i == 10 || right[i] != right[i + 1])
				continue;
			wrong[i + 1] = digit;
			tried += expect_refused(right, wrong);
		}
	return tried;
}

static long
swap_neighbours(const char *right, int apart)
{
	char wrong[12];
	long tried = 0;

	for (int i = 0; i + apart < 11; i++) {
		memcpy(wrong, right, sizeof wrong);
		wrong[i] = right[i + apart];
		wrong[i + apart] = right[i];
		tried += expect_refused(right, wrong);
	}
	return tried;
}

/*
 * The design holds that MOD 97-10 over digits finds every change of one digit,
 * every swap of neighbours, every jump swap (abc to cba) and every twin error
 * (aa to bb): 97 is a prime that divides none of the differences. Tried here
 * on numbers drawn by a fixed rule.
 */
Test(refnum, every_single_change_swap_jump_swap_and_twin_is_refused)
{
	unsigned drawn = 20261125;
	long changes = 0, swaps = 0, jumps = 0;
	char right[12];

	for (int i = 0; i < 600; i++) {
		unsigned station, serial;

		drawn = drawn * 1664525u + 1013904223u;
		station = drawn / 65536 % 9999 + 1;
		drawn = drawn * 1664525u + 1013904223u;
		serial = drawn / 1024 % 99999 + 1;
		snprintf(right, sizeof right, "%04u%05u", station, serial);
		snprintf(right + 9, 3, "%02u",
			 (unsigned)refnum_check_digits(right) % 100);
		cr_assert(is_read(right), "%s", right);
		changes += change_one_or_twins(right);
		swaps += swap_neighbours(right, 1);
		jumps += swap_neighbours(right, 2);
	}
	cr_expect_geq(changes, 600 * 99, "99 single changes each, and twins");
	cr_expect_gt(swaps, 600 * 8);
	cr_expect_gt(jumps, 600 * 7);
}

Test(refnum, check_pairs_that_the_standard_never_gives_are_refused)
{
	/* 00, 01 and 99 leave the same rest as 97, 98 and 02 do. */
	static const struct {
		int given;
		const char *never;
	} rows[] = {{97, "00"}, {98, "01"}, {2, "99"}};
	char text[12];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		int found = 0;

		for (int serial = 1; serial < 2000; serial++) {
			snprintf(text, sizeof text, "0014%05u",
				 (unsigned)serial);
			if (refnum_check_digits(text) != rows[i].given)
				continue;
			found++;
			memcpy(text + 9, rows[i].never, 3);
			cr_expect(!is_read(text), "row %zu: %s", i, text);
		}
		cr_expect_gt(found, 10, "row %zu: some numbers were tried", i);
	}
	for (int serial = 1; serial <= REFNUM_SERIAL_MOST; serial++) {
		int check;

		snprintf(text, sizeof text, "0014%05u", (unsigned)serial);
		check = refnum_check_digits(text);
		cr_assert(check >= 2 && check <= 98, "%s: %d", text, check);
	}
}

#define NO_NUMBER                                                   \
	" is not a referral number; it has eleven digits, such as " \
	"0014-00001-98"
#define NO_FIT " do not fit the others; read the number again from the slip"
#define NO_START " is not a referral number; station and serial begin at 1"

/* 0014-00001 has the check digits 98: 97 divides 140000100. */
static const struct {
	const char *text, *sentence; /* NULL = read */
} texts[] = {
	{"0014-00001-98", NULL},
	{"00140000198", NULL},
	{"0014 00001 98", NULL},
	{" 0014 - 00001 - 98 ", NULL},
	{"0-0-1-4-0-0-0-0-1-9-8", NULL},
	/* ends as scanners type them */
	{"0014-00001-98\r", NULL},
	{"00140000198\r\n", NULL},
	{"0014-00001-98\t \n", NULL},
	{"\t0014-00001-98", "'?0014-00001-98'" NO_NUMBER},
	{"", "''" NO_NUMBER},
	{"0014-00001", "'0014-00001'" NO_NUMBER},
	{"14-1-98", "'14-1-98'" NO_NUMBER},
	{"0014-00001-980", "'0014-00001-980'" NO_NUMBER},
	{"0014-OOOO1-98", "'0014-OOOO1-98'" NO_NUMBER},
	{"0014/00001/98", "'0014/00001/98'" NO_NUMBER},
	{"0014.00001.98", "'0014.00001.98'" NO_NUMBER},
	{"+0014-00001-98", "'+0014-00001-98'" NO_NUMBER},
	{"0014\t00001\t98", "'0014?00001?98'" NO_NUMBER},
	/* the 9 in full width; an en dash */
	{"0014-00001-\xef\xbc\x99"
	 "8",
	 "'0014-00001-\xef\xbc\x99"
	 "8'" NO_NUMBER},
	{"0014\xe2\x80\x93"
	 "00001-98",
	 "'0014\xe2\x80\x93"
	 "00001-98'" NO_NUMBER},
	{"0014-00001-51", "the last two digits of '0014-00001-51'" NO_FIT},
	{"0014-00002-98", "the last two digits of '0014-00002-98'" NO_FIT},
	{"0000-00001-95", "'0000-00001-95'" NO_START},
	{"0000-00000-98", "'0000-00000-98'" NO_START},
};

Test(refnum, separators_are_ignored_and_all_else_is_refused)
{
	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
		struct refnum number = {-1, -1};
		struct fault why = {0};
		bool read = refnum_read(texts[i].text, &number, &why);

		cr_expect_eq(read, texts[i].sentence == NULL, "row %zu: %s", i,
			     why.sentence);
		cr_expect(number.station == (read ? 14 : -1) &&
				  number.serial == (read ? 1 : -1),
			  "row %zu", i);
		if (texts[i].sentence == NULL)
			continue;
		cr_expect_str_eq(why.sentence, texts[i].sentence, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
	}
}
