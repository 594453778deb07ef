/* tallyline.c: a row of a tally as the program itself writes it, read fast. */
#include "keep/tallyline.h"

#include <string.h>

enum {
	HEAD_COLUMNS = 9, /* schema to policy */
	SEX = HEAD_COLUMNS,
	BAND,
	FIRST_COUNT,
	COUNTS = 18, /* with row, rows and day_total */
	DIGITS_MOST = 5
};

void
tallyline_begin(struct tallyline *state)
{
	mark_table_make(&state->table);
	tallyline_forget(state);
}

void
tallyline_forget(struct tallyline *state)
{
	state->head = 0;
}

bool
tallyline_is_header(const char *line, size_t length)
{
#define NAME(type, name, ...) #name ","
	static const char header[] = TALLY_COLUMNS(NAME);
#undef NAME

	/* Without the last comma and the NUL. */
	return length == sizeof header - 2 && memcmp(line, header, length) == 0;
}

/* --- the columns before `sex` --------------------------------------------- */

/* Whether the column has the same bytes as on the line before. */
static bool
column_is_same(const struct tallyline *state, int column, const char *value,
	       size_t length)
{
	size_t before = column == 0 ? 0 : state->end[column - 1] + 1;

	return state->head > 0 && state->end[column] - before == length &&
	       memcmp(state->bytes + before, value, length) == 0;
}

static bool
read_column(const struct field *field, const char *value, size_t length,
	    struct tally_row *row)
{
	char text[FIELD_TEXT_SIZE];
	struct fault why;

	if (length == 0 || length >= sizeof text ||
	    memchr(value, '"', length) != NULL ||
	    memchr(value, '\0', length) != NULL)
		return false;
	memcpy(text, value, length);
	text[length] = '\0';
	return field_read(field, text, row, &why);
}

/* Reads what differs from the line before; `*head` becomes the length with
 * the last comma. */
static bool
read_head(struct tallyline *state, const char *line, size_t length,
	  struct tally_row *row)
{
	size_t start = 0, end[HEAD_COLUMNS];

	for (int i = 0; i < HEAD_COLUMNS; i++) {
		const char *comma = memchr(line + start, ',', length - start);
		size_t size;

		if (comma == NULL)
			return false;
		size = (size_t)(comma - line) - start;
		if (!column_is_same(state, i, line + start, size) &&
		    !read_column(&tally_columns.field[i], line + start, size,
				 row))
			return false;
		end[i] = start + size;
		start = end[i] + 1;
	}
	memcpy(state->end, end, sizeof end);
	memcpy(state->bytes, line, start);
	state->head = start;
	return strcmp(row->schema, TALLY_SCHEMA) == 0;
}

/* The values of the head joined, the joint behind the last too. */
static void
mark_head(struct tallyline *state)
{
	char joined[TALLYLINE_MOST];
	struct mark mark;

	memcpy(joined, state->bytes, state->head);
	for (int i = 0; i < HEAD_COLUMNS; i++)
		joined[state->end[i]] = MARK_JOINT;
	mark_init(&mark);
	mark_joined_by_table(&state->table, &mark, joined, state->head);
	state->crc = mark.crc;
}

/* --- the columns from `sex` on -------------------------------------------- */

static size_t
word_length(const char *word)
{
	size_t length = 0;

	while (word[length] != '|' && word[length] != '\0')
		length++;
	return length;
}

/* Behind the sex and its comma, or NULL. */
static char *
read_sex(char *at, size_t length, struct tally_row *row)
{
	const char *word = tally_columns.field[SEX].words;

	for (int i = 0; *word != '\0'; i++) {
		size_t size = word_length(word);

		if (length > size && at[size] == ',' &&
		    memcmp(at, word, size) == 0) {
			row->sex = i;
			at[size] = MARK_JOINT;
			return at + size + 1;
		}
		word += size + (word[size] == '|');
	}
	return NULL;
}

/* Behind the band and its comma, or NULL; whether it is a band is judged where
 * rows are gathered. */
static char *
read_band(char *at, size_t length, struct tally_row *row)
{
	for (size_t i = 0; i < length && i < sizeof row->age_band; i++) {
		char c = at[i];

		if (c == ',' && i > 0) {
			row->age_band[i] = '\0';
			at[i] = MARK_JOINT;
			return at + i + 1;
		}
		if ((c < '0' || c > '9') && (c < 'a' || c > 'z') && c != '+' &&
		    c != '-')
			return NULL;
		row->age_band[i] = c;
	}
	return NULL;
}

/* Behind a whole number and its comma, or NULL. A line always goes on with
 * the check letters, so that no digit can stand at its end. */
static char *
read_count(char *at, const struct field *field, struct tally_row *row)
{
	int value = at[0] - '0', digits = 1;

	if (value < 0 || value > 9)
		return NULL;
	while (at[digits] != ',') {
		int digit = at[digits] - '0';

		if (digit < 0 || digit > 9 || value == 0 ||
		    digits == DIGITS_MOST)
			return NULL;
		value = 10 * value + digit;
		digits++;
	}
	if (value > field->most)
		return NULL;
	*(int *)(void *)((char *)row + field->offset) = value;
	at[digits] = MARK_JOINT;
	return at + digits + 1;
}

static bool
check_is_right(const struct tallyline *state, const char *tail,
	       const char *check, uint32_t *crc)
{
	struct mark mark = {state->crc, tally_columns.count - 1};

	mark_joined_by_table(&state->table, &mark, tail,
			     (size_t)(check - tail) - 1);
	*crc = mark.crc;
	return mark_is(&mark, check);
}

/* The letters stand at the end, and behind the numbers there is nothing else,
 * so that reading stops within the line. */
static bool
read_tail(const struct tallyline *state, char *tail, size_t length,
	  struct tally_row *row, uint32_t *crc)
{
	const char *end = tail + length;
	char *at;

	if (length < MARK_ROW_LETTERS || end[-1] < 'A' || end[-1] > 'Z')
		return false;
	at = read_sex(tail, length, row);
	if (at != NULL)
		at = read_band(at, (size_t)(end - at), row);
	for (int i = 0; at != NULL && i < COUNTS; i++)
		at = read_count(at, &tally_columns.field[FIRST_COUNT + i], row);
	return at != NULL && end - at == MARK_ROW_LETTERS &&
	       check_is_right(state, tail, at, crc);
}

bool
tallyline_read(struct tallyline *state, char *line, size_t length,
	       struct tally_row *row, uint32_t *crc, bool *same_head)
{
	if (length > TALLYLINE_MOST)
		return false;
	*same_head = state->head > 0 && length > state->head &&
		     memcmp(line, state->bytes, state->head) == 0;
	if (!*same_head) {
		if (!read_head(state, line, length, row))
			return false;
		mark_head(state);
	}
	return read_tail(state, line + state->head, length - state->head, row,
			 crc);
}
