/* test_angle.c: the class of an angle follows from the quadrants alone. */
#include "clinic/angle.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

/* Percentile limits as a policy might have them. */
static struct policy
policy_with(int quadrants)
{
	static struct policy policy;

	policy_init(&policy);
	policy.hidden_quadrants = quadrants;
	policy.pressure_raised_at_or_above_mmhg = 22;
	policy.cup_abnormal_at_or_above_percent = 80;
	return policy;
}

static int
structure_of(char letter)
{
	static const char letters[] = "0LAPSCxn";
	const char *at = strchr(letters, letter);

	return letter == '.' || at == NULL ? FIELD_BLANK : (int)(at - letters);
}

/*
 * One eye in a word: the deepest structure of the four quadrants (0 none, L
 * Schwalbe's line, A and P anterior and posterior meshwork, S spur, C ciliary
 * body band, x could not see, n not examined, . blank), then synechiae of the
 * four (y n or .), pressure, cup, disc and field (n normal, g glaucoma, x could
 * not see, e not examined, .).
 */
static void
put_eye(struct reply *reply, enum eye eye, const char *word)
{
	static const char healths[] = "ngxe";
	char deepest[5], synechiae[5], pressure[4], cup[4], disc, field;

	cr_assert_eq(sscanf(word, "%4s %4s %3s %3s %c%c", deepest, synechiae,
			    pressure, cup, &disc, &field),
		     6, "%s", word);
	for (int i = 0; i < QUADRANT_COUNT; i++) {
		reply->deepest[eye][i] = structure_of(deepest[i]);
		reply->synechiae[eye][i] = synechiae[i] == 'y'	 ? ANSWER_YES
					   : synechiae[i] == 'n' ? ANSWER_NO
								 : FIELD_BLANK;
	}
	reply->pressure[eye] = pressure[0] == '.'
				       ? FIELD_BLANK
				       : (int)strtol(pressure, NULL, 10);
	reply->cup[eye] = cup[0] == '.' ? FIELD_BLANK
					: (int)strtol(cup, NULL, 10);
	reply->disc[eye] = disc == '.' ? FIELD_BLANK
				       : (int)(strchr(healths, disc) - healths);
	reply->field[eye] = field == '.'
				    ? FIELD_BLANK
				    : (int)(strchr(healths, field) - healths);
}

/* clang-format off */
/*
 * By Foster, Buhrmann, Quigley and Johnson, Br J Ophthalmol 2002;86:238-42: a
 * suspect has an angle in which contact between the peripheral iris and the
 * posterior meshwork is possible; closure adds synechiae or raised pressure;
 * closure glaucoma adds glaucoma to closure. Two or three quadrants is the
 * policy's choice. The rows are our own.
 */
