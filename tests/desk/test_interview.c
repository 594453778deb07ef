/* Tests of desk/interview: a person's form, asked line by line. */
#include "scene.h"

/* Answers in the order of the questions: name, contact, age, sex, complaints,
 * risks, history right and left, signs right and left, depths, pressures,
 * consent, and the Enter that saves. */
static const char well[] = "\n\n58\n1\n\n\n\n\n\n\n100\n100\n16\n17\n1\n\n";

Test(interview, a_person_with_nothing_to_find_costs_at_most_30_keys)
{
	struct scene scene;
	const struct visit *visit = &scene.form.visit;
	long left;

	scene_open(&scene);
	scene_begin(&scene, false);
	cr_expect_leq(strlen(well), 30U, "%zu keys", strlen(well));
	cr_expect_eq(scene_play_bytes(&scene, well, strlen(well), false, &left),
		     DIALOG_SAVE);
	cr_expect_eq(left, 0L);
	cr_expect_str_eq(visit->name, "");
	cr_expect_eq(visit->age_years, 58);
	cr_expect_eq(visit->age_estimated, ANSWER_NO);
	cr_expect_eq(visit->sex, SEX_F);
	cr_expect_eq(visit->depth_right, DEPTH_100);
	cr_expect_eq(visit->depth_left, DEPTH_100);
	cr_expect_eq(visit->pressure_right, 16);
	cr_expect_eq(visit->pressure_left, 17);
	cr_expect_eq(visit->reply_consent, ANSWER_YES);
	cr_expect_eq(visit->urgency, URGENCY_NO_REFERRAL);
	cr_expect_eq(scene_count(&scene, "SEND TODAY"), 0);
	cr_expect_eq(scene_count(&scene, "\nNO REFERRAL: screen again in 24 "
					 "months\n"),
		     1);
	scene_close(&scene);
}

/* What is typed; between the titles of which two questions it is announced. */
static const struct {
	const char *typed, *behind, *before;
} urgent[] = {
	{"\n\n58\n1\n1\n\n\n\n1\n\n100\n100\n\n\n1\n\n", "\nRIGHT eye, signs\n",
	 "\nLEFT eye, signs\n"},
	{"\n\n58\n1\n1\n\n\n\n\n1\n100\n100\n\n\n1\n\n", "\nLEFT eye, signs\n",
	 "\nRIGHT eye, depth in %"},
	{"\n\n58\n1\n\n\n\n\n\n\n100\n100\n45\n17\n1\n\n",
	 "\nRIGHT eye, pressure", "\nLEFT eye, pressure"},
	{"\n\n58\n1\n\n\n\n\n\n\n100\n100\n\n40\n1\n\n", "\nLEFT eye, pressure",
	 "\nMay the clinic write back to you\n"},
	{"\n\n58\n1\n7\n\n\n\n\n\n100\n100\n\n\n1\n\n", "\nComplaints\n",
	 "\nRisks\n"},
	{"\n\n\n\n2\n\n\n\n12\n1\n0\n0\n60\n60\n1\n\n", "\nComplaints\n",
	 "\nRisks\n"},
	{"\n\n58\n1\n34\n\n\n\n\n\n25\n100\n\n\n1\n\n",
	 "\nRIGHT eye, depth in %", "\nLEFT eye, depth in %"},
	{"\n\n58\n1\n34\n\n\n\n\n\n100\nx\n1\n\n\n1\n\n",
	 "\nLEFT eye, depth in %", "\nLEFT eye, why not graded\n"},
};

Test(interview, who_must_go_today_is_announced_once_and_at_once)
{
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof urgent / sizeof urgent[0]; i++) {
		const char *told, *behind, *before, *summary;

		cr_expect_eq(scene_play(&scene, urgent[i].typed), DIALOG_SAVE,
			     "row %zu", i);
		cr_expect_eq(scene_count(&scene, "\n*** SEND TODAY ***\n"), 1,
			     "row %zu", i);
		told = strstr(scene.said, "\n*** SEND TODAY ***\n");
		behind = strstr(scene.said, urgent[i].behind);
		before = strstr(scene.said, urgent[i].before);
		summary = strstr(scene.said, "\n*** SEND TODAY: same-day "
					     "referral ***\n");
		cr_assert(told && behind && before && summary, "row %zu: %s", i,
			  scene.said);
		cr_expect(behind < told && told < before && before < summary,
			  "row %zu: %s", i, scene.said);
		cr_expect_eq(scene.form.visit.urgency, URGENCY_SAME_DAY,
			     "row %zu", i);
	}
	/* Not before it is certain, and again when it was taken back. */
	scene_play(&scene, "\n\n58\n1\n34\n\n\n\n\n\n100\n100\n\n\n1\n\n");
	cr_expect_eq(scene_count(&scene, "SEND TODAY"), 0);
	scene_play(&scene, "\n\n58\n1\n7\n<\n-\n\n\n\n\n\n100\n100\n45\n\n1\n"
			   "\n");
	cr_expect_eq(scene_count(&scene, "*** SEND TODAY ***"), 2, "%s",
		     scene.said);
	scene_close(&scene);
}

