/* test_lookfor.c: what else an angle asks the examiner to look for. */
#include "clinic/lookfor.h"

#include <criterion/criterion.h>
#include <string.h>

/* Structures of the four quadrants, a letter each: 0-5 from none to the ciliary
 * body band, x could not be seen, . not recorded; S = synechiae there as well.
 */
static void
put(struct reply *reply, enum eye eye, const char *letters)
{
	int i = -1;

	for (; *letters != '\0'; letters++) {
		if (*letters == 'S') {
			reply->synechiae[eye][i] = ANSWER_YES;
			continue;
		}
		i++;
		if (*letters == 'x')
			reply->deepest[eye][i] = STRUCTURE_COULD_NOT_SEE;
		else if (*letters != '.')
			reply->deepest[eye][i] = *letters - '0';
	}
	cr_assert_eq(i, QUADRANT_COUNT - 1);
}

enum { MASS = 1, VESSELS = 2, INJURED = 4, SWELLING = 8 };

/* The patterns are common practice, no source. */
static const struct {
	const char *right, *left;
	bool injury, medicine; /* right eye, person */
	unsigned looks_right, looks_left;
} rows[] = {
	{"....", "....", true, true, 0, 0},
	/* One quadrant narrow; two; one and another not known. */
	{"1444", "4444", false, false, MASS, 0},
	{"4424", "0333", false, false, MASS, MASS},
	{"1144", "4444", false, false, 0, 0},
	{"144x", "144.", false, false, 0, 0},
	{"0000", "2222", false, false, 0, 0},
	/* Synechiae in a wide quadrant, in a narrow one, in one not seen. */
	{"3S444", "4444", false, false, VESSELS, 0},
	{"2S444", "4444", false, false, MASS, 0},
	{"xS444", "44x4S", false, false, 0, VESSELS},
	/* Wide after an injury: only that eye, and only with the band in
	 * sight. */
	{"4445", "5555", true, false, INJURED, 0},
	{"4444", "5555", true, false, 0, 0},
	{"5555", "5555", false, false, 0, 0},
	/* Both eyes narrow and a new medicine. */
	{"0011", "2444", false, true, SWELLING, MASS | SWELLING},
	{"0011", "4444", false, true, 0, 0},
	{"0011", "1111", false, false, 0, 0},
};

Test(lookfor, each_pattern_and_its_neighbours)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct reply reply;
		struct visit visit;

		reply_init(&reply);
		visit_init(&visit);
		put(&reply, EYE_RIGHT, rows[i].right);
		put(&reply, EYE_LEFT, rows[i].left);
		if (rows[i].injury)
			findings_add(&visit.findings, INJURY, EYE_RIGHT);
		if (rows[i].medicine)
			findings_add(&visit.findings, NEW_MEDICINE, EYE_RIGHT);
		cr_expect_eq(look_for(&reply, &visit, EYE_RIGHT),
			     rows[i].looks_right, "row %zu right", i);
		cr_expect_eq(look_for(&reply, &visit, EYE_LEFT),
			     rows[i].looks_left, "row %zu left", i);
	}
}

Test(lookfor, an_iris_far_back_counts_as_wide_after_an_injury)
{
	struct reply reply;
	struct visit visit;

	reply_init(&reply);
	visit_init(&visit);
	findings_add(&visit.findings, INJURY, EYE_LEFT);
	reply.inserts[EYE_LEFT][QUADRANT_NASAL] = INSERTS_FAR_BACK;
	cr_expect_eq(look_for(&reply, &visit, EYE_LEFT), INJURED);
	cr_expect_eq(look_for(&reply, &visit, EYE_RIGHT), 0U);
}

Test(lookfor, words_name_what_to_look_for)
{
	static const char *const words[LOOK_FOR_COUNT] = {
		"mass", "new vessels", "recession", "swollen choroid"};

	for (int i = 0; i < LOOK_FOR_COUNT; i++)
		cr_expect_not_null(strstr(look_for_words((enum look_for)i),
					  words[i]),
				   "%s", words[i]);
}
