/* Tests of desk/asking: the day, the initials and who was begun. */
#include "scene.h"

#include "desk/asking.h"

/* Plays the bytes into a question; what was said goes to the scene. */
static struct asker
open_asker(struct scene *scene, const char *typed)
{
	struct asker asker = {tmpfile(), NULL, true, 80};
	static size_t size; /* the stream outlives this call */

	free(scene->said);
	scene->said = NULL;
	asker.talk = open_memstream(&scene->said, &size);
	cr_assert(asker.in != NULL && asker.talk != NULL);
	fputs(typed, asker.in);
	rewind(asker.in);
	return asker;
}

static void
close_asker(struct asker *asker)
{
	fclose(asker->in);
	fclose(asker->talk);
}

static struct day
day_of(const char *text)
{
	struct day day = day_none();
	struct fault why;

	cr_assert(text[0] == '\0' || day_read(text, &day, &why), "%s", text);
	return day;
}

/* The clock, the last person's day ("" when nobody is there), what is typed;
 * the day taken, whether it was typed, how the question ended, what was said,
 * and what not. */
static const struct {
	const char *clock, *last, *typed, *day;
	bool given;
	enum ask_result result;
	const char *said, *unsaid;
} days[] = {
	/* Enter is no answer, and the reason is told. */
	{"1995-03-19", "2026-11-25", "\n\n1\n", "1995-03-19", false,
	 ASK_ANSWERED,
	 "The last person here was screened LATER, on Wednesday 25 November "
	 "2026.\nToday is Sunday 19 March 1995. Is that right?\n 1 yes\n 2 "
	 "no\nNumber: \nPlease type 1 or 2.\n",
	 "Number ["},
	{"2026-03-10", "", "1\n", "2026-03-10", false, ASK_ANSWERED,
	 "Nobody is in this register yet", "last person"},
	{"2026-03-10", "2026-02-01", "1\n", "2026-03-10", false, ASK_ANSWERED,
	 "The last person here was screened on Sunday 1 February 2026.\n",
	 "LATER"},
	{"2026-03-10", "", "\n", "2026-03-10", false, ASK_ENDED,
	 "Please type 1 or 2.\n", NULL},
	/* Back and help are no answers. */
	{"2026-03-10", "", "<\n", "2026-03-10", false, ASK_BACK, "Number: <\n",
	 NULL},
	{"2026-03-10", "", "?\n1\n", "2026-03-10", false, ASK_ANSWERED,
	 "look at a phone", "Please"},
	{"2026-03-10", "", "2\n<\n1\n", "2026-03-10", false, ASK_ANSWERED,
	 "YYYY-MM-DD: <\nToday is Tuesday 10 March 2026.", "Not taken"},
	/* A typed day is read back. */
	{"1970-01-01", "", "2\n?\n\n9 March\n2026-03-09\n", "2026-03-09", true,
	 ASK_ANSWERED, "So today is Monday 9 March 2026.\n", NULL},
	{"1970-01-01", "2026-03-08", "2\n2026-03-09\n", "2026-03-09", true,
	 ASK_ANSWERED, "So today is Monday 9 March 2026.\n", NULL},
	/* One that does not fit to the last person's is asked about. */
	{"1970-01-01", "2026-03-08", "2\n2026-03-07\n2\n2026-03-09\n",
	 "2026-03-09", true, ASK_ANSWERED,
	 "2026-03-07\nThe last person here was screened LATER, on Sunday 8 "
	 "March 2026.\nToday is Saturday 7 March 2026. Is that right?\n",
	 "So today is Saturday"},
	{"1970-01-01", "2026-03-08", "2\n2026-03-07\n\n1\n", "2026-03-07", true,
	 ASK_ANSWERED, "Please type 1 or 2.\n", "Number ["},
	{"1970-01-01", "2026-03-08", "2\n2062-03-09\n<\n2026-03-09\n",
	 "2026-03-09", true, ASK_ANSWERED,
	 "Today is Thursday 9 March 2062. Is that right?\n", NULL},
	{"1970-01-01", "2026-03-08", "2\n1970-01-01\n", "1970-01-01", false,
	 ASK_ENDED, "1970-01-01\nThe last person", NULL},
};