static const struct {
	const char *eye;
	enum angle_class two[2], three[2]; /* least, most */
} rows[] = {
	/* All known. */
	{"CCCC nnnn 16 40 nn", {ANGLE_OPEN, ANGLE_OPEN},
		{ANGLE_OPEN, ANGLE_OPEN}},
	{"PPPP nnnn 16 40 nn", {ANGLE_OPEN, ANGLE_OPEN},
		{ANGLE_OPEN, ANGLE_OPEN}},
	{"APPP yyyy 40 90 gg", {ANGLE_OPEN, ANGLE_OPEN},
		{ANGLE_OPEN, ANGLE_OPEN}},
	{"ALPP nnnn 16 40 nn", {ANGLE_SUSPECT, ANGLE_SUSPECT},
		{ANGLE_OPEN, ANGLE_OPEN}},
	{"A0LP nnnn 16 40 nn", {ANGLE_SUSPECT, ANGLE_SUSPECT},
		{ANGLE_SUSPECT, ANGLE_SUSPECT}},
	{"0000 nnnn 21 40 nn", {ANGLE_SUSPECT, ANGLE_SUSPECT},
		{ANGLE_SUSPECT, ANGLE_SUSPECT}},
	{"0000 nnnn 22 40 nn", {ANGLE_CLOSURE, ANGLE_CLOSURE},
		{ANGLE_CLOSURE, ANGLE_CLOSURE}},
	{"0000 nynn 16 40 nn", {ANGLE_CLOSURE, ANGLE_CLOSURE},
		{ANGLE_CLOSURE, ANGLE_CLOSURE}},
	{"0000 nynn 16 40 gn",
		{ANGLE_CLOSURE_GLAUCOMA, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_CLOSURE_GLAUCOMA, ANGLE_CLOSURE_GLAUCOMA}},
	{"0000 nnnn 30 40 ng",
		{ANGLE_CLOSURE_GLAUCOMA, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_CLOSURE_GLAUCOMA, ANGLE_CLOSURE_GLAUCOMA}},
	{"0000 nnnn 30 80 nn",
		{ANGLE_CLOSURE_GLAUCOMA, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_CLOSURE_GLAUCOMA, ANGLE_CLOSURE_GLAUCOMA}},
	{"0000 nnnn 30 79 ..", {ANGLE_CLOSURE, ANGLE_CLOSURE},
		{ANGLE_CLOSURE, ANGLE_CLOSURE}},
	/* Glaucoma without closure is no closure glaucoma. */
	{"0000 nnnn 16 90 gg", {ANGLE_SUSPECT, ANGLE_SUSPECT},
		{ANGLE_SUSPECT, ANGLE_SUSPECT}},
	/* What is not known may be either. */
	{".... .... . . ..", {ANGLE_OPEN, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_OPEN, ANGLE_CLOSURE_GLAUCOMA}},
	{"PPP. .... . . ..", {ANGLE_OPEN, ANGLE_OPEN},
		{ANGLE_OPEN, ANGLE_OPEN}},
	{"PPxn .... . . ..", {ANGLE_OPEN, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_OPEN, ANGLE_OPEN}},
	{"PAxP nnnn 16 40 nn", {ANGLE_OPEN, ANGLE_SUSPECT},
		{ANGLE_OPEN, ANGLE_OPEN}},
	{"AA.. nnnn 16 40 nn", {ANGLE_SUSPECT, ANGLE_SUSPECT},
		{ANGLE_OPEN, ANGLE_SUSPECT}},
	{"AAAA nnn. 16 40 nn", {ANGLE_SUSPECT, ANGLE_CLOSURE},
		{ANGLE_SUSPECT, ANGLE_CLOSURE}},
	{"AAAA nnnn . 40 nn", {ANGLE_SUSPECT, ANGLE_CLOSURE},
		{ANGLE_SUSPECT, ANGLE_CLOSURE}},
	{"AAAA yxx. . . nn", {ANGLE_CLOSURE, ANGLE_CLOSURE},
		{ANGLE_CLOSURE, ANGLE_CLOSURE}},
	{"AAAA y... . . .n", {ANGLE_CLOSURE, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_CLOSURE, ANGLE_CLOSURE_GLAUCOMA}},
	{"AAAA y... . . xe", {ANGLE_CLOSURE, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_CLOSURE, ANGLE_CLOSURE_GLAUCOMA}},
	{"AAAA y... . . ne", {ANGLE_CLOSURE, ANGLE_CLOSURE},
		{ANGLE_CLOSURE, ANGLE_CLOSURE}},
	{"AAAA .... . . g.", {ANGLE_SUSPECT, ANGLE_CLOSURE_GLAUCOMA},
		{ANGLE_SUSPECT, ANGLE_CLOSURE_GLAUCOMA}},
};
/* clang-format on */

static void
expect_class(const struct reply *reply, const struct policy *policy,
	     const enum angle_class wanted[2], const char *what)
{
	for (int eye = 0; eye < EYE_COUNT; eye++) {
		struct angle angle = angle_of_eye(reply, (enum eye)eye, policy,
						  ANGLE_AS_SEEN);

		cr_expect(angle.least == wanted[0] && angle.most == wanted[1],
			  "%s: from %s to %s", what, angle_code(angle.least),
			  angle_code(angle.most));
		cr_expect_eq(angle_class(&angle),
			     wanted[0] == wanted[1] ? wanted[0]
						    : ANGLE_NOT_DERIVABLE,
			     "%s", what);
		cr_expect_eq(angle_is_closed(&angle),
			     wanted[0] > ANGLE_OPEN    ? KNOWN_YES
			     : wanted[1] == ANGLE_OPEN ? KNOWN_NO
						       : KNOWN_NOT,
			     "%s", what);
	}
}

