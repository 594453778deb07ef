/* Tests of keep/register and its kin: a register that other hands have spoilt
 * while it is open is a fault of every question, never an answer. */
#include "keep/entries.h"
#include "keep/lookup.h"
#include "keep/replies.h"

#include "people.h"

TestSuite(register_gone, .init = people_begin, .fini = people_end);

static const struct refnum first = {14, 1};

static bool
see(void *context, const struct visit *visit, const char *reason,
    struct fault *fault)
{
	(void)context;
	(void)visit;
	(void)reason;
	(void)fault;
	return true;
}

static bool
see_reply(void *context, const struct visit *visit, const struct reply *reply,
	  struct fault *fault)
{
	(void)context;
	(void)visit;
	(void)reply;
	(void)fault;
	return true;
}

/* --- what is asked -------------------------------------------------------- */

static bool
ask_find(void)
{
	struct visit visit;

	return register_find(&book, first, &visit, NULL, &why);
}

static bool
ask_save(void)
{
	struct visit visit;

	person_full(&visit);
	visit.number = (struct refnum){0, 0};
	return register_save(&book, &visit, "policy text", &why);
}

static bool
ask_save_paper(void)
{
	struct visit visit;

	person_bare(&visit);
	visit.number = (struct refnum){14, 90002};
	return register_save(&book, &visit, NULL, &why);
}

static bool
ask_revise(void)
{
	struct visit visit;

	person_bare(&visit);
	visit.number = first;
	visit.state = STATE_CORRECTED;
	return register_revise(&book, &visit, 1, "wrong eye", NULL, &why);
}

static bool
ask_day(void)
{
	return register_visit_day(&book, day_none(), see, NULL, &why);
}

static bool
ask_history(void)
{
	return register_visit_history(&book, first, see, NULL, &why);
}

static bool
ask_twins(void)
{
	struct visit visit;

	person_named(&visit, "Tilo");
	return register_visit_twins(&book, &visit, see, NULL, &why);
}

static bool
ask_last_day(void)
{
	struct day day;

	return register_last_day(&book, &day, &why);
}

static bool
ask_policy(void)
{
	char text[100];

	return register_policy_text(&book, "ABCDEF", text, sizeof text, &why);
}

static bool
ask_tally(void)
{
	struct tally_written last;

	return register_last_tally(&book, day_none(), &last, &why);
}

static bool
ask_keep_tally(void)
{
	static const struct tally_written written = {1, false, "ABCDEFG"};
	struct day day;

	return day_make(2026, 3, 4, &day) &&
	       register_keep_tally(&book, day, &written, &why);
}

static bool
ask_reply(void)
{
	struct reply reply;

	return register_find_reply(&book, first, &reply, NULL, &why);
}

static bool
ask_save_reply(void)
{
	struct reply reply;
	struct day day;

	reply_init(&reply);
	reply.number = first;
	reply.outcome = OUTCOME_ATTENDED;
	return day_make(2026, 3, 9, &day) &&
	       (reply.seen_on = day,
		register_save_reply(&book, &reply, day, &why));
}

static bool
ask_replies(void)
{
	return register_visit_replies(&book, see_reply, NULL, &why);
}

static bool
ask_entries(void)
{
	int count;

	return register_entries(&book, &count, &why);
}

static const struct {
	const char *name;
	bool (*ask)(void);
	const char *tables; /* without any of which there is no answer */
} questions[] = {
	{"find", ask_find, "visit"},
	{"save", ask_save, "visit policy_text"},
	{"save a paper number", ask_save_paper, "visit"},
	{"revise", ask_revise, "visit"},
	{"day", ask_day, "visit"},
	{"history", ask_history, "visit"},
	{"twins", ask_twins, "visit"},
	{"last day", ask_last_day, "visit"},
	{"policy", ask_policy, "policy_text"},
	{"tally", ask_tally, "tally_written"},
	{"keep tally", ask_keep_tally, "tally_written"},
	{"reply", ask_reply, "reply"},
	{"save reply", ask_save_reply, "reply visit"},
	{"replies", ask_replies, "reply visit"},
	{"entries", ask_entries, "reply visit"},
};

enum { QUESTIONS = sizeof questions / sizeof questions[0] };

/* Each time a register of its own with the same person in it. */
static void
begin_with_somebody(void)
{
	static struct people_kept kept;
	struct visit visit;

	if (kept.length == 0) {
		person_full(&visit);
		save_soundly(&visit);
		people_keep(&kept);
	}
	people_again(&kept);
}

/* A wrong answer may not come, and what is refused has to say so. */
static void
check_question(int i, bool answered, bool may_answer, const char *spoilt)
{
	cr_expect(answered == may_answer, "%s, %s: answered %d, %s", spoilt,
		  questions[i].name, answered, why.sentence);
	if (!answered)
		cr_expect(why.kind == FAULT_REGISTER && why.sentence[0] != '\0',
			  "%s, %s: %d '%s'", spoilt, questions[i].name,
			  (int)why.kind, why.sentence);
}

Test(register_gone, without_its_table_no_question_is_answered)
{
	static const char *const tables[] = {"visit", "policy_text",
					     "tally_written", "reply"};

	for (size_t t = 0; t < sizeof tables / sizeof tables[0]; t++) {
		char sql[100];

		for (int i = 0; i < QUESTIONS; i++) {
			begin_with_somebody();
			snprintf(sql, sizeof sql, "DROP TABLE %s", tables[t]);
			cr_assert_str_eq(run_beside(sql), "");
			check_question(i, questions[i].ask(),
				       strstr(questions[i].tables, tables[t]) ==
					       NULL,
				       tables[t]);
		}
	}
}

Test(register_gone, a_tally_that_other_hands_wrote_is_not_taken_for_one)
{
	static const char *const rows[] = {
		"'2026-03-04', 0, 0, 'ABCDEFG'",
		"'2026-03-04', 99999999999, 0, 'ABCDEFG'",
		"'2026-03-04', 1, 2, 'ABCDEFG'",
		"'2026-03-04', 1, 0, 'ABCDEFGH'",
	};
	int refused_by_the_file = 0;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char sql[200];
		bool answered;

		begin_with_somebody();
		snprintf(sql, sizeof sql,
			 "INSERT INTO tally_written(day, revision, closed, "
			 "mark) VALUES (%s)",
			 rows[i]);
		if (run_beside(sql)[0] != '\0') {
			refused_by_the_file++;
			continue;
		}
		answered = ask_keep_tally();
		cr_expect(!answered && why.kind == FAULT_REGISTER,
			  "row %zu: %d %s", i, answered, why.sentence);
		cr_expect(strstr(why.sentence, "damaged") != NULL &&
				  strstr(why.sentence, "was written") == NULL,
			  "row %zu: %s", i, why.sentence);
	}
	cr_expect_lt(refused_by_the_file, 4);
}

Test(register_gone, a_number_that_other_hands_wrote_is_not_counted_on_from)
{
	struct visit visit;

	begin_with_somebody();
	cr_assert_str_eq(run_beside("INSERT INTO visit(number, depth_right, "
				    "depth_left, state) VALUES "
				    "('0014-00002-99', '25', '25', 'current')"),
			 "");
	person_bare(&visit);
	cr_expect_not(save(&visit));
	cr_expect_eq(why.kind, FAULT_REGISTER);
	cr_expect(strstr(why.sentence, "damaged") != NULL, "%s", why.sentence);
}
