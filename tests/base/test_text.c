/* test_text.c: words that may be kept, found again and printed. */
#include "base/text.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

/* One code point in UTF-8 (RFC 3629), surrogates too; `text` holds 5 bytes. */
static void
encode(unsigned point, char *text)
{
	size_t length = point < 0x80	  ? 1
			: point < 0x800	  ? 2
			: point < 0x10000 ? 3
					  : 4;
	static const unsigned front[] = {0, 0, 0xc0, 0xe0, 0xf0};

	text[length] = '\0';
	for (size_t i = length - 1; i > 0; i--, point >>= 6)
		text[i] = (char)(0x80 | (point & 0x3f));
	text[0] = (char)(front[length] | point);
}

Test(text, utf_8_is_checked_as_rfc_3629_says)
{
	static const struct {
		const char *bytes;
		size_t length;
		bool sound;
	} rows[] = {
		{"", 0, true},
		{"a\0b", 3, true},
		{"\x7f", 1, true},
		{"\xc2\x80", 2, true},
		{"\xdf\xbf", 2, true},
		{"\xe0\xa0\x80", 3, true},
		{"\xed\x9f\xbf", 3, true},
		{"\xee\x80\x80", 3, true},
		{"\xef\xbf\xbf", 3, true},
		{"\xf0\x90\x80\x80", 4, true},
		{"\xf4\x8f\xbf\xbf", 4, true},
		/* overlong forms */
		{"\xc0\x80", 2, false},
		{"\xc1\xbf", 2, false},
		{"\xe0\x80\x80", 3, false},
		{"\xe0\x9f\xbf", 3, false},
		{"\xf0\x80\x80\x80", 4, false},
		{"\xf0\x8f\xbf\xbf", 4, false},
		{"\xf8\x88\x80\x80\x80", 5, false},
		/* surrogates, above U+10FFFF */
		{"\xed\xa0\x80", 3, false},
		{"\xed\xbf\xbf", 3, false},
		{"\xed\xa0\xbd\xed\xb1\x81", 6, false},
		{"\xf4\x90\x80\x80", 4, false},
		{"\xf5\x80\x80\x80", 4, false},
		/* cut short, lone, out of order */
		{"\xe4\xb8", 2, false},
		{"ab\xc3", 3, false},
		{"\x80", 1, false},
		{"\xbf\xbf", 2, false},
		{"\xc3(", 2, false},
		{"\xfe", 1, false},
		{"\xff", 1, false},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		cr_expect_eq(text_is_utf8(rows[i].bytes, rows[i].length),
			     rows[i].sound, "row %zu", i);
}

Test(text, any_byte_is_taken_or_refused_and_never_repeated)
{
	struct fault why;

	for (int byte = 1; byte < 256; byte++) {
		char alone[2] = {(char)byte, '\0'};
		char inside[4] = {'a', (char)byte, 'b', '\0'};
		bool printable = byte >= 0x20 && byte < 0x7f;
		bool starts = printable && strchr(" =+-@", byte) == NULL;

		memset(why.sentence, 0, sizeof why.sentence);
		cr_expect_eq(text_check(alone, 80, &why), starts,
			     "byte %02x alone", byte);
		if (!printable)
			cr_expect_null(strchr(why.sentence, byte),
				       "byte %02x is repeated", byte);
		memset(why.sentence, 0, sizeof why.sentence);
		cr_expect_eq(text_check(inside, 80, &why), printable,
			     "byte %02x inside", byte);
		if (!printable) {
			cr_expect_eq(why.kind, FAULT_INPUT, "byte %02x", byte);
			cr_expect_null(strchr(why.sentence, byte),
				       "byte %02x is repeated", byte);
		}
	}
}

Test(text, code_points_that_may_do_harm_are_refused_anywhere)
{
	static const struct {
		unsigned from, to;
		bool taken;
	} rows[] = {
		{0x01, 0x1f, false},	     /* C0 */
		{0x7f, 0x9f, false},	     /* DEL, C1 */
		{0xa0, 0x17f, true},	     /* Latin letters */
		{0x378, 0x379, false},	     /* not assigned */
		{0x61c, 0x61c, false},	     /* Arabic letter mark */
		{0x627, 0x64a, true},	     /* Arabic letters */
		{0x905, 0x939, true},	     /* Devanagari letters */
		{0x1000, 0x102a, true},	     /* Myanmar letters */
		{0x200c, 0x200d, true},	     /* joiners that scripts need */
		{0x200e, 0x200f, false},     /* marks of direction */
		{0x2018, 0x201f, true},	     /* curly quotes */
		{0x2028, 0x202e, false},     /* separators, directions */
		{0x2066, 0x2069, false},     /* isolates */
		{0x4e00, 0x4e80, true},	     /* Han */
		{0xd800, 0xdfff, false},     /* surrogates */
		{0xfffe, 0xffff, false},     /* no characters */
		{0x10fffe, 0x10ffff, false}, /* no characters */
		{0x110000, 0x110003, false}, /* beyond Unicode */
	};
	char text[8] = "a";
	struct fault why;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		for (unsigned p = rows[i].from; p <= rows[i].to; p++) {
			encode(p, text + 1);
			cr_expect_eq(text_check(text, 80, &why), rows[i].taken,
				     "row %zu: U+%04X", i, p);
			encode(p, text + 1);
			cr_expect_eq(text_check(text + 1, 80, &why),
				     rows[i].taken, "row %zu: U+%04X first", i,
				     p);
		}
}

Test(text, refusals_say_what_is_wrong)
{
	static const struct {
		const char *text, *sentence; /* NULL = taken */
	} rows[] = {
		{"", NULL},
		{"O'Hara B", NULL},
		{"a-b=c+@e", NULL},
		{"12345678", NULL},
		{"\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad"
		 "\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad",
		 NULL},
		{"123456789", "it has 9 characters; at most 8 are allowed"},
		{"=1+1", "it may not begin with = + - or @, which a "
			 "spreadsheet takes for a formula"},
		{"+1", "it may not begin with = + - or @, which a "
		       "spreadsheet takes for a formula"},
		{"-1", "it may not begin with = + - or @, which a "
		       "spreadsheet takes for a formula"},
		{"@a", "it may not begin with = + - or @, which a "
		       "spreadsheet takes for a formula"},
		/* the same in full width: U+FF1D FF0B FF0D FF20 */
		{"\xef\xbc\x9d", "it may not begin with = + - or @, which a "
				 "spreadsheet takes for a formula"},
		{"\xef\xbc\x8b", "it may not begin with = + - or @, which a "
				 "spreadsheet takes for a formula"},
		{"\xef\xbc\x8d", "it may not begin with = + - or @, which a "
				 "spreadsheet takes for a formula"},
		{"\xef\xbc\xa0", "it may not begin with = + - or @, which a "
				 "spreadsheet takes for a formula"},
		{" a", "it begins or ends with a space"},
		{"a ", "it begins or ends with a space"},
		{" ", "it begins or ends with a space"},
		{"ab\x1b[1m", "character 3 cannot be printed (U+001B); only "
			      "letters, digits, marks and spaces are allowed"},
		{"a\tb", "character 2 cannot be printed (U+0009); only "
			 "letters, digits, marks and spaces are allowed"},
		{"\xc3\xa9\xe2\x80\xae", "character 2 cannot be printed "
					 "(U+202E); only letters, "
					 "digits, marks and spaces are "
					 "allowed"},
		{"ab\xff", "character 3 is not valid UTF-8; type it again"},
		{"\xc0\xaf", "character 1 is not valid UTF-8; type it again"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why = {0};

		cr_expect_eq(text_check(rows[i].text, 8, &why),
			     rows[i].sentence == NULL, "row %zu: %s", i,
			     why.sentence);
		if (rows[i].sentence != NULL)
			cr_expect_str_eq(why.sentence, rows[i].sentence,
					 "row %zu", i);
	}
}

Test(text, two_spellings_of_one_name_fold_alike)
{
	/* Composed and decomposed forms: Unicode Standard Annex 15 and the
	 * character database; case folding: CaseFolding.txt. */
	static const struct {
		const char *one, *other, *folded;
	} rows[] = {
		{"Amina  Bello", "AMINA BELLO", "amina bello"},
		{"  Amina Bello", "amina     bello", "amina bello"},
		/* e acute */
		{"Ren\xc3\xa9", "RENE\xcc\x81", "ren\xc3\xa9"},
		/* A ring, as Angstrom sign, as letter and ring */
		{"\xc3\x85", "\xe2\x84\xab", "\xc3\xa5"},
		{"\xc3\x85", "A\xcc\x8a", "\xc3\xa5"},
		/* Vietnamese: e with circumflex and tilde */
		{"Nguy\xe1\xbb\x85n", "NGUYE\xcc\x82\xcc\x83N",
		 "nguy\xe1\xbb\x85n"},
		/* sharp s */
		{"Wei\xc3\x9f", "WEISS", "weiss"},
		{"\xe1\xba\x9e", "ss", "ss"},
		/* Greek: final sigma */
		{"\xce\x9f\xce\xa3", "\xce\xbf\xcf\x82", "\xce\xbf\xcf\x83"},
		/* Cyrillic short i */
		{"\xd0\x99", "\xd0\xb8\xcc\x86", "\xd0\xb9"},
		/* Hangul syllable and its letters */
		{"\xea\xb0\x80", "\xe1\x84\x80\xe1\x85\xa1", "\xea\xb0\x80"},
		/* Devanagari qa never composes (a composition exclusion) */
		{"\xe0\xa5\x98", "\xe0\xa4\x95\xe0\xa4\xbc",
		 "\xe0\xa4\x95\xe0\xa4\xbc"},
		/* two marks in either order */
		{"a\xcc\xa3\xcc\x82", "a\xcc\x82\xcc\xa3", "\xe1\xba\xad"},
		/* a joiner nobody sees */
		{"a\xe2\x80\x8d"
		 "b",
		 "ab", "ab"},
	};
	char one[64], other[64], again[64];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect(text_fold(rows[i].one, one, sizeof one), "row %zu",
			  i);
		cr_expect(text_fold(rows[i].other, other, sizeof other),
			  "row %zu", i);
		cr_expect_str_eq(one, rows[i].folded, "row %zu", i);
		cr_expect_str_eq(other, rows[i].folded, "row %zu", i);
		cr_expect(text_fold(one, again, sizeof again), "row %zu", i);
		cr_expect_str_eq(again, one, "row %zu: folded twice", i);
	}
}

Test(text, what_differs_stays_different_and_what_is_too_long_is_told)
{
	static const char *const rows[][2] = {
		{"Rene", "Ren\xc3\xa9"},
		{"O'Hara", "Ohara"},
		{"Amina Bello", "AminaBello"},
		{"i", "\xc4\xb1"}, /* dotless i */
		{"Ann", "Anne"},
	};
	char one[64], other[64], text[700];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect(text_fold(rows[i][0], one, sizeof one), "row %zu", i);
		cr_expect(text_fold(rows[i][1], other, sizeof other), "row %zu",
			  i);
		cr_expect_str_neq(one, other, "row %zu", i);
	}
	cr_expect(text_fold("abc", one, 4));
	cr_expect(!text_fold("abcd", one, 4));
	cr_expect_str_eq(one, "");
	cr_expect(!text_fold("\xff", one, sizeof one));
	cr_expect_str_eq(one, "");
	memset(text, 'A', sizeof text - 1);
	text[sizeof text - 1] = '\0';
	cr_expect(!text_fold(text, one, sizeof one));
	cr_expect_str_eq(one, "");
}

