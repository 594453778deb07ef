/* findings.c: symptoms, signs and history, by code. */
#include "clinic/findings.h"

#include "base/text.h"

#include <string.h>

enum { ITEM_SIZE = 64 };

struct finding_row {
	const char *code;
	enum finding_group group;
	bool symptom; /* counted in the tally's with_symptoms */
	const char *about;
};

/* clang-format off */
static const struct finding_row table[FINDING_COUNT] = {
[EYE_PAIN] = {"eye_pain", GROUP_COMPLAINTS, true,
	"pain in or around the eye or brow, now or today"},
[SEVERE_EYE_PAIN] = {"severe_eye_pain", GROUP_COMPLAINTS, true,
	"the same pain, sudden and severe"},
[NAUSEA] = {"nausea", GROUP_COMPLAINTS, true, "nausea or vomiting with it"},
[HALOES] = {"haloes", GROUP_COMPLAINTS, true,
	"coloured rings round lights, now or today"},
[BLURRED_SIGHT] = {"blurred_sight", GROUP_COMPLAINTS, true,
	"blurred sight, now or today"},
[PAST_SPELLS] = {"past_spells", GROUP_COMPLAINTS, true,
	"earlier spells of rings, blur or ache that cleared"},
[SUDDEN_SIGHT_LOSS] = {"sudden_sight_loss", GROUP_COMPLAINTS, true,
	"sudden loss of sight"},
[HEADACHE] = {"headache", GROUP_COMPLAINTS, false,
	"headache, long-standing, alone"},
[FAMILY_CLOSURE] = {"family_closure", GROUP_RISKS, false,
	"parent, brother, sister or child with angle closure"},
[LONG_SIGHTED] = {"long_sighted", GROUP_RISKS, false,
	"strongly long-sighted (over +6 D)"},
[NEEDS_DILATING] = {"needs_dilating", GROUP_RISKS, false,
	"diabetes, or another reason for regular dilating"},
[RISK_MEDICINE] = {"risk_medicine", GROUP_RISKS, false,
	"takes a medicine that can narrow the angle"},
[NEW_MEDICINE] = {"new_medicine", GROUP_RISKS, false,
	"started such a medicine within the last month"},
[RED_EYE] = {"red_eye", GROUP_SIGNS, false, "red eye"},
[HAZY_CORNEA] = {"hazy_cornea", GROUP_SIGNS, false, "hazy cornea"},
[FIXED_PUPIL] = {"fixed_pupil", GROUP_SIGNS, false,
	"pupil mid-wide and not reacting"},
[ODD_PUPIL] = {"odd_pupil", GROUP_SIGNS, false, "pupil irregular or displaced"},
[BLOOD_IN_CHAMBER] = {"blood_in_chamber", GROUP_SIGNS, false,
	"blood in the chamber"},
[REDUCED_SIGHT] = {"reduced_sight", GROUP_SIGNS, false, "new dim sight"},
[INJURY] = {"injury", GROUP_EYE_PAST, false,
	"injury within the last three months"},
[EYE_OPERATION] = {"eye_operation", GROUP_EYE_PAST, false,
	"operation within the last three months"},
[ARTIFICIAL_LENS] = {"artificial_lens", GROUP_EYE_PAST, false,
	"artificial lens"},
[IRIDOTOMY] = {"iridotomy", GROUP_EYE_PAST, false,
	"laser or surgical opening in the iris"},
[PAST_ATTACK] = {"past_attack", GROUP_EYE_PAST, false,
	"past attack of closure"},
[NOT_SEEING] = {"not_seeing", GROUP_EYE_PAST, false, "eye does not see"},
[ONLY_SEEING_EYE] = {"only_seeing_eye", GROUP_DERIVED, false,
	"only seeing eye"},
};
/* clang-format on */

const char *
eye_name(enum eye eye)
{
	return eye == EYE_RIGHT ? "right" : "left";
}

enum eye
eye_other(enum eye eye)
{
	return eye == EYE_RIGHT ? EYE_LEFT : EYE_RIGHT;
}

const char *
finding_code(enum finding finding)
{
	return table[finding].code;
}

