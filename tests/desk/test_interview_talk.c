/* Tests of desk/interview: what stands on the screen meanwhile. */
#include "scene.h"

/* Keeps somebody in the register; the record comes back with its number. */
static void
keep(struct scene *scene, const char *name, const char *sex, const char *age,
     struct visit *kept)
{
	struct decision decision;
	struct fault why = {FAULT_NONE, ""};
	char typed[400];

	snprintf(typed, sizeof typed,
		 "%s\n\n%s\n%s\n\n\n\n\n\n\n100\n100\n16\n17\n1\n\n", name, age,
		 sex);
	cr_assert_eq(scene_play(scene, typed), DIALOG_SAVE, "%s", scene->said);
	*kept = scene->form.visit;
	desk_judge(scene->desk, kept, &decision);
	desk_stamp(scene->desk, kept);
	cr_assert(register_save(&scene->desk->book, kept, "", &why), "%s",
		  why.sentence);
}

/* In the register: a woman of 58, her name with composed letters. */
static const struct {
	const char *typed;
	bool shown;
} twins[] = {
	/* Decomposed letters (U+0301 behind e and a), other case and spaces. */
	{"Zoe\xcc\x81 A\xcc\x81maro\n\n58\n1\n", true},
	{"ZO\xc3\x89  \xc3\x81MARO\n\n58\n1\n", true},
	{"Zo\xc3\xa9 \xc3\x81maro\n\n60\n1\n", true},
	{"Zo\xc3\xa9 \xc3\x81maro\n\n61\n1\n", false},
	{"Zo\xc3\xa9 \xc3\x81maro\n\n\n1\n", true},
	{"Zo\xc3\xa9 \xc3\x81maro\n\n58\n\n", true},
	{"Zo\xc3\xa9 \xc3\x81maro\n\n58\n2\n", false},
	{"Zoe Amaro\n\n58\n1\n", false},
	{"\n\n58\n1\n", false},
};

Test(interview, somebody_perhaps_screened_already_is_shown)
{
	struct scene scene;
	struct visit kept;
	char expected[300], number[REFNUM_SIZE];

	scene_open(&scene);
	keep(&scene, "Zo\xc3\xa9 \xc3\x81maro", "1", "58", &kept);
	refnum_write(kept.number, number);
	snprintf(expected, sizeof expected,
		 "Perhaps the same person, already screened:\n"
		 " %s on 2026-03-10, F 58\n"
		 "  Zo\xc3\xa9 \xc3\x81maro\n"
		 "If so, drop this entry at the end (0), or correct the first "
		 "one.\n\nComplaints\n",
		 number);
	for (size_t i = 0; i < sizeof twins / sizeof twins[0]; i++) {
		scene_play(&scene, twins[i].typed);
		cr_expect_eq(strstr(scene.said, expected) != NULL,
			     twins[i].shown, "row %zu: %s", i, scene.said);
		cr_expect_eq(scene_count(&scene, "Perhaps the same"),
			     twins[i].shown, "row %zu", i);
	}
	scene_close(&scene);
}

Test(interview, a_twin_is_looked_for_on_paper_days_and_after_corrections)
{
	static const char paper[] = "0014-90001-49\nAdira Moru\n\n58\n1\n";
	struct fault why = {FAULT_NONE, ""};
	struct scene scene;
	struct visit kept;
	long long entry;

	scene_open(&scene);
	keep(&scene, "Adira Moru", "1", "58", &kept);
	scene_begin(&scene, true);
	scene_play_bytes(&scene, paper, strlen(paper), false, NULL);
	cr_expect_eq(scene_count(&scene, "Perhaps the same"), 1, "%s",
		     scene.said);
	scene_play(&scene, "Bekuro\n\n58\n1\n\n\n\n\n\n\n100\n100\n16\n17\n1\n"
			   "1\nadira moru\n0\n");
	cr_expect_eq(scene_count(&scene, "Perhaps the same"), 1, "%s",
		     scene.said);
	/* A void entry is nobody's twin. */
	cr_assert(register_find(&scene.desk->book, kept.number, &kept, &entry,
				&why));
	kept.state = STATE_VOID;
	cr_assert(register_revise(&scene.desk->book, &kept, entry,
				  "typed twice", "", &why),
		  "%s", why.sentence);
	scene_play(&scene, "Adira Moru\n\n58\n1\n");
	cr_expect_eq(scene_count(&scene, "Perhaps the same"), 0, "%s",
		     scene.said);
	scene_close(&scene);
}

Test(interview, a_paper_number_of_somebody_is_refused_at_once)
{
	static const char typed[] = "0014-90001-49\nBekuro\n";
	struct scene scene;
	struct visit kept;
	char number[REFNUM_SIZE], again[80], said[120];

	scene_open(&scene);
	scene_begin(&scene, true);
	keep(&scene, "Adira Moru", "1", "58", &kept);
	refnum_write(kept.number, number);
	snprintf(again, sizeof again, "%s\n%s", number, typed);
	snprintf(said, sizeof said,
		 "\nNot taken: '%s' is in the register already: Adira Moru,",
		 number);
	scene_begin(&scene, true);
	scene_play_bytes(&scene, again, strlen(again), false, NULL);
	cr_expect_eq(scene_count(&scene, said), 1, "%s", scene.said);
	cr_expect_eq(scene_count(&scene, "Not taken"), 1, "%s", scene.said);
	cr_expect_eq(scene.form.visit.number.serial, 90001L);
	scene_close(&scene);
}

