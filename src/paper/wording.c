/* wording.c: the words of the papers, one file per language. */
#include "paper/wording.h"

#include "base/embedded.h"
#include "base/text.h"
#include "base/unicode.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

/* Characters of one text; bytes of a path. */
enum { TEXT_MOST = 200, PATH_SIZE = 4096 };

static const struct builtin {
	const char *language;
	const unsigned char *bytes;
	const size_t *size;
} builtins[] = {
	{"en", embedded_wording_en, &embedded_wording_en_size},
	{"fr", embedded_wording_fr, &embedded_wording_fr_size},
	{"es", embedded_wording_es, &embedded_wording_es_size},
	{"sw", embedded_wording_sw, &embedded_wording_sw_size},
	{"ar", embedded_wording_ar, &embedded_wording_ar_size},
};

enum { BUILTIN_COUNT = sizeof builtins / sizeof builtins[0] };

/* A file being held to the English one. */
struct comparison {
	const struct ini *ini;
	const struct ini *english;
	fault_hear *hear;
	void *context;
	int faults;
};

static const struct ini_entry *
find(const struct ini *ini, const char *section, const char *key)
{
	for (int i = 0; i < ini->count; i++)
		if (ini->entry[i].key[0] == key[0] &&
		    strcmp(ini->entry[i].key, key) == 0 &&
		    strcmp(ini->entry[i].section, section) == 0)
			return &ini->entry[i];
	return NULL;
}

/* The key of this section (or with "" the section) that was perhaps meant. */
static const char *
nearest(const struct ini *english, const char *section, const char *key)
{
	const char *name = key[0] == '\0' ? section : key;
	int least = text_distance_helpful(name) + 1;
	const char *found = NULL;

	for (int i = 0; i < english->count; i++) {
		const struct ini_entry *entry = &english->entry[i];
		bool alike = key[0] == '\0' ? entry->key[0] == '\0'
					    : entry->key[0] != '\0' &&
						      strcmp(entry->section,
							     section) == 0;
		const char *other = key[0] == '\0' ? entry->section
						   : entry->key;
		int distance = alike ? text_distance(other, name) : least;

		if (distance < least) {
			least = distance;
			found = other;
		}
	}
	return found;
}

static void
tell_unknown(struct comparison *to, const struct ini_entry *entry)
{
	const char *meant = nearest(to->english, entry->section, entry->key);
	const char *before = meant == NULL ? "" : "; did you mean '";
	const char *after = meant == NULL ? "" : "'?";

	to->faults++;
	if (meant == NULL)
		meant = "";
	if (entry->key[0] == '\0')
		ini_tell(to->ini, entry->line, to->hear, to->context,
			 "unknown section [%s]%s%s%s", entry->section, before,
			 meant, after);
	else
		ini_tell(to->ini, entry->line, to->hear, to->context,
			 "unknown key '%s' in [%s]%s%s%s", entry->key,
			 entry->section, before, meant, after);
}

const char *
wording_placeholder(const char *text, char *name)
{
	size_t length = strcspn(text + 1, "{}");

	if (text[1 + length] != '}' || length >= WORDING_NAME_SIZE)
		return NULL;
	memcpy(name, text + 1, length);
	name[length] = '\0';
	return text + 1 + length + 1;
}

static bool
has_placeholder(const char *text, const char *wanted)
{
	char name[WORDING_NAME_SIZE];

	while ((text = strchr(text, '{')) != NULL) {
		text = wording_placeholder(text, name);
		if (text == NULL)
			return false;
		if (strcmp(name, wanted) == 0)
			return true;
	}
	return false;
}

/* Every placeholder of `text` stands in `other` too; if not, it is told. */
static bool
placeholders_are_in(const char *text, const char *other, char *name)
{
	while ((text = strchr(text, '{')) != NULL) {
		text = wording_placeholder(text, name);
		if (text == NULL)
			return true; /* told as broken braces */
		if (!has_placeholder(other, name))
			return false;
	}
	return true;
}

static bool
braces_are_sound(const char *text)
{
	char name[WORDING_NAME_SIZE];

	for (text += strcspn(text, "{}"); *text != '\0';
	     text += strcspn(text, "{}")) {
		if (*text == '}')
			return false;
		text = wording_placeholder(text, name);
		if (text == NULL)
			return false;
	}
	return true;
}

static bool
check_text(const char *text, const char *english, struct fault *why)
{
	char name[WORDING_NAME_SIZE];

	if (text[0] == '\0' && english[0] != '\0')
		return fault_set(why, FAULT_POLICY,
				 "it is empty; words are needed");
	if (!text_check(text, TEXT_MOST, why))
		return false;
	if (!braces_are_sound(text))
		return fault_set(why, FAULT_POLICY,
				 "a brace is open or alone; write {name}");
	if (!placeholders_are_in(text, english, name))
		return fault_set(why, FAULT_POLICY,
				 "'{%s}' is not filled in here; the English "
				 "text is '%s'",
				 name, english);
	if (!placeholders_are_in(english, text, name))
		return fault_set(why, FAULT_POLICY, "'{%s}' is missing", name);
	return true;
}

static void
compare_entry(struct comparison *to, const struct ini_entry *entry)
{
	const struct ini_entry *same =
		find(to->english, entry->section, entry->key);
	struct fault why;

	if (same == NULL) {
		/* Of an unknown section only the section is told. */
		if (entry->key[0] == '\0' ||
		    ini_section_line(to->english, entry->section) != 0)
			tell_unknown(to, entry);
		return;
	}
	if (entry->key[0] == '\0')
		return;
	if (check_text(entry->value, same->value, &why))
		return;
	to->faults++;
	ini_tell(to->ini, entry->line, to->hear, to->context, "%s: %s",
		 entry->key, why.sentence);
}