Test(text, widths_and_lengths_count_columns_and_characters)
{
	/* Wide characters: Unicode Standard Annex 11, East Asian Width. */
	static const struct {
		const char *text;
		int width;
		long length;
	} rows[] = {
		{"", 0, 0},
		{"abc", 3, 3},
		{"\xc3\xa9", 1, 1},
		{"e\xcc\x81", 1, 2},
		{"\xe4\xb8\xad\xe6\x96\x87", 4, 2},
		{"\xea\xb0\x80", 2, 1},
		{"\xef\xbc\xa1", 2, 1},	    /* full-width A */
		{"\xef\xbd\xb1", 1, 1},	    /* half-width katakana a */
		{"\xf0\x9f\x91\x81", 1, 1}, /* eye: neutral */
		{"\xf0\x9f\x98\x80", 2, 1}, /* face: wide */
		{"\xe0\xa4\x95\xe0\xa5\x8d\xe0\xa4\xb7", 2, 3},
		{"a \xe4\xb8\xad b", 6, 5},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect_eq(text_width(rows[i].text), rows[i].width,
			     "row %zu: %d columns", i,
			     text_width(rows[i].text));
		cr_expect_eq(text_length(rows[i].text), rows[i].length,
			     "row %zu: %ld characters", i,
			     text_length(rows[i].text));
	}
}

