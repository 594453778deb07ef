/* Tests of desk/keying: what keys do to a person's form. */
#include "desk/keying.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

/* '\n' is Enter, '\b' backspace, '\x11' back, '\x12' to the end; the rest is
 * typed. What the last key did. */
static enum keying_effect
press(struct keying *keying, const char *keys)
{
	enum keying_effect effect = KEYING_NOTHING;

	for (; *keys != '\0'; keys++) {
		char text[2] = {*keys, '\0'};

		if (*keys == '\n')
			effect = keying_enter(keying);
		else if (*keys == '\b')
			effect = keying_erase(keying);
		else if (*keys == '\x11')
			effect = keying_back(keying);
		else if (*keys == '\x12')
			effect = keying_go(keying, QUESTION_COUNT);
		else
			effect = keying_type(keying, text);
	}
	return effect;
}

static void
begin(struct keying *keying, struct form *form)
{
	form_init(form, false);
	memset(keying, 0, sizeof *keying);
	keying_begin(keying, form);
}

static const char well[] = "\n\n58\n1\n\n\n\n\n\n\n100\n7\n16\n17\n1\n";

Test(keying, a_person_with_nothing_to_find_costs_at_most_30_keys)
{
	struct keying keying;
	struct form form;

	begin(&keying, &form);
	cr_expect_eq(press(&keying, well), KEYING_ANSWERED);
	cr_expect_eq(keying.at, QUESTION_COUNT);
	cr_expect_eq(press(&keying, "\n"), KEYING_SAVE);
	cr_expect_leq(strlen(well) + 1, 30U);
	cr_expect_eq(form.visit.age_years, 58);
	cr_expect_eq(form.visit.sex, 0);
	cr_expect_eq(form.visit.depth_right, DEPTH_100);
	cr_expect_eq(form.visit.depth_left, DEPTH_75);
	cr_expect_eq(form.visit.pressure_left, 17);
	cr_expect_eq(form.visit.reply_consent, ANSWER_YES);
}

static const struct {
	const char *typed;
	enum depth grade;
} grades[] = {
	{"0", DEPTH_0},
	{"5", DEPTH_5},
	{"15", DEPTH_15},
	{"25", DEPTH_25},
	{"40", DEPTH_40},
	{"75", DEPTH_75},
	{"100", DEPTH_100},
	{"2", DEPTH_25},
	{"4", DEPTH_40},
	{"7", DEPTH_75},
	{"x", DEPTH_NOT_GRADABLE},
	{"-", DEPTH_NO_EYE},
	{"1/4", DEPTH_25},
	{"0.25", DEPTH_25},
	{"25%", DEPTH_25},
	/* Neither 1 nor 10 is a beginning of 100, the safest of all grades. */
	{"1", DEPTH_BLANK},
	{"10", DEPTH_BLANK},
	{"3", DEPTH_BLANK},
	{"6", DEPTH_BLANK},
	{"20", DEPTH_BLANK},
	{"50", DEPTH_BLANK},
	{"70", DEPTH_BLANK},
	{"0,25", DEPTH_BLANK},
	{"", DEPTH_BLANK},
	{"1000", DEPTH_BLANK},
	{"8", DEPTH_BLANK},
	{"9", DEPTH_BLANK},
};

Test(keying, one_key_is_enough_for_a_grade_that_no_other_begins_with)
{
	for (size_t i = 0; i < sizeof grades / sizeof grades[0]; i++) {
		struct keying keying;
		struct form form;

		begin(&keying, &form);
		keying_go(&keying, ASK_DEPTH_RIGHT);
		press(&keying, grades[i].typed);
		cr_expect_eq(keying_grade(&keying), grades[i].grade,
			     "row %zu: %s", i, grades[i].typed);
		cr_expect_eq(form.visit.depth_right, DEPTH_BLANK,
			     "row %zu: taken before Enter", i);
		press(&keying, "\n");
		cr_expect_eq(form.visit.depth_right, grades[i].grade,
			     "row %zu: %s", i, grades[i].typed);
		cr_expect_eq(keying.at == ASK_DEPTH_RIGHT,
			     grades[i].grade == DEPTH_BLANK, "row %zu", i);
		cr_expect_eq(keying.said.kind != FAULT_NONE,
			     grades[i].grade == DEPTH_BLANK, "row %zu", i);
	}
}

