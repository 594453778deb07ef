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
mark_add(struct mark *mark, const char *value)
{
	if (mark->values++ > 0)
		mark_joined(mark, "\x1f", 1);
	mark_joined(mark, value, strlen(value));
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
