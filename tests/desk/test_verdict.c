/* Tests of desk/verdict: what is said while a person is being entered. */
#include "scene.h"

#include "desk/verdict.h"

struct step {
	enum question question;
	const char *answer;
};

enum { STEPS = 18 };

/* Answers given so far; the kind; what the head and the rest must hold. */
static const struct {
	struct step step[STEPS];
	bool all; /* and Enter for every other question */
	enum verdict_kind kind;
	const char *head, *rest;
} rows[] = {
	{{{ASK_NAME, "Adira"}},
	 false,
	 VERDICT_OPEN,
	 "No decision yet",
	 "Still missing: phone, age,"},
	/* One healthy eye, or two, say nothing yet. */
	{{{ASK_DEPTH_RIGHT, "100"}},
	 false,
	 VERDICT_OPEN,
	 "No decision yet",
	 "left depth"},
	{{{ASK_DEPTH_RIGHT, "100"}, {ASK_DEPTH_LEFT, "100"}},
	 false,
	 VERDICT_OPEN,
	 "No decision yet",
	 "right signs"},
	{{{ASK_DEPTH_RIGHT, "15"}},
	 false,
	 VERDICT_OPEN,
	 "No decision yet",
	 NULL},
	{{{ASK_AGE, "66"}, {ASK_DEPTH_RIGHT, "15"}, {ASK_DEPTH_LEFT, "25"}},
	 false,
	 VERDICT_SO_FAR,
	 "So far: ROUTINE: refer within 30 days",
	 "Still missing: name, phone, sex"},
	{{{ASK_COMPLAINTS, "7"}},
	 false,
	 VERDICT_TODAY,
	 "*** SEND TODAY ***  Arrange transport now",
	 "send now, with someone"},
	/* Certain although the other eye is still to come. */
	{{{ASK_COMPLAINTS, "1"}, {ASK_SIGNS_LEFT, "1"}},
	 false,
	 VERDICT_TODAY,
	 "*** SEND TODAY ***",
	 NULL},
	{{{ASK_DEPTH_RIGHT, "100"}, {ASK_PRESSURE_RIGHT, "45"}},
	 false,
	 VERDICT_TODAY,
	 "*** SEND TODAY ***",
	 NULL},
	/* Two warning symptoms, but the depths may be anything. */
	{{{ASK_COMPLAINTS, "34"}},
	 false,
	 VERDICT_OPEN,
	 "No decision yet",
	 NULL},
	{{{ASK_DEPTH_RIGHT, "100"},
	  {ASK_DEPTH_LEFT, "100"},
	  {ASK_CONSENT, "1"}},
	 true,
	 VERDICT_WHOLE,
	 "NO REFERRAL: screen again in 24 months",
	 "Policy not yet approved"},
	{{{ASK_AGE, "70"},
	  {ASK_DEPTH_RIGHT, "0"},
	  {ASK_DEPTH_LEFT, "100"},
	  {ASK_CONSENT, "1"}},
	 true,
	 VERDICT_WHOLE,
	 "URGENT: refer within 7 days",
	 "Right eye: "},
	{{{ASK_COMPLAINTS, "1"},
	  {ASK_SIGNS_LEFT, "1"},
	  {ASK_DEPTH_RIGHT, "40"},
	  {ASK_DEPTH_LEFT, "40"},
	  {ASK_CONSENT, "1"}},
	 true,
	 VERDICT_WHOLE,
	 "*** SEND TODAY: same-day referral ***",
	 "Left eye: "},
	{{{ASK_DEPTH_RIGHT, "-"}, {ASK_DEPTH_LEFT, "-"}, {ASK_CONSENT, "1"}},
	 true,
	 VERDICT_REFUSED,
	 "This cannot be saved yet",
	 "both eyes are marked -"},
	{{{ASK_DEPTH_RIGHT, "-"},
	  {ASK_SIGNS_RIGHT, "1"},
	  {ASK_DEPTH_LEFT, "40"},
	  {ASK_CONSENT, "1"}},
	 true,
	 VERDICT_REFUSED,
	 "This cannot be saved yet",
	 "signs are recorded for it"},
	{{{ASK_DEPTH_RIGHT, "-"}, {ASK_DEPTH_LEFT, "100"}, {ASK_CONSENT, "1"}},
	 true,
	 VERDICT_WHOLE,
	 "NO REFERRAL",
	 "mark it"},
};

static void
fill(struct form *form, const struct step *step, bool all)
{
	struct fault why = {FAULT_NONE, ""};

	for (int i = 0; i < STEPS && step[i].answer != NULL; i++)
		cr_assert(form_answer(form, step[i].question, step[i].answer,
				      &why),
			  "%s", why.sentence);
	for (int i = 0; all && i < QUESTION_COUNT; i++)
		if (!form->answered[i] && form_asks(form, (enum question)i))
			cr_assert(form_answer(form, (enum question)i, "", &why),
				  "%s", why.sentence);
}

Test(verdict, nobody_is_called_well_before_all_is_asked)
{
	struct scene scene;

	scene_open(&scene);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char head[300] = "", rest[2000] = "";
		struct verdict verdict;
		FILE *out;

		scene_begin(&scene, false);
		fill(&scene.form, rows[i].step, rows[i].all);
		verdict_reach(scene.desk, &scene.form, &verdict);
		cr_expect_eq(verdict.kind, rows[i].kind, "row %zu: %d", i,
			     verdict.kind);
		out = fmemopen(head, sizeof head, "w");
		verdict_write_head(scene.desk, &verdict, out);
		fclose(out);
		out = fmemopen(rest, sizeof rest, "w");
		if (verdict.kind != VERDICT_OPEN &&
		    verdict.kind != VERDICT_REFUSED)
			verdict_write_instructions(scene.desk,
						   &verdict.decision, 80, out);
		verdict_write_rest(scene.desk, &scene.form, &verdict, 80, out);
		fclose(out);
		cr_expect_eq(strncmp(head, rows[i].head, strlen(rows[i].head)),
			     0, "row %zu: %s", i, head);
		cr_expect_null(strchr(head, '\n'), "row %zu: %s", i, head);
		cr_expect_leq(strlen(head), 80U, "row %zu: %s", i, head);
		if (rows[i].rest != NULL)
			cr_expect_not_null(strstr(rest, rows[i].rest),
					   "row %zu: %s", i, rest);
		/* Asking changes nothing in the form. */
		cr_expect_eq(scene.form.visit.urgency, FIELD_BLANK, "row %zu",
			     i);
	}
	scene_close(&scene);
}

/* With any one question left open. */
Test(verdict, relief_comes_with_the_last_answer_only)
{
	struct scene scene;

	scene_open(&scene);
	for (int last = ASK_NAME; last < QUESTION_COUNT; last++) {
		static const struct step well[STEPS] = {{ASK_AGE, "58"},
							{ASK_DEPTH_RIGHT, "10"
									  "0"},
							{ASK_DEPTH_LEFT, "75"},
							{ASK_CONSENT, "1"}};
		struct verdict verdict;

		scene_begin(&scene, false);
		fill(&scene.form, well, true);
		if (!form_asks(&scene.form, (enum question)last))
			continue;
		scene.form.answered[last] = false;
		verdict_reach(scene.desk, &scene.form, &verdict);
		cr_expect_eq(verdict.kind, VERDICT_OPEN, "question %d", last);
		scene.form.answered[last] = true;
		verdict_reach(scene.desk, &scene.form, &verdict);
		cr_expect_eq(verdict.kind, VERDICT_WHOLE, "question %d", last);
	}
	scene_close(&scene);
}
