/* Tests of desk/form: the questions about one person, without a terminal. */
#include "desk/form.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

static void
take(struct form *form, enum question question, const char *answer)
{
	struct fault why;

	cr_assert(form_answer(form, question, answer, &why),
		  "question %d, '%s': %s", (int)question, answer, why.sentence);
}

/* What is typed, how it is shown, and what is recorded in which column. */
static const struct {
	enum question question;
	const char *answer, *shown, *column, *value;
} taken[] = {
	{ASK_NUMBER, "0014-90001-49", "0014-90001-49", "number",
	 "0014-90001-49"},
	{ASK_NUMBER, "00149000149", "0014-90001-49", "number", "0014-90001-49"},
	{ASK_NUMBER, "", "none: give a new one", "number", ""},
	{ASK_NAME, "Adira Moru", "Adira Moru", "name", "Adira Moru"},
	{ASK_NAME, "", "no name", "name", ""},
	{ASK_CONTACT, "0088 555", "0088 555", "contact", "0088 555"},
	{ASK_CONTACT, "", "none", "contact", ""},
	{ASK_AGE, "60", "60", "age_years", "60"},
	{ASK_AGE, "60", "60", "age_estimated", "no"},
	{ASK_AGE, "60*", "60*", "age_years", "60"},
	{ASK_AGE, "60 *", "60*", "age_estimated", "yes"},
	{ASK_AGE, "0", "0", "age_years", "0"},
	{ASK_AGE, "120", "120", "age_years", "120"},
	{ASK_AGE, "", "not known", "age_years", ""},
	{ASK_AGE, "", "not known", "age_estimated", ""},
	{ASK_SEX, "1", "F", "sex", "F"},
	{ASK_SEX, "2", "M", "sex", "M"},
	{ASK_SEX, "3", "X", "sex", "X"},
	{ASK_SEX, "m", "M", "sex", "M"},
	{ASK_SEX, "", "not recorded", "sex", ""},
	{ASK_COMPLAINTS, "", "none", "findings", ""},
	{ASK_COMPLAINTS, "8", "headache, long-standing, alone", "findings",
	 "headache"},
	{ASK_COMPLAINTS, "31",
	 "pain in or around the eye or brow, now or today; nausea or vomiting "
	 "with it",
	 "findings", "eye_pain;nausea"},
	{ASK_COMPLAINTS, "1, 3 4", NULL, "findings", "eye_pain;nausea;haloes"},
	{ASK_COMPLAINTS, "33", NULL, "findings", "nausea"},
	{ASK_COMPLAINTS, "2", NULL, "findings", "eye_pain;severe_eye_pain"},
	{ASK_RISKS, "15", NULL, "findings", "family_closure;new_medicine"},
	{ASK_PAST_RIGHT, "6", "eye does not see", "findings",
	 "right:not_seeing"},
	{ASK_PAST_LEFT, "3", "artificial lens", "findings",
	 "left:artificial_lens"},
	{ASK_SIGNS_RIGHT, "12", "red eye; hazy cornea", "findings",
	 "right:red_eye;right:hazy_cornea"},
	{ASK_SIGNS_LEFT, "6", "new dim sight", "findings",
	 "left:reduced_sight"},
	{ASK_DEPTH_RIGHT, "25", "25", "depth_right", "25"},
	{ASK_DEPTH_RIGHT, "25%", "25", "depth_right", "25"},
	{ASK_DEPTH_RIGHT, "1/4", "25", "depth_right", "25"},
	{ASK_DEPTH_LEFT, "0.25", "25", "depth_left", "25"},
	{ASK_DEPTH_LEFT, "0", "0", "depth_left", "0"},
	{ASK_DEPTH_LEFT, "x", "x", "depth_left", "x"},
	{ASK_DEPTH_LEFT, "-", "-", "depth_left", "-"},
	{ASK_PRESSURE_RIGHT, "19", "19", "pressure_right", "19"},
	{ASK_PRESSURE_LEFT, "99", "99", "pressure_left", "99"},
	{ASK_PRESSURE_LEFT, "", "not measured", "pressure_left", ""},
	{ASK_CONSENT, "1", "yes", "reply_consent", "yes"},
	{ASK_CONSENT, "2", "no", "reply_consent", "no"},
	{ASK_CONSENT, "YES", "yes", "reply_consent", "yes"},
};

