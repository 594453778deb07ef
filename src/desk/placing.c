/* placing.c: where each question stands on the screen. */
#include "desk/placing.h"

#include <stdlib.h>
#include <string.h>

enum { BELOW_ALL = 1000, NAME_BESIDE_NUMBER = 30 };

/* clang-format off */
static const struct place places[QUESTION_COUNT] = {
[ASK_NUMBER] = {1, 0, 0, 14, "Paper number"},
[ASK_NAME] = {1, 0, 0, 74, "Name"},
[ASK_CONTACT] = {2, 0, 0, 28, "Phone or village"},
[ASK_AGE] = {2, 47, 0, 9, "Age"},
[ASK_SEX] = {2, 62, 0, 12, "Sex"},
[ASK_COMPLAINTS] = {3, 0, 10, 67, "Complaints"},
[ASK_RISKS] = {4, 0, 10, 67, "Risks"},
[ASK_PAST_RIGHT] = {6, 0, 8, 29, "History"},
[ASK_PAST_LEFT] = {6, PLACING_HALF, 8, 29, "History"},
[ASK_SIGNS_RIGHT] = {7, 0, 8, 29, "Signs"},
[ASK_SIGNS_LEFT] = {7, PLACING_HALF, 8, 29, "Signs"},
[ASK_DEPTH_RIGHT] = {8, 0, 8, 5, "Depth"},
[ASK_WHY_RIGHT] = {8, 15, 0, 20, "why"},
[ASK_DEPTH_LEFT] = {8, PLACING_HALF, 8, 5, "Depth"},
[ASK_WHY_LEFT] = {8, PLACING_HALF + 15, 0, 20, "why"},
[ASK_PRESSURE_RIGHT] = {11, 0, 8, 12, "Pressure"},
[ASK_PRESSURE_LEFT] = {11, PLACING_HALF, 8, 12, "Pressure"},
[ASK_CONSENT] = {12, 0, 0, 5, "May the clinic write back to you"},
};
/* clang-format on */

int
placing_answer(const struct place *place)
{
	int label = (int)strlen(place->label);

	return place->column + 1 + (label < place->pad ? place->pad : label) +
	       1;
}

struct place
placing_of(const struct form *form, enum question question)
{
	struct place place = places[question];

	if (question == ASK_NAME && form->paper) {
		place.column = NAME_BESIDE_NUMBER;
		place.width -= NAME_BESIDE_NUMBER;
	}
	return place;
}

/* How far it is to another question on the way; BELOW_ALL when it is not. */
static int
distance(const struct form *form, const struct place *from,
	 enum question question, enum placing_way way)
{
	struct place to = placing_of(form, question);
	int rows = to.row - from->row, columns = to.column - from->column;

	if (way == PLACING_UP || way == PLACING_LEFTWARDS) {
		rows = -rows;
		columns = -columns;
	}
	if (way == PLACING_UP || way == PLACING_DOWN)
		return rows > 0 ? rows * PLACING_COLUMNS + abs(columns)
				: BELOW_ALL * PLACING_COLUMNS;
	return rows == 0 && columns > 0 ? columns : BELOW_ALL * PLACING_COLUMNS;
}

enum question
placing_next_to(const struct form *form, enum question question,
		enum placing_way way)
{
	struct place from = {BELOW_ALL, 0, 0, 0, ""};
	int nearest = BELOW_ALL * PLACING_COLUMNS;
	enum question next = question;

	if (question != QUESTION_COUNT)
		from = placing_of(form, question);
	else if (way != PLACING_UP)
		return question;
	for (int i = 0; i < QUESTION_COUNT; i++) {
		int far = distance(form, &from, (enum question)i, way);

		if (form_asks(form, (enum question)i) && far < nearest) {
			nearest = far;
			next = (enum question)i;
		}
	}
	return next == question && way == PLACING_DOWN ? QUESTION_COUNT : next;
}
