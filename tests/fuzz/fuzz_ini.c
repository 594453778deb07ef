/* fuzz_ini.c: what the program's own scan of an INI file accepts, iniparser
 * reads to the same names and values, section by section.
 *
 * seeds: tests/fuzz/seeds/ini tests/fixtures/policies/good
 * options: -max_len=2048
 */
#include "fuzz.h"
#include "keep/inifile.h"
#include "keep/iniline.h"

#include <iniparser/iniparser.h>

static int
say_nothing(const char *format, ...)
{
	(void)format;
	return 0;
}

/* The value that iniparser has for an entry. */
static void
compare_entry(const dictionary *second, const struct ini_entry *entry)
{
	char name[2 * INI_NAME_SIZE], shown[INI_LINE_MOST + 1];
	const char *value;

	if (entry->key[0] == '\0')
		return;
	snprintf(name, sizeof name, "%s:%s", entry->section, entry->key);
	value = iniparser_getstring(second, name, NULL);
	FUZZ_HOLD(value != NULL && strcmp(value, entry->value) == 0);
	/* But for a tab, which the kind of the field looks at, what the scan
	 * gives away is fit for a terminal. */
	snprintf(shown, sizeof shown, "%s", entry->value);
	for (char *at = shown; (at = strchr(at, '\t')) != NULL;)
		*at = ' ';
	FUZZ_HOLD(fuzz_is_harmless(shown));
}

static void
compare(const struct ini *ini, const uint8_t *bytes, size_t length)
{
	const char *path;
	dictionary *second;
	int sections = 0, keys = 0, keys_of_second = 0;

	if (length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0) {
		bytes += 3;
		length -= 3;
	}
	path = fuzz_file("second.ini", bytes, length);
	iniparser_set_error_callback(say_nothing);
	second = iniparser_load(path);
	FUZZ_HOLD(second != NULL);
	for (int i = 0; i < ini->count; i++) {
		FUZZ_HOLD(!ini->entry[i].refused);
		compare_entry(second, &ini->entry[i]);
		sections += ini->entry[i].key[0] == '\0';
		keys += ini->entry[i].key[0] != '\0';
	}
	FUZZ_HOLD(iniparser_getnsec(second) == sections);
	for (int i = 0; i < sections; i++)
		keys_of_second += iniparser_getsecnkeys(
			second, iniparser_getsecname(second, i));
	FUZZ_HOLD(keys_of_second == keys);
	iniparser_freedict(second);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	static struct ini ini;
	struct fault why = {FAULT_NONE, ""};
	int faults = 0;

	if (ini_read_bytes(&ini, "fuzz.ini", (const char *)bytes, length,
			   fuzz_hear, &faults, &why)) {
		FUZZ_HOLD(faults == 0 && why.kind == FAULT_NONE);
		compare(&ini, bytes, length);
	} else {
		fuzz_sentence(&why, FAULT_POLICY);
	}
	return 0;
}
