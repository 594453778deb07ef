/* Tests of base/text: bytes that are no text, and words longer than a line. */
#include "base/text.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

Test(text, what_is_broken_is_measured_up_to_where_it_breaks)
{
	static const struct {
		const char *bytes;
		int width;
		long length;
	} rows[] = {
		{"", 0, 0},
		{"abc", 3, 3},
		{"ab\xff", 2, 2},
		{"\xc3", 0, 0},
		{"a\xc3\xa9\xed\xa0\x80z", 2, 2},
		{"\xe0\xa4\x95\xe0\xa4", 1, 1},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect_eq(text_width(rows[i].bytes), rows[i].width,
			     "row %zu: %d", i, text_width(rows[i].bytes));
		cr_expect_eq(text_length(rows[i].bytes), rows[i].length,
			     "row %zu: %ld", i, text_length(rows[i].bytes));
	}
}

/* Not a byte is lost, and no character is split, however long the word. */
Test(text, a_word_longer_than_any_line_comes_through_whole)
{
	for (size_t length = 1; length < 1500; length += 37) {
		char *word = calloc(length * 3 + 3, 1), *written = NULL;
		char *joined = calloc(length * 3 + 3, 1);
		size_t size, used = 0, before = length % 3;
		FILE *out = open_memstream(&written, &size);

		cr_assert(word != NULL && joined != NULL && out != NULL);
		for (size_t i = 0; i < length; i++)
			memcpy(word + before + 3 * i, "\xe0\xa4\x95",
			       3); /* KA */
		memset(word, 'a', before);
		text_write_wrapped(out, word, 20, 0, 0);
		fclose(out);
		for (const char *line = written; *line != '\0';) {
			size_t bytes = strcspn(line, "\n");

			cr_expect(text_is_utf8(line, bytes), "length %zu",
				  length);
			for (size_t i = 0; i < bytes; i++)
				if (line[i] != ' ')
					joined[used++] = line[i];
			line += bytes + (line[bytes] == '\n');
		}
		cr_expect_str_eq(joined, word, "length %zu", length);
		free(word);
		free(joined);
		free(written);
	}
}

Test(text, a_text_too_long_to_be_folded_is_said_to_be)
{
	enum { MOST = 3 * 700 + 1 };
	char text[MOST] = "", folded[4 * MOST], small[8];
	size_t used = 0;

	/* 511 points are the most that are looked at; then the room. */
	for (int i = 0; i < 700; i++)
		used += (size_t)snprintf(text + used, sizeof text - used,
					 "\xe0\xa4\x95");
	cr_expect_not(text_fold(text, folded, sizeof folded));
	text[3 * 500] = '\0';
	cr_expect(text_fold(text, folded, sizeof folded));
	cr_expect_eq(strlen(folded), 3 * 500);
	text[9] = '\0';
	cr_expect_not(text_fold(text, small, sizeof small));
	text[6] = '\0';
	cr_expect(text_fold(text, small, sizeof small));
	cr_expect_str_eq(small, text);
}