/* From which question; what is pressed; what is then shown there, and where
 * the hand is. */
static const struct {
	enum question from;
	const char *keys, *shown;
	enum question at;
} rows[] = {
	{ASK_NAME, "Adira", "Adira", ASK_NAME},
	{ASK_NAME, "Adira\b", "Adir", ASK_NAME},
	{ASK_NAME, "Adira\n\x11\bo\n", "Adiro", ASK_CONTACT},
	{ASK_NAME,
	 "Adira\n\x11"
	 "Bekuro\n",
	 "Bekuro", ASK_CONTACT},
	{ASK_NAME, "Adira\n\x11\b\b\b\b\b\n", "no name", ASK_CONTACT},
	{ASK_NAME, "\n", "no name", ASK_CONTACT},
	{ASK_NAME, "=1\n", "=1", ASK_NAME},
	{ASK_NAME, "a?<\n", "a?<", ASK_CONTACT},
	{ASK_AGE, "60*\n", "60*", ASK_SEX},
	{ASK_AGE, "130\n", "130", ASK_AGE},
	{ASK_AGE, "130\b\b\b45\n", "45", ASK_SEX},
	{ASK_SEX, "2", "M", ASK_SEX},
	{ASK_SEX, "f\n", "F", ASK_COMPLAINTS},
	{ASK_SEX, "4", "", ASK_SEX},
	{ASK_SEX, "1\b\n", "not recorded", ASK_COMPLAINTS},
	{ASK_COMPLAINTS, "\n", "none", ASK_RISKS},
	{ASK_COMPLAINTS, "13", "1 eye pain, 3 nausea", ASK_COMPLAINTS},
	{ASK_COMPLAINTS, "131", "3 nausea", ASK_COMPLAINTS},
	{ASK_COMPLAINTS, "11", "none", ASK_COMPLAINTS},
	{ASK_COMPLAINTS, "1380", "none", ASK_COMPLAINTS},
	/* The severe pain is a pain. */
	{ASK_COMPLAINTS, "21", "1 eye pain, 2 severe eye pain", ASK_COMPLAINTS},
	{ASK_COMPLAINTS, "9", "", ASK_COMPLAINTS},
	{ASK_COMPLAINTS, "3x", "3 nausea", ASK_COMPLAINTS},
	{ASK_SIGNS_LEFT, "6\n", "6 reduced sight", ASK_DEPTH_RIGHT},
	{ASK_DEPTH_RIGHT, "x\n", "x", ASK_WHY_RIGHT},
	{ASK_DEPTH_RIGHT, "\n", "", ASK_DEPTH_RIGHT},
	{ASK_DEPTH_RIGHT, "2\b\n", "", ASK_DEPTH_RIGHT},
	{ASK_DEPTH_LEFT, "-\n", "-", ASK_PRESSURE_RIGHT},
	{ASK_PRESSURE_LEFT, "\n", "not measured", ASK_CONSENT},
	{ASK_PRESSURE_LEFT, "100\n", "100", ASK_PRESSURE_LEFT},
	{ASK_CONSENT, "n", "no", ASK_CONSENT},
	{ASK_CONSENT, "\n", "", ASK_CONSENT},
	{ASK_CONSENT, "-", "", ASK_CONSENT},
};

Test(keying, keys_do_what_the_screen_says)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char shown[FORM_SHOWN_SIZE];
		struct keying keying;
		struct form form;

		begin(&keying, &form);
		keying_go(&keying, rows[i].from);
		press(&keying, rows[i].keys);
		keying_show(&keying, rows[i].from, shown);
		cr_expect_str_eq(shown, rows[i].shown, "row %zu: %s", i, shown);
		cr_expect_eq(keying.at, rows[i].at, "row %zu: %d", i,
			     keying.at);
	}
}