const char *
finding_about(enum finding finding)
{
	return table[finding].about;
}

enum finding_group
finding_group(enum finding finding)
{
	return table[finding].group;
}

bool
finding_is_of_eye(enum finding finding)
{
	return table[finding].group == GROUP_SIGNS ||
	       table[finding].group == GROUP_EYE_PAST;
}

finding_set
finding_bit(enum finding finding)
{
	return (finding_set)1 << finding;
}

finding_set
findings_of_group(enum finding_group group)
{
	finding_set set = 0;

	for (int i = 0; i < FINDING_COUNT; i++)
		if (table[i].group == group)
			set |= finding_bit((enum finding)i);
	return set;
}

finding_set
findings_symptoms(void)
{
	finding_set set = 0;

	for (int i = 0; i < FINDING_COUNT; i++)
		if (table[i].symptom)
			set |= finding_bit((enum finding)i);
	return set;
}

void
findings_add(struct findings *findings, enum finding finding, enum eye eye)
{
	if (finding_is_of_eye(finding))
		findings->eye[eye] |= finding_bit(finding);
	else
		findings->person |= finding_bit(finding);
	if (finding == SEVERE_EYE_PAIN)
		findings->person |= finding_bit(EYE_PAIN);
}

finding_set
findings_at_eye(const struct findings *findings, enum eye eye)
{
	finding_set set = findings->person | findings->eye[eye];

	if (findings->eye[eye_other(eye)] & finding_bit(NOT_SEEING))
		set |= finding_bit(ONLY_SEEING_EYE);
	return set;
}

static bool
code_read(const char *code, enum finding *finding, struct fault *why)
{
	int least = text_distance_helpful(code) + 1, nearest = FINDING_COUNT;

	for (int i = 0; i < FINDING_COUNT; i++)
		if (strcmp(code, table[i].code) == 0) {
			*finding = (enum finding)i;
			return true;
		}
	for (int i = 0; i < FINDING_COUNT; i++) {
		int distance = text_distance(code, table[i].code);

		if (distance < least) {
			least = distance;
			nearest = i;
		}
	}
	if (nearest == FINDING_COUNT)
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a finding; 'shoal help "
				 "findings' lists them all",
				 code);
	return fault_set(why, FAULT_INPUT,
			 "'%.40s' is not a finding; did you mean '%s'?", code,
			 table[nearest].code);
}

/* Takes "right:" or "left:" off the front of an item. */
static const char *
side_read(const char *item, bool *sided, enum eye *eye)
{
	*sided = true;
	for (int i = 0; i < EYE_COUNT; i++) {
		const char *name = eye_name((enum eye)i);
		size_t length = strlen(name);

		if (strncmp(item, name, length) == 0 && item[length] == ':') {
			*eye = (enum eye)i;
			return item + length + 1;
		}
	}
	*sided = false;
	*eye = EYE_RIGHT;
	return item;
}

static bool
item_read(const char *item, struct findings *findings, struct fault *why)
{
	enum finding finding;
	enum eye eye;
	bool sided;

	if (!code_read(side_read(item, &sided, &eye), &finding, why))
		return false;
	if (finding == ONLY_SEEING_EYE)
		return fault_set(why, FAULT_INPUT,
				 "'only_seeing_eye' is never typed; record "
				 "not_seeing for the other eye");
	if (finding_is_of_eye(finding) && !sided)
		return fault_set(why, FAULT_INPUT,
				 "'%s' belongs to one eye; write right:%s or "
				 "left:%s",
				 item, item, item);
	if (!finding_is_of_eye(finding) && sided)
		return fault_set(why, FAULT_INPUT,
				 "'%s' is asked of the person, not of one eye; "
				 "write %s",
				 item, finding_code(finding));
	findings_add(findings, finding, eye);
	return true;
}

/* Takes the next item of a list off the front of `*text`. False at an item
 * that is empty or too long to be a code. */
static bool
next_item(const char **text, const char *separators, char *item,
	  struct fault *why)
{
	size_t length = strcspn(*text, separators);

