/* Tests of desk/form: the order of the questions, and what is not asked yet. */
#include "desk/form.h"

#include <criterion/criterion.h>
#include <string.h>

/* Letters of the questions, in the order of enum question. */
static const char letters[QUESTION_COUNT + 1] = "#ncaxCRhHsSdwDWpPr";

static const struct {
	bool paper;
	const char *right, *left, *order;
} rows[] = {
	{false, "", "", "ncaxCRhHsSdDpPr"},
	{true, "", "", "#ncaxCRhHsSdDpPr"},
	{false, "x", "40", "ncaxCRhHsSdwDpPr"},
	{false, "15", "x", "ncaxCRhHsSdDWpPr"},
	{false, "x", "x", "ncaxCRhHsSdwDWpPr"},
	{false, "-", "0", "ncaxCRhHsSdDPr"},
	{true, "75", "-", "#ncaxCRhHsSdDpr"},
	{false, "-", "x", "ncaxCRhHsSdDWPr"},
};

Test(form, questions_come_in_order_and_go_back_the_same_way)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		size_t length = strlen(rows[i].order);
		enum question question;
		struct fault why;
		struct form form;

		form_init(&form, rows[i].paper);
		if (rows[i].right[0] != '\0')
			cr_assert(form_answer(&form, ASK_DEPTH_RIGHT,
					      rows[i].right, &why));
		if (rows[i].left[0] != '\0')
			cr_assert(form_answer(&form, ASK_DEPTH_LEFT,
					      rows[i].left, &why));
		question = form_first(&form);
		for (size_t j = 0; j < length; j++) {
			cr_assert_neq(question, QUESTION_COUNT, "row %zu", i);
			cr_expect_eq(letters[question], rows[i].order[j],
				     "row %zu: %c", i, letters[question]);
			cr_expect(form_asks(&form, question), "row %zu", i);
			question = form_next(&form, question);
		}
		cr_expect_eq(question, QUESTION_COUNT, "row %zu", i);
		question = ASK_CONSENT;
		for (size_t j = length; j-- > 0;) {
			cr_expect_eq(letters[question], rows[i].order[j],
				     "row %zu, back: %c", i, letters[question]);
			question = form_back(&form, question);
		}
		cr_expect_eq(question, form_first(&form), "row %zu", i);
	}
}

/* The codes not asked yet, as they would be written. */
static void
expect_unasked(const struct form *form, const char *person, const char *right,
	       const char *left, const char *when)
{
	static const char *const names[] = {"person", "right", "left"};
	const char *expected[] = {person, right, left};
	struct findings unasked;
	finding_set sets[3];
	char text[1000];

	form_unasked(form, &unasked);
	sets[0] = unasked.person;
	sets[1] = unasked.eye[EYE_RIGHT];
	sets[2] = unasked.eye[EYE_LEFT];
	for (int i = 0; i < 3; i++) {
		finding_set_write(sets[i], text, sizeof text);
		cr_expect_str_eq(text, expected[i], "%s, %s: %s", when,
				 names[i], text);
	}
}

#define COMPLAINTS                                              \
	"eye_pain,severe_eye_pain,nausea,haloes,blurred_sight," \
	"past_spells,sudden_sight_loss,headache"
#define RISKS                                                       \
	"family_closure,long_sighted,needs_dilating,risk_medicine," \
	"new_medicine"
#define SIGNS                                                         \
	"red_eye,hazy_cornea,fixed_pupil,odd_pupil,blood_in_chamber," \
	"reduced_sight"
#define PAST                                                          \
	"injury,eye_operation,artificial_lens,iridotomy,past_attack," \
	"not_seeing"

Test(form, findings_are_unasked_until_their_question_is_answered)
{
	struct fault why;
	struct form form;

	form_init(&form, false);
	expect_unasked(&form, COMPLAINTS "," RISKS, SIGNS "," PAST,
		       SIGNS "," PAST, "at first");
	cr_assert(form_answer(&form, ASK_COMPLAINTS, "1", &why));
	expect_unasked(&form, RISKS, SIGNS "," PAST, SIGNS "," PAST,
		       "complaints");
	cr_assert(form_answer(&form, ASK_RISKS, "", &why));
	cr_expect_not(form_answer(&form, ASK_PAST_RIGHT, "9", &why));
	expect_unasked(&form, "", SIGNS "," PAST, SIGNS "," PAST,
		       "a refused answer is none");
	cr_assert(form_answer(&form, ASK_PAST_RIGHT, "-", &why));
	cr_assert(form_answer(&form, ASK_SIGNS_LEFT, "2", &why));
	expect_unasked(&form, "", SIGNS, PAST, "both eyes");
	cr_assert(form_answer(&form, ASK_PAST_LEFT, "", &why));
	cr_assert(form_answer(&form, ASK_SIGNS_RIGHT, "", &why));
	expect_unasked(&form, "", "", "", "at last");
}

Test(form, a_kept_person_has_been_asked_all_that_applies)
{
	struct visit visit;
	struct form form;
	struct fault why;

	visit_init(&visit);
	visit.depth_right = DEPTH_NO_EYE;
	visit.depth_left = DEPTH_40;
	form_load(&form, &visit);
	for (int i = 0; i < QUESTION_COUNT; i++)
		cr_expect_eq(form.answered[i],
			     i != ASK_NUMBER && i != ASK_WHY_RIGHT &&
				     i != ASK_WHY_LEFT &&
				     i != ASK_PRESSURE_RIGHT,
			     "question %d", i);
	expect_unasked(&form, "", "", "", "loaded");
	cr_assert(form_answer(&form, ASK_DEPTH_LEFT, "x", &why));
	cr_expect(form_asks(&form, ASK_WHY_LEFT));
	cr_expect_not(form.answered[ASK_WHY_LEFT], "the reason is open");
}