Test(angle, the_class_follows_from_the_quadrants_and_the_policy)
{
	struct policy two = policy_with(2), three = policy_with(3);

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct reply reply;

		reply_init(&reply);
		put_eye(&reply, EYE_RIGHT, rows[i].eye);
		put_eye(&reply, EYE_LEFT, rows[i].eye);
		expect_class(&reply, &two, rows[i].two, rows[i].eye);
		expect_class(&reply, &three, rows[i].three, rows[i].eye);
	}
}

/* A normal disc settles glaucoma until somebody says otherwise. */
static bool
is_settled(const struct angle *angle, const char *name)
{
	return angle->glaucoma != KNOWN_NOT &&
	       (strncmp(name, "cup_", 4) == 0 ||
		strncmp(name, "disc_", 5) == 0 ||
		strncmp(name, "field_", 6) == 0);
}

/* Every answer filled in for a blank one leads to a class between the two. */
Test(angle, an_answer_added_later_stays_between_least_and_most)
{
	static const char *const later[] = {"0000 yyyy 40 90 gg",
					    "CCCC nnnn 10 10 nn",
					    "0CAP nyny 40 10 ng",
					    "PP00 nnnn 10 90 gn"};
	struct policy policy = policy_with(2);

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		for (size_t j = 0; j < sizeof later / sizeof later[0]; j++) {
			struct reply reply, full;
			struct angle before, after;

			reply_init(&reply);
			reply_init(&full);
			put_eye(&reply, EYE_RIGHT, rows[i].eye);
			put_eye(&full, EYE_RIGHT, later[j]);
			before = angle_of_eye(&reply, EYE_RIGHT, &policy,
					      ANGLE_AS_SEEN);
			for (size_t k = 0; k < reply_fields.count; k++) {
				const struct field *one =
					&reply_fields.field[k];
				char text[FIELD_TEXT_SIZE];
				struct fault why;

				if (!field_is_blank(one, &reply) ||
				    is_settled(&before, one->name))
					continue;
				field_write(one, &full, text, sizeof text);
				if (text[0] != '\0')
					cr_assert(field_read(one, text, &reply,
							     &why));
			}
			after = angle_of_eye(&reply, EYE_RIGHT, &policy,
					     ANGLE_AS_SEEN);
			cr_expect(after.least >= before.least &&
					  after.most <= before.most,
				  "%s with %s", rows[i].eye, later[j]);
		}
}

Test(angle, the_worse_eye_is_the_persons)
{
	/* clang-format off */
	static const struct {
		const char *right, *left;
		enum angle_class class;
		enum known closed;
	} people[] = {
		{"CCCC nnnn 16 40 nn", "AAAP nnnn 16 40 nn", ANGLE_SUSPECT,
			KNOWN_YES},
		{"AAAP nynn 16 40 nn", "CCCC nnnn 16 40 nn", ANGLE_CLOSURE,
			KNOWN_YES},
		{"CCCC nnnn 16 40 nn", "CCCC nnnn 16 40 nn", ANGLE_OPEN,
			KNOWN_NO},
		/* Nothing is worse than closure glaucoma. */
		{"AAAP nynn 16 40 gn", ".... .... . . ..",
			ANGLE_CLOSURE_GLAUCOMA, KNOWN_YES},
		{"AAAP nnnn 16 40 nn", ".... .... . . ..",
			ANGLE_NOT_DERIVABLE, KNOWN_YES},
		{"CCCC nnnn 16 40 nn", ".... .... . . ..",
			ANGLE_NOT_DERIVABLE, KNOWN_NOT},
	};
	/* clang-format on */
	struct policy policy = policy_with(2);

	for (size_t i = 0; i < sizeof people / sizeof people[0]; i++)
		for (int turn = 0; turn < 2; turn++) {
			struct reply reply;
			struct angle angle;

			reply_init(&reply);
			put_eye(&reply, turn == 0 ? EYE_RIGHT : EYE_LEFT,
				people[i].right);
			put_eye(&reply, turn == 0 ? EYE_LEFT : EYE_RIGHT,
				people[i].left);
			angle = angle_of_person(&reply, &policy, ANGLE_AS_SEEN);
			cr_expect_eq(angle_class(&angle), people[i].class,
				     "row %zu", i);
			cr_expect_eq(angle_is_closed(&angle), people[i].closed,
				     "row %zu", i);
		}
}

