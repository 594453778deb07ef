/* Tests of desk/changes: why somebody is changed, and who it is. */
#include "scene.h"

#include "desk/changes.h"

/* What is typed at the question for the reason. */
static const struct {
	const char *typed;
	enum changes_reason end;
	const char *reason;
	const char *said; /* some of it */
} typed_rows[] = {
	{"entered twice\n", CHANGES_REASON_GIVEN, "entered twice", "Reason: "},
	{"  a  \n", CHANGES_REASON_GIVEN, "a", ""},
	{"<\n", CHANGES_REASON_BACK, "", ""},
	{" < \n", CHANGES_REASON_BACK, "", ""},
	{"", CHANGES_REASON_NONE, "", ""},
	{"?\n<\n", CHANGES_REASON_BACK, "", "'shoal list' shows it"},
	{"?\ntwice\n", CHANGES_REASON_GIVEN, "twice", "such as"},
	{"\n\n<\n", CHANGES_REASON_BACK, "", "A reason is needed"},
	{"\ntwice\n", CHANGES_REASON_GIVEN, "twice", "A reason is needed"},
	{"a\tb\nab\n", CHANGES_REASON_GIVEN, "ab", "reason: character 2"},
	{"\n", CHANGES_REASON_NONE, "", ""},
};

static void
play(struct scene *scene, const char *typed, char *reason,
     enum changes_reason *end, struct fault *why)
{
	struct given given = {.options = 0};
	struct desk *desk = scene->desk;
	size_t size;

	free(scene->said);
	scene->said = NULL;
	desk->columns = 80;
	desk->in = tmpfile();
	desk->talk = open_memstream(&scene->said, &size);
	cr_assert(desk->in != NULL && desk->talk != NULL);
	fputs(typed, desk->in);
	rewind(desk->in);
	*end = changes_ask_reason(desk, &given, reason, why);
	fclose(desk->in);
	fclose(desk->talk);
}

Test(changes, back_and_help_are_never_a_reason_and_enter_loses_nothing)
{
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof typed_rows / sizeof typed_rows[0]; i++) {
		struct fault why = {FAULT_NONE, ""};
		char reason[CHANGES_REASON_SIZE] = "";
		enum changes_reason end;

		play(&scene, typed_rows[i].typed, reason, &end, &why);
		cr_expect_eq(end, typed_rows[i].end, "row %zu", i);
		cr_expect_str_eq(reason, typed_rows[i].reason, "row %zu", i);
		cr_expect_not_null(strstr(scene.said, typed_rows[i].said),
				   "row %zu: %s", i, scene.said);
		if (end == CHANGES_REASON_NONE)
			cr_expect_str_eq(why.sentence,
					 "a reason is needed; nothing was "
					 "changed",
					 "row %zu", i);
	}
	scene_close(&scene);
}

/* What is given behind --reason. */
static const struct {
	const char *given;
	const char *sentence; /* "" = taken */
} given_rows[] = {
	{"entered twice", ""},
	{"< 15 was read", ""},
	{"why?", ""},
	{"", "a reason is needed; nothing was changed"},
	{"<", "reason: '<' is a key and no reason; nothing was changed"},
	{"?", "reason: '?' is a key and no reason; nothing was changed"},
};

Test(changes, a_reason_on_the_command_line_is_no_key_either)
{
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof given_rows / sizeof given_rows[0]; i++) {
		struct fault why = {FAULT_NONE, ""};
		struct given given = {
			.options = 1,
			.option = {{"reason", given_rows[i].given}}};
		char reason[CHANGES_REASON_SIZE] = "";
		bool taken =
			changes_take_reason(scene.desk, &given, reason, &why);

		cr_expect_eq(taken, given_rows[i].sentence[0] == '\0',
			     "row %zu", i);
		cr_expect_str_eq(reason, taken ? given_rows[i].given : "",
				 "row %zu", i);
		cr_expect_str_eq(why.sentence, given_rows[i].sentence,
				 "row %zu", i);
	}
	scene_close(&scene);
}

/* Elsewhere it may be kept, and read by others. */
Test(changes, a_name_is_said_only_at_a_terminal)
{
	for (int terminal = 0; terminal < 2; terminal++) {
		struct scene scene;
		struct visit visit;
		char *said = NULL;
		size_t size;

		scene_open(&scene);
		visit_init(&visit);
		visit.number = (struct refnum){14, 1};
		text_copy(visit.name, sizeof visit.name, "Adira Moru");
		scene.desk->in_is_terminal = terminal == 1;
		scene.desk->columns = 80;
		scene.desk->talk = open_memstream(&said, &size);
		cr_assert_not_null(scene.desk->talk);
		changes_tell_person(scene.desk, &visit);
		fclose(scene.desk->talk);
		cr_expect_eq(strstr(said, "Adira Moru") != NULL, terminal == 1,
			     "%s", said);
		cr_expect_not_null(strstr(said, "0014-00001-98"), "%s", said);
		free(said);
		scene_close(&scene);
	}
}
