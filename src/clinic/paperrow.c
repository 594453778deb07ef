/* paperrow.c: one person as a line of the paper register. */
#include "clinic/paperrow.h"

#include <stddef.h>
#include <string.h>

enum finding
paper_finding(enum finding_group group, int number)
{
	for (int i = 0; i < FINDING_COUNT; i++)
		if (finding_group((enum finding)i) == group && --number == 0)
			return (enum finding)i;
	return FINDING_COUNT;
}

/* --- a column of circled numbers; the field's `least` is its group -------- */

static bool
refuse(const struct field *field, char found, struct fault *why)
{
	int most = 0;

	while (paper_finding((enum finding_group)field->least, most + 1) !=
	       FINDING_COUNT)
		most++;
	return fault_set(why, FAULT_INPUT,
			 "'%c' is not a number of this column; type those that "
			 "are circled, 1 to %d, or 0 for none",
			 found, most);
}

static bool
circled_read(const struct field *field, const char *text, void *value,
	     struct fault *why)
{
	finding_set set = 0;

	if (strcmp(text, "0") == 0)
		text = "";
	for (; *text != '\0'; text++) {
		enum finding finding = FINDING_COUNT;

		if (strchr(" ;,", *text) != NULL)
			continue;
		if (*text >= '1' && *text <= '9')
			finding = paper_finding(
				(enum finding_group)field->least, *text - '0');
		if (finding == FINDING_COUNT)
			return refuse(field, *text, why);
		set |= finding_bit(finding);
	}
	memcpy(value, &set, sizeof set);
	return true;
}

static void
circled_write(const struct field *field, const void *value, char *text,
	      size_t size)
{
	finding_set set;
	size_t used = 0;

	memcpy(&set, value, sizeof set);
	text[0] = '\0';
	for (int i = 1; i <= 9 && used + 1 < size; i++) {
		enum finding finding =
			paper_finding((enum finding_group)field->least, i);

		if (finding == FINDING_COUNT ||
		    (set & finding_bit(finding)) == 0)
			continue;
		text[used++] = (char)('0' + i);
		text[used] = '\0';
	}
}

static void
circled_blank(const struct field *field, void *value)
{
	memset(value, 0, field->size);
}

static bool
circled_is_blank(const struct field *field, const void *value)
{
	finding_set set;

	(void)field;
	memcpy(&set, value, sizeof set);
	return set == 0;
}

static const struct field_kind field_circled = {
	"TEXT", circled_read, circled_write, circled_blank, circled_is_blank};

/* --- a reason, by its word or by the number that is circled --------------- */

static bool
reason_read(const struct field *field, const char *text, void *value,
	    struct fault *why)
{
	bool is_reason = strncmp(field->name, "not_gradable_why_", 17) == 0;
	size_t length;
	int index = text[0] - '1';

	if (!is_reason || text[0] < '1' || text[0] > '9' || text[1] != '\0' ||
	    field_word(field->words, index, &length) == NULL)
		return field_choice.read(field, text, value, why);
	memcpy(value, &index, sizeof index);
	return true;
}

static void
reason_write(const struct field *field, const void *value, char *text,
	     size_t size)
{
	field_choice.write(field, value, text, size);
}

static void
reason_blank(const struct field *field, void *value)
{
	field_choice.blank(field, value);
}

static bool
reason_is_blank(const struct field *field, const void *value)
{
	return field_choice.is_blank(field, value);
}

static const struct field_kind paper_choice = {
	"INTEGER", reason_read, reason_write, reason_blank, reason_is_blank};

/* --- the tables ----------------------------------------------------------- */

/* clang-format off */
#define paper_refnum field_refnum
#define paper_day field_day
#define paper_text field_text
#define paper_count field_count
#define paper_depth field_depth
#define paper_findings field_findings

#define VISIT_ROW(type, name, dimension, kind, least, most, need, origin, \
		  words, about)                                           \
	{#name, &paper_##kind, offsetof(struct paper_row, visit.name),    \
	 sizeof(((struct visit *)NULL)->name), least, most, need, origin, \
	 words, about},
#define CIRCLED(name, index, group, about)                                \
	{name, &field_circled,                                            \
	 offsetof(struct paper_row, circled) + (index) * sizeof(finding_set), \
	 sizeof(finding_set), group, 0, FIELD_OPTIONAL, FIELD_TYPED, "",  \
	 about},

static const struct field rows[] = {
	VISIT_FIELDS(VISIT_ROW)
	CIRCLED("complaints", 0, GROUP_COMPLAINTS, "complaints, by number")
	CIRCLED("risks", 1, GROUP_RISKS, "risks, by number")
	CIRCLED("past_right", 2, GROUP_EYE_PAST, "right history, by number")
	CIRCLED("past_left", 3, GROUP_EYE_PAST, "left history, by number")
	CIRCLED("signs_right", 4, GROUP_SIGNS, "right signs, by number")
	CIRCLED("signs_left", 5, GROUP_SIGNS, "left signs, by number")
};

#define FIELD_OF(name) {name, GROUP_COUNT, EYE_RIGHT}

const struct paper_column paper_columns[PAPER_COLUMNS] = {
	FIELD_OF("number"),
	FIELD_OF("screened_on"), FIELD_OF("site"), FIELD_OF("grader"),
	FIELD_OF("name"), FIELD_OF("contact"),
	FIELD_OF("age_years"), FIELD_OF("age_estimated"), FIELD_OF("sex"),
	{"complaints", GROUP_COMPLAINTS, EYE_RIGHT},
	{"risks", GROUP_RISKS, EYE_RIGHT},
	{"past_right", GROUP_EYE_PAST, EYE_RIGHT},
	{"past_left", GROUP_EYE_PAST, EYE_LEFT},
	{"signs_right", GROUP_SIGNS, EYE_RIGHT},
	{"signs_left", GROUP_SIGNS, EYE_LEFT},
	FIELD_OF("depth_right"), FIELD_OF("not_gradable_why_right"),
	FIELD_OF("depth_left"), FIELD_OF("not_gradable_why_left"),
	FIELD_OF("pressure_right"), FIELD_OF("pressure_left"),
	FIELD_OF("reply_consent"),
};
/* clang-format on */

const struct fields paper_row_fields = {rows, sizeof rows / sizeof rows[0]};

void
paper_row_init(struct paper_row *row)
{
	fields_blank(paper_row_fields, row);
}

void
paper_row_gather(struct paper_row *row)
{
	static const enum eye eyes[PAPER_GROUPS] = {
		EYE_RIGHT, EYE_RIGHT, EYE_RIGHT, EYE_LEFT, EYE_RIGHT, EYE_LEFT};

	for (int i = 0; i < PAPER_GROUPS; i++)
		for (int j = 0; j < FINDING_COUNT; j++)
			if ((row->circled[i] & finding_bit((enum finding)j)) !=
			    0)
				findings_add(&row->visit.findings,
					     (enum finding)j, eyes[i]);
}
