/* test_mark.c: check letters are a CRC-32 in base 26. */
#include "base/mark.h"

#include <criterion/criterion.h>
#include <string.h>

static void
mark_of(const char *const *values, size_t count, int letters, char *text)
{
	struct mark mark;

	mark_init(&mark);
	for (size_t i = 0; i < count; i++)
		mark_add(&mark, values[i]);
	mark_write(&mark, letters, text);
}

Test(mark, letters_are_the_crc_32_in_base_26)
{
	/*
	 * The check value of CRC-32 is that of the nine bytes 123456789:
	 * CBF43926 (published: the catalogue of parametrised CRC algorithms,
	 * CRC-32/ISO-HDLC; zlib computes the same). By hand:
	 *   CBF43926 = 3421780262
	 *   3421780262 = 26 * 131606933 + 4    E
	 *    131606933 = 26 * 5061805 + 3      D
	 *      5061805 = 26 * 194684 + 21      V
	 *       194684 = 26 * 7487 + 22        W
	 *         7487 = 26 * 287 + 25         Z
	 *          287 = 26 * 11 + 1           B
	 *           11                         L
	 * The others: CRC-32 by Python 3.11 zlib.crc32.
	 */
	static const struct {
		const char *value, *letters;
	} rows[] = {
		{"123456789", "LBZWVDE"},
		{"", "AAAAAAA"},
		{"a", "MQPXIKX"}, /* E8B7BE43 */
		{"The quick brown fox jumps over the lazy dog",
		 "DOFUWLT"},			 /* 414FA339 */
		{"\xff\xff\xff\xff", "NXMRLXV"}, /* FFFFFFFF, the largest */
	};
	char text[8];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		for (int letters = 1; letters <= 7; letters++) {
			memset(text, '#', sizeof text);
			mark_of(&rows[i].value, 1, letters, text);
			cr_expect_str_eq(text, rows[i].letters + 7 - letters,
					 "row %zu: the lowest %d letters", i,
					 letters);
		}
}

Test(mark, only_its_own_letters_are_the_mark)
{
	/* The second is more by 2 to the power of 32, as no mark is. */
	static const char *const wrong[] = {"LBZWVDF", "YZMOHBA", "lBZWVDE",
					    "LBZWVD",  "",	  "LBZWVD\xc3"};
	struct mark mark;

	mark_init(&mark);
	mark_add(&mark, "123456789");
	cr_expect(mark_is(&mark, "LBZWVDE"));
	cr_expect(mark_is(&mark, "LBZWVDE,more"));
	for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
		cr_expect_not(mark_is(&mark, wrong[i]), "row %zu", i);
}

Test(mark, values_are_joined_by_a_separator)
{
	/* CRC-32 of the bytes 32 35 1F 34 30 and their like, by Python 3.11
	 * zlib.crc32. */
	static const struct {
		const char *value[3];
		size_t count;
		const char *letters;
	} rows[] = {
		{{"25", "40"}, 2, "EKANDRQ"}, {{"2540"}, 1, "KRBMCHI"},
		{{"254", "0"}, 2, "BAPTDFA"}, {{"", ""}, 2, "FEFJCCE"},
		{{"", "", ""}, 3, "ACERCQE"},
	};
	char text[8];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		mark_of(rows[i].value, rows[i].count, MARK_ROW_LETTERS, text);
		cr_expect_str_eq(text, rows[i].letters, "row %zu", i);
	}
}

Test(mark, every_changed_byte_changes_the_mark)
{
	static const char *const before[] = {"0014", "2026-03-09", "F", "40"};
	char changed[16], first[8], second[8];
	const char *after[4];

	mark_of(before, 4, MARK_ROW_LETTERS, first);
	for (size_t value = 0; value < 4; value++)
		for (size_t at = 0; at < strlen(before[value]); at++)
			for (int byte = 1; byte < 256; byte++) {
				memcpy(after, before, sizeof after);
				memcpy(changed, before[value],
				       strlen(before[value]) + 1);
				if (changed[at] == (char)byte)
					continue;
				changed[at] = (char)byte;
				after[value] = changed;
				mark_of(after, 4, MARK_ROW_LETTERS, second);
				cr_expect_str_neq(first, second, "%zu.%zu: %d",
						  value, at, byte);
			}
}

/* Against zlib, from every length to every other. */
Test(mark, the_table_gives_the_same_crc)
{
	struct mark_table table;
	unsigned char bytes[40];
	unsigned state = 1;

	for (size_t i = 0; i < sizeof bytes; i++) {
		state = state * 1103515245 + 12345;
		bytes[i] = (unsigned char)(state >> 16);
	}
	mark_table_make(&table);
	for (size_t from = 0; from <= sizeof bytes; from++)
		for (size_t to = from; to <= sizeof bytes; to++) {
			const char *at = (const char *)bytes + from;
			struct mark slow, fast;

			mark_init(&slow);
			mark_joined(&slow, (const char *)bytes, from);
			fast = slow;
			mark_joined(&slow, at, to - from);
			mark_joined_by_table(&table, &fast, at, to - from);
			cr_expect_eq(fast.crc, slow.crc, "bytes %zu to %zu",
				     from, to);
		}
}
