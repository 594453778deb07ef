/* fuzz_wording.c: a wording file is refused, or has each text of the English
 * one with the same places to be filled in, so that no paper has a hole.
 *
 * The bytes are laid over the English file as changes of it: "LINE:text" lines
 * replace, add (a LINE past the end) or, empty, take out a line. From nothing a
 * file of some 400 texts would never be found.
 *
 * seeds: tests/fuzz/seeds/wording
 * options: -max_len=600
 */
#include "base/embedded.h"
#include "fuzz.h"
#include "paper/wording.h"

enum { LINES_MOST = 1200 };

/* The English file with the changes, in memory of the caller. */
static char *
changed(char *changes, size_t *size)
{
	char *base = fuzz_text(embedded_wording_en, embedded_wording_en_size);
	char *line[LINES_MOST], *all = NULL;
	FILE *out = open_memstream(&all, size);
	size_t count = 0;

	FUZZ_HOLD(out != NULL);
	for (char *rest = base, *at; (at = strsep(&rest, "\n")) != NULL;)
		if (count < LINES_MOST - 100)
			line[count++] = at;
	for (char *rest = changes, *at; (at = strsep(&rest, "\n")) != NULL;) {
		char *text;
		unsigned long number = strtoul(at, &text, 10);

		if (*text != ':' || count == LINES_MOST)
			continue;
		if (number < count)
			line[number] = text + 1;
		else
			line[count++] = text + 1;
	}
	for (size_t i = 0; i < count; i++)
		fprintf(out, "%s\n", line[i]);
	fclose(out);
	free(base);
	return all;
}

/* The places to be filled in, {so}, one after another. */
static void
write_places(const char *text, FILE *out)
{
	const char *end;

	while ((text = strchr(text, '{')) != NULL) {
		end = strchr(text, '}');
		FUZZ_HOLD(end != NULL);
		fprintf(out, "%.*s}", (int)(end - text), text);
		text = end;
	}
}

/* Every place of one text is in the other. */
static void
check_places(const char *one, const char *other)
{
	char *places = NULL, *at;
	size_t size;
	FILE *out = open_memstream(&places, &size);

	FUZZ_HOLD(out != NULL);
	write_places(one, out);
	fclose(out);
	for (char *rest = places; (at = strsep(&rest, "}")) != NULL;) {
		char place[300];

		if (*at == '\0')
			continue;
		snprintf(place, sizeof place, "%s}", at);
		FUZZ_HOLD(strstr(other, place) != NULL);
	}
	free(places);
}

static void
check_whole(const struct wording *wording, const struct wording *english)
{
	for (int i = 0; i < english->ini.count; i++) {
		const struct ini_entry *entry = &english->ini.entry[i];
		char key[2 * INI_NAME_SIZE];
		const char *text;

		if (entry->key[0] == '\0')
			continue;
		snprintf(key, sizeof key, "%s.%s", entry->section, entry->key);
		text = wording_text(wording, key);
		FUZZ_HOLD(text != NULL && fuzz_is_harmless(text));
		check_places(text, entry->value);
		check_places(entry->value, text);
	}
	FUZZ_HOLD(wording->ini.count == english->ini.count);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	static struct wording wording, english;
	struct fault why = {FAULT_NONE, ""};
	char *changes = fuzz_text(bytes, length), *text;
	int faults = 0;
	size_t size;

	if (english.ini.count == 0)
		FUZZ_HOLD(wording_read(&english, NULL, "en", fuzz_hear, &faults,
				       &why));
	text = changed(changes, &size);
	fuzz_file("wording-xx.ini", text, size);
	if (wording_read(&wording, fuzz_folder(), "xx", fuzz_hear, &faults,
			 &why)) {
		FUZZ_HOLD(faults == 0);
		check_whole(&wording, &english);
	} else {
		fuzz_sentence(&why, FAULT_POLICY);
	}
	free(text);
	free(changes);
	return 0;
}
