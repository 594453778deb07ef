/* unicode.c: what the Unicode tables say of a character. */
#include "base/unicode.h"

#include "base/library.h"

#include <string.h>
#include <utf8proc.h>

/* clang-format off */
#define UTF8PROC_FUNCTIONS(FUNCTION) \
	FUNCTION(iterate) FUNCTION(category) FUNCTION(charwidth) \
	FUNCTION(decompose) FUNCTION(reencode)
/* clang-format on */

/* Each under its own type from the header. */
struct tables {
#define TABLES_MEMBER(name) __typeof__ (&utf8proc_##name)(name);
	UTF8PROC_FUNCTIONS(TABLES_MEMBER)
#undef TABLES_MEMBER
};

/* The library, which stays loaded until the program ends; NULL when it is not
 * there. The pointers are the only thing here that outlives a call, and are
 * the same whoever asks. */
static const struct tables *
tables(void)
{
	static struct tables found;
	void *library;

	if (found.reencode != NULL)
		return &found;
	library = library_open("libutf8proc.so.2");
#define TABLES_LOOK_UP(name)                                        \
	if (!library_find(library, "utf8proc_" #name, &found.name)) \
		return NULL;
	UTF8PROC_FUNCTIONS(TABLES_LOOK_UP)
#undef TABLES_LOOK_UP
	return &found;
}

bool
unicode_is_there(struct fault *why)
{
	return tables() != NULL || fault_set(why, FAULT_INTERNAL,
					     "names cannot be checked without "
					     "the library utf8proc; install "
					     "the package libutf8proc2");
}

long
unicode_next(const char *text, size_t left, int32_t *point)
{
	const struct tables *known;

	if ((unsigned char)*text < 0x80) { /* most text by far */
		*point = (unsigned char)*text;
		return 1;
	}
	known = tables();
	return known == NULL
		       ? -1
		       : (long)known->iterate((const utf8proc_uint8_t *)text,
					      (utf8proc_ssize_t)left, point);
}

bool
unicode_is_unprintable(int32_t point)
{
	const struct tables *known;

	if (point < 0x80)
		return point < 0x20 || point == 0x7f;
	known = tables();
	if (known == NULL)
		return true;
	switch (known->category(point)) {
	case UTF8PROC_CATEGORY_CC:
	case UTF8PROC_CATEGORY_CN:
	case UTF8PROC_CATEGORY_CO:
	case UTF8PROC_CATEGORY_ZL:
	case UTF8PROC_CATEGORY_ZP:
		return true;
	default:
		return false;
	}
}

int
unicode_width(int32_t point)
{
	const struct tables *known;

	if (point < 0x80)
		return point >= 0x20 && point != 0x7f;
	known = tables();
	return known == NULL ? 1 : known->charwidth(point);
}

/* ASCII only: nothing to compose or to leave out. */
static bool
fold_ascii(const char *from, char *to, size_t size)
{
	size_t length = strlen(from);

	if (length >= size)
		return false;
	for (size_t i = 0; i <= length; i++)
		to[i] = (char)(from[i] >= 'A' && from[i] <= 'Z'
				       ? from[i] - 'A' + 'a'
				       : from[i]);
	return true;
}

static bool
is_ascii(const char *text)
{
	while ((unsigned char)*text >= 0x20 && (unsigned char)*text < 0x7f)
		text++;
	return *text == '\0';
}

bool
unicode_fold(const char *from, char *to, size_t size)
{
	const utf8proc_option_t how = UTF8PROC_STABLE | UTF8PROC_COMPOSE |
				      UTF8PROC_CASEFOLD | UTF8PROC_IGNORE;
	const utf8proc_ssize_t most = 512;
	utf8proc_int32_t points[512];
	const struct tables *known;
	utf8proc_ssize_t count, used;

	to[0] = '\0';
	if (is_ascii(from))
		return fold_ascii(from, to, size);
	known = tables();
	if (known == NULL)
		return false;
	count = known->decompose((const utf8proc_uint8_t *)from,
				 (utf8proc_ssize_t)strlen(from), points, most,
				 how);
	if (count < 0 || count >= most)
		return false;
	/* Reencoding works in place and ends with a NUL. */
	used = known->reencode(points, count, how);
	if (used < 0 || (size_t)used >= size)
		return false;
	memcpy(to, points, (size_t)used + 1);
	return true;
}