Test(keying, passing_over_a_question_is_no_answer)
{
	struct keying keying;
	struct form form;

	begin(&keying, &form);
	for (int i = 0; i <= QUESTION_COUNT; i++)
		cr_expect_eq(keying_go(&keying, (enum question)i),
			     KEYING_NOTHING, "%d", i);
	for (int i = 0; i < QUESTION_COUNT; i++)
		cr_expect_not(form.answered[i], "%d", i);
	/* At the end Enter goes to what is open, and saves nothing. */
	cr_expect_eq(press(&keying, "\n"), KEYING_NOTHING);
	cr_expect_eq(keying.at, ASK_NAME);
}

Test(keying, nobody_is_saved_with_a_question_open)
{
	for (int open = ASK_NAME; open < QUESTION_COUNT; open++) {
		struct keying keying;
		struct form form;

		begin(&keying, &form);
		press(&keying, well);
		if (!form_asks(&form, (enum question)open))
			continue;
		form.answered[open] = false;
		cr_expect_neq(press(&keying, "\n"), KEYING_SAVE, "%d", open);
		cr_expect_eq((int)keying.at, open);
	}
}

Test(keying, a_correction_goes_back_to_the_end)
{
	struct keying keying;
	struct form form;

	begin(&keying, &form);
	press(&keying, well);
	keying_go(&keying, ASK_AGE);
	press(&keying, "70\n");
	cr_expect_eq(form.visit.age_years, 70);
	cr_expect_eq(keying.at, QUESTION_COUNT);
	/* A grade that becomes x wants its reason first. */
	keying_go(&keying, ASK_DEPTH_RIGHT);
	press(&keying, "x\n");
	cr_expect_eq(keying.at, ASK_WHY_RIGHT);
	press(&keying, "\x12");
	cr_expect_eq(press(&keying, "\n"), KEYING_NOTHING);
	cr_expect_eq(keying.at, ASK_WHY_RIGHT);
	press(&keying, "s\n");
	cr_expect_eq(press(&keying, "\n"), KEYING_SAVE);
}

Test(keying, what_is_half_typed_is_taken_by_an_arrow_or_stays)
{
	struct keying keying;
	struct form form;

	begin(&keying, &form);
	press(&keying, "Adira");
	cr_expect_eq(keying_go(&keying, ASK_AGE), KEYING_ANSWERED);
	cr_expect_str_eq(form.visit.name, "Adira");
	press(&keying, "999");
	cr_expect_eq(keying_go(&keying, ASK_NAME), KEYING_NOTHING);
	cr_expect_eq(keying.at, ASK_AGE);
	cr_expect_str_eq(keying.typed, "999");
	cr_expect_eq(keying.said.kind, FAULT_INPUT);
}

Test(keying, the_menu_help_and_drop_have_their_keys)
{
	struct keying keying;
	struct form form;

	begin(&keying, &form);
	cr_expect_eq(press(&keying, "<"), KEYING_MENU);
	cr_expect_eq(press(&keying, "?"), KEYING_HELP);
	cr_expect_eq(press(&keying, "\n\x11"), KEYING_NOTHING);
	cr_expect_eq(keying.at, ASK_NAME);
	press(&keying, well);
	cr_expect_eq(press(&keying, "?"), KEYING_HELP);
	cr_expect_eq(press(&keying, "5"), KEYING_NOTHING);
	cr_expect_eq(keying.said.kind, FAULT_INPUT);
	cr_expect_eq(press(&keying, "0"), KEYING_DROP);
	cr_expect_eq(press(&keying, "<"), KEYING_NOTHING);
	cr_expect_eq(keying.at, ASK_CONSENT);
}

/* More than is kept of any answer: refused by the field, never cut. */
Test(keying, what_is_too_long_is_refused)
{
	char text[2 * KEYING_TYPED_SIZE];
	struct keying keying;
	struct form form;

	begin(&keying, &form);
	memset(text, 'a', sizeof text - 1);
	text[sizeof text - 1] = '\0';
	press(&keying, text);
	press(&keying, "\n");
	cr_expect_eq(keying.at, ASK_NAME);
	cr_expect_eq(keying.said.kind, FAULT_INPUT);
	cr_expect_str_eq(form.visit.name, "");
}
