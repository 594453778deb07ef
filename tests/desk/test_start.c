/* Tests of desk/run_start: a station set up at the keyboard. */
#include "scene.h"

#include "desk/run.h"

/* What is typed for the clinic's six items, to a station whose code, programme
 * and camp-phone were given as options: the site comes first. */
static const struct {
	const char *typed;
	bool done;
	const char *file; /* a line of station.ini, or the fault */
	const char *said; /* some of it */
} rows[] = {
	{"Mavi school\n\n\n\n\n\n\n\n", true, "site = \"Mavi school\"",
	 "No eye clinic is named in station.ini"},
	{"Mavi school\nRidge\n\n\n\n\n\n\n", true, "name = \"Ridge\"", ""},
	{"?\nMavi school\n?\nRidge\n\n\n\n\n\n\n", true, "name = \"Ridge\"",
	 "The village, school or hall"},
	{"Mavi\n<\nMavi school\nRidge\n\n\n\n\n\n\n", true,
	 "site = \"Mavi school\"", "Site of the camp [Mavi]:"},
	{"\n<\n", false, "no station was set up", "an answer is needed here"},
	{"Mavi\n<\n<\n\nRidge\n\n\n\n\n\n\n", true, "site = \"Mavi\"",
	 "This is the first question"},
	{"=Mavi\nMavi\nRidge\n\n\n\n\n\n\n", true, "site = \"Mavi\"",
	 "Not taken: it may not begin with"},
	{"Mavi\nRi\"dge\nRidge\n\n\n\n\n\n\n", true, "name = \"Ridge\"",
	 "a double quote"},
	{"Mavi\nRidge\nRoad 1\n\n\n\n\n2\nHill\n\n", true, "name = \"Hill\"",
	 " 3 Where the clinic is: Road 1"},
	{"Mavi\nRidge\nRoad 1\n\n\n\n\n3\n-\n\n", true, "address = \"\"",
	 " 3 Where the clinic is: none"},
	{"Mavi\nRidge\n\n\n\n\n\n0\n", false, "no station was set up",
	 "0 drops what was typed"},
	{"Mavi\nRidge\n\n", false, "the input ended; no station was set up",
	 ""},
};

static void
empty_folder(const char *folder)
{
	static const char *const names[] = {"policy.ini", "station.ini",
					    "register.db", "slips", "tallies"};
	char path[DESK_PATH_SIZE + 20];

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		snprintf(path, sizeof path, "%s/%s", folder, names[i]);
		remove(path);
	}
}

static bool
file_says(const char *folder, const char *line)
{
	char path[DESK_PATH_SIZE + 20], text[400];
	bool found = false;
	FILE *file;

	snprintf(path, sizeof path, "%s/station.ini", folder);
	file = fopen(path, "r");
	cr_assert_not_null(file);
	while (fgets(text, sizeof text, file) != NULL) {
		text[strcspn(text, "\n")] = '\0';
		found = found || strcmp(text, line) == 0;
	}
	fclose(file);
	return found;
}

static bool
play(struct scene *scene, const char *typed, struct fault *why)
{
	struct given given = {.options = 3,
			      .option = {{"station", "0014"},
					 {"programme", "Lantern Valley"},
					 {"camp-phone", "0088 1"}}};
	struct desk *desk = scene->desk;
	size_t size;
	bool done;

	free(scene->said);
	scene->said = NULL;
	desk->in_is_terminal = true;
	desk->columns = 80;
	desk->in = tmpfile();
	desk->talk = open_memstream(&scene->said, &size);
	desk->out = fopen("/dev/null", "w");
	cr_assert(desk->in != NULL && desk->talk != NULL && desk->out != NULL);
	fputs(typed, desk->in);
	rewind(desk->in);
	done = run_start(desk, &given, why);
	fclose(desk->in);
	fclose(desk->talk);
	fclose(desk->out);
	return done;
}

Test(start, back_goes_back_help_explains_and_all_is_seen_before_it_is_set_up)
{
	struct scene scene;
	const char *folder;

	scene_open(&scene);
	folder = scene.desk->folder;
	register_close(&scene.desk->book);
	empty_folder(folder);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why = {FAULT_NONE, ""};

		cr_expect_eq(play(&scene, rows[i].typed, &why), rows[i].done,
			     "row %zu: %s%s", i, why.sentence, scene.said);
		if (rows[i].done)
			cr_expect(file_says(folder, rows[i].file), "row %zu",
				  i);
		else
			cr_expect_str_eq(why.sentence, rows[i].file, "row %zu",
					 i);
		cr_expect_not_null(strstr(scene.said, rows[i].said),
				   "row %zu: %s", i, scene.said);
		empty_folder(folder);
	}
	cr_expect_eq(rmdir(folder), 0);
	free(scene.said);
	free(scene.desk);
}
