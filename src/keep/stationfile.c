/* stationfile.c: what differs from one laptop to the next. */
#include "keep/stationfile.h"

#include "base/embedded.h"
#include "base/refnum.h"
#include "base/text.h"
#include "keep/inifile.h"
#include "keep/keytext.h"

#include <string.h>

static const struct field_kind field_code, field_language;

#define KEY(member, name, kind, most, need, about)                             \
	{                                                                      \
		name, &field_##kind, FIELD_AT(station, member), 0, most, need, \
			FIELD_TYPED, "", about                                 \
	}

/* clang-format off */
static const struct field station_keys[] = {
KEY(code, "code", code, REFNUM_STATION_MOST, FIELD_NEEDED,
	"this laptop's four digits"),
KEY(programme, "programme", text, 60, FIELD_NEEDED, "the programme"),
KEY(site, "site", text, 60, FIELD_NEEDED, "where the camp stands"),
KEY(phone, "phone", text, 60, FIELD_OPTIONAL, "whom to call about the camp"),
};

static const struct field clinic_keys[] = {
KEY(clinic_name, "name", text, 120, FIELD_OPTIONAL, "the eye clinic"),
KEY(clinic_address, "address", text, 120, FIELD_OPTIONAL, "where it is"),
KEY(clinic_days, "days", text, 120, FIELD_OPTIONAL, "days and hours"),
KEY(clinic_door, "door", text, 120, FIELD_OPTIONAL, "where to go once there"),
KEY(clinic_cost, "cost", text, 60, FIELD_OPTIONAL, "what a visit costs"),
KEY(clinic_phone, "phone", text, 60, FIELD_OPTIONAL, "its telephone"),
};

static const struct field slip_keys[] = {
KEY(language, "language", language, 3, FIELD_OPTIONAL,
	"language of the patient slip"),
};

static const struct field backup_keys[] = {
KEY(public_key, "key", text, 120, FIELD_OPTIONAL,
	"public key of sealed copies"),
};

#define TABLE(rows) {rows, sizeof (rows) / sizeof (rows)[0]}

const struct station_section station_sections[STATION_SECTIONS] = {
	{"station", TABLE(station_keys)},
	{"clinic", TABLE(clinic_keys)},
	{"slip", TABLE(slip_keys)},
	{"backup", TABLE(backup_keys)},
};
/* clang-format on */

void
station_init(struct station *station)
{
	for (int i = 0; i < STATION_SECTIONS; i++)
		fields_blank(station_sections[i].fields, station);
	text_copy(station->language, sizeof station->language, "en");
}

/* A mistyped key would be found out only when a copy has to be opened. */
static int
check_key(const struct ini *ini, const struct station *station,
	  fault_hear *hear, void *context)
{
	const struct ini_entry *entry = ini_find(ini, "backup", "key");
	struct fault one;
	struct key key;

	if (station->public_key[0] == '\0' ||
	    keytext_read(station->public_key, KEY_PUBLIC, &key, &one))
		return 0;
	ini_tell(ini, entry == NULL ? 0 : entry->line, hear, context, "key: %s",
		 one.sentence);
	return 1;
}

static bool
fill_station(const struct ini *ini, struct station *station, fault_hear *hear,
	     void *context, struct fault *why)
{
	const char *names[STATION_SECTIONS];
	int faults = ini->faults;

	for (int i = 0; i < STATION_SECTIONS; i++)
		names[i] = station_sections[i].name;
	station_init(station);
	faults +=
		ini_check_sections(ini, names, STATION_SECTIONS, hear, context);
	for (int i = 0; i < STATION_SECTIONS && ini->count > 0; i++) {
		const struct station_section *section = &station_sections[i];

		if (faults > 0 && ini_section_line(ini, section->name) == 0 &&
		    ini_section_is_meant(ini, section->name))
			continue;
		faults += ini_fill(ini, section->name, section->fields, station,
				   hear, context);
	}
	faults += check_key(ini, station, hear, context);
	return ini_conclude(ini, faults, why);
}

bool
stationfile_read(const char *path, struct station *station, fault_hear *hear,
		 void *context, struct fault *why)
{
	struct ini ini;

	if (!ini_read_file(&ini, path, hear, context, why) && ini.count == 0)
		return false;
	return fill_station(&ini, station, hear, context, why);
}

/* Every value must come back from the file as it is. */
static bool
check_value(const struct field *field, const struct station *station,
	    struct fault *why)
{
	char text[FIELD_TEXT_SIZE];
	struct station ignored;

