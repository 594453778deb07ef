/* inicheck.c: the scan of an INI file, held against a second reader. */
#define _GNU_SOURCE /* memfd_create */
#include "keep/inicheck.h"

#include <errno.h>
#include <iniparser/iniparser.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

enum { BOTH_NAMES_SIZE = 2 * INI_NAME_SIZE, TABLES_SIZE = 32768 };

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

int
ini_copy(const char *bytes, size_t length)
{
	int handle = memfd_create("ini", MFD_CLOEXEC);

	if (handle >= 0 && !write_all(handle, bytes, length)) {
		close(handle);
		return -1;
	}
	return handle;
}

/* iniparser takes the memory for its first tables for granted. Nobody else asks
 * in between: what is given back here is there for them. */
static bool
has_room(void)
{
	void *room = malloc(TABLES_SIZE);

	free(room);
	return room != NULL;
}

static dictionary *
load(int copy)
{
	char path[64];
	dictionary *read;

	if (copy < 0 || !has_room())
		return NULL;
	snprintf(path, sizeof path, "/proc/self/fd/%d", copy);
	iniparser_set_error_callback(say_nothing);
	read = iniparser_load(path);
	iniparser_set_error_callback(NULL);
	return read;
}

static bool
is_same(const char *one, const char *other)
{
	return one != NULL && other != NULL && strcmp(one, other) == 0;
}

/* "section:key", as the second reader names it. */
static void
name_entry(const struct ini_entry *entry, char *name)
{
	size_t section = strlen(entry->section), key = strlen(entry->key);

	memcpy(name, entry->section, section);
	name[section] = ':';
	memcpy(name + section + 1, entry->key, key + 1);
}

/* The sentence about a difference, or "" when both read the entry alike; a
 * section line has to be section `number` of the second reader as well. */
static void
compare_entry(const struct ini_entry *entry, int number,
	      const dictionary *second, char *sentence, size_t size)
{
	char name[BOTH_NAMES_SIZE];
	const char *value;

	sentence[0] = '\0';
	if (entry->key[0] == '\0') {
		if (!is_same(entry->section,
			     iniparser_getsecname(second, number)))
			snprintf(sentence, size, "section [%s]",
				 entry->section);
		return;
	}
	name_entry(entry, name);
	value = iniparser_getstring(second, name, NULL);
	if (!is_same(entry->value, value))
		snprintf(sentence, size, "'%s' in [%s]: '%s' and '%s'",
			 entry->key, entry->section, entry->value,
			 value == NULL ? "nothing" : value);
}

/* No name stands twice in the scan, so that when each is found and the numbers
 * are equal, the second reader has nothing else. */
static int
compare_entries(const struct ini *ini, const dictionary *second,
		fault_hear *hear, void *context)
{
	char sentence[FAULT_SENTENCE_SIZE / 2];
	int count = 0, sections = 0;

	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *entry = &ini->entry[i];

		compare_entry(entry, sections, second, sentence,
			      sizeof sentence);
		sections += entry->key[0] == '\0';
		if (sentence[0] == '\0')
			continue;
		ini_tell(ini, entry->line, hear, context,
			 "the two readers disagree about %s; this is a fault "
			 "of the program, please report it",
			 sentence);
		count++;
	}
	if (second->n == ini->count)
		return count;
	ini_tell(ini, 0, hear, context,
		 "the two readers disagree about the number of sections and "
		 "keys; this is a fault of the program, please report it");
	return count + 1;
}

int
ini_compare(const struct ini *ini, int copy, fault_hear *hear, void *context)
{
	dictionary *second = load(copy);
	int count;

	if (second == NULL) {
		ini_tell(ini, 0, hear, context,
			 "the second of the two readers could not read it; "
			 "this is a fault of the program or of the machine (is "
			 "/proc there, and enough memory?)");
		return 1;
	}
	count = compare_entries(ini, second, hear, context);
	iniparser_freedict(second);
	return count;
}
