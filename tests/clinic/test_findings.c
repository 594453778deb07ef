/* test_findings.c: symptoms and signs are read by code, each on its side. */
#include "clinic/findings.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

/* One finding somewhere: of the person, of the right or of the left eye. */
struct place {
	enum finding finding;
	enum eye eye;
};

enum { PLACES_MOST = 64, WRITTEN_SIZE = 2000 };

/* Every place where a finding may be typed; returns how many. */
static int
list_places(struct place *place)
{
	int count = 0;

	for (int i = 0; i < FINDING_COUNT; i++) {
		enum finding finding = (enum finding)i;

		if (finding_group(finding) == GROUP_DERIVED)
			continue;
		place[count++] = (struct place){finding, EYE_RIGHT};
		if (finding_is_of_eye(finding))
			place[count++] = (struct place){finding, EYE_LEFT};
	}
	return count;
}

static void
write_place(struct place place, char *text, size_t size)
{
	snprintf(text, size, "%s%s",
		 !finding_is_of_eye(place.finding) ? ""
		 : place.eye == EYE_RIGHT	   ? "right:"
						   : "left:",
		 finding_code(place.finding));
}

static bool
same(const struct findings *one, const struct findings *other)
{
	return one->person == other->person &&
	       one->eye[EYE_RIGHT] == other->eye[EYE_RIGHT] &&
	       one->eye[EYE_LEFT] == other->eye[EYE_LEFT];
}

Test(findings, every_one_and_every_pair_is_written_as_it_is_read)
{
	struct place place[PLACES_MOST];
	int count = list_places(place);
	char first[80], second[80], text[200], written[WRITTEN_SIZE];

	cr_expect_eq(count, 13 + 2 * 12, "13 of the person, 12 of each eye");
	for (int i = 0; i < count; i++)
		for (int j = 0; j < count; j++) {
			struct findings expected = {0}, read, again;
			struct fault why = {0};

			findings_add(&expected, place[i].finding, place[i].eye);
			findings_add(&expected, place[j].finding, place[j].eye);
			write_place(place[i], first, sizeof first);
			write_place(place[j], second, sizeof second);
			snprintf(text, sizeof text, "%s%s%s", first,
				 i == j ? "" : ";", i == j ? "" : second);
			cr_expect(findings_read(text, &read, &why), "%s: %s",
				  text, why.sentence);
			cr_expect(same(&read, &expected), "%s", text);
			findings_write(&read, written, sizeof written);
			cr_expect(findings_read(written, &again, &why),
				  "%s: %s", written, why.sentence);
			cr_expect(same(&again, &expected), "%s", written);
		}
}

Test(findings, all_of_them_fit_and_stand_in_the_order_of_the_table)
{
	struct place place[PLACES_MOST];
	int count = list_places(place);
	struct findings all = {0}, read;
	char written[WRITTEN_SIZE];
	struct fault why;

	for (int i = 0; i < count; i++)
		findings_add(&all, place[i].finding, place[i].eye);
	findings_write(&all, written, sizeof written);
	cr_expect(findings_read(written, &read, &why));
	cr_expect(same(&read, &all));
	findings_read("left:red_eye, right:injury ,nausea;eye_pain", &read,
		      &why);
	findings_write(&read, written, sizeof written);
	cr_expect_str_eq(written, "eye_pain;nausea;right:injury;left:red_eye");
	findings_read("", &read, &why);
	findings_write(&read, written, sizeof written);
	cr_expect_str_eq(written, "");
}

Test(findings, severe_pain_records_pain_too)
{
	struct findings read;
	struct fault why;

	cr_expect(findings_read("severe_eye_pain", &read, &why));
	cr_expect_eq(read.person,
		     finding_bit(SEVERE_EYE_PAIN) | finding_bit(EYE_PAIN));
	cr_expect(findings_read("eye_pain", &read, &why));
	cr_expect_eq(read.person, finding_bit(EYE_PAIN));
	for (int i = 0; i < FINDING_COUNT; i++) {
		struct findings one = {0};
		finding_set all;

		findings_add(&one, (enum finding)i, EYE_LEFT);
		all = one.person | one.eye[EYE_RIGHT] | one.eye[EYE_LEFT];
		if (i != SEVERE_EYE_PAIN)
			cr_expect_eq(all, finding_bit((enum finding)i),
				     "%s implies nothing",
				     finding_code((enum finding)i));
		cr_expect_eq(one.eye[EYE_RIGHT], 0, "row %d: other side", i);
	}
}