Test(asking, a_doubtful_day_is_never_taken_by_enter)
{
	for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
		struct scene scene;
		struct asker asker;
		char day[DAY_SIZE];

		scene_open(&scene);
		scene.desk->today = day_of(days[i].clock);
		scene.desk->today_given = false;
		asker = open_asker(&scene, days[i].typed);
		cr_expect_eq(asking_day(&asker, scene.desk,
					day_of(days[i].last)),
			     days[i].result, "row %zu", i);
		close_asker(&asker);
		day_write(scene.desk->today, day);
		cr_expect_str_eq(day, days[i].day, "row %zu: %s", i,
				 scene.said);
		cr_expect_eq(scene.desk->today_given, days[i].given, "row %zu",
			     i);
		cr_expect_eq(scene_count(&scene, days[i].said), 1,
			     "row %zu: %s", i, scene.said);
		cr_expect(days[i].unsaid == NULL ||
				  scene_count(&scene, days[i].unsaid) == 0,
			  "row %zu: %s", i, scene.said);
		scene_close(&scene);
	}
}

Test(asking, a_clock_that_jumped_is_told_with_the_day_before)
{
	struct scene scene;
	struct asker asker;

	scene_open(&scene);
	scene.desk->today = day_of("2026-03-12");
	asker = open_asker(&scene, "<\n\n2\n2026-03-09\n2\n2026-03-10\n");
	cr_expect(asking_jump(&asker, scene.desk, day_of("2026-03-10")));
	close_asker(&asker);
	cr_expect_eq(scene.desk->today.number, day_of("2026-03-10").number);
	cr_expect_eq(scene_count(&scene, "has jumped: until now it was Tuesday "
					 "10 March 2026."),
		     2, "%s", scene.said);
	cr_expect_eq(scene_count(&scene, "screened LATER, on Tuesday 10"), 1,
		     "%s", scene.said);
	asker = open_asker(&scene, "2\n");
	cr_expect_not(asking_jump(&asker, scene.desk, day_of("2026-03-10")));
	close_asker(&asker);
	scene_close(&scene);
}

Test(asking, the_initials_are_explained_and_can_be_left)
{
	struct session session = {.grader = "NT"};
	struct scene scene;
	struct asker asker;

	scene_open(&scene);
	asker = open_asker(&scene, "?\n<\n");
	cr_expect_eq(asking_grader(&asker, &session), ASK_BACK);
	close_asker(&asker);
	cr_expect_str_eq(session.grader, "NT");
	cr_expect_eq(scene_count(&scene, "up to 12 letters"), 1, "%s",
		     scene.said);
	asker = open_asker(&scene, "KO\n");
	cr_expect_eq(asking_grader(&asker, &session), ASK_ANSWERED);
	close_asker(&asker);
	cr_expect_str_eq(session.grader, "KO");
	scene_close(&scene);
}

/* --- the unfinished person ------------------------------------------------ */

static void
put_aside(struct scene *scene, struct session *session, const char *complaints)
{
	static const enum question asked[] = {ASK_NAME, ASK_AGE,
					      ASK_COMPLAINTS};
	const char *answers[] = {"Ama", "60", complaints};
	const struct refnum none = {0, 0};
	struct fault why = {FAULT_NONE, ""};

	memset(session, 0, sizeof *session);
	session->desk = scene->desk;
	scene->desk->in_is_terminal = true;
	draft_open(&session->draft, scene->desk);
	scene_begin(scene, false);
	for (int i = 0; i < 3; i++)
		cr_assert(form_answer(&scene->form, asked[i], answers[i], &why),
			  "%s", why.sentence);
	draft_keep(&session->draft, &scene->form, none);
	cr_assert(draft_holds(&session->draft));
}

