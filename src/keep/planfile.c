/* planfile.c: published accuracy of the test, for planning. */
#include "keep/planfile.h"

#include "base/field.h"
#include "base/number.h"
#include "base/text.h"
#include "clinic/policy.h"
#include "keep/inifile.h"

#include <stdio.h>
#include <string.h>

static const char preset_word[] = "preset ";

static const struct field_kind field_percent;

#define TEXT(member, least)                                                 \
	{                                                                   \
#member, &field_text, FIELD_AT(plan_preset, member), least, \
			120, FIELD_NEEDED, FIELD_TYPED, "", #member         \
	}
#define SHARE(member, grade)                                                   \
	{                                                                      \
#member "_at_" #grade, &field_percent,                         \
			offsetof(struct plan_preset, member) +                 \
				DEPTH_##grade * sizeof(int),                   \
			sizeof(int), 0, 100, FIELD_OPTIONAL, FIELD_TYPED, "%", \
			#member                                                \
	}
#define PAIR(grade) SHARE(sensitivity, grade), SHARE(specificity, grade)

/* clang-format off */
static const struct field preset_keys[] = {
	TEXT(condition, 1), TEXT(source, 1),
	PAIR(0), PAIR(5), PAIR(15), PAIR(25), PAIR(40), PAIR(75), PAIR(100),
};
/* clang-format on */

static const struct fields preset_fields = {
	preset_keys, sizeof preset_keys / sizeof preset_keys[0]};

/* Every cut-off that has figures, in the order of the scale. Returns how many
 * faults. */
static int
check_pairs(const struct ini *ini, int line, const struct plan_preset *preset,
	    fault_hear *hear, void *context)
{
	int last = -1, faults = 0;

	for (int i = 0; i < DEPTH_GRADES; i++) {
		int sensitivity = preset->sensitivity[i];
		int specificity = preset->specificity[i];

		if ((sensitivity == FIELD_BLANK) !=
		    (specificity == FIELD_BLANK)) {
			ini_tell(ini, line, hear, context,
				 "[%s%s]: the cut-off %d needs both a "
				 "sensitivity and a specificity",
				 preset_word, preset->name,
				 depth_percent((enum depth)i));
			return faults + 1;
		}
		if (sensitivity == FIELD_BLANK)
			continue;
		if (last >= 0 && (sensitivity < preset->sensitivity[last] ||
				  specificity > preset->specificity[last])) {
			ini_tell(ini, line, hear, context,
				 "[%s%s]: from %d to %d the figures run the "
				 "wrong way; with depth the sensitivity may "
				 "only rise and the specificity only fall",
				 preset_word, preset->name,
				 depth_percent((enum depth)last),
				 depth_percent((enum depth)i));
			faults++;
		}
		last = i;
	}
	if (last < 0)
		ini_tell(ini, line, hear, context,
			 "[%s%s]: there is no cut-off; give sensitivity_at_25 "
			 "and specificity_at_25 or others",
			 preset_word, preset->name);
	return faults + (last < 0);
}

static int
read_preset(const struct ini *ini, const struct ini_entry *header,
	    struct plan_preset *preset, fault_hear *hear, void *context)
{
	const char *name = header->section + strlen(preset_word);
	int faults;

	fields_blank(preset_fields, preset);
	faults = ini_fill(ini, header->section, preset_fields, preset, hear,
			  context);
	if (!rule_name_is_sound(name) ||
	    !text_copy(preset->name, sizeof preset->name, name)) {
		preset->name[0] = '\0';
		ini_tell(ini, header->line, hear, context,
			 "'%s' is not a preset's name; allowed is one word of "
			 "small letters a to z, digits and '-', a letter "
			 "first, at most %d characters",
			 name, PLAN_NAME_SIZE - 1);
		return faults + 1;
	}
	if (faults > 0 || !ini_section_is_sound(ini, header->section))
		return faults;
	return check_pairs(ini, header->line, preset, hear, context);
}

static int
read_presets(const struct ini *ini, struct plan *plan, fault_hear *hear,
	     void *context)
{
	int faults = 0;

	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *header = &ini->entry[i];

		if (header->key[0] != '\0' ||
		    strncmp(header->section, preset_word,
			    strlen(preset_word)) != 0)
			continue;
		if (plan->count == PLAN_PRESETS_MOST) {
			ini_tell(ini, header->line, hear, context,
				 "there are more than %d presets",
				 PLAN_PRESETS_MOST);
			return faults + 1;
		}
		faults += read_preset(ini, header, &plan->preset[plan->count++],
				      hear, context);
	}
	return faults;
}

bool
planfile_read_bytes(const char *name, const char *bytes, size_t length,
		    struct plan *plan, fault_hear *hear, void *context,
		    struct fault *why)
{
	static const char *const sections[] = {"preset NAME"};
	struct ini ini;
	int faults;

	plan->count = 0;
	if (!ini_read_bytes(&ini, name, bytes, length, hear, context, why) &&
	    ini.count == 0)
		return false;
	faults = ini.faults +
		 ini_check_sections(&ini, sections, 1, hear, context);
	faults += read_presets(&ini, plan, hear, context);
	return ini_conclude(&ini, faults, why);
}

const struct plan_preset *
plan_preset_find(const struct plan *plan, const char *name)
{
	for (int i = 0; i < plan->count; i++)
		if (strcmp(plan->preset[i].name, name) == 0)
			return &plan->preset[i];
	return NULL;
}

static bool
percent_read(const struct field *field, const char *text, void *value,
	     struct fault *why)
{
	long hundredths;

	if (!number_read_decimal(text, field->least, field->most, PLAN_PLACES,
				 field->words, &hundredths, why))
		return false;
	*(int *)value = (int)hundredths;
	return true;
}

static void
percent_write(const struct field *field, const void *value, char *text,
	      size_t size)
{
	int hundredths = *(const int *)value;

	(void)field;
	snprintf(text, size, "%d.%02d", hundredths / 100, hundredths % 100);
}

static void
percent_blank(const struct field *field, void *value)
{
	(void)field;
	*(int *)value = FIELD_BLANK;
}

static bool
percent_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const int *)value == FIELD_BLANK;
}

static const struct field_kind field_percent = {"INTEGER", percent_read,
						percent_write, percent_blank,
						percent_is_blank};