Test(findings, an_eye_is_the_only_seeing_one_when_the_other_does_not_see)
{
	static const struct {
		const char *text;
		bool right, left; /* is that eye the only seeing one? */
	} rows[] = {
		{"", false, false},
		{"right:red_eye;left:injury", false, false},
		{"left:not_seeing", true, false},
		{"right:not_seeing", false, true},
		{"right:not_seeing;left:not_seeing", true, true},
	};
	finding_set only = finding_bit(ONLY_SEEING_EYE);

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct findings read;
		struct fault why;
		finding_set right, left;

		cr_assert(findings_read(rows[i].text, &read, &why));
		right = findings_at_eye(&read, EYE_RIGHT);
		left = findings_at_eye(&read, EYE_LEFT);
		cr_expect_eq((right & only) != 0, rows[i].right, "row %zu", i);
		cr_expect_eq((left & only) != 0, rows[i].left, "row %zu", i);
		cr_expect_eq(right & ~only, read.person | read.eye[EYE_RIGHT],
			     "row %zu", i);
		cr_expect_eq(left & ~only, read.person | read.eye[EYE_LEFT],
			     "row %zu", i);
	}
	cr_expect_eq(eye_other(EYE_RIGHT), EYE_LEFT);
	cr_expect_eq(eye_other(EYE_LEFT), EYE_RIGHT);
}

/* clang-format off */
static const struct {
	const char *text, *sentence;
} refused[] = {
	{"eye_pian", "'eye_pian' is not a finding; did you mean 'eye_pain'?"},
	{"Nausea", "'Nausea' is not a finding; did you mean 'nausea'?"},
	{"halos", "'halos' is not a finding; did you mean 'haloes'?"},
	{"right:redeye", "'redeye' is not a finding; did you mean 'red_eye'?"},
	{"severe_pain_eye", "'severe_pain_eye' is not a finding; 'shoal help "
		"findings' lists them all"},
	{"eye pain", "'eye pain' is not a finding; did you mean 'eye_pain'?"},
	{"glasses", "'glasses' is not a finding; 'shoal help findings' lists "
		"them all"},
	{"none", "'none' is not a finding; 'shoal help findings' lists them "
		"all"},
	{"right:", "'' is not a finding; 'shoal help findings' lists them "
		"all"},
	{"\x1b[2J\x1b[2J\x1b[2J", "'?[2J?[2J?[2J' is not a finding; 'shoal "
		"help findings' lists them all"},
	{"red_eye", "'red_eye' belongs to one eye; write right:red_eye or "
		"left:red_eye"},
	{"nausea;injury", "'injury' belongs to one eye; write right:injury or "
		"left:injury"},
	{"right:eye_pain", "'right:eye_pain' is asked of the person, not of "
		"one eye; write eye_pain"},
	{"left:family_closure", "'left:family_closure' is asked of the "
		"person, not of one eye; write family_closure"},
	{"Right:red_eye", "'Right:red_eye' is not a finding; 'shoal help "
		"findings' lists them all"},
	{"right:left:red_eye", "'left:red_eye' is not a finding; 'shoal help "
		"findings' lists them all"},
	{"only_seeing_eye", "'only_seeing_eye' is never typed; record "
		"not_seeing for the other eye"},
	{"right:only_seeing_eye", "'only_seeing_eye' is never typed; record "
		"not_seeing for the other eye"},
	{"nausea;;haloes", "an item of the list is empty; write codes with "
		"one separator between them"},
	{";nausea", "an item of the list is empty; write codes with one "
		"separator between them"},
	{" ", "an item of the list is empty; write codes with one separator "
		"between them"},
	{"nausea;", "the list ends with a separator"},
	{"nausea,", "the list ends with a separator"},
	{"nausea haloes", "'nausea haloes' is not a finding; 'shoal help "
		"findings' lists them all"},
	{"nausea_nausea_nausea_nausea_nausea_nausea_nausea_nausea_nausea_na",
		"'nausea_nausea_nausea_nausea_nausea_nause' is too long to be "
		"a finding"},
};
/* clang-format on */

