/* text.c: words as people type and read them, in UTF-8. */
#include "base/text.h"

#include "base/unicode.h"

#include <string.h>

enum { FAR = 99, WORD_MOST = 63 };

bool
text_is_utf8(const char *bytes, size_t length)
{
	int32_t point;

	while (length > 0) {
		long used = unicode_next(bytes, length, &point);

		if (used <= 0)
			return false;
		bytes += used;
		length -= (size_t)used;
	}
	return true;
}

static bool
is_bidi_control(int32_t point)
{
	return point == 0x061c || point == 0x200e || point == 0x200f ||
	       (point >= 0x202a && point <= 0x202e) ||
	       (point >= 0x2066 && point <= 0x2069);
}

static bool
is_formula_start(int32_t point)
{
	return point == '=' || point == '+' || point == '-' || point == '@' ||
	       point == 0xff1d || point == 0xff0b || point == 0xff0d ||
	       point == 0xff20;
}

static bool
is_unprintable(int32_t point)
{
	return unicode_is_unprintable(point) || is_bidi_control(point);
}

static bool
check_points(const char *text, long *count, struct fault *why)
{
	size_t left = strlen(text);
	int32_t point;

	for (*count = 0; left > 0; ++*count) {
		long used = unicode_next(text, left, &point);

		if (used <= 0 && !unicode_is_there(why))
			return false;
		if (used <= 0)
			return fault_set(why, FAULT_INPUT,
					 "character %ld is not valid UTF-8; "
					 "type it again",
					 *count + 1);
		if (is_unprintable(point))
			return fault_set(why, FAULT_INPUT,
					 "character %ld cannot be printed "
					 "(U+%04X); only letters, digits, "
					 "marks and spaces are allowed",
					 *count + 1, (unsigned)point);
		if (*count == 0 && is_formula_start(point))
			return fault_set(why, FAULT_INPUT,
					 "it may not begin with = + - or @, "
					 "which a spreadsheet takes for a "
					 "formula");
		text += used;
		left -= (size_t)used;
	}
	return true;
}

bool
text_check(const char *text, long most, struct fault *why)
{
	size_t length = strlen(text);
	long count;

	if (!check_points(text, &count, why))
		return false;
	if (count > most)
		return fault_set(why, FAULT_INPUT,
				 "it has %ld characters; at most %ld are "
				 "allowed",
				 count, most);
	if (length > 0 && (text[0] == ' ' || text[length - 1] == ' '))
		return fault_set(why, FAULT_INPUT,
				 "it begins or ends with a space");
	return true;
}

bool
text_copy(char *to, size_t size, const char *from)
{
	size_t length = strlen(from);

	if (length >= size) {
		to[0] = '\0';
		return false;
	}
	memcpy(to, from, length + 1);
	return true;
}

char *
text_trim(char *text)
{
	size_t skip = strspn(text, " \t\r\n");
	size_t length = strlen(text + skip);

	memmove(text, text + skip, length + 1);
	while (length > 0 && strchr(" \t\r\n", text[length - 1]) != NULL)
		text[--length] = '\0';
	return text;
}

/* Runs of spaces become one, in place. */
static void
fold_spaces(char *text)
{
	char *to = text;

	for (const char *from = text; *from != '\0'; from++)
		if (*from != ' ' || (to > text && to[-1] != ' '))
			*to++ = *from;
	*to = '\0';
}

bool
text_fold(const char *from, char *to, size_t size)
{
	if (!unicode_fold(from, to, size))
		return false;
	fold_spaces(to);
	return true;
}

int
text_width(const char *text)
{
	size_t left = strlen(text);
	int32_t point;
	int width = 0;

	while (left > 0) {
		long used = unicode_next(text, left, &point);

		if (used <= 0)
			return width;
		width += unicode_width(point);
		text += used;
		left -= (size_t)used;
	}
	return width;
}

long
text_length(const char *text)
{
	size_t left = strlen(text);
	int32_t point;
	long count = 0;

	while (left > 0) {
		long used = unicode_next(text, left, &point);

		if (used <= 0)
			break;
		count++;
		text += used;
		left -= (size_t)used;
	}
	return count;
}

void
text_write_html(FILE *out, const char *text)
{
	for (; *text != '\0'; text++)
		switch (*text) {
		case '&':
			fputs("&amp;", out);
			break;
		case '<':
			fputs("&lt;", out);
			break;
		case '>':
			fputs("&gt;", out);
			break;
		case '"':
			fputs("&quot;", out);
			break;
		case '\'':
			fputs("&#39;", out);
			break;
		default:
			fputc(*text, out);
		}
}

/* The next word of at most `size` - 1 bytes; longer ones come in pieces that
 * never split a character. */
static const char *
next_word(const char *text, char *word, size_t size)
{
	size_t length;

	text += strspn(text, " ");
	length = strcspn(text, " ");
	if (length > size - 1) {
		length = size - 1;
		while (length > 1 && (text[length] & 0xc0) == 0x80)
			length--;
	}
	memcpy(word, text, length);
	word[length] = '\0';
	return text + length;
}

void
text_write_wrapped(FILE *out, const char *text, int columns, int at, int indent)
{
	char word[256];
	bool fresh = true; /* nothing of the text is on this line yet */

	for (;;) {
		int width;

		text = next_word(text, word, sizeof word);
		if (word[0] == '\0')
			break;
		width = text_width(word);
		if ((!fresh || at > indent) && at + !fresh + width > columns) {
			fprintf(out, "\n%*s", indent, "");
			at = indent;
			fresh = true;
		}
		if (!fresh)
			fputc(' ', out);
		fputs(word, out);
		at += width + !fresh;
		fresh = false;
	}
	fputc('\n', out);
}

static int
least_of(int one, int two, int three)
{
	int least = one < two ? one : two;

	return least < three ? least : three;
}

int
text_distance(const char *one, const char *other)
{
	int steps[WORD_MOST + 1][WORD_MOST + 1];
	size_t m = strlen(one), n = strlen(other);

	if (strcmp(one, other) == 0)
		return 0;
	if (m > WORD_MOST || n > WORD_MOST)
		return FAR;
	for (size_t i = 0; i <= m; i++)
		steps[i][0] = (int)i;
	for (size_t j = 0; j <= n; j++)
		steps[0][j] = (int)j;
	for (size_t i = 1; i <= m; i++)
		for (size_t j = 1; j <= n; j++) {
			int change = one[i - 1] != other[j - 1];

			steps[i][j] = least_of(steps[i - 1][j] + 1,
					       steps[i][j - 1] + 1,
					       steps[i - 1][j - 1] + change);
			if (i > 1 && j > 1 && one[i - 1] == other[j - 2] &&
			    one[i - 2] == other[j - 1] &&
			    steps[i - 2][j - 2] + 1 < steps[i][j])
				steps[i][j] = steps[i - 2][j - 2] + 1;
		}
	return steps[m][n];
}

int
text_distance_helpful(const char *word)
{
	size_t length = strlen(word);

	return length < 4 ? 1 : length < 9 ? 2 : 3;
}
