/* iniline.c: one line of an INI file, read strictly. */
#include "keep/iniline.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define SMALL "abcdefghijklmnopqrstuvwxyz"
#define DIGITS "0123456789"

/* One fault a line is enough: what is wrong first is told. */
__attribute__((format(printf, 2, 3))) static void
refuse(struct fault *why, const char *format, ...)
{
	char sentence[FAULT_SENTENCE_SIZE];
	va_list arguments;

	if (why->kind != FAULT_NONE)
		return;
	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	fault_set(why, FAULT_POLICY, "%s", sentence);
}

static bool
is_space(char c)
{
	return c == ' ' || c == '\t';
}

static struct span
trim(struct span span)
{
	while (span.length > 0 && is_space(span.at[0])) {
		span.at++;
		span.length--;
	}
	while (span.length > 0 && is_space(span.at[span.length - 1]))
		span.length--;
	return span;
}

/* The rest of a span from `at` on. */
static struct span
from(struct span span, char *at)
{
	return (struct span){at, span.length - (size_t)(at - span.at)};
}

/* For the "%.*s" of a sentence: enough of it to be found again. */
static int
shown(struct span span)
{
	return span.length > 60 ? 60 : (int)span.length;
}

/* The name in small letters and with single spaces, as it has to be written;
 * false when `name` cannot hold it. */
static bool
write_proper(struct span span, char name[INI_NAME_SIZE])
{
	size_t used = 0;

	span = trim(span);
	for (size_t i = 0; i < span.length; i++) {
		char c = span.at[i];

		if (is_space(c) && is_space(span.at[i - 1]))
			continue;
		if (used == INI_NAME_SIZE - 1)
			return false;
		if (c >= 'A' && c <= 'Z')
			c = (char)(c - 'A' + 'a');
		name[used++] = is_space(c) ? ' ' : c;
	}
	name[used] = '\0';
	return true;
}

static bool
is_same(struct span span, const char *name)
{
	return strlen(name) == span.length &&
	       memcmp(span.at, name, span.length) == 0;
}

static void
read_section_name(struct span inner, char name[INI_NAME_SIZE],
		  struct fault *why)
{
	if (!write_proper(inner, name))
		refuse(why,
		       "the section's name is longer than %d characters; "
		       "shorten it",
		       INI_NAME_SIZE - 1);
	else if (name[0] == '\0')
		refuse(why, "there is no name between '[' and ']'; write the "
			    "section's there");
	else if (strspn(name, SMALL DIGITS "-_ ") != strlen(name))
		refuse(why,
		       "'%.*s' is not a section's name; allowed are small "
		       "letters a to z, digits, '-', '_' and single spaces",
		       shown(inner), inner.at);
	else {
		if (!is_same(inner, name))
			refuse(why, "'[%.*s]' has to be written [%s]",
			       shown(inner), inner.at, name);
		return;
	}
	name[0] = '\0';
}

static void
read_section(struct span text, struct iniline *line, struct fault *why)
{
	char *close = memchr(text.at, ']', text.length);
	struct span inner = from(text, text.at + 1), rest;

	line->what = INILINE_SECTION;
	if (close == NULL) {
		refuse(why, "the '[' is not closed; write [%.*s]", shown(inner),
		       inner.at);
	} else {
		inner.length = (size_t)(close - inner.at);
		rest = trim(from(text, close + 1));
		if (rest.length > 0)
			refuse(why,
			       "'%.*s' follows the ']'; write [%.*s] alone, "
			       "and a comment on a line of its own",
			       shown(rest), rest.at, shown(inner), inner.at);
	}
	read_section_name(inner, line->name, why);
}

static void
read_key_name(struct span span, char name[INI_NAME_SIZE], struct fault *why)
{
	if (span.length == 0)
		refuse(why, "there is no key in front of the '='; write KEY = "
			    "VALUE");
	else if (!write_proper(span, name))
		refuse(why, "the key is longer than %d characters; shorten it",
		       INI_NAME_SIZE - 1);
	else if (strspn(name, SMALL DIGITS "_- ") != strlen(name))
		refuse(why,
		       "'%.*s' is not a key; allowed are small letters a to z, "
		       "digits and '_'",
		       shown(span), span.at);
	else {
		for (char *at = name; *at != '\0'; at++)
			if (*at == '-' || *at == ' ')
				*at = '_';
		if (!is_same(span, name))
			refuse(why, "key '%.*s' has to be written %s",
			       shown(span), span.at, name);
		return;
	}
	name[0] = '\0';
}

