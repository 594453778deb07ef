/* policyedit.c: one value of a policy's text changed, all else kept. */
#include "keep/policyedit.h"

#include "base/field.h"
#include "base/text.h"
#include "clinic/policy.h"

#include <stdio.h>
#include <string.h>

static const char rule_prefix[] = "rule ";

/* Where a value stands or is to stand. */
struct place {
	char section[INI_NAME_SIZE];
	const struct field *field;
	const struct ini_entry *entry; /* NULL: the key is not there */
	int last_line;		       /* of the section's last key */
};

/* A part of the text: bytes from `at` up to, not including, `end`. */
struct part {
	size_t at, end;
};

bool
policyedit_init(struct policyedit *edit, const char *bytes, size_t length,
		struct fault *why)
{
	if (length > INI_FILE_MOST)
		return fault_set(why, FAULT_POLICY,
				 "the policy is too large; at most %d bytes "
				 "are allowed",
				 INI_FILE_MOST);
	memcpy(edit->text, bytes, length);
	edit->text[length] = '\0';
	edit->length = length;
	return true;
}

bool
policyedit_is_same(const struct policyedit_change *change)
{
	return !change->added &&
	       strcmp(change->old_line, change->new_line) == 0;
}

/* What is wrong with the text is told when the new one is read. */
static void
hear_nothing(void *context, const struct fault *one)
{
	(void)context;
	(void)one;
}

static const struct policy_section *
find_fixed(const char *section)
{
	for (int i = 0; i < POLICY_SECTIONS; i++)
		if (strcmp(policy_sections[i].name, section) == 0)
			return &policy_sections[i];
	return NULL;
}

static bool
is_rule(const char *section)
{
	return strncmp(section, rule_prefix, strlen(rule_prefix)) == 0;
}

static bool
refuse_section(const struct ini *ini, const char *section, struct fault *why)
{
	const char *name = is_rule(section) ? section + strlen(rule_prefix)
					    : section;
	int least = text_distance_helpful(name) + 1;
	const char *nearest = NULL;

	for (int i = 0; i < ini->count; i++) {
		const char *one = ini->entry[i].section;
		int distance;

		if (ini->entry[i].key[0] != '\0')
			continue;
		distance = text_distance(
			is_rule(one) ? one + strlen(rule_prefix) : one, name);
		if (distance < least) {
			least = distance;
			nearest = one;
		}
	}
	return fault_set(why, FAULT_INPUT,
			 "there is no section [%s] in the file%s%s%s", section,
			 nearest == NULL ? "" : "; did you mean [",
			 nearest == NULL ? "" : nearest,
			 nearest == NULL ? "" : "]?");
}

static bool
refuse_key(const char *section, struct fields fields, const char *key,
	   struct fault *why)
{
	const struct field *nearest = fields_nearest(fields, key);

	return fault_set(why, FAULT_INPUT, "unknown key '%.60s' in [%s]%s%s%s",
			 key, section,
			 nearest == NULL ? "" : "; did you mean '",
			 nearest == NULL ? "" : nearest->name,
			 nearest == NULL ? "" : "'?");
}

/* Takes "SECTION.KEY" apart; the key behind the point in `*name`. */
static bool
split_key(const char *key, char section[INI_NAME_SIZE], const char **name,
	  struct fault *why)
{
	const char *point = strrchr(key, '.');

	if (point == NULL || point == key || point[1] == '\0' ||
	    point - key >= INI_NAME_SIZE - (long)strlen(rule_prefix))
		return fault_set(why, FAULT_USAGE,
				 "'%.60s' names no value; write SECTION.KEY, "
				 "such as urgency.urgent_within_days, or "
				 "'rule NAME.KEY'",
				 key);
	snprintf(section, INI_NAME_SIZE, "%.*s", (int)(point - key), key);
	*name = point + 1;
	return true;
}

static bool
find_place(const struct ini *ini, const char *key, struct place *place,
	   struct fault *why)
{
	const struct policy_section *fixed;
	char section[INI_NAME_SIZE] = "";
	const char *name = NULL;
	struct fields fields = rule_fields;

	if (!split_key(key, section, &name, why))
		return false;
	fixed = find_fixed(section);
	if (fixed != NULL)
		fields = fixed->fields;
	snprintf(place->section, sizeof place->section, "%s%.*s",
		 fixed != NULL || is_rule(section) ? "" : rule_prefix,
		 INI_NAME_SIZE - (int)sizeof rule_prefix, section);
	if (ini_find(ini, place->section, "") == NULL)
		return refuse_section(
			ini, fixed != NULL ? section : place->section, why);
	place->field = fields_find(fields, name);
	if (place->field == NULL)
		return refuse_key(place->section, fields, name, why);
	place->entry = ini_find(ini, place->section, name);
	for (int i = 0; i < ini->count; i++)
		if (strcmp(ini->entry[i].section, place->section) == 0)
			place->last_line = ini->entry[i].line;
	return true;
}

