/* Tests of desk/question: the questions about one person, as a table. */
#include "desk/question.h"

#include "base/text.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_SIZE = 4096, NARROW = 40 };

Test(question, no_group_has_more_lines_than_there_are_number_keys)
{
	for (int i = 0; i < QUESTION_COUNT; i++) {
		const struct question_row *row = &question_table[i];
		int keys = question_keys(row->group);

		if (row->kind != ANSWER_FINDINGS)
			continue;
		cr_expect(keys >= 1 && keys <= 9, "question %d: %d", i, keys);
		cr_expect_eq(question_finding(row->group, keys + 1),
			     FINDING_COUNT, "question %d", i);
		cr_expect_eq(question_finding(row->group, 0), FINDING_COUNT,
			     "question %d", i);
		cr_expect_neq(question_finding(row->group, keys), FINDING_COUNT,
			      "question %d", i);
	}
}

/* How many keys of how many questions lead to a finding of that eye. */
static int
count_keys(enum finding finding, enum eye eye)
{
	int count = 0;

	for (int i = 0; i < QUESTION_COUNT; i++) {
		const struct question_row *row = &question_table[i];

		if (row->kind != ANSWER_FINDINGS ||
		    (finding_is_of_eye(finding) && row->eye != eye))
			continue;
		for (int key = 1; key <= 9; key++)
			count += question_finding(row->group, key) == finding;
	}
	return count;
}

Test(question, each_finding_is_reached_by_exactly_one_key)
{
	for (int i = 0; i < FINDING_COUNT; i++) {
		enum finding finding = (enum finding)i;
		int expected = finding == ONLY_SEEING_EYE ? 0 : 1;

		for (int eye = 0; eye < EYE_COUNT; eye++)
			cr_expect_eq(count_keys(finding, (enum eye)eye),
				     expected, "finding %s, %s eye",
				     finding_code(finding),
				     eye_name((enum eye)eye));
	}
}

/* How many questions ask for a field. */
static int
count_askers(const char *name)
{
	int count = 0;

	for (int i = 0; i < QUESTION_COUNT; i++) {
		const char *field = question_table[i].field;

		count += field != NULL && strcmp(field, name) == 0;
	}
	return count;
}

Test(question, every_typed_field_is_asked_once_or_known_otherwise)
{
	/* Set once for a camp day; typed with the age; asked in groups. */
	static const char otherwise[] = " screened_on site grader "
					"age_estimated findings ";
	char padded[60];

	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];
		bool elsewhere;

		snprintf(padded, sizeof padded, " %s ", field->name);
		elsewhere = strstr(otherwise, padded) != NULL;
		cr_expect_eq(count_askers(field->name),
			     field->origin == FIELD_TYPED && !elsewhere,
			     "field %s", field->name);
		if (elsewhere)
			cr_expect_eq(field->origin, FIELD_TYPED, "field %s",
				     field->name);
	}
}

Test(question, every_question_is_whole)
{
	for (int i = 0; i < QUESTION_COUNT; i++) {
		const struct question_row *row = &question_table[i];
		const struct field *field = question_field((enum question)i);

		cr_expect(row->title != NULL && row->title[0] != '\0',
			  "question %d", i);
		cr_expect(row->help != NULL && row->help[0] != '\0',
			  "question %d", i);
		cr_expect_eq(field == NULL, row->kind == ANSWER_FINDINGS,
			     "question %d: its field is not in the table", i);
		if (field != NULL && row->kind == ANSWER_CHOICE)
			cr_expect_eq(field->kind, &field_choice, "question %d",
				     i);
		cr_expect_eq(question_is_needed((enum question)i),
			     row->kind == ANSWER_DEPTH || i == ASK_WHY_RIGHT ||
				     i == ASK_WHY_LEFT || i == ASK_CONSENT,
			     "question %d", i);
	}
}

static char *
choices_of(enum question question, int columns, char *text)
{
	FILE *out = fmemopen(text, TEXT_SIZE, "w");

	cr_assert_not_null(out);
	memset(text, 0, TEXT_SIZE);
	question_write_choices(question, columns, out);
	fclose(out);
	return text;
}

Test(question, choices_are_numbered_lines)
{
	char text[TEXT_SIZE];

	cr_expect_str_eq(choices_of(ASK_SEX, 80, text), " 1 F\n 2 M\n 3 X\n");
	cr_expect_str_eq(choices_of(ASK_WHY_LEFT, 80, text), " 1 scar\n 2 "
							     "pterygium\n 3 "
							     "could not keep "
							     "still\n"
							     " 4 other\n");
	cr_expect_str_eq(choices_of(ASK_CONSENT, 80, text), " 1 yes\n 2 no\n");
	cr_expect_str_eq(choices_of(ASK_AGE, 80, text), "");
	cr_expect_str_eq(choices_of(ASK_DEPTH_LEFT, 80, text), "");
	cr_expect_str_eq(choices_of(ASK_SIGNS_RIGHT, NARROW, text),
			 " 1 red eye\n 2 hazy cornea\n"
			 " 3 pupil mid-wide and not reacting\n"
			 " 4 pupil irregular or displaced\n"
			 " 5 blood in the chamber\n 6 new dim sight\n");
	cr_expect_str_eq(choices_of(ASK_RISKS, NARROW, text),
			 " 1 parent, brother, sister or child with\n"
			 "   angle closure\n"
			 " 2 strongly long-sighted (over +6 D)\n"
			 " 3 diabetes, or another reason for\n"
			 "   regular dilating\n"
			 " 4 takes a medicine that can narrow the\n"
			 "   angle\n"
			 " 5 started such a medicine within the\n"
			 "   last month\n");
}

static void
expect_narrow(char *text, int question)
{
	for (char *line = text; *line != '\0';) {
		char *end = line + strcspn(line, "\n");
		bool last = *end == '\0';

		*end = '\0';
		cr_expect_leq(text_width(line), NARROW, "question %d: %s",
			      question, line);
		line = last ? end : end + 1;
	}
}

Test(question, choices_and_help_fit_a_narrow_screen)
{
	for (int i = 0; i < QUESTION_COUNT; i++) {
		char text[TEXT_SIZE];
		FILE *out;

		expect_narrow(choices_of((enum question)i, NARROW, text), i);
		memset(text, 0, sizeof text);
		out = fmemopen(text, sizeof text, "w");
		cr_assert_not_null(out);
		question_write_help((enum question)i, NARROW, out);
		fclose(out);
		cr_expect_gt(strlen(text), 20U, "question %d", i);
		expect_narrow(text, i);
		cr_expect_leq(text_width(question_table[i].title), NARROW,
			      "question %d", i);
	}
}

Test(question, codes_are_spelt_with_spaces)
{
	char code[] = "could_not_keep_still", plain[] = "scar", none[] = "";

	question_spell(code);
	cr_expect_str_eq(code, "could not keep still");
	question_spell(plain);
	cr_expect_str_eq(plain, "scar");
	question_spell(none);
	cr_expect_str_eq(none, "");
}
