/* inifile.c: INI files, read so that nothing is guessed. */
#include "keep/inifile.h"

#include "base/text.h"
#include "keep/inicheck.h"
#include "keep/safefile.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

bool
ini_conclude(const struct ini *ini, int faults, struct fault *why)
{
	if (faults == 0)
		return true;
	return fault_set(why, FAULT_POLICY,
			 "'%s' has %d fault%s and was not read", ini->name,
			 faults, faults == 1 ? "" : "s");
}

static void
name_after(struct ini *ini, const char *path)
{
	const char *slash = strrchr(path, '/');

	/* cppcheck 2.10 takes the array, which is written, for one read. */
	/* cppcheck-suppress ctuuninitvar */
	snprintf(ini->name, sizeof ini->name, "%s",
		 slash == NULL ? path : slash + 1);
}

/* The copy is made first, since the scan cuts the bytes up. */
static bool
read_filled(struct ini *ini, const char *name, fault_hear *hear, void *context,
	    struct fault *why)
{
	/* A byte-order mark is for the scan alone. */
	size_t mark = ini->length >= 3 &&
				      memcmp(ini->bytes, "\xef\xbb\xbf", 3) == 0
			      ? 3
			      : 0;
	int copy = ini_copy(ini->bytes + mark, ini->length - mark);

	name_after(ini, name);
	if (ini_scan(ini, hear, context) == 0)
		ini->faults = ini_compare(ini, copy, hear, context);
	if (copy >= 0)
		close(copy);
	return ini_conclude(ini, ini->faults, why);
}

bool
ini_read_bytes(struct ini *ini, const char *name, const char *bytes,
	       size_t length, fault_hear *hear, void *context,
	       struct fault *why)
{
	ini->count = 0;
	ini->faults = 0;
	if (length > INI_FILE_MOST) {
		name_after(ini, name);
		return fault_set(why, FAULT_POLICY,
				 "'%s' is too large; at most %d bytes are "
				 "allowed",
				 ini->name, INI_FILE_MOST);
	}
	memcpy(ini->bytes, bytes, length);
	ini->length = length;
	return read_filled(ini, name, hear, context, why);
}

bool
ini_read_file(struct ini *ini, const char *path, fault_hear *hear,
	      void *context, struct fault *why)
{
	ini->count = 0;
	ini->faults = 0;
	return safefile_read(path, ini->bytes, sizeof ini->bytes, &ini->length,
			     FAULT_POLICY, why) &&
	       read_filled(ini, path, hear, context, why);
}

int
ini_section_line(const struct ini *ini, const char *section)
{
	const struct ini_entry *header = ini_find(ini, section, "");

	return header == NULL ? 0 : header->line;
}

bool
ini_section_is_sound(const struct ini *ini, const char *section)
{
	for (int i = 0; i < ini->count; i++)
		if (ini->entry[i].refused &&
		    strcmp(ini->entry[i].section, section) == 0)
			return false;
	return true;
}

/* Length of the first word of a section's name. */
static int
first_word(const char *name)
{
	return (int)strcspn(name, " ");
}

/* A name of two words, such as "rule NAME", stands for many sections. */
static bool
is_pattern(const char *name)
{
	return name[first_word(name)] != '\0';
}

/* Whether it is the section meant by a name of the list. */
static bool
is_named(const char *name, const char *section)
{
	size_t length = (size_t)first_word(name);

	if (!is_pattern(name))
		return strcmp(name, section) == 0;
	return length == (size_t)first_word(section) &&
	       memcmp(name, section, length) == 0;
}

/* Steps from a section to a name of the list. */
static int
section_distance(const char *name, const char *section)
{
	char wanted[INI_NAME_SIZE], given[INI_NAME_SIZE];

	if (!is_pattern(name))
		return text_distance(name, section);
	snprintf(wanted, sizeof wanted, "%.*s", first_word(name), name);
	snprintf(given, sizeof given, "%.*s", first_word(section), section);
	return text_distance(wanted, given);
}