	field_write(field, station, text, sizeof text);
	if (!field_read(field, text, &ignored, why))
		return false;
	if (strpbrk(text, "\"\\") == NULL)
		return true;
	fault_set(why, FAULT_INPUT,
		  "a double quote or a backslash is not allowed; write ' or / "
		  "in its place");
	return fault_at(why, "%s", field->name);
}

static void
write_line(const struct field *field, const struct station *station, FILE *out)
{
	char text[FIELD_TEXT_SIZE];
	const char *quote = field->kind == &field_text ? "\"" : "";

	field_write(field, station, text, sizeof text);
	fprintf(out, "%s = %s%s%s\n", field->name, quote, text, quote);
}

static const struct station_section *
find_section(const char *name, size_t length)
{
	for (int i = 0; i < STATION_SECTIONS; i++)
		if (strlen(station_sections[i].name) == length &&
		    memcmp(station_sections[i].name, name, length) == 0)
			return &station_sections[i];
	return NULL;
}

/* The field whose key begins the template's line, or NULL when the line stays
 * as it is. Only a text can be written as not given. */
static const struct field *
find_field(const struct station_section *section, const struct station *station,
	   const char *line)
{
	for (size_t i = 0; section != NULL && i < section->fields.count; i++) {
		const struct field *field = &section->fields.field[i];
		size_t length = strlen(field->name);

		if (strncmp(line, field->name, length) == 0 &&
		    strncmp(line + length, " =", 2) == 0)
			return field->kind == &field_text ||
					       !field_is_blank(field, station)
				       ? field
				       : NULL;
	}
	return NULL;
}

bool
stationfile_write(const struct station *station, FILE *out, struct fault *why)
{
	const char *line = (const char *)embedded_station;
	const struct station_section *section = NULL;

	for (int i = 0; i < STATION_SECTIONS; i++)
		for (size_t j = 0; j < station_sections[i].fields.count; j++)
			if (!check_value(&station_sections[i].fields.field[j],
					 station, why))
				return false;
	while (*line != '\0') {
		size_t length = strcspn(line, "\n");
		const struct field *field = find_field(section, station, line);

		if (line[0] == '[')
			section =
				find_section(line + 1, strcspn(line, "]") - 1);
		if (field != NULL)
			write_line(field, station, out);
		else
			fprintf(out, "%.*s\n", (int)length, line);
		line += length + (line[length] == '\n');
	}
	if (ferror(out))
		return fault_set(why, FAULT_OUTPUT,
				 "the station's file could not be written");
	return true;
}

static bool
code_read(const struct field *field, const char *text, void *value,
	  struct fault *why)
{
	int code = 0;

	if (strlen(text) != 4 || strspn(text, "0123456789") != 4)
		return fault_set(why, FAULT_INPUT,
				 "'%.20s' is not four digits; allowed are 0001 "
				 "to %ld",
				 text, field->most);
	for (const char *digit = text; *digit != '\0'; digit++)
		code = 10 * code + (*digit - '0');
	if (code == 0)
		return fault_set(why, FAULT_INPUT,
				 "'0000' is no station; allowed are 0001 to "
				 "%ld",
				 field->most);
	*(int *)value = code;
	return true;
}

static void
code_write(const struct field *field, const void *value, char *text,
	   size_t size)
{
	(void)field;
	snprintf(text, size, "%04d", *(const int *)value);
}

static void
code_blank(const struct field *field, void *value)
{
	(void)field;
	*(int *)value = 0;
}

static bool
code_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const int *)value == 0;
}

static const struct field_kind field_code = {"INTEGER", code_read, code_write,
					     code_blank, code_is_blank};

static bool
language_read(const struct field *field, const char *text, void *value,
	      struct fault *why)
{
	size_t length = strspn(text, "abcdefghijklmnopqrstuvwxyz");

	if (text[length] != '\0' || length < 2 || length > 3)
		return fault_set(why, FAULT_INPUT,
				 "'%.20s' is not a language; allowed are two "
				 "or three small letters, such as en",
				 text);
	text_copy(value, field->size, text);
	return true;
}

static void
language_write(const struct field *field, const void *value, char *text,
	       size_t size)
{
	(void)field;
	snprintf(text, size, "%s", (const char *)value);
}

static void
language_blank(const struct field *field, void *value)
{
	memset(value, 0, field->size);
}

static bool
language_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const char *)value == '\0';
}

static const struct field_kind field_language = {"TEXT", language_read,
						 language_write, language_blank,
						 language_is_blank};