Test(angle, structures_taken_as_one_off_change_what_lies_at_the_edge_only)
{
	static const struct {
		char letter;
		bool hidden[3]; /* shallower, as seen, deeper */
	} structures[] = {
		{'0', {true, true, true}},    {'L', {true, true, true}},
		{'A', {true, true, false}},   {'P', {true, false, false}},
		{'S', {false, false, false}}, {'C', {false, false, false}},
	};
	struct policy policy = policy_with(2);

	for (size_t i = 0; i < sizeof structures / sizeof structures[0]; i++)
		for (int shift = -1; shift <= 1; shift++) {
			char word[] = "???? nnnn 16 40 nn";
			struct reply reply;
			struct angle angle;

			memset(word, structures[i].letter, 4);
			reply_init(&reply);
			put_eye(&reply, EYE_LEFT, word);
			angle = angle_of_eye(&reply, EYE_LEFT, &policy,
					     (enum angle_shift)shift);
			cr_expect_eq(angle.hidden,
				     structures[i].hidden[shift + 1] ? 4 : 0,
				     "%c %d", structures[i].letter, shift);
		}
}

static void
expect_line(const struct policy *policy, const char *eye, const char *wanted)
{
	char line[600] = "";
	FILE *out = fmemopen(line, sizeof line, "w");
	struct reply reply;

	reply_init(&reply);
	put_eye(&reply, EYE_RIGHT, eye);
	angle_write(&reply, EYE_RIGHT, policy, out);
	fclose(out);
	cr_expect_str_eq(line, wanted, "%s", line);
}

Test(angle, the_line_says_from_what_and_by_which_rule)
{
	static const char rule[] = "; rule: hidden in 2 or more, pressure "
				   "raised from 22 mmHg, cup abnormal from 80 "
				   "%";
	/* clang-format off */
	static const struct {
		const char *eye, *line;
	} lines[] = {
		{"CCCP nnnn 16 40 nn", "right eye: open: posterior meshwork "
			"hidden in 0 of 4 quadrants"},
		{"CCCP nnnn 16 40 gn", "right eye: open: posterior meshwork "
			"hidden in 0 of 4 quadrants, no synechiae, pressure "
			"16 mmHg, glaucoma of disc or field"},
		{"AALP nnnn 16 40 nn", "right eye: suspect of angle closure: "
			"posterior meshwork hidden in 3 of 4 quadrants, no "
			"synechiae, pressure 16 mmHg, disc without glaucoma"},
		{"AALx ynnn 26 40 ..", "right eye: angle closure: "
			"posterior meshwork hidden in 3 of 3 quadrants, 1 "
			"quadrant not known, synechiae, pressure 26 mmHg, "
			"raised, disc without glaucoma"},
		{"AA00 .... . . ..", "right eye: not derivable, at least "
			"suspect of angle closure, at most angle-closure "
			"glaucoma: posterior meshwork hidden in 4 of 4 "
			"quadrants, synechiae not known, pressure not known, "
			"disc not known"},
		{".... nnnn 16 . n.", "right eye: not derivable, at least "
			"open, at most suspect of angle closure: 4 quadrants "
			"not known, no synechiae, pressure 16 mmHg, disc "
			"without glaucoma"},
	};
	/* clang-format on */
	struct policy policy = policy_with(2);
	char wanted[700];

	for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
		snprintf(wanted, sizeof wanted, "%s%s", lines[i].line, rule);
		expect_line(&policy, lines[i].eye, wanted);
	}
	policy.pressure_raised_at_or_above_mmhg = FIELD_BLANK;
	policy.cup_abnormal_at_or_above_percent = FIELD_BLANK;
	expect_line(&policy, "AALP nnnn 46 90 nn",
		    "right eye: suspect of angle closure: posterior meshwork "
		    "hidden in 3 of 4 quadrants, no synechiae, no limit for "
		    "the pressure, disc without glaucoma; rule: hidden in 2 "
		    "or more");
	policy.hidden_quadrants = FIELD_BLANK;
	expect_line(&policy, "AALP nnnn 46 90 nn",
		    "right eye: not derivable: the policy has no [gonioscopy] "
		    "hidden_quadrants");
}