Test(text, copies_fit_or_are_empty_and_ends_are_trimmed)
{
	static const char *const rows[][2] = {
		{"", ""},
		{"   ", ""},
		{" \t\r\n", ""},
		{"a", "a"},
		{"  a b \t", "a b"},
		{"line\r\n", "line"},
		{"\xc2\xa0"
		 "a",
		 "\xc2\xa0"
		 "a"},
	};
	char small[4] = "old", text[16];

	cr_expect(text_copy(small, sizeof small, "abc"));
	cr_expect_str_eq(small, "abc");
	cr_expect(!text_copy(small, sizeof small, "abcd"));
	cr_expect_str_eq(small, "");
	cr_expect(text_copy(small, sizeof small, ""));
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		memcpy(text, rows[i][0], strlen(rows[i][0]) + 1);
		cr_expect_eq(text_trim(text), text, "row %zu", i);
		cr_expect_str_eq(text, rows[i][1], "row %zu", i);
	}
}

Test(text, markup_is_escaped)
{
	static const char *const rows[][2] = {
		{"", ""},
		{"plain \xe4\xb8\xad", "plain \xe4\xb8\xad"},
		{"<a href=\"x\">&'", "&lt;a href=&quot;x&quot;&gt;&amp;&#39;"},
		{"&amp;", "&amp;amp;"},
		{"]]><!--", "]]&gt;&lt;!--"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char *written = NULL;
		size_t size;
		FILE *out = open_memstream(&written, &size);

		cr_assert_not_null(out);
		text_write_html(out, rows[i][0]);
		fclose(out);
		cr_expect_str_eq(written, rows[i][1], "row %zu", i);
		free(written);
	}
}

/* `front` stands on the line before the text is written. */
static void
expect_wrapped(size_t row, const char *front, const char *text, int columns,
	       int indent, const char *expected)
{
	char *written = NULL;
	size_t size;
	FILE *out = open_memstream(&written, &size);

	cr_assert_not_null(out);
	fputs(front, out);
	text_write_wrapped(out, text, columns, text_width(front), indent);
	fclose(out);
	cr_expect_str_eq(written, expected, "row %zu: '%s'", row, written);
	free(written);
}

Test(text, lines_are_broken_at_spaces)
{
	static const struct {
		const char *front, *text;
		int columns, indent;
		const char *expected;
	} rows[] = {
		{"", "", 40, 0, "\n"},
		{"", "   ", 40, 0, "\n"},
		{"", "one", 40, 0, "one\n"},
		{"", "  one   two  ", 40, 0, "one two\n"},
		{"", "12345 7890", 10, 0, "12345 7890\n"},
		{"", "12345 78901", 10, 0, "12345\n78901\n"},
		{" - ", "aaa bbb ccc", 10, 3, " - aaa bbb\n   ccc\n"},
		/* a word that does not fit behind what stands there */
		{"Right eye: ", "shallow chamber", 15, 3,
		 "Right eye: \n   shallow\n   chamber\n"},
		/* a word longer than a line */
		{"", "a 123456789012 b", 10, 2, "a\n  123456789012\n  b\n"},
		/* wide characters take two columns each */
		{"", "\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad ab", 11,
		 0, "\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad ab\n"},
		{"", "\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad ab", 10,
		 0, "\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\nab\n"},
		/* marks take no column */
		{"",
		 "e\xcc\x81"
		 "e\xcc\x81 e\xcc\x81 b",
		 4, 0,
		 "e\xcc\x81"
		 "e\xcc\x81 e\xcc\x81\nb\n"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		expect_wrapped(i, rows[i].front, rows[i].text, rows[i].columns,
			       rows[i].indent, rows[i].expected);
}

/* Words of 1 to 12 columns, some of wide characters, drawn by a fixed rule. */
static void
draw_words(unsigned *drawn, char *text, size_t size)
{
	size_t used = 0;

	for (int word = 0; word < 30; word++) {
		unsigned length;
		const char *letter;

		*drawn = *drawn * 1664525u + 1013904223u;
		length = *drawn / 65536 % 6 + 1;
		letter = *drawn / 1024 % 3 == 0 ? "\xe4\xb8\xad" : "w";
		for (; length > 0; length--) {
			cr_assert_lt(used + 8, size);
			memcpy(text + used, letter, strlen(letter));
			used += strlen(letter);
		}
		text[used++] = ' ';
	}
	text[used] = '\0';
}

Test(text, no_line_is_longer_than_40_columns_and_no_word_is_lost)
{
	unsigned drawn = 40;
	char text[1024];

	for (int i = 0; i < 300; i++) {
		char *written = NULL, *line;
		size_t size;
		FILE *out = open_memstream(&written, &size);
		const char *from = text;

		cr_assert_not_null(out);
		draw_words(&drawn, text, sizeof text);
		text_write_wrapped(out, text, 40, i % 50, i % 7);
		fclose(out);
		for (line = written; *line != '\0'; line++) {
			if (*line == ' ' || *line == '\n')
				continue;
			from += strspn(from, " ");
			cr_assert_eq(*line, *from, "text %d", i);
			from++;
		}
		cr_expect_eq(strspn(from, " "), strlen(from), "text %d", i);
		line = strchr(written, '\n');
		*line++ = '\0';
		cr_expect(text_width(written) + i % 50 <= 40 ||
				  written[0] == '\0',
			  "text %d: '%s'", i, written);
		for (char *end; *line != '\0'; line = end + 1) {
			end = strchr(line, '\n');
			*end = '\0';
			cr_expect_leq(text_width(line), 40, "text %d: '%s'", i,
				      line);
		}
		free(written);
	}
}

Test(text, distances_count_dropped_added_changed_and_swapped_letters)
{
	static const struct {
		const char *one, *other;
		int distance;
	} rows[] = {
		{"", "", 0},
		{"", "abc", 3},
		{"nausea", "nausea", 0},
		{"nausea", "nausa", 1},
		{"nausea", "nauseas", 1},
		{"nausea", "nausia", 1},
		{"nausea", "anusea", 1},
		{"red_eye", "rde_eye", 1},
		/* the textbook examples (from memory) */
		{"kitten", "sitting", 3},
		{"saturday", "sunday", 3},
		/* 3 by the restricted distance, 2 by the full one: a swapped
		 * pair is not edited again (from memory) */
		{"ca", "abc", 3},
		{"Nausea", "nausea", 1},
		{"123456789012345678901234567890123456789012345678901234567890"
		 "123",
		 "", 63},
		{"123456789012345678901234567890123456789012345678901234567890"
		 "1234",
		 "", 99},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect_eq(text_distance(rows[i].one, rows[i].other),
			     rows[i].distance, "row %zu: %d", i,
			     text_distance(rows[i].one, rows[i].other));
		cr_expect_eq(text_distance(rows[i].other, rows[i].one),
			     rows[i].distance, "row %zu, the other way", i);
	}
	cr_expect_eq(text_distance_helpful("abc"), 1);
	cr_expect_eq(text_distance_helpful("abcd"), 2);
	cr_expect_eq(text_distance_helpful("abcdefghi"), 3);
}
