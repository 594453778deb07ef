/* test_paperrow.c: one person as a line of the paper register. */
#include "clinic/paperrow.h"

#include <criterion/criterion.h>
#include <string.h>

static bool
read(const char *name, const char *text, struct paper_row *row,
     struct fault *why)
{
	const struct field *field = fields_find(paper_row_fields, name);

	cr_assert_not_null(field, "no field %s", name);
	return field_read(field, text, row, why);
}

Test(paperrow, circled_numbers_are_the_findings_of_their_column)
{
	static const struct {
		const char *name, *text;
		const char *findings; /* NULL = refused */
	} rows[] = {
		{"complaints", "", ""},
		{"complaints", "0", ""},
		{"complaints", "1", "eye_pain"},
		{"complaints", "134", "eye_pain;nausea;haloes"},
		{"complaints", "4 1;3", "eye_pain;nausea;haloes"},
		{"complaints", "2", "eye_pain;severe_eye_pain"},
		{"complaints", "8", "headache"},
		{"complaints", "9", NULL},
		{"complaints", "01", NULL},
		{"complaints", "eye_pain", NULL},
		{"risks", "15", "family_closure;new_medicine"},
		{"risks", "6", NULL},
		{"past_right", "6", "right:not_seeing"},
		{"past_left", "16", "left:injury;left:not_seeing"},
		{"signs_right", "12", "right:red_eye;right:hazy_cornea"},
		{"signs_left", "6", "left:reduced_sight"},
		{"signs_left", "7", NULL},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char text[FIELD_TEXT_SIZE] = "";
		struct paper_row row;
		struct fault why = {FAULT_NONE, ""};
		bool done;

		paper_row_init(&row);
		done = read(rows[i].name, rows[i].text, &row, &why);
		cr_expect_eq(done, rows[i].findings != NULL, "row %zu: %s", i,
			     why.sentence);
		if (!done || rows[i].findings == NULL)
			continue;
		paper_row_gather(&row);
		findings_write(&row.visit.findings, text, sizeof text);
		cr_expect_str_eq(text, rows[i].findings, "row %zu", i);
	}
}

Test(paperrow, a_reason_may_be_its_number_and_other_choices_may_not)
{
	static const struct {
		const char *name, *text;
		int value; /* -1 = refused */
	} rows[] = {
		{"not_gradable_why_right", "1", 0},
		{"not_gradable_why_left", "4", 3},
		{"not_gradable_why_left", "5", -1},
		{"not_gradable_why_left", "0", -1},
		{"not_gradable_why_left", "12", -1},
		{"not_gradable_why_right", "pterygium", 1},
		{"sex", "1", -1},
		{"sex", "F", 0},
		{"reply_consent", "1", -1},
		{"reply_consent", "no", 1},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct field *field =
			fields_find(paper_row_fields, rows[i].name);
		struct paper_row row;
		struct fault why;
		int value;

		paper_row_init(&row);
		cr_assert_eq(read(rows[i].name, rows[i].text, &row, &why),
			     rows[i].value >= 0, "row %zu", i);
		memcpy(&value, (char *)&row + field->offset, sizeof value);
		cr_expect_eq(value, rows[i].value, "row %zu: %d", i, value);
	}
}

/* The record begins with the person, field by field; each typed one is a
 * column, findings as the six groups. */
Test(paperrow, every_field_that_is_typed_is_a_column)
{
	int columns = 0, groups = 0;

	for (int i = 0; i < PAPER_COLUMNS; i++) {
		cr_expect_not_null(fields_find(paper_row_fields,
					       paper_columns[i].name),
				   "%s", paper_columns[i].name);
		groups += paper_columns[i].group != GROUP_COUNT;
	}
	cr_expect_eq(groups, PAPER_GROUPS);
	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];
		bool found = strcmp(field->name, "findings") == 0;

		cr_expect_str_eq(field->name, paper_row_fields.field[i].name);
		cr_expect_eq(field->offset, paper_row_fields.field[i].offset);
		if (field->origin != FIELD_TYPED)
			continue;
		columns++;
		for (int j = 0; j < PAPER_COLUMNS; j++)
			found |= strcmp(paper_columns[j].name, field->name) ==
				 0;
		cr_expect(found, "'%s' is not a column of the paper register",
			  field->name);
	}
	cr_expect_eq(columns - 1 + groups, PAPER_COLUMNS);
}
