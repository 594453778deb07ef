/* Tests of desk/draft: the unfinished person, put aside. */
#include "scene.h"

#include "desk/draft.h"

#include <sys/stat.h>

static void
answer(struct form *form, enum question question, const char *text)
{
	struct fault why = {FAULT_NONE, ""};

	cr_assert(form_answer(form, question, text, &why), "%s", why.sentence);
}

/* Every question answered, as far as `count`. */
static void
fill(struct form *form, int count)
{
	static const char *const answers[QUESTION_COUNT] = {
		[ASK_NUMBER] = "0014-90001-49",
		[ASK_NAME] = "علي 田中 e\u0301",
		[ASK_CONTACT] = "0088 a=b",
		[ASK_AGE] = "60*",
		[ASK_SEX] = "2",
		[ASK_COMPLAINTS] = "18",
		[ASK_RISKS] = "",
		[ASK_PAST_RIGHT] = "3",
		[ASK_PAST_LEFT] = "6",
		[ASK_SIGNS_RIGHT] = "12",
		[ASK_SIGNS_LEFT] = "-",
		[ASK_DEPTH_RIGHT] = "x",
		[ASK_WHY_RIGHT] = "2",
		[ASK_DEPTH_LEFT] = "0",
		[ASK_WHY_LEFT] = "",
		[ASK_PRESSURE_RIGHT] = "19",
		[ASK_PRESSURE_LEFT] = "",
		[ASK_CONSENT] = "2"};

	for (int i = 0; i < count; i++)
		if (form_asks(form, (enum question)i))
			answer(form, (enum question)i, answers[i]);
}

static void
expect_same(const struct form *one, const struct form *other, int row)
{
	char a[FIELD_TEXT_SIZE], b[FIELD_TEXT_SIZE];

	for (size_t i = 0; i < visit_fields.count; i++) {
		field_write(&visit_fields.field[i], &one->visit, a, sizeof a);
		field_write(&visit_fields.field[i], &other->visit, b, sizeof b);
		cr_expect_str_eq(a, b, "row %d: %s", row,
				 visit_fields.field[i].name);
	}
	for (int i = 0; i < QUESTION_COUNT; i++)
		cr_expect_eq(one->answered[i], other->answered[i],
			     "row %d, question %d", row, i);
	cr_expect_eq(one->paper, other->paper, "row %d", row);
}

Test(draft, a_person_comes_back_as_far_as_it_was_answered)
{
	const struct refnum given = {14, 7};
	struct scene scene;
	struct draft draft;

	scene_open(&scene);
	scene.desk->in_is_terminal = true;
	for (int count = 0; count <= QUESTION_COUNT; count++)
		for (int paper = 0; paper < 2; paper++) {
			struct fault why = {FAULT_NONE, ""};
			struct refnum before;
			struct form form;
			bool found;

			scene_begin(&scene, paper != 0);
			fill(&scene.form, count);
			draft_open(&draft, scene.desk);
			draft_keep(&draft, &scene.form, given);
			draft_close(&draft); /* as after a power cut */
			draft_open(&draft, scene.desk);
			cr_expect(draft_find(&draft, &form, &before, &found,
					     &why),
				  "%s", why.sentence);
			cr_expect_eq(found, count > 1 || (paper && count > 0),
				     "row %d", count);
			if (found) {
				expect_same(&scene.form, &form, count);
				cr_expect_eq(before.serial, 7);
			}
			draft_remove(&draft);
			cr_expect(draft_find(&draft, &form, &before, &found,
					     &why));
			cr_expect_not(found, "row %d: it is still there",
				      count);
			draft_close(&draft);
		}
	scene_close(&scene);
}

/* A file with one line changed, and what is said of it. */
static const struct {
	const char *text, *said;
} bad[] = {
	{"shoal-draft-2\nend=yes\n", "it is not whole"},
	{"shoal-draft-1\nname=Adira\n", "it is not whole"},
	{"shoal-draft-1\nend=yes\nname=Adira\n", "it is not whole"},
	{"shoal-draft-1\nname\nend=yes\n", "line 2 is not NAME=VALUE"},
	{"shoal-draft-1\nname=\x1b[31m\nend=yes\n", "line 2: name: "},
	{"shoal-draft-1\npressure_left=100\nend=yes\n", "line 2: "
							"pressure_left: 100 is "
							"out of range"},
	{"shoal-draft-1\nurgency=no_referral\nend=yes\n", "line 2: 'urgency' "
							  "is not a field"},
	{"shoal-draft-1\nanswered=shoe\nend=yes\n", "line 2: 'shoe' is not a "
						    "question"},
	{"shoal-draft-1\nbefore=7\nend=yes\n", "line 2: "},
};

