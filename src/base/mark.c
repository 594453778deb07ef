/* mark.c: short check letters over values, by CRC-32 in base 26. */
#include "base/mark.h"

#include <string.h>
#include <zlib.h>

void
mark_init(struct mark *mark)
{
	mark->crc = (uint32_t)crc32(0, NULL, 0);
	mark->values = 0;
}

void
mark_joined(struct mark *mark, const char *bytes, size_t count)
{
	mark->crc = (uint32_t)crc32_z(mark->crc, (const unsigned char *)bytes,
				      count);
}

void
mark_table_make(struct mark_table *table)
{
	const z_crc_t *one = get_crc_table();

	for (int byte = 0; byte < 256; byte++) {
		uint32_t crc = (uint32_t)one[byte];

		for (int zeros = 0; zeros < 8; zeros++) {
			table->at[zeros][byte] = crc;
			crc = (uint32_t)one[crc & 0xff] ^ crc >> 8;
		}
	}
}

static uint32_t
four_bytes(const unsigned char *at)
{
	return (uint32_t)at[0] | (uint32_t)at[1] << 8 | (uint32_t)at[2] << 16 |
	       (uint32_t)at[3] << 24;
}

void
mark_joined_by_table(const struct mark_table *table, struct mark *mark,
		     const char *bytes, size_t count)
{
	const unsigned char *at = (const unsigned char *)bytes;
	uint32_t crc = ~mark->crc;

	for (; count >= 8; at += 8, count -= 8) {
		uint32_t low = crc ^ four_bytes(at), high = four_bytes(at + 4);

		crc = table->at[7][low & 0xff] ^ table->at[6][low >> 8 & 0xff] ^
		      table->at[5][low >> 16 & 0xff] ^ table->at[4][low >> 24] ^
		      table->at[3][high & 0xff] ^
		      table->at[2][high >> 8 & 0xff] ^
		      table->at[1][high >> 16 & 0xff] ^
		      table->at[0][high >> 24];
	}
	for (; count > 0; at++, count--)
		crc = table->at[0][(crc ^ *at) & 0xff] ^ crc >> 8;
	mark->crc = ~crc;
}

void
mark_add(struct mark *mark, const char *value)
{
	if (mark->values++ > 0)
		mark_joined(mark, "\x1f", 1);
	mark_joined(mark, value, strlen(value));
}

bool
mark_is(const struct mark *mark, const char *text)
{
	uint64_t value = 0;

	for (int i = 0; i < MARK_ROW_LETTERS; i++) {
		if (text[i] < 'A' || text[i] > 'Z')
			return false;
		value = 26 * value + (uint64_t)(text[i] - 'A');
	}
	return value == mark->crc;
}

void
mark_write(const struct mark *mark, int letters, char *text)
{
	uint32_t left = mark->crc;

	text[letters] = '\0';
	for (int i = letters - 1; i >= 0; i--) {
		text[i] = (char)('A' + left % 26);
		left /= 26;
	}
}
