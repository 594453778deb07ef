/* fuzz_template.c: a page is refused before a byte is written, or every
 * {{name}} of it is filled in and nothing else changes.
 *
 * seeds: tests/fuzz/seeds/template fieldforms
 * options: -max_len=1500
 */
#include "paper/template.h"
#include "fuzz.h"

/* What is filled in holds braces itself: they must not be looked at again. */
static const char *const filled[][2] = {{"number", "0014-00001-23"},
					{"name", "{{number}}"},
					{"a", "{{"},
					{"site", ""},
					{"slip", "}} {{nothing}}"}};

static const char *
content_of(const char *name, size_t length)
{
	for (size_t i = 0; i < sizeof filled / sizeof filled[0]; i++)
		if (strlen(filled[i][0]) == length &&
		    memcmp(filled[i][0], name, length) == 0)
			return filled[i][1];
	return NULL;
}

static bool
fill(const void *context, const char *name, FILE *out)
{
	const char *content = content_of(name, strlen(name));

	(void)context;
	if (content != NULL && out != NULL)
		fputs(content, out);
	return content != NULL;
}

/* The page as it has to come out; false when it has to be refused. */
static bool
expand(const char *text, FILE *out)
{
	while (*text != '\0') {
		const char *end, *content;

		if (text[0] != '{' || text[1] != '{') {
			putc(*text++, out);
			continue;
		}
		end = strstr(text + 2, "}}");
		if (end == NULL)
			return false;
		content = content_of(text + 2, (size_t)(end - text) - 2);
		if (content == NULL)
			return false;
		fputs(content, out);
		text = end + 2;
	}
	return true;
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	char *text = fuzz_text(bytes, length), *page = NULL, *right = NULL;
	struct fault why = {FAULT_NONE, ""};
	size_t page_size, right_size;
	FILE *out = open_memstream(&page, &page_size);
	FILE *expected = open_memstream(&right, &right_size);
	bool is_sound, done;

	FUZZ_HOLD(out != NULL && expected != NULL);
	is_sound = expand(text, expected);
	done = template_write(text, fill, NULL, out, &why);
	fclose(out);
	fclose(expected);
	FUZZ_HOLD(done == is_sound);
	if (done)
		FUZZ_HOLD(page_size == right_size &&
			  memcmp(page, right, page_size) == 0);
	else
		FUZZ_HOLD(page_size == 0);
	if (!done)
		fuzz_sentence(&why, FAULT_INTERNAL);
	free(text);
	free(page);
	free(right);
	return 0;
}
