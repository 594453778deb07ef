/* Tests of desk/session and desk/undo: a day, person after person. */
#include "scene.h"

#include "desk/session.h"
#include "desk/undo.h"

#include <stdint.h>
#include <sys/stat.h>

static const char well[] = "\n\n58\n1\n\n\n\n\n\n\n100\n100\n16\n17\n1\n\n";
static const char pained[] = "Bekuro\n\n71\n2\n1\n\n\n\n1\n\n75\n75\n\n\n1\n\n";

static void
sit_down(struct session *session, struct scene *scene)
{
	struct fault why = {FAULT_NONE, ""};

	scene_open(scene);
	memset(session, 0, sizeof *session);
	session->desk = scene->desk;
	session->day = scene->desk->today;
	session->site = "Mavi school";
	snprintf(session->grader, sizeof session->grader, "NT");
	draft_none(&session->draft);
	cr_assert(session_count(session, &why), "%s", why.sentence);
}

static void
enter(struct session *session, struct scene *scene, const char *typed)
{
	struct fault paper, why = {FAULT_NONE, ""};

	session_begin(session, &scene->form);
	cr_assert_eq(scene_play_bytes(scene, typed, strlen(typed), false, NULL),
		     DIALOG_SAVE);
	cr_assert(session_keep(session, &scene->form.visit, &paper, &why), "%s",
		  why.sentence);
	/* There is no folder for slips, which takes nothing back. */
	cr_expect_eq(paper.kind, FAULT_OUTPUT);
}

static void
expect_counts(const struct session *session, const char *wanted)
{
	char line[120];

	session_write_counts(session, line, sizeof line);
	cr_expect_str_eq(line, wanted);
}

Test(session, the_last_person_is_taken_back_once_and_counted_no_more)
{
	struct fault paper, why = {FAULT_NONE, ""};
	struct session session;
	struct scene scene;
	struct visit visit;
	struct refnum taken;
	long long entry;

	sit_down(&session, &scene);
	cr_expect_not(undo_last(&session, undo_reasons[0], &paper, &why));
	cr_expect_eq(why.kind, FAULT_INPUT);
	enter(&session, &scene, well);
	enter(&session, &scene, pained);
	expect_counts(&session, "2026-03-10: screened 2, referred 1, sent the "
				"same day 1.");
	taken = session.last;
	cr_expect(undo_last(&session, undo_reasons[0], &paper, &why), "%s",
		  why.sentence);
	/* There is no folder for slips, which takes nothing back and is told.
	 */
	cr_expect_eq(paper.kind, FAULT_OUTPUT);
	expect_counts(&session, "2026-03-10: screened 1, referred 0, sent the "
				"same day 0.");
	cr_expect(
		register_find(&scene.desk->book, taken, &visit, &entry, &why));
	cr_expect_eq(visit.state, STATE_VOID);
	cr_expect_eq(visit.late, 0);
	cr_expect_str_eq(visit.name, "Bekuro");
	cr_expect_not(undo_last(&session, undo_reasons[0], &paper, &why), "twic"
									  "e");
	enter(&session, &scene, well);
	cr_expect_eq(session.last.serial, taken.serial + 1);
	expect_counts(&session, "2026-03-10: screened 2, referred 0, sent the "
				"same day 0.");
	scene_close(&scene);
}

Test(session, one_corrected_elsewhere_meanwhile_is_left_alone)
{
	struct fault paper, why = {FAULT_NONE, ""};
	struct session session;
	struct scene scene;
	struct visit visit;
	long long entry;

	sit_down(&session, &scene);
	enter(&session, &scene, well);
	cr_assert(register_find(&scene.desk->book, session.last, &visit, &entry,
				&why));
	visit.state = STATE_CORRECTED;
	visit.age_years = 59;
	cr_assert(register_revise(&scene.desk->book, &visit, entry, "misheard",
				  NULL, &why),
		  "%s", why.sentence);
	cr_expect_not(undo_last(&session, undo_reasons[1], &paper, &why));
	cr_expect_eq(why.kind, FAULT_INPUT);
	scene_close(&scene);
}

/* Whatever another terminal adds, to a day that this one has counted. */
Test(session, two_windows_count_each_others_people)
{
	struct fault why = {FAULT_NONE, ""};
	struct session session, other;
	struct scene scene;
	struct visit visit;
	long long entry;

	sit_down(&session, &scene);
	enter(&session, &scene, well);
	other = session;
	enter(&other, &scene, pained);
	expect_counts(&other, "2026-03-10: screened 2, referred 1, sent the "
			      "same day 1.");
	enter(&session, &scene, well);
	expect_counts(&session, "2026-03-10: screened 3, referred 1, sent the "
				"same day 1.");
	cr_assert(register_find(&scene.desk->book, other.last, &visit, &entry,
				&why));
	visit.state = STATE_VOID;
	cr_assert(register_revise(&scene.desk->book, &visit, entry, "twice",
				  NULL, &why),
		  "%s", why.sentence);
	enter(&session, &scene, well);
	expect_counts(&session, "2026-03-10: screened 3, referred 0, sent the "
				"same day 0.");
	cr_expect_eq(session.newest.serial, 4);
	scene_close(&scene);
}