Test(interview, the_summary_shows_answers_decision_and_reasons)
{
	static const char answers[] =
		"\n--- Summary ---\n"
		" 1 Name: Adira Moru\n 2 Phone or village: none\n 3 Age: 64*\n"
		" 4 Sex: F\n 5 Complaints: headache, long-standing, alone\n"
		" 6 Risks: none\n 7 RIGHT eye, history: none\n"
		" 8 LEFT eye, history: none\n 9 RIGHT eye, signs: none\n"
		"10 LEFT eye, signs: none\n11 RIGHT eye, depth in %: 15\n"
		"12 LEFT eye, depth in %: x\n"
		"13 LEFT eye, why not graded: could not keep still\n"
		"14 RIGHT eye, pressure in mmHg: not measured\n"
		"15 LEFT eye, pressure in mmHg: 17\n"
		"16 May the clinic write back to you: yes\n\n"
		"ROUTINE: refer within 30 days, by Thursday 9 April 2026\n"
		"Policy not yet approved by an eye doctor.\n";
	static const char *const rules[] = {"shallow", "could-not-be-graded"};
	const char *at;
	struct scene scene;

	scene_open(&scene);
	cr_expect_eq(scene_play(&scene, "Adira Moru\n\n64*\nf\n8\n\n\n\n\n\n15"
					"\nx\n3\n\n17\nyes\n\n"),
		     DIALOG_SAVE);
	at = strstr(scene.said, answers);
	cr_assert_not_null(at, "%s", scene.said);
	for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
		const struct rule *rule =
			policy_rule(&scene.desk->policy, rules[i]);
		char reason[RULE_SAY_SIZE + 40];

		cr_assert_not_null(rule);
		snprintf(reason, sizeof reason, "\n - %s eye: %.20s",
			 i == 0 ? "Right" : "Left",
			 policy_say(&scene.desk->policy, rule));
		cr_expect_not_null(strstr(at, reason), "%s", reason);
	}
	cr_expect_not_null(strstr(at, "\nEnter saves, 0 drops the person,\n"));
	scene_close(&scene);
}

/* What is typed at the summary of the person above, whom nothing refers. */
static const struct {
	const char *typed;
	enum dialog_end end;
	const char *column, *value, *said;
} corrections[] = {
	{"3\n70\n\n", DIALOG_SAVE, "age_years", "70", "\n 3 Age: 70\n"},
	{"1\nBekuro\n\n", DIALOG_SAVE, "name", "Bekuro", NULL},
	{"3\n\n\n", DIALOG_SAVE, "age_years", "58", "Age [58]: \n"},
	{"3\n<\n\n", DIALOG_SAVE, "age_years", "58", NULL},
	{"3\n130\n70\n\n", DIALOG_SAVE, "age_years", "70",
	 "\nNot taken: 130 is out of range; allowed are 0 to 120 "
	 "years\n"},
	{"<\n2\n\n", DIALOG_SAVE, "reply_consent", "no", NULL},
	{"15\n2\n\n", DIALOG_SAVE, "reply_consent", "no", NULL},
	{"11\nx\n2\n\n", DIALOG_SAVE, "not_gradable_why_right", "pterygium",
	 "\nRIGHT eye, why not graded\n"},
	/* A reason that was left open is asked for again before saving. */
	{"11\nx\n<\n\n4\n\n", DIALOG_SAVE, "not_gradable_why_right", "other",
	 NULL},
	{"11\nx\n<\n\n<\n\n3\n\n", DIALOG_SAVE, "not_gradable_why_right",
	 "could_not_keep_still", NULL},
	{"11\nx\n<\n\n", DIALOG_ENDED, "not_gradable_why_right", "", NULL},
	/* The lines are numbered anew: 13 is the left reason, then gone. */
	{"12\nx\n1\n13\n4\n\n", DIALOG_SAVE, "not_gradable_why_left", "other",
	 NULL},
	{"12\nx\n1\n12\n75\n13\n21\n\n", DIALOG_SAVE, "not_gradable_why_left",
	 "", NULL},
	{"12\nx\n1\n12\n75\n13\n21\n\n", DIALOG_SAVE, "pressure_right", "21",
	 NULL},
	/* An eye with a pressure is there. */
	{"11\n-\n\n\n", DIALOG_SAVE, "depth_right", "100",
	 "\nNot taken: - says that there is no eye, but a pressure is "},
	{"13\n-\n11\n-\n\n", DIALOG_SAVE, "depth_right", "-", NULL},
	{"13\n-\n11\n-\n11\n5\n21\n\n", DIALOG_SAVE, "pressure_right", "21",
	 NULL},
	{"9\n1\n13\n-\n11\n-\n\n\n", DIALOG_SAVE, "depth_right", "100",
	 "\nNot taken: - says that there is no eye, but signs are recorded "},
	{"14\n45\n\n", DIALOG_SAVE, "urgency", "same_day",
	 "\n*** SEND TODAY ***\n"},
	{"16\n\n", DIALOG_SAVE, "age_years", "58",
	 "\nType the number of one of the lines above.\n"},
	{"99\n?\nabc\n-1\n19\n00\n\n", DIALOG_SAVE, "age_years", "58",
	 "\nType the number of one of the lines above.\n"},
	{"?\n\n", DIALOG_SAVE, "age_years", "58",
	 "\nEnter saves what stands above. The number of a line asks its "
	 "question again,"},
	{"0\n", DIALOG_DROP, "age_years", "58", NULL},
	{"3\n70\n0\n", DIALOG_DROP, "age_years", "70", NULL},
	{"", DIALOG_ENDED, "age_years", "58", NULL},
	{"3\n", DIALOG_ENDED, "age_years", "58", NULL},
	{"11\nx\n", DIALOG_ENDED, "depth_right", "x", NULL},
};