/* Adds to a list of words; what it does not hold is cut. */
__attribute__((format(printf, 3, 4))) static void
append(char *list, size_t size, const char *format, ...)
{
	size_t used = strlen(list);
	va_list arguments;

	va_start(arguments, format);
	vsnprintf(list + used, size - used, format, arguments);
	va_end(arguments);
}

static void
tell_unknown_section(const struct ini *ini, const struct ini_entry *header,
		     const char *const *names, size_t count, fault_hear *hear,
		     void *context)
{
	const char *nearest = NULL, *section = header->section;
	int least = text_distance_helpful(section) + 1;
	char list[FAULT_SENTENCE_SIZE / 2] = "";

	for (size_t i = 0; i < count; i++) {
		int distance = section_distance(names[i], section);

		append(list, sizeof list, "%s[%s]", i == 0 ? "" : ", ",
		       names[i]);
		if (distance < least) {
			least = distance;
			nearest = names[i];
		}
	}
	if (nearest == NULL)
		ini_tell(ini, header->line, hear, context,
			 "unknown section [%s]; allowed are %s", section, list);
	else if (is_pattern(nearest))
		ini_tell(ini, header->line, hear, context,
			 "unknown section [%s]; did you mean [%.*s%s]?",
			 section, first_word(nearest), nearest,
			 is_pattern(section) ? section + first_word(section)
					     : nearest + first_word(nearest));
	else
		ini_tell(ini, header->line, hear, context,
			 "unknown section [%s]; did you mean [%s]?", section,
			 nearest);
}

int
ini_check_sections(const struct ini *ini, const char *const *names,
		   size_t count, fault_hear *hear, void *context)
{
	int faults = 0;

	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *header = &ini->entry[i];
		bool known = header->key[0] != '\0' || header->refused;

		for (size_t j = 0; j < count && !known; j++)
			known = is_named(names[j], header->section);
		if (known)
			continue;
		tell_unknown_section(ini, header, names, count, hear, context);
		faults++;
	}
	if (ini->count > 0)
		return faults;
	ini_tell(ini, 0, hear, context,
		 "it is empty, or holds nothing but comments; a section "
		 "such as [%s] is needed",
		 names[0]);
	return 1;
}

bool
ini_section_is_meant(const struct ini *ini, const char *section)
{
	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *header = &ini->entry[i];

		if (header->key[0] != '\0')
			continue;
		if (header->section[0] == '?' ||
		    text_distance(header->section, section) <=
			    text_distance_helpful(header->section))
			return true;
	}
	return false;
}

/* "'months' (screen again when no rule holds, 1 to 120 months)" */
static void
append_field(char *list, size_t size, const struct field *field)
{
	append(list, size, "'%s' (%s", field->name, field->about);
	if (field->kind == &field_count)
		append(list, size, ", %ld to %ld %s", field->least, field->most,
		       field->words);
	append(list, size, ")");
}

/* Returns 1 when a key of the section is needed. */
static int
tell_missing_section(const struct ini *ini, const char *section,
		     struct fields fields, fault_hear *hear, void *context)
{
	char list[FAULT_SENTENCE_SIZE / 2] = "";

	for (size_t i = 0; i < fields.count; i++) {
		if (fields.field[i].need != FIELD_NEEDED)
			continue;
		append(list, sizeof list, "%s", list[0] == '\0' ? "" : ", ");
		append_field(list, sizeof list, &fields.field[i]);
	}
	if (list[0] == '\0')
		return 0;
	ini_tell(ini, 0, hear, context,
		 "section [%s] is missing; add it with %s", section, list);
	return 1;
}

static void
tell_unknown_key(const struct ini *ini, const struct ini_entry *entry,
		 struct fields fields, fault_hear *hear, void *context)
{
	const struct field *nearest = fields_nearest(fields, entry->key);
	char list[FAULT_SENTENCE_SIZE] = "";

