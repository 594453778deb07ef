/* wording.c: the words of the papers, one file per language. */
#include "paper/wording.h"

#include "base/embedded.h"
#include "base/text.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

/* Characters of one text; bytes of a path. */
enum { TEXT_MOST = 200, PATH_SIZE = 4096 };

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
		if (strcmp(ini->entry[i].key, key) == 0 &&
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
read_english(struct ini *ini, fault_hear *hear, void *context,
	     struct fault *why)
{
	return ini_read_bytes(ini, "wording-en.ini",
			      (const char *)embedded_wording_en,
			      embedded_wording_en_size, hear, context, why);
}

static bool
language_is_sound(const char *language)
{
	size_t letters = strspn(language, "abcdefghijklmnopqrstuvwxyz");

	return language[letters] == '\0' && (letters == 2 || letters == 3);
}

bool
wording_read(struct wording *wording, const char *folder, const char *language,
	     fault_hear *hear, void *context, struct fault *why)
{
	char path[PATH_SIZE] = "";
	struct ini english;
	struct comparison to = {&wording->ini, &english, hear, context, 0};
	bool is_english = strcmp(language, "en") == 0;

	if (!language_is_sound(language))
		return fault_set(why, FAULT_POLICY,
				 "language '%.8s' is not two or three small "
				 "letters",
				 language);
	if (folder != NULL && snprintf(path, sizeof path, "%s/wording-%s.ini",
				       folder, language) >= (int)sizeof path)
		return fault_set(why, FAULT_POLICY,
				 "the path of the station's folder is over "
				 "%d bytes",
				 PATH_SIZE);
	if (is_english &&
	    (folder == NULL || (access(path, F_OK) != 0 && errno == ENOENT)))
		return read_english(&wording->ini, hear, context, why);
	if (folder == NULL)
		return fault_set(why, FAULT_POLICY,
				 "there is no wording in '%s' without the "
				 "station's folder",
				 language);
	return read_english(&english, hear, context, why) &&
	       ini_read_file(&wording->ini, path, hear, context, why) &&
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
