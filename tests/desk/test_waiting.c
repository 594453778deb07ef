/* test_waiting.c: who was sent to the clinic and has no reply yet. */
#include "desk/waiting.h"

#include "keep/replies.h"
#include "scene.h"

/* Serial by serial: urgency, see_by, void; what the clinic said. */
enum said { NOTHING, SAID, TAKEN_BACK };

static const struct {
	int urgency;
	const char *see_by;
	bool is_void;
	enum said said;
} people[] = {
	{URGENCY_ROUTINE, "2026-04-09", false, NOTHING},
	{URGENCY_NO_REFERRAL, "", false, NOTHING},
	{URGENCY_URGENT, "2026-03-24", false, NOTHING},
	{URGENCY_NO_REFERRAL, "", false, NOTHING}, /* checked: fourth */
	{URGENCY_SAME_DAY, "2026-03-10", true, NOTHING},
	{URGENCY_URGENT, "2026-03-24", false, SAID},
	{URGENCY_SAME_DAY, "2026-03-10", false, NOTHING},
	{URGENCY_NO_REFERRAL, "", false, SAID}, /* checked: eighth */
	{URGENCY_URGENT, "2026-03-24", false, TAKEN_BACK},
	{URGENCY_ROUTINE, "2026-03-30", false, NOTHING}, /* today */
};

enum { PEOPLE = sizeof people / sizeof people[0] };

static void
keep_reply(struct scene *scene, struct refnum number, enum said said)
{
	struct book *book = &scene->desk->book;
	struct reply reply;
	struct fault why;
	long long entry;

	reply_init(&reply);
	reply.number = number;
	reply.outcome = OUTCOME_ATTENDED;
	reply.seen_on = scene->desk->today;
	cr_assert(register_save_reply(book, &reply, scene->desk->today, &why),
		  "%s", why.sentence);
	if (said != TAKEN_BACK)
		return;
	cr_assert(register_find_reply(book, number, &reply, &entry, &why));
	reply.state = STATE_VOID;
	cr_assert(register_revise_reply(book, &reply, entry, "another person",
					scene->desk->today, &why),
		  "%s", why.sentence);
}

static void
keep_people(struct scene *scene)
{
	struct desk *desk = scene->desk;
	struct fault why;

	cr_assert(day_read("2026-03-30", &desk->today, &why));
	for (int i = 0; i < PEOPLE; i++) {
		struct visit visit = scene->form.visit;
		long long entry;

		visit.urgency = people[i].urgency;
		visit.see_by = day_none();
		if (people[i].see_by[0] != '\0')
			cr_assert(day_read(people[i].see_by, &visit.see_by,
					   &why));
		text_copy(visit.policy, sizeof visit.policy, desk->policy_mark);
		cr_assert(register_save(&desk->book, &visit, "", &why), "%s",
			  why.sentence);
		if (people[i].said != NOTHING)
			keep_reply(scene, visit.number, people[i].said);
		if (!people[i].is_void)
			continue;
		cr_assert(register_find(&desk->book, visit.number, &visit,
					&entry, &why));
		visit.state = STATE_VOID;
		cr_assert(register_revise(&desk->book, &visit, entry, "twice",
					  "", &why));
	}
}

static bool
see(void *context, const struct visit *visit, int days_over, struct fault *why)
{
	char *line = context;
	size_t used = strlen(line);

	(void)why;
	snprintf(line + used, 200 - used, "%d+%d ", visit->number.serial,
		 days_over);
	return true;
}

Test(waiting, the_longest_overdue_come_first_and_those_to_check_last)
{
	struct scene scene;
	struct fault why = {FAULT_NONE, ""};
	char line[200] = "";

	scene_open(&scene);
	scene.desk->policy.verify_every = 4;
	cr_assert_eq(scene_play(&scene, "\n\n58\n1\n\n\n\n\n\n\n100\n100\n16\n"
					"17\n1\n\n"),
		     DIALOG_SAVE);
	keep_people(&scene);
	cr_expect(waiting_visit(scene.desk, see, line, &why), "%s",
		  why.sentence);
	cr_expect_str_eq(line, "7+20 3+6 9+6 10+0 1+0 4+0 ", "%s", line);
	scene_close(&scene);
}

static bool
stop(void *context, const struct visit *visit, int days_over, struct fault *why)
{
	(void)visit, (void)days_over;
	++*(int *)context;
	return fault_set(why, FAULT_OUTPUT, "the page is full");
}

Test(waiting, a_stop_is_handed_up)
{
	struct scene scene;
	struct fault why = {FAULT_NONE, ""};
	int seen = 0;

	scene_open(&scene);
	cr_assert_eq(scene_play(&scene, "\n\n58\n1\n\n\n\n\n\n\n100\n100\n16\n"
					"17\n1\n\n"),
		     DIALOG_SAVE);
	keep_people(&scene);
	cr_expect_not(waiting_visit(scene.desk, stop, &seen, &why));
	cr_expect_eq(seen, 1);
	cr_expect_str_eq(why.sentence, "the page is full");
	scene_close(&scene);
}