/* Power that fails between the save and the end of the draft. */
Test(session, a_draft_that_was_saved_after_all_is_recognised)
{
	struct fault why = {FAULT_NONE, ""};
	char words[SESSION_WORDS_SIZE];
	struct refnum before, saved;
	struct session session;
	struct form unsaved;
	struct scene scene;

	sit_down(&session, &scene);
	enter(&session, &scene, pained);
	before = session.newest;
	session_begin(&session, &scene.form);
	cr_assert_eq(scene_play_bytes(&scene, pained, strlen(pained), false,
				      NULL),
		     DIALOG_SAVE);
	unsaved = scene.form;
	cr_expect(session_describe_draft(&session, &unsaved, before, words,
					 &saved, &why));
	cr_expect(refnum_is_none(saved), "somebody alike before is no twin");
	cr_expect_str_eq(words, "An unfinished person of 2026-03-10, grader "
				"NT, is here: Bekuro, age 71, sex M, 15 "
				"answers.");
	cr_assert(session_keep(&session, &scene.form.visit, &why, &why));
	cr_expect(session_describe_draft(&session, &unsaved, before, words,
					 &saved, &why));
	cr_expect_eq(saved.serial, session.last.serial);
	cr_expect_not_null(strstr(words, "as 0014-00002-"), "%s", words);
	unsaved.visit.pressure_left = 15;
	cr_expect(session_describe_draft(&session, &unsaved, before, words,
					 &saved, &why));
	cr_expect(refnum_is_none(saved));
	scene_close(&scene);
}

static const long long one_day = 86400;

/* A clock that stands at another day each time. */
static void
next_day(struct desk *desk)
{
	desk->today.number++;
	desk->seconds += one_day;
}

static void
next_month(struct desk *desk)
{
	desk->today.number += 30;
}

Test(session, the_next_day_is_followed_and_a_jump_is_asked_about)
{
	struct fault why = {FAULT_NONE, ""};
	struct session session;
	struct scene scene;
	struct day before;
	bool moved;

	sit_down(&session, &scene);
	enter(&session, &scene, well);
	cr_expect_not(session_clock_jumped(&session, &before));
	cr_expect(session_follow_day(&session, before, &moved, &why));
	cr_expect_not(moved);
	scene.desk->look_at_clock = next_day;
	cr_expect_not(session_clock_jumped(&session, &before));
	cr_expect(session_follow_day(&session, before, &moved, &why));
	cr_expect(moved);
	expect_counts(&session, "2026-03-11: screened 0, referred 0, sent the "
				"same day 0.");
	scene.desk->look_at_clock = next_month;
	cr_expect(session_clock_jumped(&session, &before));
	/* A paper day stays what it is. */
	session.paper = true;
	cr_expect(session_follow_day(&session, before, &moved, &why));
	cr_expect_not(moved);
	scene_close(&scene);
}

/* A folder stands where the draft would be; screening goes on. */
Test(session, a_draft_that_fails_at_the_prompts_is_told_once)
{
	char path[DESK_PATH_SIZE + 20], *said = NULL;
	struct session session;
	struct scene scene;
	size_t size;

	sit_down(&session, &scene);
	snprintf(path, sizeof path, "%s/draft.txt", scene.desk->folder);
	cr_assert_eq(mkdir(path, 0700), 0);
	scene.desk->in_is_terminal = true;
	draft_open(&session.draft, scene.desk);
	session_begin(&session, &scene.form);
	scene.desk->in =
		fmemopen((void *)(uintptr_t)pained, strlen(pained), "r");
	scene.desk->talk = open_memstream(&said, &size);
	cr_assert(scene.desk->in != NULL && scene.desk->talk != NULL);
	{
		struct asker asker = {scene.desk->in, scene.desk->talk, true,
				      80};

		cr_expect_eq(interview(scene.desk, &asker, &scene.form,
				       &session, false),
			     DIALOG_SAVE);
	}
	fclose(scene.desk->in);
	fclose(scene.desk->talk);
	scene.said = said;
	cr_expect_eq(scene_count(&scene, "is not kept when the power fails"), 1,
		     "%s", said);
	cr_expect_eq(scene_count(&scene, "draft.txt' was not written"), 1);
	draft_close(&session.draft);
	cr_expect_eq(rmdir(path), 0);
	scene_close(&scene);
}