	for (size_t i = 0; i < fields.count; i++)
		append(list, sizeof list, "%s%s", i == 0 ? "" : ", ",
		       fields.field[i].name);
	if (nearest == NULL)
		ini_tell(ini, entry->line, hear, context,
			 "unknown key '%s' in [%s]; allowed %s %s", entry->key,
			 entry->section, fields.count == 1 ? "is" : "are",
			 list);
	else
		ini_tell(ini, entry->line, hear, context,
			 "unknown key '%s' in [%s]; did you mean '%s'?",
			 entry->key, entry->section, nearest->name);
}

/* Whether "" may stand for "not given"; other kinds leave the line out. */
static bool
may_be_empty(const struct field *field)
{
	return field->need == FIELD_OPTIONAL &&
	       (field->kind == &field_text || field->kind == &field_day);
}

static void
tell_empty(const struct ini *ini, const struct ini_entry *entry,
	   const struct field *field, fault_hear *hear, void *context)
{
	char what[FAULT_SENTENCE_SIZE / 2] = "";

	append_field(what, sizeof what, field);
	if (may_be_empty(field))
		ini_tell(ini, entry->line, hear, context,
			 "%s: it is empty; write \"\" when there is none",
			 field->name);
	else if (field->need == FIELD_NEEDED)
		ini_tell(ini, entry->line, hear, context,
			 "%s: it is empty; a value is needed for %s",
			 field->name, what);
	else
		ini_tell(ini, entry->line, hear, context,
			 "%s: it is empty; write a value, or take the line out",
			 field->name);
}

/* False when a fault was told. */
static bool
fill_one(const struct ini *ini, const struct ini_entry *entry,
	 struct fields fields, void *record, fault_hear *hear, void *context)
{
	const struct field *field = fields_find(fields, entry->key);
	struct fault why;

	if (field == NULL) {
		tell_unknown_key(ini, entry, fields, hear, context);
		return false;
	}
	if (entry->value[0] == '\0' &&
	    !(entry->quoted && may_be_empty(field))) {
		tell_empty(ini, entry, field, hear, context);
		return false;
	}
	if (field_read(field, entry->value, record, &why))
		return true;
	ini_tell(ini, entry->line, hear, context, "%s", why.sentence);
	return false;
}

/* Whether a line has, or may have been meant to have, the field's key. */
static bool
is_meant(const struct ini_entry *entry, struct fields fields,
	 const struct field *field)
{
	if (strcmp(entry->key, field->name) == 0)
		return true;
	if (fields_find(fields, entry->key) != NULL)
		return false;
	return entry->refused || fields_nearest(fields, entry->key) == field;
}

static bool
is_missing(const struct ini *ini, const struct ini_entry *header,
	   struct fields fields, const struct field *field)
{
	const struct ini_entry *entry = header;

	while ((entry = ini_next(ini, entry)) != NULL)
		if (is_meant(entry, fields, field))
			return false;
	return true;
}

int
ini_fill(const struct ini *ini, const char *section, struct fields fields,
	 void *record, fault_hear *hear, void *context)
{
	const struct ini_entry *header = ini_find(ini, section, "");
	const struct ini_entry *entry = header;
	char what[FAULT_SENTENCE_SIZE / 2];
	int faults = 0;

	if (header == NULL)
		return tell_missing_section(ini, section, fields, hear,
					    context);
	while ((entry = ini_next(ini, entry)) != NULL)
		if (!entry->refused &&
		    !fill_one(ini, entry, fields, record, hear, context))
			faults++;
	for (size_t i = 0; i < fields.count; i++) {
		const struct field *field = &fields.field[i];

		if (field->need != FIELD_NEEDED ||
		    !is_missing(ini, header, fields, field))
			continue;
		what[0] = '\0';
		append_field(what, sizeof what, field);
		ini_tell(ini, header->line, hear, context,
			 "[%s] has no key %s; add it", section, what);
		faults++;
	}
	return faults;
}