/* Complaints 2: sudden and severe eye pain. `later`: offered the next day. */
static const struct {
	const char *typed, *complaints;
	bool later;
	enum ask_result result;
	bool kept;
	const char *said, *unsaid;
} drafts[] = {
	{"\n", "8", false, ASK_ANSWERED, true, "Ama, age 60", "SEND TODAY"},
	{"\n", "2", false, ASK_ANSWERED, true,
	 "3 answers.\n*** SEND TODAY ***\nsudden and severe eye pain", NULL},
	{"\n", "2", true, ASK_ANSWERED, true,
	 "*** THIS PERSON HAD TO BE SENT ON 2026-03-10 ***\nsudden and severe",
	 "SEND TODAY"},
	{"<\n", "2", false, ASK_BACK, true, "Number [1]: <\n", "ropped"},
	{"?\n1\n", "2", false, ASK_ANSWERED, true, "2 drops the person.\n",
	 "ropped"},
	{"", "2", false, ASK_ENDED, true, "Number [1]: \n", "ropped"},
	/* Dropped only by a question of its own, with the alarm in it. */
	{"2\n\n", "8", false, ASK_ANSWERED, true,
	 "\nDrop this person?\nNothing of it is kept then.\n 1 yes, drop it\n "
	 "0 no, go on\nNumber [0]: \n",
	 "ropped"},
	{"2\n0\n", "2", false, ASK_ANSWERED, true,
	 "Number [1]: 2\n\n*** SEND TODAY ***\nsudden and severe eye pain",
	 "ropped"},
	{"2\n<\n<\n", "2", false, ASK_BACK, true, "Number [0]: <\n", "ropped"},
	{"2\n", "2", false, ASK_ENDED, true, "Number [0]: \n", "ropped"},
	{"2\n1\n", "2", false, ASK_ANSWERED, false,
	 "Dropped; nothing of it was kept.\n", NULL},
};

Test(asking, an_unfinished_person_is_never_dropped_by_enter_or_back)
{
	for (size_t i = 0; i < sizeof drafts / sizeof drafts[0]; i++) {
		struct session session;
		struct scene scene;
		struct asker asker;
		bool found;

		scene_open(&scene);
		put_aside(&scene, &session, drafts[i].complaints);
		scene.desk->today.number += drafts[i].later;
		asker = open_asker(&scene, drafts[i].typed);
		cr_expect_eq(asking_draft(&asker, &session, &scene.form,
					  &found),
			     drafts[i].result, "row %zu", i);
		close_asker(&asker);
		cr_expect_eq(draft_holds(&session.draft), drafts[i].kept,
			     "row %zu: %s", i, scene.said);
		cr_expect(drafts[i].result != ASK_ANSWERED ||
				  found == drafts[i].kept,
			  "row %zu", i);
		cr_expect(scene_count(&scene, drafts[i].said) > 0,
			  "row %zu: %s", i, scene.said);
		cr_expect(drafts[i].unsaid == NULL ||
				  scene_count(&scene, drafts[i].unsaid) == 0,
			  "row %zu: %s", i, scene.said);
		draft_remove(&session.draft);
		draft_close(&session.draft);
		scene_close(&scene);
	}
}

Test(asking, an_unfinished_person_who_cannot_be_read_is_kept_beside)
{
	char kept[DESK_PATH_SIZE + 40];
	struct fault why = {FAULT_NONE, ""};
	struct session session;
	struct scene scene;
	struct asker asker;
	bool found = true;

	scene_open(&scene);
	put_aside(&scene, &session, "2");
	cr_assert(aside_write(&session.draft.aside, "shoal-draft-1\nage=6",
			      &why));
	asker = open_asker(&scene, "");
	cr_expect_eq(asking_draft(&asker, &session, &scene.form, &found),
		     ASK_ANSWERED);
	close_asker(&asker);
	cr_expect_not(found);
	cr_expect_eq(scene_count(&scene, "of before cannot be read:\n"), 1,
		     "%s", scene.said);
	snprintf(kept, sizeof kept, "%s/draft.txt.unread-1",
		 scene.desk->folder);
	cr_expect_eq(unlink(kept), 0, "%s", scene.said);
	draft_close(&session.draft);
	scene_close(&scene);
}

Test(asking, one_begun_under_a_clock_that_was_ahead_counts_for_today)
{
	struct session session;
	struct scene scene;
	struct asker asker;
	bool found;

	scene_open(&scene);
	put_aside(&scene, &session, "8");
	scene.desk->today.number -= 30;
	asker = open_asker(&scene, "\n");
	cr_expect_eq(asking_draft(&asker, &session, &scene.form, &found),
		     ASK_ANSWERED);
	close_asker(&asker);
	cr_expect(found);
	cr_expect_eq(scene.form.visit.screened_on.number,
		     scene.desk->today.number);
	cr_expect_eq(scene_count(&scene, "counts for today, Sunday 8 February "
					 "2026."),
		     1, "%s", scene.said);
	draft_remove(&session.draft);
	draft_close(&session.draft);
	scene_close(&scene);
}
