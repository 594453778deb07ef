/* Tests of desk/prompts: nobody who was begun is lost at the prompts. */
#include "scene.h"

#include "desk/prompts.h"

#include <sys/stat.h>

/* Sudden and severe eye pain; then "<" from the risks to the menu. */
#define BEGUN "Ama\nvillage\n60\n1\n2\n"
#define TO_THE_MENU "<\n<\n<\n<\n<\n<\n"
/* Enter keeps what is there; then the rest, up to the summary. */
#define THE_REST "\n\n\n\n\n\n\n\n\n\n100\n100\n16\n17\n1\n"

/* What is typed; how many are then in the register; what was said, and what
 * not; the fault at the end, or NULL. */
static const struct {
	const char *typed;
	int saved;
	const char *said, *unsaid, *why;
} rows[] = {
	/* The menu goes on with whoever was begun, by Enter and by "<". */
	{BEGUN TO_THE_MENU "\n" THE_REST "\n<\n3\n", 1,
	 "*** SEND TODAY ***\nsudden and severe eye pain", "ropped", NULL},
	{BEGUN TO_THE_MENU "<\n" THE_REST "\n<\n3\n", 1,
	 " 1 go on with this person\n 2 another grader\n 3 finish\n 5 drop "
	 "this person\n",
	 "ropped", NULL},
	{BEGUN TO_THE_MENU "?\n4\n1\n" THE_REST "\n<\n3\n", 1,
	 "Please type 1, 2, 3 or 5.\n", "ropped", NULL},
	/* Another grader examines the same person. */
	{BEGUN TO_THE_MENU "2\n?\nKO\n" THE_REST "\n<\n3\n", 1,
	 "=== Unfinished person (grader KO);", "ropped", NULL},
	{BEGUN TO_THE_MENU "2\n<\n" THE_REST "\n<\n3\n", 1,
	 "=== Unfinished person (grader NT);", "ropped", NULL},
	/* Dropped only after a question of its own. */
	{BEGUN TO_THE_MENU "5\n\n" THE_REST "\n<\n3\n", 1,
	 "Drop this person?\n", "ropped", NULL},
	{BEGUN TO_THE_MENU "5\n<\n" THE_REST "\n<\n3\n", 1, "Drop this",
	 "ropped", NULL},
	{BEGUN TO_THE_MENU "5\n1\n<\n3\n", 0,
	 "Dropped; nothing of it was kept.\n\n=== Next person", NULL, NULL},
	/* So is whoever has come to the summary. */
	{BEGUN "\n\n\n\n\n100\n100\n16\n17\n1\n0\n\n\n<\n3\n", 1,
	 "*** SEND TODAY ***\nsudden and severe eye pain", "ropped", NULL},
	{BEGUN "\n\n\n\n\n100\n100\n16\n17\n1\n0\n<\n\n<\n3\n", 1,
	 " 1 yes, drop it\n 0 no, go on\n", "ropped", NULL},
	{BEGUN "\n\n\n\n\n100\n100\n16\n17\n1\n0\n1\n<\n3\n", 0,
	 "Dropped; nothing of it was kept.\n", NULL, NULL},
	/* Where no draft can be kept, finishing is asked about. */
	{BEGUN TO_THE_MENU "3\n\n" THE_REST "\n<\n3\n", 1,
	 "This person is not saved, and cannot\nbe kept for the next start.\n",
	 "ropped", NULL},
	{BEGUN TO_THE_MENU "3\n1\n", 0,
	 "The unfinished person was not kept.\n"
	 "*** SEND TODAY ***\n",
	 NULL, NULL},
	/* The input ends within a person. */
	{BEGUN TO_THE_MENU, 0, "Number [1]: \n", NULL,
	 "the input ended in the middle of a person, who was not kept"},
	{BEGUN TO_THE_MENU "5\n", 0, "Number [0]: \n", NULL,
	 "the input ended in the middle of a person, who was not kept"},
	{BEGUN TO_THE_MENU "2\n", 0, "initials", NULL,
	 "the input ended in the middle of a person, who was not kept"},
	{"<\n", 0,
	 " 1 next person\n 2 another grader\n 3 finish\nNumber [1]: "
	 "\n",
	 "drop", NULL},
	/* The last one is taken back while another is begun, who stays. */
	{"\n\n58\n1\n\n\n\n\n\n\n100\n100\n16\n17\n1\n\n" BEGUN TO_THE_MENU
	 "4\n?\n<\n" TO_THE_MENU "4\n1\n" THE_REST "\n<\n3\n",
	 2, "Nothing was taken back.\n", "ropped", NULL},
};

static char *
play(struct scene *scene, const char *typed, bool *done, struct fault *why)
{
	struct desk *desk = scene->desk;
	struct asker asker = {tmpfile(), NULL, true, 40};
	struct session session = {.desk = desk, .site = "Mavi school"};
	char *said = NULL;
	size_t size;

	session.day = desk->today;
	snprintf(session.grader, sizeof session.grader, "NT");
	draft_none(&session.draft);
	asker.talk = open_memstream(&said, &size);
	cr_assert(asker.in != NULL && asker.talk != NULL);
	fputs(typed, asker.in);
	rewind(asker.in);
	desk->talk = asker.talk;
	desk->columns = 40;
	cr_assert(session_count(&session, why), "%s", why->sentence);
	*done = prompts_screen(&session, &asker, NULL, why);
	fclose(asker.in);
	fclose(asker.talk);
	return said;
}

static bool
count_one(void *count, const struct visit *visit, const char *reason,
	  struct fault *why)
{
	(void)visit;
	(void)reason;
	(void)why;
	++*(int *)count;
	return true;
}

Test(prompts, nobody_who_was_begun_is_lost_by_enter_or_back)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why = {FAULT_NONE, ""};
		struct scene scene;
		int saved = 0;
		bool done;

		scene_open(&scene);
		scene.said = play(&scene, rows[i].typed, &done, &why);
		cr_expect_eq(done, rows[i].why == NULL, "row %zu: %s", i,
			     scene.said);
		cr_expect_str_eq(why.sentence,
				 rows[i].why == NULL ? "" : rows[i].why,
				 "row %zu", i);
		cr_assert(register_visit_day(&scene.desk->book,
					     scene.desk->today, count_one,
					     &saved, &why));
		cr_expect_eq(saved, rows[i].saved, "row %zu: %s", i,
			     scene.said);
		cr_expect_not_null(strstr(scene.said, rows[i].said),
				   "row %zu: %s", i, scene.said);
		cr_expect(rows[i].unsaid == NULL ||
				  strstr(scene.said, rows[i].unsaid) == NULL,
			  "row %zu: %s", i, scene.said);
		scene_close(&scene);
	}
}