Test(form, an_answer_is_recorded_and_shown_again)
{
	for (size_t i = 0; i < sizeof taken / sizeof taken[0]; i++) {
		char shown[FORM_SHOWN_SIZE], value[FIELD_TEXT_SIZE];
		struct form form;

		form_init(&form, true);
		take(&form, taken[i].question, taken[i].answer);
		cr_expect(form.answered[taken[i].question], "row %zu", i);
		form_show(&form, taken[i].question, shown);
		if (taken[i].shown != NULL)
			cr_expect_str_eq(shown, taken[i].shown, "row %zu: %s",
					 i, shown);
		field_write(fields_find(visit_fields, taken[i].column),
			    &form.visit, value, sizeof value);
		cr_expect_str_eq(value, taken[i].value, "row %zu: %s", i,
				 value);
	}
}

Test(form, a_reason_is_taken_by_number_and_by_word)
{
	static const char *const answers[] = {"3", "could_not_keep_still",
					      "could not keep still",
					      "Could Not keep still"};

	for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
		char shown[FORM_SHOWN_SIZE];
		struct form form;

		form_init(&form, false);
		take(&form, ASK_DEPTH_LEFT, "x");
		take(&form, ASK_WHY_LEFT, answers[i]);
		form_show(&form, ASK_WHY_LEFT, shown);
		cr_expect_str_eq(shown, "could not keep still", "row %zu", i);
		cr_expect_eq(form.visit.not_gradable_why_left, 2, "row %zu", i);
	}
}

static const char lines_wanted[] = "type the numbers of the lines that apply, "
				   "each 1 to 6, such as 1 3, "
				   "or Enter for none";
static const char needed[] = "an answer is needed here; ? explains";

static const struct {
	enum question question;
	const char *answer, *sentence;
} refused[] = {
	{ASK_NUMBER, "0014-90001-50", NULL},
	{ASK_NAME, "=SUM(A1)",
	 "it may not begin with = + - or @, which a spreadsheet takes "
	 "for a formula"},
	{ASK_NAME, "a\033[31m",
	 "character 2 cannot be printed (U+001B); only letters, digits, "
	 "marks and spaces are allowed"},
	{ASK_CONTACT, "+44 77", NULL},
	{ASK_AGE, "121", "121 is out of range; allowed are 0 to 120 years"},
	{ASK_AGE, "sixty",
	 "'sixty' is not a plain whole number; "
	 "allowed are 0 to 120 years"},
	{ASK_AGE, "*", "the star stands behind an age, such as 60*"},
	{ASK_AGE, "6*0", NULL},
	{ASK_AGE, "60**", NULL},
	{ASK_SEX, "4", "type a number from 1 to 3, or the word itself"},
	{ASK_SEX, "0", "type a number from 1 to 3, or the word itself"},
	{ASK_SEX, "12", "type a number from 1 to 3, or the word itself"},
	{ASK_SIGNS_RIGHT, "7", lines_wanted},
	{ASK_SIGNS_RIGHT, "0", lines_wanted},
	{ASK_SIGNS_RIGHT, "17", lines_wanted},
	{ASK_SIGNS_RIGHT, "1-3", lines_wanted},
	{ASK_SIGNS_RIGHT, "red", lines_wanted},
	{ASK_SIGNS_RIGHT, ",", lines_wanted},
	{ASK_DEPTH_RIGHT, "", needed},
	{ASK_DEPTH_RIGHT, "1", NULL},
	{ASK_DEPTH_RIGHT, "30", NULL},
	{ASK_DEPTH_RIGHT, "0,25", NULL},
	{ASK_WHY_LEFT, "", needed},
	{ASK_WHY_LEFT, "-", needed},
	{ASK_WHY_LEFT, "5", "type a number from 1 to 4, or the word itself"},
	{ASK_PRESSURE_RIGHT, "0",
	 "0 is out of range; allowed are 1 to 99 mmHg"},
	{ASK_PRESSURE_RIGHT, "100",
	 "100 is out of range; allowed are 1 to 99 mmHg"},
	{ASK_PRESSURE_RIGHT, "19.5", NULL},
	{ASK_CONSENT, "", needed},
	{ASK_CONSENT, "-", needed},
	{ASK_CONSENT, "maybe", "type a number from 1 to 2, or the word itself"},
};

Test(form, a_refused_answer_leaves_the_form_as_it_was)
{
	for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
		struct form form, before;
		struct fault why = {FAULT_NONE, ""};

		form_init(&form, true);
		take(&form, ASK_AGE, "70*");
		take(&form, ASK_SIGNS_RIGHT, "2");
		take(&form, ASK_DEPTH_LEFT, "x");
		memcpy(&before, &form, sizeof form);
		cr_expect_not(form_answer(&form, refused[i].question,
					  refused[i].answer, &why),
			      "row %zu: %s", i, refused[i].answer);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		if (refused[i].sentence != NULL)
			cr_expect_str_eq(why.sentence, refused[i].sentence,
					 "row %zu: %s", i, why.sentence);
		cr_expect_eq(memcmp(&before, &form, sizeof form), 0, "row %zu",
			     i);
	}
}