Test(interview, any_line_of_the_summary_can_be_corrected)
{
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof corrections / sizeof corrections[0]; i++)
		for (int kept = 0; kept < 2; kept++) {
			char typed[400], value[FIELD_TEXT_SIZE];
			enum dialog_end end;

			/* While screening, then as a kept person. */
			snprintf(typed, sizeof typed, "%.*s%s",
				 (int)strlen(well) - 1, well,
				 kept ? "\n" : corrections[i].typed);
			end = scene_play(&scene, typed);
			if (kept) {
				struct visit visit = scene.form.visit;

				form_load(&scene.form, &visit);
				end = scene_play_bytes(
					&scene, corrections[i].typed,
					strlen(corrections[i].typed), true,
					NULL);
			}
			cr_expect_eq(end, corrections[i].end, "row %zu, %d: %s",
				     i, kept, scene.said);
			field_write(fields_find(visit_fields,
						corrections[i].column),
				    &scene.form.visit, value, sizeof value);
			cr_expect_str_eq(value, corrections[i].value,
					 "row %zu, %d: %s", i, kept, value);
			if (corrections[i].said != NULL)
				cr_expect_not_null(
					strstr(scene.said, corrections[i].said),
					"row %zu, %d: %s", i, kept, scene.said);
		}
	scene_close(&scene);
}

Test(interview, two_missing_eyes_can_be_mended_but_not_saved)
{
	struct scene scene;

	scene_open(&scene);
	cr_expect_eq(scene_play(&scene, "\n\n58\n1\n\n\n\n\n\n\n-\n-\n1\n"
					"\n\n12\n40\n18\n\n"),
		     DIALOG_SAVE, "%s", scene.said);
	cr_expect_eq(scene.form.visit.depth_left, DEPTH_40);
	cr_expect_eq(scene.form.visit.pressure_left, 18);
	cr_expect_not_null(strstr(scene.said, "\n12 LEFT eye, depth in %: "
					      "-\n"));
	cr_expect_not_null(strstr(scene.said, "\ndepth_left: both eyes are "
					      "marked -, so "
					      "there is nothing to judge\n"));
	cr_expect_not_null(strstr(scene.said, "no right eye to grade, but it "
					      "is not marked as not seeing"));
	scene_close(&scene);
}

Test(interview, back_at_the_first_question_leaves)
{
	static const struct {
		const char *typed;
		bool paper;
		enum dialog_end end;
	} rows[] = {{"<\n", false, DIALOG_LEAVE},
		    {"<\r\n", false, DIALOG_LEAVE},
		    {"Adira\n<\n<\n", false, DIALOG_LEAVE},
		    {"?\n<\n", false, DIALOG_LEAVE},
		    {"<\n", true, DIALOG_LEAVE},
		    {"\n<\n<\n", true, DIALOG_LEAVE},
		    {"\n\n<\n<\n", true, DIALOG_ENDED},
		    {"", false, DIALOG_ENDED}};
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		scene_begin(&scene, rows[i].paper);
		cr_expect_eq(scene_play_bytes(&scene, rows[i].typed,
					      strlen(rows[i].typed), false,
					      NULL),
			     rows[i].end, "row %zu: %s", i, scene.said);
	}
	scene_close(&scene);
}

/* The whole course with a step back, help and a refused answer, cut off behind
 * every byte: nothing short of the last Enter saves. */
Test(interview, an_end_of_input_never_saves)
{
	static const char typed[] = "Adira\n\n?\nsixty\n60*\n1\n<\n2\n1\n\n\n\n"
				    "\n\nx\n3\n15\n19\n19\n2\n3\n61\n\n";
	struct scene scene;

	scene_open(&scene);
	for (size_t length = 0; length < sizeof typed; length++) {
		scene_begin(&scene, false);
		cr_expect_eq(
			scene_play_bytes(&scene, typed, length, false, NULL),
			length == sizeof typed - 1 ? DIALOG_SAVE : DIALOG_ENDED,
			"%zu bytes", length);
	}
	cr_expect_eq(scene.form.visit.sex, SEX_M);
	cr_expect_eq(scene.form.visit.age_years, 61);
	scene_close(&scene);
}