	if (length >= ITEM_SIZE)
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is too long to be a finding", *text);
	memcpy(item, *text, length);
	item[length] = '\0';
	*text += length;
	text_trim(item);
	if (item[0] == '\0')
		return fault_set(why, FAULT_INPUT,
				 "an item of the list is empty; write codes "
				 "with one separator between them");
	return true;
}

bool
findings_read(const char *text, struct findings *findings, struct fault *why)
{
	struct findings read = {0};
	char item[ITEM_SIZE] = "";

	while (*text != '\0') {
		if (!next_item(&text, ";,", item, why) ||
		    !item_read(item, &read, why))
			return false;
		if (*text != '\0' && *++text == '\0')
			return fault_set(why, FAULT_INPUT,
					 "the list ends with a separator");
	}
	*findings = read;
	return true;
}

static void
append(char *text, size_t size, char separator, const char *side,
       const char *code)
{
	size_t used = strlen(text);
	char between[2] = {used > 0 ? separator : '\0', '\0'};

	snprintf(text + used, size - used, "%s%s%s%s", between, side,
		 side[0] == '\0' ? "" : ":", code);
}

void
findings_write(const struct findings *findings, char *text, size_t size)
{
	text[0] = '\0';
	for (int i = 0; i < FINDING_COUNT; i++)
		if (findings->person & finding_bit((enum finding)i))
			append(text, size, ';', "", table[i].code);
	for (int eye = 0; eye < EYE_COUNT; eye++)
		for (int i = 0; i < FINDING_COUNT; i++)
			if (findings->eye[eye] & finding_bit((enum finding)i))
				append(text, size, ';', eye_name((enum eye)eye),
				       table[i].code);
}

/* A rule is tried on each eye by itself. */
static bool
refuse_side(const char *item, struct fault *why)
{
	const char *colon = strchr(item, ':');

	if (colon == NULL)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "'%s' names a side; a rule is tried on each eye by "
			 "itself, so write %s",
			 item, colon + 1);
}

bool
finding_set_read(const char *text, finding_set *set, struct fault *why)
{
	finding_set read = 0;
	char item[ITEM_SIZE] = "";

	while (*text != '\0') {
		enum finding finding;

		if (!next_item(&text, ",", item, why) ||
		    !refuse_side(item, why) || !code_read(item, &finding, why))
			return false;
		if (read & finding_bit(finding))
			return fault_set(why, FAULT_INPUT,
					 "'%s' stands twice in the list", item);
		read |= finding_bit(finding);
		if (*text != '\0' && *++text == '\0')
			return fault_set(why, FAULT_INPUT,
					 "the list ends with a comma");
	}
	*set = read;
	return true;
}

void
finding_set_write(finding_set set, char *text, size_t size)
{
	text[0] = '\0';
	for (int i = 0; i < FINDING_COUNT; i++)
		if (set & finding_bit((enum finding)i))
			append(text, size, ',', "", table[i].code);
}

static bool
findings_field_read(const struct field *field, const char *text, void *value,
		    struct fault *why)
{
	(void)field;
	return findings_read(text, value, why);
}

static void
findings_field_write(const struct field *field, const void *value, char *text,
		     size_t size)
{
	(void)field;
	findings_write(value, text, size);
}

static void
bytes_blank(const struct field *field, void *value)
{
	memset(value, 0, field->size);
}

static bool
findings_is_blank(const struct field *field, const void *value)
{
	const struct findings *findings = value;

	(void)field;
	return findings->person == 0 && findings->eye[EYE_RIGHT] == 0 &&
	       findings->eye[EYE_LEFT] == 0;
}

const struct field_kind field_findings = {"TEXT", findings_field_read,
					  findings_field_write, bytes_blank,
					  findings_is_blank};

static bool
set_field_read(const struct field *field, const char *text, void *value,
	       struct fault *why)
{
	(void)field;
	return finding_set_read(text, value, why);
}

static void
set_field_write(const struct field *field, const void *value, char *text,
		size_t size)
{
	(void)field;
	finding_set_write(*(const finding_set *)value, text, size);
}

static bool
set_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const finding_set *)value == 0;
}

const struct field_kind field_finding_set = {
	"TEXT", set_field_read, set_field_write, bytes_blank, set_is_blank};