Test(form, a_minus_takes_an_answer_away_and_enter_keeps_it)
{
	static const struct {
		enum question question;
		const char *answer;
	} rows[] = {{ASK_NUMBER, "0014-90001-49"},
		    {ASK_NAME, "Adira"},
		    {ASK_CONTACT, "0088"},
		    {ASK_AGE, "60*"},
		    {ASK_SEX, "2"},
		    {ASK_COMPLAINTS, "12345678"},
		    {ASK_RISKS, "1"},
		    {ASK_PAST_RIGHT, "12"},
		    {ASK_PAST_LEFT, "12"},
		    {ASK_SIGNS_RIGHT, "12"},
		    {ASK_SIGNS_LEFT, "12"},
		    {ASK_PRESSURE_RIGHT, "60"},
		    {ASK_PRESSURE_LEFT, "60"}};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		enum question question = rows[i].question;
		char one[FORM_SHOWN_SIZE], two[FORM_SHOWN_SIZE];
		struct form form, blank;

		form_init(&form, true);
		form_init(&blank, true);
		take(&form, question, rows[i].answer);
		form_show(&form, question, one);
		take(&form, question, "");
		form_show(&form, question, two);
		cr_expect_str_eq(one, two, "row %zu", i);
		cr_expect_str_neq(one, question_table[question].nothing,
				  "row %zu", i);
		take(&form, question, "-");
		form_show(&form, question, one);
		cr_expect_str_eq(one, question_table[question].nothing,
				 "row %zu", i);
		cr_expect_eq(memcmp(&form.visit, &blank.visit,
				    sizeof form.visit),
			     0, "row %zu: something remains", i);
	}
}

Test(form, findings_of_other_questions_stay)
{
	char value[FIELD_TEXT_SIZE];
	struct form form;

	form_init(&form, false);
	take(&form, ASK_COMPLAINTS, "1");
	take(&form, ASK_RISKS, "1");
	take(&form, ASK_PAST_RIGHT, "1");
	take(&form, ASK_PAST_LEFT, "2");
	take(&form, ASK_SIGNS_RIGHT, "1");
	take(&form, ASK_SIGNS_LEFT, "2");
	take(&form, ASK_RISKS, "2");
	take(&form, ASK_PAST_LEFT, "-");
	take(&form, ASK_SIGNS_RIGHT, "3");
	field_write(fields_find(visit_fields, "findings"), &form.visit, value,
		    sizeof value);
	cr_expect_str_eq(value,
			 "eye_pain;long_sighted;right:fixed_pupil;"
			 "right:injury;left:hazy_cornea",
			 "%s", value);
}

Test(form, what_an_answer_makes_pointless_goes_with_it)
{
	struct fault why;
	struct form form;

	form_init(&form, false);
	take(&form, ASK_DEPTH_RIGHT, "x");
	take(&form, ASK_WHY_RIGHT, "2");
	take(&form, ASK_PRESSURE_RIGHT, "18");
	take(&form, ASK_DEPTH_RIGHT, "25");
	cr_expect_eq(form.visit.not_gradable_why_right, FIELD_BLANK);
	cr_expect_not(form.answered[ASK_WHY_RIGHT]);
	cr_expect_eq(form.visit.pressure_right, 18);
	take(&form, ASK_DEPTH_RIGHT, "x");
	cr_expect_eq(form.visit.not_gradable_why_right, FIELD_BLANK);
	/* An eye that was measured is there; a measure taken away is none. */
	cr_expect_not(form_answer(&form, ASK_DEPTH_RIGHT, "-", &why));
	cr_expect_eq(form.visit.depth_right, DEPTH_NOT_GRADABLE);
	cr_expect_eq(form.visit.pressure_right, 18);
	take(&form, ASK_PRESSURE_RIGHT, "-");
	take(&form, ASK_DEPTH_RIGHT, "-");
	cr_expect_not(form.answered[ASK_PRESSURE_RIGHT]);
	take(&form, ASK_DEPTH_LEFT, "x");
	take(&form, ASK_WHY_LEFT, "1");
	take(&form, ASK_SIGNS_LEFT, "1");
	cr_expect_not(form_answer(&form, ASK_DEPTH_LEFT, "-", &why));
	take(&form, ASK_SIGNS_LEFT, "-");
	take(&form, ASK_DEPTH_LEFT, "-");
	cr_expect_eq(form.visit.not_gradable_why_left, FIELD_BLANK);
	cr_expect_eq(form.visit.depth_right, DEPTH_NO_EYE);
	/* One kept with both shows both, so that either can be mended. */
	form.visit.pressure_left = 21;
	cr_expect(form_asks(&form, ASK_PRESSURE_LEFT));
}
