/* mark.h: short check letters over values, by CRC-32 in base 26. */
#ifndef SHOAL_BASE_MARK_H
#define SHOAL_BASE_MARK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/*
 * A mark is a CRC-32 (the IEEE polynomial, as zlib computes it) written in
 * base 26 with A = 0, most significant letter first. Letters, because
 * spreadsheets turn strings of digits into numbers. Seven letters hold every
 * CRC-32; a shorter mark keeps its lowest letters. A mark finds accidents, it
 * is no protection against somebody who means to deceive.
 *
 * Values are joined by the byte 0x1F (the ASCII unit separator), which no
 * value can hold, so that moving a letter from one value to the next is found.
 */
struct mark {
	uint32_t crc;
	size_t values; /* how many were added */
};

enum { MARK_ROW_LETTERS = 7, MARK_POLICY_LETTERS = 6, MARK_JOINT = 0x1f };

void mark_init(struct mark *mark);

/* Adds one value, with the separator before it unless it is the first. */
void mark_add(struct mark *mark, const char *value);

/* Adds bytes as they are: values already joined by MARK_JOINT, with the joint
 * in front where they follow others. */
void mark_joined(struct mark *mark, const char *bytes, size_t count);

/*
 * For very many marks: mark_joined eight bytes at a time ("slicing-by-8",
 * Kounavis and Berry, IEEE Transactions on Computers 57(11), 2008; from
 * memory). at[k][byte] is the CRC of a byte with k zeros behind it.
 */
struct mark_table {
	uint32_t at[8][256];
};

void mark_table_make(struct mark_table *table);
void mark_joined_by_table(const struct mark_table *table, struct mark *mark,
			  const char *bytes, size_t count);

/* Whether the first seven characters of a text are the mark's letters. */
bool mark_is(const struct mark *mark, const char *text);

/* Writes `letters` letters (1 to 7) and a NUL. */
void mark_write(const struct mark *mark, int letters, char *text);

#endif