Test(draft, one_that_cannot_be_understood_is_said_and_never_guessed_at)
{
	struct scene scene;
	struct draft draft;

	scene_open(&scene);
	scene.desk->in_is_terminal = true;
	draft_open(&draft, scene.desk);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct fault why = {FAULT_NONE, ""};
		struct refnum before;
		struct form form;
		bool found = true;

		cr_assert(aside_write(&draft.aside, bad[i].text, &why));
		cr_expect_not(draft_find(&draft, &form, &before, &found, &why),
			      "row %zu", i);
		cr_expect_not(found, "row %zu", i);
		cr_expect_not_null(strstr(why.sentence, bad[i].said),
				   "row %zu: %s", i, why.sentence);
	}
	draft_remove(&draft);
	draft_close(&draft);
	scene_close(&scene);
}

/* Under names of their own, and never over another. */
Test(draft, one_that_cannot_be_understood_is_kept_beside)
{
	struct fault why = {FAULT_NONE, ""};
	char kept[2][SAFEFILE_PATH_SIZE], text[ASIDE_TEXT_SIZE];
	const struct refnum none = {0, 0};
	struct scene scene;
	struct draft draft;
	size_t length;

	scene_open(&scene);
	scene.desk->in_is_terminal = true;
	draft_open(&draft, scene.desk);
	for (int i = 0; i < 2; i++) {
		cr_assert(aside_write(&draft.aside, bad[i].text, &why));
		cr_assert(draft_set_by(&draft, kept[i], &why), "%s",
			  why.sentence);
	}
	scene_begin(&scene, false);
	fill(&scene.form, 5);
	draft_keep(&draft, &scene.form, none);
	cr_expect(draft_holds(&draft));
	for (int i = 0; i < 2; i++) {
		cr_expect(safefile_read(kept[i], text, sizeof text, &length,
					FAULT_OUTPUT, &why));
		cr_expect_str_eq(text, bad[i].text);
		cr_expect_eq(unlink(kept[i]), 0);
	}
	draft_remove(&draft);
	/* There is nothing left to be moved. */
	cr_expect_not(draft_set_by(&draft, kept[0], &why));
	cr_expect_eq(why.kind, FAULT_OUTPUT);
	draft_keep(&draft, &scene.form, none);
	cr_expect_not(draft_holds(&draft));
	draft_close(&draft);
	scene_close(&scene);
}

Test(draft, it_is_kept_only_for_a_keyboard_and_by_one_program_at_a_time)
{
	struct draft one, other;
	struct fault trouble;
	struct refnum before;
	struct scene scene;
	struct form form;
	bool found = true;

	scene_open(&scene);
	scene_begin(&scene, false);
	fill(&scene.form, ASK_SEX);
	draft_open(&one, scene.desk);
	draft_keep(&one, &scene.form, (struct refnum){0, 0});
	cr_expect_not(draft_trouble(&one, &trouble));
	draft_close(&one);
	scene.desk->in_is_terminal = true;
	draft_open(&one, scene.desk);
	cr_expect(draft_find(&one, &form, &before, &found, &trouble));
	cr_expect_not(found);
	draft_open(&other, scene.desk);
	draft_keep(&other, &scene.form, (struct refnum){0, 0});
	cr_expect(draft_trouble(&other, &trouble));
	cr_expect_not_null(strstr(trouble.sentence, "another program"));
	cr_expect_not(draft_trouble(&other, &trouble), "told twice");
	draft_remove(&other);
	draft_close(&other);
	cr_expect(draft_find(&one, &form, &before, &found, &trouble));
	cr_expect_not(found);
	draft_close(&one);
	scene_close(&scene);
}

/* A folder stands where the file would be. */
Test(draft, one_that_cannot_be_written_is_told_once)
{
	char path[DESK_PATH_SIZE + 20];
	struct fault trouble;
	struct scene scene;
	struct draft draft;

	scene_open(&scene);
	scene.desk->in_is_terminal = true;
	snprintf(path, sizeof path, "%s/draft.txt", scene.desk->folder);
	cr_assert_eq(mkdir(path, 0700), 0);
	draft_open(&draft, scene.desk);
	scene_begin(&scene, false);
	fill(&scene.form, ASK_SEX);
	for (int i = 0; i < 3; i++) {
		draft_keep(&draft, &scene.form, (struct refnum){0, 0});
		cr_expect_eq(draft_trouble(&draft, &trouble), i == 0, "%d", i);
		cr_expect_not(draft_holds(&draft), "%d", i);
	}
	draft_close(&draft);
	cr_expect_eq(rmdir(path), 0);
	scene_close(&scene);
}