static void
tell_missing(struct comparison *to)
{
	for (int i = 0; i < to->english->count; i++) {
		const struct ini_entry *entry = &to->english->entry[i];

		if (entry->key[0] == '\0' ||
		    find(to->ini, entry->section, entry->key) != NULL)
			continue;
		to->faults++;
		ini_tell(to->ini, ini_section_line(to->ini, entry->section),
			 to->hear, to->context, "'%s' is missing in [%s]",
			 entry->key, entry->section);
	}
}

/* The two values that are no words. */
static void
check_choices(struct comparison *to, const char *language)
{
	const struct ini_entry *entry = find(to->ini, "wording", "language");

	if (entry != NULL && strcmp(entry->value, language) != 0) {
		to->faults++;
		ini_tell(to->ini, entry->line, to->hear, to->context,
			 "language: '%.8s' does not fit the name of the file; "
			 "write '%s'",
			 entry->value, language);
	}
	entry = find(to->ini, "wording", "direction");
	if (entry != NULL && strcmp(entry->value, "ltr") != 0 &&
	    strcmp(entry->value, "rtl") != 0) {
		to->faults++;
		ini_tell(to->ini, entry->line, to->hear, to->context,
			 "direction: '%.8s' is neither ltr nor rtl",
			 entry->value);
	}
}

static bool
compare(struct comparison *to, const char *language, struct fault *why)
{
	for (int i = 0; i < to->ini->count; i++)
		compare_entry(to, &to->ini->entry[i]);
	tell_missing(to);
	check_choices(to, language);
	if (to->faults == 0)
		return true;
	return fault_set(why, FAULT_POLICY,
			 "'%s' has %d fault%s and was not read", to->ini->name,
			 to->faults, to->faults == 1 ? "" : "s");
}

static bool
language_is_sound(const char *language)
{
	size_t letters = strspn(language, "abcdefghijklmnopqrstuvwxyz");

	return language[letters] == '\0' && (letters == 2 || letters == 3);
}

const char *
wording_language(size_t index)
{
	return index < BUILTIN_COUNT ? builtins[index].language : "";
}

static bool
read_builtin(struct ini *ini, size_t index, fault_hear *hear, void *context,
	     struct fault *why)
{
	const struct builtin *one = &builtins[index];
	char name[32];

	snprintf(name, sizeof name, "wording-%s.ini", one->language);
	return ini_read_bytes(ini, name, (const char *)one->bytes, *one->size,
			      hear, context, why);
}

static bool
refuse_unknown(const char *language, const char *folder, struct fault *why)
{
	char list[BUILTIN_COUNT * 8] = "";
	size_t used = 0;

	for (size_t i = 0; i < BUILTIN_COUNT; i++)
		used += (size_t)snprintf(list + used, sizeof list - used,
					 "%s%s", i > 0 ? ", " : "",
					 builtins[i].language);
	return fault_set(why, FAULT_POLICY,
			 "there is no wording in '%s'; there are %s%s%s%s",
			 language, list,
			 folder == NULL ? ""
					: ", and another one is read from "
					  "wording-",
			 folder == NULL ? "" : language,
			 folder == NULL ? "" : ".ini in the station's folder");
}

/* The station's own file, when there is one. */
static bool
find_file(const char *folder, const char *language, char *path, bool *there,
	  struct fault *why)
{
	*there = false;
	if (folder == NULL)
		return true;
	if (snprintf(path, PATH_SIZE, "%s/wording-%s.ini", folder, language) >=
	    PATH_SIZE)
		return fault_set(why, FAULT_POLICY,
				 "the path of the station's folder is over "
				 "%d bytes",
				 PATH_SIZE);
	*there = access(path, F_OK) == 0 || errno != ENOENT;
	return true;
}

bool
wording_read(struct wording *wording, const char *folder, const char *language,
	     fault_hear *hear, void *context, struct fault *why)
{
	char path[PATH_SIZE];
	struct ini english;
	struct comparison to = {&wording->ini, &english, hear, context, 0};
	size_t index = 0;
	bool there;

	if (!language_is_sound(language))
		return fault_set(why, FAULT_POLICY,
				 "language '%.8s' is not two or three small "
				 "letters",
				 language);
	while (index < BUILTIN_COUNT &&
	       strcmp(builtins[index].language, language) != 0)
		index++;
	if (!find_file(folder, language, path, &there, why))
		return false;
	if (!there && index == 0)
		return read_builtin(&wording->ini, 0, hear, context, why);
	if (!there && index == BUILTIN_COUNT)
		return refuse_unknown(language, folder, why);
	/* Words that are not ASCII cannot be looked at without it. */
	if (!unicode_is_there(why) ||
	    !read_builtin(&english, 0, hear, context, why))
		return false;
	return (there ? ini_read_file(&wording->ini, path, hear, context, why)
		      : read_builtin(&wording->ini, index, hear, context,
				     why)) &&
	       compare(&to, language, why);
}

const char *
wording_text(const struct wording *wording, const char *key)
{
	char section[INI_NAME_SIZE];
	size_t length = strcspn(key, ".");
	const struct ini_entry *entry;

	if (key[length] == '\0' || length >= sizeof section)
		return NULL;
	memcpy(section, key, length);
	section[length] = '\0';
	entry = find(&wording->ini, section, key + length + 1);
	return entry == NULL ? NULL : entry->value;
}

bool
wording_is_rtl(const struct wording *wording)
{
	const char *direction = wording_text(wording, "wording.direction");

	return direction != NULL && strcmp(direction, "rtl") == 0;
}

bool
wording_is_reviewed(const struct wording *wording)
{
	const char *by = wording_text(wording, "wording.reviewed_by");

	return by != NULL && by[0] != '\0';
}
