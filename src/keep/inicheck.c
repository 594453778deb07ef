/* inicheck.c: the scan of an INI file, held against a second reader. */
#define _GNU_SOURCE /* memfd_create */
#include "keep/inicheck.h"

#include <errno.h>
#include <iniparser/iniparser.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

enum { BOTH_NAMES_SIZE = 2 * INI_NAME_SIZE };

/* iniparser would print what it cannot read. */
static int
say_nothing(const char *format, ...)
{
	(void)format;
	return 0;
}

static bool
write_all(int handle, const char *bytes, size_t length)
{
	while (length > 0) {
		ssize_t written = write(handle, bytes, length);

		if (written < 0 && errno == EINTR)
			continue;
		if (written <= 0)
			return false;
		bytes += written;
		length -= (size_t)written;
	}
	return true;
}

/* iniparser reads from a path only. A file in memory gives it the very bytes
 * that were scanned, whatever happens to the file on the disk meanwhile. */
static dictionary *
load(const char *bytes, size_t length)
{
	int handle = memfd_create("ini", MFD_CLOEXEC);
	char path[64];
	dictionary *read = NULL;

	if (handle < 0)
		return NULL;
	snprintf(path, sizeof path, "/proc/self/fd/%d", handle);
	if (write_all(handle, bytes, length)) {
		iniparser_set_error_callback(say_nothing);
		read = iniparser_load(path);
		iniparser_set_error_callback(NULL);
	}
	close(handle);
	return read;
}

static bool
is_same(const char *one, const char *other)
{
	return one != NULL && other != NULL && strcmp(one, other) == 0;
}

static int
keys_of(const struct ini *ini, const char *section)
{
	int count = 0;

	for (int i = 0; i < ini->count; i++)
		if (ini->entry[i].key[0] != '\0' &&
		    strcmp(ini->entry[i].section, section) == 0)
			count++;
	return count;
}

/* The sentence about a difference, or "" when section number `number`, or its
 * key, is the same for both. */
static void
compare_entry(const struct ini *ini, const struct ini_entry *entry, int number,
	      const dictionary *second, char *sentence, size_t size)
{
	char name[BOTH_NAMES_SIZE];
	const char *value;

	sentence[0] = '\0';
	if (entry->key[0] != '\0') {
		snprintf(name, sizeof name, "%s:%s", entry->section,
			 entry->key);
		value = iniparser_getstring(second, name, NULL);
		if (!is_same(entry->value, value))
			snprintf(sentence, size, "'%s' in [%s]: '%s' and '%s'",
				 entry->key, entry->section, entry->value,
				 value == NULL ? "nothing" : value);
		return;
	}
	if (!is_same(entry->section, iniparser_getsecname(second, number)))
		snprintf(sentence, size, "section [%s]", entry->section);
	else if (keys_of(ini, entry->section) !=
		 iniparser_getsecnkeys(second, entry->section))
		snprintf(sentence, size, "the number of keys in [%s]",
			 entry->section);
}

static int
compare_entries(const struct ini *ini, const dictionary *second,
		fault_hear *hear, void *context)
{
	int count = 0, sections = 0;
	char sentence[FAULT_SENTENCE_SIZE / 2];

	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *entry = &ini->entry[i];

		compare_entry(ini, entry, sections, second, sentence,
			      sizeof sentence);
		if (entry->key[0] == '\0')
			sections++;
		if (sentence[0] == '\0')
			continue;
		ini_tell(ini, entry->line, hear, context,
			 "the two readers disagree about %s; this is a fault "
			 "of the program, please report it",
			 sentence);
		count++;
	}
	if (sections == iniparser_getnsec(second))
		return count;
	ini_tell(ini, 0, hear, context,
		 "the two readers disagree about the number of sections; this "
		 "is a fault of the program, please report it");
	return count + 1;
}

int
ini_compare(const struct ini *ini, const char *bytes, size_t length,
	    fault_hear *hear, void *context)
{
	dictionary *second = load(bytes, length);
	int count;

	if (second == NULL) {
		ini_tell(ini, 0, hear, context,
			 "the second of the two readers could not read it; "
			 "this is a fault of the program or of the machine (is "
			 "/proc there?)");
		return 1;
	}
	count = compare_entries(ini, second, hear, context);
	iniparser_freedict(second);
	return count;
}
