/* test_fault.c: a fault is one harmless sentence with its place in front. */
#include "base/fault.h"

#include "base/text.h"

#include <criterion/criterion.h>
#include <string.h>

/* Whether a terminal shows the sentence as plain text: valid UTF-8 without
 * C0, DEL, C1, and without what turns or breaks a line. Decoded here by hand,
 * so that the test does not ask the code under test. */
static bool
is_harmless(const char *sentence)
{
	const unsigned char *at = (const unsigned char *)sentence;

	if (!text_is_utf8(sentence, strlen(sentence)))
		return false;
	for (; *at != '\0'; at++) {
		unsigned point = *at;

		if (at[0] >= 0xc0 && at[0] < 0xe0)
			point = (at[0] & 0x1fu) << 6 | (at[1] & 0x3fu);
		else if (at[0] >= 0xe0 && at[0] < 0xf0)
			point = (at[0] & 0xfu) << 12 | (at[1] & 0x3fu) << 6 |
				(at[2] & 0x3fu);
		else if (at[0] >= 0x80)
			continue;
		if (point < 0x20 || (point >= 0x7f && point < 0xa0) ||
		    point == 0x61c || point == 0x200e || point == 0x200f ||
		    (point >= 0x2028 && point <= 0x202e) ||
		    (point >= 0x2066 && point <= 0x2069))
			return false;
	}
	return true;
}

Test(fault, what_may_harm_a_terminal_becomes_a_question_mark)
{
	static const struct {
		const char *typed, *sentence;
	} rows[] = {
		{"plain words, 25 %", "plain words, 25 %"},
		{"\x1b[31mred\x1b[0m", "?[31mred?[0m"},
		{"\x1b]0;title\x07", "?]0;title?"},
		{"line\nnext\r\ttab\x7f", "line?next??tab?"},
		/* C1, as one byte and as U+009B in UTF-8 */
		{"\x9b"
		 "31m",
		 "?31m"},
		{"\xc2\x9b"
		 "31m",
		 "??31m"},
		{"\xc2\xa0", "\xc2\xa0"},
		/* bidirectional marks, line and paragraph separator */
		{"\xe2\x80\xae"
		 "txt",
		 "???txt"},
		{"\xe2\x81\xa6\xe2\x81\xa9", "??????"},
		{"\xe2\x80\xa8\xe2\x80\xa9", "??????"},
		{"\xd8\x9c\xd8\x9d", "??\xd8\x9d"},
		/* letters of other scripts, curly quotes and dashes stay */
		{"\xe4\xb8\xad \xe2\x80\x99 \xe2\x80\x93 \xf0\x9f\x91\x81",
		 "\xe4\xb8\xad \xe2\x80\x99 \xe2\x80\x93 \xf0\x9f\x91\x81"},
		/* overlong forms of '/', ESC and U+009B (RFC 3629, 4 and 10) */
		{"\xc0\xaf\xc1\x9b", "????"},
		{"\xe0\x80\x9b\xe0\x82\x9b", "??????"},
		{"\xf0\x80\x80\x9b", "????"},
		/* surrogates, above U+10FFFF, cut short, a lone byte */
		{"\xed\xa0\x80\xed\xbf\xbf", "??????"},
		{"\xf4\x90\x80\x80\xf5\x80\x80\x80", "????????"},
		{"a\xe4\xb8", "a??"},
		{"\xbf\xfe\xff", "???"},
	};
	struct fault why;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect(!fault_set(&why, FAULT_INPUT, "'%s'", rows[i].typed),
			  "row %zu", i);
		why.sentence[strlen(why.sentence) - 1] = '\0';
		cr_expect_str_eq(why.sentence + 1, rows[i].sentence, "row %zu",
				 i);
		fault_set(&why, FAULT_INPUT, "end");
		fault_at(&why, "%s", rows[i].typed);
		cr_expect_eq(strncmp(why.sentence, rows[i].sentence,
				     strlen(rows[i].sentence)),
			     0, "row %zu as a place", i);
	}
}

Test(fault, no_harmful_byte_survives_of_any_two_or_any_three)
{
	struct fault why;

	for (int one = 1; one < 256; one++)
		for (int two = 1; two < 256; two++) {
			char typed[3] = {(char)one, (char)two, '\0'};

			fault_set(&why, FAULT_INPUT, "%s", typed);
			cr_expect(is_harmless(why.sentence), "%02x %02x", one,
				  two);
		}
	/* The three-byte forms, where separators and marks are. */
	for (int one = 0xe0; one < 0xf0; one++)
		for (int two = 0x80; two < 0xc0; two++)
			for (int three = 0x80; three < 0xc0; three++) {
				char typed[4] = {(char)one, (char)two,
						 (char)three, '\0'};
				bool sound = is_harmless(typed);

				fault_set(&why, FAULT_INPUT, "%s", typed);
				cr_expect_str_eq(why.sentence,
						 sound ? typed : "???",
						 "%02x %02x %02x", one, two,
						 three);
			}
}

Test(fault, places_nest_from_the_inside_out)
{
	struct fault why;

	cr_expect(!fault_set(&why, FAULT_POLICY, "'%d' is wrong", 7));
	cr_expect_eq(why.kind, FAULT_POLICY);
	cr_expect_str_eq(why.sentence, "'7' is wrong");
	cr_expect(!fault_at(&why, "%s", "depth_right"));
	cr_expect(!fault_at(&why, "row %d", 3));
	cr_expect(!fault_at(&why, "%s", "day.csv"));
	cr_expect_eq(why.kind, FAULT_POLICY, "a place keeps the kind");
	cr_expect_str_eq(why.sentence, "day.csv: row 3: depth_right: '7' is "
				       "wrong");
	fault_set(&why, FAULT_OUTPUT, "new");
	cr_expect_str_eq(why.sentence, "new", "nothing of the old is left");
	cr_expect_eq(why.kind, FAULT_OUTPUT);
}

Test(fault, long_sentences_and_places_are_cut_and_stay_harmless)
{
	/* What does not fit may be cut inside a character of 1 to 4 bytes. */
	static const char *const letters[] = {"a", "\xc3\xa9", "\xe4\xb8\xad",
					      "\xf0\x9f\x91\x81"};
	char typed[2000];
	struct fault why;

	for (size_t i = 0; i < 4; i++)
		for (size_t shift = 0; shift < 4; shift++) {
			size_t length = strlen(letters[i]), used = shift;

			memset(typed, '.', shift);
			for (; used + length < sizeof typed; used += length)
				memcpy(typed + used, letters[i], length);
			typed[used] = '\0';
			fault_set(&why, FAULT_INPUT, "%s", typed);
			cr_expect_eq(strlen(why.sentence),
				     FAULT_SENTENCE_SIZE - 1, "row %zu.%zu", i,
				     shift);
			cr_expect(is_harmless(why.sentence), "row %zu.%zu", i,
				  shift);
			for (int times = 0; times < 5; times++)
				fault_at(&why, "%s", typed);
			cr_expect_eq(strlen(why.sentence),
				     FAULT_SENTENCE_SIZE - 1, "row %zu.%zu", i,
				     shift);
			cr_expect(is_harmless(why.sentence), "row %zu.%zu", i,
				  shift);
			cr_expect_eq(
				strncmp(why.sentence + FAULT_PLACE_SIZE - 3,
					": ", 2),
				0, "row %zu.%zu: the place is cut", i, shift);
		}
}