/* A line of the text without its line end. */
static struct part
find_line(const struct policyedit *edit, int line)
{
	struct part part = {0, 0};

	for (int i = 1; i < line; i++) {
		const char *end = memchr(edit->text + part.at, '\n',
					 edit->length - part.at);

		part.at = end == NULL ? edit->length
				      : (size_t)(end - edit->text) + 1;
	}
	part.end = part.at;
	while (part.end < edit->length && edit->text[part.end] != '\n')
		part.end++;
	if (part.end > part.at && edit->text[part.end - 1] == '\r')
		part.end--;
	return part;
}

static bool
is_space(char c)
{
	return c == ' ' || c == '\t';
}

/* The value in a line that is known to hold a '='. */
static struct part
find_value(const struct policyedit *edit, struct part line)
{
	const char *equals =
		memchr(edit->text + line.at, '=', line.end - line.at);
	struct part value = line;

	if (equals != NULL)
		value.at = (size_t)(equals - edit->text) + 1;
	while (value.at < value.end && is_space(edit->text[value.at]))
		value.at++;
	while (value.end > value.at && is_space(edit->text[value.end - 1]))
		value.end--;
	return value;
}

/* Puts `with` in the place of a part of the text. */
static bool
replace(struct policyedit *edit, struct part part, const char *with,
	struct fault *why)
{
	size_t added = strlen(with), taken = part.end - part.at;

	if (edit->length - taken + added > INI_FILE_MOST)
		return fault_set(why, FAULT_POLICY,
				 "the policy would be too large; at most %d "
				 "bytes are allowed",
				 INI_FILE_MOST);
	memmove(edit->text + part.at + added, edit->text + part.end,
		edit->length - part.end + 1);
	memcpy(edit->text + part.at, with, added);
	edit->length = edit->length - taken + added;
	return true;
}

/* The quote to put around a value, as a string; "" for none. */
static const char *
quote_for(const struct place *place, char old, const char *value)
{
	if (old == '\'' && strchr(value, '\'') == NULL)
		return "'";
	if (old == '\'' || old == '"' || place->field->kind == &field_text ||
	    place->field->kind == &field_day)
		return "\"";
	return "";
}

static void
keep_line(const struct policyedit *edit, int line, char *text)
{
	struct part part = find_line(edit, line);

	snprintf(text, INI_LINE_MOST + 1, "%.*s", (int)(part.end - part.at),
		 edit->text + part.at);
}

static bool
change_value(struct policyedit *edit, const struct place *place,
	     const char *value, struct policyedit_change *change,
	     struct fault *why)
{
	int line = place->entry->line;
	struct part part = find_value(edit, find_line(edit, line));
	char written[INI_LINE_MOST + 1];
	const char *quote = quote_for(place, edit->text[part.at], value);

	if (place->entry->refused)
		return fault_set(why, FAULT_POLICY,
				 "line %d, where '%s' stands, is at fault; "
				 "mend it first ('shoal policy check' says "
				 "how)",
				 line, place->field->name);
	keep_line(edit, line, change->old_line);
	snprintf(written, sizeof written, "%s%s%s", quote, value, quote);
	if (!replace(edit, part, written, why))
		return false;
	change->line = line;
	change->added = false;
	keep_line(edit, line, change->new_line);
	return true;
}

/* Behind the section's last key, with the line end that is used there. */
static bool
add_key(struct policyedit *edit, const struct place *place, const char *value,
	struct policyedit_change *change, struct fault *why)
{
	struct part part = find_line(edit, place->last_line);
	char written[INI_LINE_MOST + 1];
	const char *quote = quote_for(place, '\0', value);

	part.at = part.end;
	snprintf(written, sizeof written, "%s%s = %s%s%s",
		 edit->text[part.at] == '\r' ? "\r\n" : "\n",
		 place->field->name, quote, value, quote);
	if (!replace(edit, part, written, why))
		return false;
	change->line = place->last_line + 1;
	change->added = true;
	change->old_line[0] = '\0';
	keep_line(edit, change->line, change->new_line);
	return true;
}

/* What would begin another line, or run over the end of this one. */
static bool
check_value(const struct place *place, const char *value, struct fault *why)
{
	/* The line: key, " = ", two quotes, the value, perhaps other spaces. */
	size_t most = INI_LINE_MOST / 2;

	for (const char *at = value; *at != '\0'; at++)
		if ((unsigned char)*at < 0x20 || *at == 0x7f)
			return fault_set(why, FAULT_INPUT,
					 "the value for '%s' holds a control "
					 "character; type it again",
					 place->field->name);
	if (strlen(value) > most)
		return fault_set(why, FAULT_INPUT,
				 "the value for '%s' has %zu bytes; at most "
				 "%zu are allowed",
				 place->field->name, strlen(value), most);
	return true;
}

bool
policyedit_set(struct policyedit *edit, const char *key, const char *value,
	       struct policyedit_change *change, struct fault *why)
{
	struct place place = {.section = ""};
	struct ini ini = {.name = "", .count = 0};

	/* The scan cuts up what it reads. */
	memcpy(ini.bytes, edit->text, edit->length);
	ini.length = edit->length;
	ini_scan(&ini, hear_nothing, NULL);
	if (!find_place(&ini, key, &place, why) ||
	    !check_value(&place, value, why))
		return false;
	return place.entry == NULL
		       ? add_key(edit, &place, value, change, why)
		       : change_value(edit, &place, value, change, why);
}