static struct span
take_quotes_off(struct span text, struct fault *why)
{
	char quote = text.at[0];
	struct span inner = from(text, text.at + 1), rest;
	char *close = memchr(inner.at, quote, inner.length);

	if (close == NULL) {
		refuse(why, "the quote is not closed; end the text with %c",
		       quote);
		return inner;
	}
	inner.length = (size_t)(close - inner.at);
	rest = trim(from(text, close + 1));
	if (rest.length > 0 && (rest.at[0] == ';' || rest.at[0] == '#'))
		refuse(why, "a comment follows the value; put it on a line of "
			    "its own");
	else if (rest.length > 0)
		refuse(why,
		       "'%.*s' follows the closing quote; the text has to end "
		       "there, without a %c inside",
		       shown(rest), rest.at, quote);
	return inner;
}

/* Word processors put U+2018 to U+201F, or U+00AB, for a straight quote. */
static bool
begins_curly(struct span span)
{
	const unsigned char *at = (const unsigned char *)span.at;

	return (span.length >= 2 && at[0] == 0xc2 && at[1] == 0xab) ||
	       (span.length >= 3 && at[0] == 0xe2 && at[1] == 0x80 &&
		at[2] >= 0x98 && at[2] <= 0x9f);
}

/* What a lenient reader would drop as a comment; empty when there is none. */
static struct span
comment_in(struct span text)
{
	while (text.length > 0 && text.at[0] != ';' && text.at[0] != '#')
		text = from(text, text.at + 1);
	return text;
}

static void
read_value(struct span text, struct iniline *line, struct fault *why)
{
	struct span comment = comment_in(text);

	line->value = text;
	line->quoted = text.length > 0 &&
		       (text.at[0] == '"' || text.at[0] == '\'');
	if (line->quoted)
		line->value = take_quotes_off(text, why);
	else if (begins_curly(text))
		refuse(why, "the text stands in curly quotes; write straight "
			    "ones, \"like this\"");
	else if (comment.length > 0)
		refuse(why,
		       "'%.*s' would begin a comment; put it on a line of its "
		       "own, or the whole text in straight double quotes",
		       shown(comment), comment.at);
}

/* The first word, which may be a key whose '=' was forgotten. */
static struct span
first_word(struct span text)
{
	size_t length = 0;

	while (length < text.length && !is_space(text.at[length]) &&
	       text.at[length] != ':')
		length++;
	return (struct span){text.at, length};
}

static void
read_key(struct span text, struct iniline *line, struct fault *why)
{
	char *equals = memchr(text.at, '=', text.length);
	struct span key = first_word(text);
	struct span value = {text.at + text.length, 0};

	line->what = INILINE_KEY;
	if (equals == NULL) {
		refuse(why, "there is no '=' in this line; write KEY = VALUE, "
			    "or begin a comment with ';'");
	} else {
		key = trim((struct span){text.at, (size_t)(equals - text.at)});
		value = trim(from(text, equals + 1));
	}
	read_key_name(key, line->name, why);
	read_value(value, line, why);
}

static void
check_bytes(struct span text, struct fault *why)
{
	if (memchr(text.at, '\0', text.length) != NULL)
		refuse(why, "the line holds a NUL byte; type the line again");
	if (text.length > INI_LINE_MOST)
		refuse(why, "the line has %zu bytes; at most %d are allowed",
		       text.length, INI_LINE_MOST);
	if (!text_is_utf8(text.at, text.length))
		refuse(why, "the line is not valid UTF-8; type it again, and "
			    "save the file as UTF-8");
	for (size_t i = 0; i < text.length; i++) {
		unsigned char c = (unsigned char)text.at[i];

		if ((c < 0x20 && c != '\t') || c == 0x7f)
			refuse(why,
			       "the line holds a control character (byte "
			       "0x%02X); type the line again",
			       c);
	}
	if (memchr(text.at, '\\', text.length) != NULL)
		refuse(why, "a backslash is not allowed, not even in a "
			    "comment; take it out, or write / for it");
}

bool
iniline_read(struct span text, struct iniline *line, struct fault *why)
{
	struct fault first;

	first.kind = FAULT_NONE;
	*line = (struct iniline){.what = INILINE_NOTHING};
	check_bytes(text, &first);
	text = trim(text);
	if (text.length > 0 && text.at[0] == '[')
		read_section(text, line, &first);
	else if (text.length > 0 && text.at[0] != ';' && text.at[0] != '#')
		read_key(text, line, &first);
	if (first.kind == FAULT_NONE)
		return true;
	*why = first;
	return false;
}