Test(findings, what_is_no_finding_is_refused_with_what_was_meant)
{
	for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
		struct findings read = {7, {7, 7}};
		struct fault why = {0};

		cr_expect(!findings_read(refused[i].text, &read, &why),
			  "row %zu: %s", i, refused[i].text);
		cr_expect_str_eq(why.sentence, refused[i].sentence, "row %zu",
				 i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect(read.person == 7 && read.eye[0] == 7 &&
				  read.eye[1] == 7,
			  "row %zu: left alone", i);
	}
}

Test(findings, a_letter_dropped_from_any_code_is_guessed_and_never_taken)
{
	for (int i = 0; i < FINDING_COUNT; i++) {
		const char *code = finding_code((enum finding)i);
		size_t length = strlen(code);
		char typed[80], meant[80];

		snprintf(meant, sizeof meant, "did you mean '%s'?", code);
		for (size_t at = 0; at < length; at++) {
			finding_set set = 0;
			struct fault why = {0};

			snprintf(typed, sizeof typed, "%.*s%s", (int)at, code,
				 code + at + 1);
			cr_expect(!finding_set_read(typed, &set, &why), "%s",
				  typed);
			cr_expect_not_null(strstr(why.sentence, meant),
					   "%s: %s", typed, why.sentence);
		}
	}
}

Test(findings, lists_of_a_policy_have_no_sides)
{
	/* NULL = read; then as written */
	static const struct {
		const char *text, *sentence, *written;
	} rows[] = {
		{"", NULL, ""},
		{"red_eye", NULL, "red_eye"},
		{" red_eye , eye_pain ", NULL, "eye_pain,red_eye"},
		{"only_seeing_eye", NULL, "only_seeing_eye"},
		{"right:red_eye",
		 "'right:red_eye' names a side; a rule is tried on each eye by "
		 "itself, so write red_eye",
		 NULL},
		{"red_eye,red_eye", "'red_eye' stands twice in the list", NULL},
		{"red_eye,", "the list ends with a comma", NULL},
		{"red_eye,,injury",
		 "an item of the list is empty; write codes with one separator "
		 "between them",
		 NULL},
		{"red_eye;injury",
		 "'red_eye;injury' is not a finding; 'shoal help findings' "
		 "lists them all",
		 NULL},
		{"redeye", "'redeye' is not a finding; did you mean 'red_eye'?",
		 NULL},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		finding_set set = 7;
		struct fault why = {0};
		char written[WRITTEN_SIZE];

		cr_expect_eq(finding_set_read(rows[i].text, &set, &why),
			     rows[i].sentence == NULL, "row %zu: %s", i,
			     why.sentence);
		if (rows[i].sentence != NULL) {
			cr_expect_str_eq(why.sentence, rows[i].sentence,
					 "row %zu", i);
			cr_expect_eq(set, 7, "row %zu: left alone", i);
			continue;
		}
		finding_set_write(set, written, sizeof written);
		cr_expect_str_eq(written, rows[i].written, "row %zu", i);
	}
}

Test(findings, the_table_is_sound)
{
	finding_set seen = 0, symptoms = findings_symptoms();
	char written[WRITTEN_SIZE];

	for (int group = 0; group < GROUP_COUNT; group++) {
		finding_set set = findings_of_group((enum finding_group)group);

		cr_expect_eq(seen & set, 0, "group %d overlaps", group);
		seen |= set;
	}
	cr_expect_eq(seen, ((finding_set)1 << FINDING_COUNT) - 1);
	cr_expect_eq(findings_of_group(GROUP_DERIVED),
		     finding_bit(ONLY_SEEING_EYE));
	finding_set_write(symptoms, written, sizeof written);
	cr_expect_str_eq(written, "eye_pain,severe_eye_pain,nausea,haloes,"
				  "blurred_sight,"
				  "past_spells,sudden_sight_loss");
	for (int i = 0; i < FINDING_COUNT; i++) {
		const char *code = finding_code((enum finding)i);

		cr_expect_eq(strspn(code, "abcdefghijklmnopqrstuvwxyz_"),
			     strlen(code), "%s", code);
		cr_expect_gt(strlen(finding_about((enum finding)i)), 3, "%s",
			     code);
		for (int j = 0; j < i; j++)
			cr_expect_str_neq(code, finding_code((enum finding)j));
	}
}