/* Whole interviews that bring every kind of line onto the screen. */
static const char *const courses[] = {
	/* Help and a refused answer everywhere, then a twin. */
	("?\n=\nAdira Moru\n?\n+4\n\n?\n*\n58\n?\n9\n1\n?\n9\n-\n?\n9\n\n?\n9\n"
	 "\n?\n9\n\n?\n9\n\n?\n9\n\n?\n30\n1\nx\n?\n5\n3\n?\n0,2\n1/4\n?\n0\n12"
	 "\n?\n99\n\n?\n3\n2\n99\n\n"),
	/* Everything found at once. */
	("\n\n\n\n12345678\n12345\n123456\n123456\n123456\n123456\n0\n5\n60\n99"
	 "\n1\n5\n\n6\n\n\n"),
	/* An unknown age, unequal eyes, then one eye that is missing. */
	"\n\n\n\n\n\n\n\n\n\n15\n75\n22\n23\n2\n11\n-\n\n13\n-\n11\n-"
	"\n\n12\n40\n25\n\n",
	/* Nothing refers; a raised pressure asks for another reading. */
	"\n\n58\n1\n\n\n\n\n\n\n75\n40\n22\n22\n2\n\n",
	/* Both not graded, injured. */
	"\n\n70*\n3\n3\n\n1\n2\n\n\nx\n1\nx\n2\n\n\n2\n\n",
};

static void
expect_narrow(const struct scene *scene, size_t course)
{
	char line[2000];

	for (const char *at = scene->said; *at != '\0';) {
		size_t length = strcspn(at, "\n");

		snprintf(line, sizeof line, "%.*s", (int)length, at);
		cr_expect_leq(text_width(line), scene->columns,
			      "course %zu, %d columns: %s", course,
			      text_width(line), line);
		at += length + (at[length] == '\n');
	}
}

Test(interview, nothing_is_wider_than_a_narrow_screen)
{
	struct scene scene;
	struct visit kept;

	scene_open(&scene);
	keep(&scene, "Adira Moru", "1", "58", &kept);
	for (scene.columns = 40; scene.columns <= 80; scene.columns += 20)
		for (size_t i = 0; i < sizeof courses / sizeof courses[0];
		     i++) {
			cr_expect_eq(scene_play(&scene, courses[i]),
				     DIALOG_SAVE, "course %zu: %s", i,
				     scene.said);
			expect_narrow(&scene, i);
			if (i == 0)
				cr_expect_not_null(strstr(scene.said, "Perhaps "
								      "the "
								      "same"));
		}
	scene_close(&scene);
}

/* Printable UTF-8 and line feeds only: no C0 or C1 control, no DEL. */
static void
expect_harmless(const char *said, unsigned seed)
{
	const unsigned char *byte = (const unsigned char *)said;

	cr_expect(text_is_utf8(said, strlen(said)), "seed %u", seed);
	for (; *byte != '\0'; byte++)
		if ((*byte < 0x20 && *byte != '\n') || *byte == 0x7f ||
		    (byte[0] == 0xc2 && byte[1] < 0xa0)) {
			cr_expect(false, "seed %u: byte %02x", seed, *byte);
			return;
		}
}

static unsigned
draw(unsigned *state, unsigned below)
{
	*state = *state * 1664525U + 1013904223U;
	return (*state >> 8) % below;
}

/* Mostly what could be an answer, so that the course gets far; else any byte
 * at all. */
static size_t
draw_bytes(unsigned *state, char *bytes, size_t most)
{
	static const char *const likely[] = {
		"\n",  "\n",	 "\n",	 "\n",	"\n",	 "1\n",	       "2\n",
		"x\n", "25\n",	 "-\n",	 "<\n", "?\n",	 "60*\n",      "12\n",
		"0\n", "14\n",	 "18\n", "3\n", "100\n", "\033[2J\n",  "\r\n",
		"40",  "Adira ", "\x9b", "\0",	"\xc2",	 "\xc2\x9b\n", "\177"};
	size_t used = 0;

	while (used + 16 < most) {
		const char *next =
			likely[draw(state, sizeof likely / sizeof likely[0])];
		size_t length = strlen(next);

		if (draw(state, 12) == 0) {
			bytes[used++] = (char)draw(state, 256);
			continue;
		}
		memcpy(bytes + used, next, length + (length == 0));
		used += length + (length == 0);
	}
	return used;
}

Test(interview, no_typed_byte_reaches_the_screen_as_a_control)
{
	struct scene scene;
	char bytes[700];
	int saved = 0;

	scene_open(&scene);
	for (unsigned seed = 1; seed <= 400; seed++) {
		unsigned state = seed;
		size_t length = draw_bytes(&state, bytes, sizeof bytes);
		struct fault why = {FAULT_NONE, ""};

		scene.columns = 40 + (int)draw(&state, 41);
		scene_begin(&scene, draw(&state, 4) == 0);
		if (scene_play_bytes(&scene, bytes, length,
				     draw(&state, 8) == 0,
				     NULL) == DIALOG_SAVE) {
			/* What is handed over for keeping can be kept. */
			cr_expect(visit_check(&scene.form.visit, &why) &&
					  visit_check_kept(&scene.form.visit,
							   scene.desk->today,
							   &why),
				  "seed %u: %s", seed, why.sentence);
			saved++;
		}
		expect_harmless(scene.said, seed);
	}
	cr_expect_gt(saved, 20, "only %d interviews came to the end", saved);
	scene_close(&scene);
}
