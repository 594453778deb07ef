/* Tests of desk/placing: where each question stands. */
#include "desk/placing.h"

#include <criterion/criterion.h>
#include <string.h>

/* A form in which every question is asked. */
static void
ask_all(struct form *form)
{
	form_init(form, true);
	form->visit.depth_right = DEPTH_NOT_GRADABLE;
	form->visit.depth_left = DEPTH_NOT_GRADABLE;
}

Test(placing, all_questions_have_room_and_none_lies_on_another)
{
	char taken[PLACING_DECISION][PLACING_COLUMNS + 1];
	struct form form;

	memset(taken, ' ', sizeof taken);
	ask_all(&form);
	for (int i = 0; i < QUESTION_COUNT; i++) {
		struct place place = placing_of(&form, (enum question)i);
		int end = placing_answer(&place) + place.width;

		cr_assert(place.row > PLACING_HEAD &&
				  place.row < PLACING_DECISION,
			  "question %d", i);
		cr_assert_leq(end, PLACING_COLUMNS, "question %d: %d", i, end);
		cr_expect_neq(place.row, (int)PLACING_EYES, "question %d", i);
		cr_expect(place.row < PLACING_BARS ||
				  place.row > PLACING_BARS + 1,
			  "question %d", i);
		for (int column = place.column; column < end; column++) {
			cr_expect_eq(taken[place.row][column], ' ',
				     "question %d, column %d", i, column);
			taken[place.row][column] = '#';
		}
	}
}

Test(placing, the_right_eye_stands_on_the_left)
{
	static const enum question pairs[][2] = {
		{ASK_PAST_RIGHT, ASK_PAST_LEFT},
		{ASK_SIGNS_RIGHT, ASK_SIGNS_LEFT},
		{ASK_DEPTH_RIGHT, ASK_DEPTH_LEFT},
		{ASK_WHY_RIGHT, ASK_WHY_LEFT},
		{ASK_PRESSURE_RIGHT, ASK_PRESSURE_LEFT}};
	struct form form;

	ask_all(&form);
	for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
		struct place right = placing_of(&form, pairs[i][0]);
		struct place left = placing_of(&form, pairs[i][1]);

		cr_expect_eq(right.row, left.row, "row %zu", i);
		cr_expect_lt(right.column, (int)PLACING_HALF, "row %zu", i);
		cr_expect_eq(left.column, right.column + PLACING_HALF,
			     "row %zu", i);
		cr_expect_str_eq(right.label, left.label, "row %zu", i);
	}
}

static const struct {
	enum question from;
	enum placing_way way;
	enum question to;
} ways[] = {
	{ASK_NAME, PLACING_DOWN, ASK_CONTACT},
	{ASK_NAME, PLACING_UP, ASK_NAME},
	{ASK_CONTACT, PLACING_RIGHTWARDS, ASK_AGE},
	{ASK_AGE, PLACING_RIGHTWARDS, ASK_SEX},
	{ASK_SEX, PLACING_RIGHTWARDS, ASK_SEX},
	{ASK_SEX, PLACING_DOWN, ASK_COMPLAINTS},
	{ASK_RISKS, PLACING_DOWN, ASK_PAST_RIGHT},
	{ASK_PAST_RIGHT, PLACING_RIGHTWARDS, ASK_PAST_LEFT},
	{ASK_PAST_LEFT, PLACING_DOWN, ASK_SIGNS_LEFT},
	{ASK_SIGNS_LEFT, PLACING_LEFTWARDS, ASK_SIGNS_RIGHT},
	{ASK_DEPTH_RIGHT, PLACING_RIGHTWARDS, ASK_DEPTH_LEFT},
	{ASK_DEPTH_LEFT, PLACING_DOWN, ASK_PRESSURE_LEFT},
	{ASK_PRESSURE_LEFT, PLACING_UP, ASK_DEPTH_LEFT},
	{ASK_PRESSURE_LEFT, PLACING_DOWN, ASK_CONSENT},
	{ASK_CONSENT, PLACING_DOWN, QUESTION_COUNT},
	{QUESTION_COUNT, PLACING_DOWN, QUESTION_COUNT},
	{QUESTION_COUNT, PLACING_LEFTWARDS, QUESTION_COUNT},
	{QUESTION_COUNT, PLACING_UP, ASK_CONSENT},
};

Test(placing, arrows_go_where_they_point)
{
	struct form form;

	form_init(&form, false);
	for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
		cr_expect_eq(placing_next_to(&form, ways[i].from, ways[i].way),
			     ways[i].to, "row %zu: %d", i,
			     placing_next_to(&form, ways[i].from, ways[i].way));
	/* A reason is on the way only where it is asked. */
	form.visit.depth_right = DEPTH_NOT_GRADABLE;
	cr_expect_eq(placing_next_to(&form, ASK_DEPTH_RIGHT,
				     PLACING_RIGHTWARDS),
		     ASK_WHY_RIGHT);
	form.visit.depth_left = DEPTH_NO_EYE;
	cr_expect_eq(placing_next_to(&form, ASK_DEPTH_LEFT, PLACING_DOWN),
		     ASK_PRESSURE_RIGHT);
}

Test(placing, every_question_is_reached_by_arrows_from_any_other)
{
	struct form form;

	ask_all(&form);
	for (int from = 0; from <= QUESTION_COUNT; from++) {
		bool reached[QUESTION_COUNT + 1] = {false};

		reached[from] = true;
		for (int round = 0; round <= QUESTION_COUNT; round++)
			for (int i = 0; i <= QUESTION_COUNT; i++)
				for (int way = PLACING_UP;
				     reached[i] && way <= PLACING_RIGHTWARDS;
				     way++)
					reached[placing_next_to(
						&form, (enum question)i,
						(enum placing_way)way)] = true;
		for (int i = 0; i <= QUESTION_COUNT; i++)
			cr_expect(reached[i], "from %d to %d", from, i);
	}
}
