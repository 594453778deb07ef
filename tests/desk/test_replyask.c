/* test_replyask.c: the questions about one reply, without a terminal. */
#include "desk/replyask.h"

#include "desk/dialog.h"
#include "desk/replyquestion.h"

#include <criterion/criterion.h>
#include <string.h>

static const struct refnum number = {14, 1};

static void
begin(struct reply_form *form)
{
	struct day today;
	struct fault why;

	cr_assert(day_read("2026-03-30", &today, &why));
	reply_ask_init(form, number, today);
	cr_assert(day_read("2026-03-10", &form->screened_on, &why));
}

/* Answers, separated by '|', from the first question on; how many were asked.
 */
static int
answer_all(struct reply_form *form, const char *answers, size_t row)
{
	char answer[80];
	int question = reply_ask_next(form, -1), asked = 0;

	while (*answers != '\0') {
		size_t length = strcspn(answers, "|");
		struct fault why = {FAULT_NONE, ""};

		cr_assert_lt(length, sizeof answer);
		snprintf(answer, sizeof answer, "%.*s", (int)length, answers);
		cr_assert_lt(question, (int)reply_fields.count,
			     "row %zu: '%s' is one too many", row, answers);
		cr_assert(reply_ask_answer(form, &question, answer, &why),
			  "row %zu: '%s': %s", row, answers, why.sentence);
		question = reply_ask_next(form, question);
		answers += length + (answers[length] == '|');
		asked++;
	}
	cr_expect_eq(question, (int)reply_fields.count,
		     "row %zu: %s is not answered", row,
		     question < (int)reply_fields.count
			     ? reply_fields.field[question].name
			     : "");
	return asked;
}

Test(replyask, there_is_a_place_for_each_field)
{
	cr_expect_leq(reply_fields.count, (size_t)REPLY_ASK_MOST);
	for (int i = 0; i < (int)reply_fields.count; i++) {
		char title[DIALOG_TITLE_SIZE];

		reply_question_title(i, title);
		cr_expect_gt(strlen(title), 3U, "%s",
			     reply_fields.field[i].name);
		cr_expect_eq(strchr(title, '_'), NULL, "%s", title);
	}
}

/*
 * Whole replies, and what stands in some fields of the reply that is kept.
 */
static const struct {
	const char *answers;
	const char *values; /* NAME=VALUE|... */
} replies[] = {
	/* All alike. */
	{"1|2026-03-24|Dr T|5|1|3|1|2|==|16|40|1|1|==|=|2|1|1||1|||",
	 "outcome=attended|seen_on=2026-03-24|examiner=Dr T|"
	 "deepest_right_superior=scleral_spur|"
	 "deepest_left_temporal=scleral_spur|iris_left_nasal=flat|"
	 "inserts_right_temporal=at_spur|indentation_left_superior=opens|"
	 "synechiae_left_inferior=no|pressure_left=16|cup_left=40|"
	 "disc_left=normal|field_left=normal|treated_before=no|"
	 "also_seen=nothing|done=nothing|useful=yes|done_text="},
	/* Differing structures, the rest alike; "=" from the second answer. */
	{"1|2026-03-24||4|2|2|2|1|3|=|2|=|1|=|||||==||||||7|23||2||more dark",
	 "deepest_right_superior=posterior_meshwork|"
	 "deepest_right_inferior=anterior_meshwork|"
	 "deepest_right_nasal=schwalbes_line|deepest_right_temporal=none|"
	 "deepest_left_superior=posterior_meshwork|"
	 "deepest_left_inferior=anterior_meshwork|"
	 "deepest_left_nasal=schwalbes_line|deepest_left_temporal=none|"
	 "synechiae_right_temporal=yes|indentation_left_temporal=partly|"
	 "pressure_right=|field_left=|"
	 "treated_before=|also_seen=lens_pushes_forward|"
	 "done=iridotomy;drops|useful=no|teach=more dark"},
	/* "=" of the left eye is the right eye's quadrant, then the one before;
	 * "==" goes on as it began. */
	{"1|2026-03-24||4|2|2|2|1|3|=|2|=|1|=|||||=|==||||||||||||",
	 "deepest_left_superior=posterior_meshwork|"
	 "deepest_left_inferior=posterior_meshwork|"
	 "deepest_left_temporal=posterior_meshwork"},
	{"1|2026-03-24||4|2|2|2|1|3|=|2|=|1|=|||||3|==||||||||||||",
	 "deepest_left_superior=anterior_meshwork|iris_left_superior=bowed_"
	 "forward|"
	 "deepest_left_inferior=anterior_meshwork|"
	 "deepest_left_temporal=none"},
	/* One quadrant only, the other answers left. */
	{"3|2026-03-24|Hill Clinic||8|||||=|6|||||=|||||=|=|=|=|=||||||||",
	 "outcome=elsewhere|seen_where=Hill Clinic|"
	 "deepest_right_inferior=not_examined|"
	 "deepest_right_nasal=ciliary_body_band|iris_right_nasal="},
	/* Did not come: the day offered is today. */
	{"2||1||", "outcome=not_attended|seen_on=2026-03-30|why_not=cost"},
	{"not attended|2026-03-28|Died|2026-09-01", "outcome=not_attended|seen_"
						    "on=2026-03-28|why_not="
						    "died|next_visit=2026-09-"
						    "01"},
};

static void
expect_values(const struct reply *reply, const char *values, size_t row)
{
	char one[80], value[FIELD_TEXT_SIZE];

	while (*values != '\0') {
		size_t length = strcspn(values, "|");
		const struct field *field;
		char *equals;

		snprintf(one, sizeof one, "%.*s", (int)length, values);
		equals = strchr(one, '=');
		cr_assert_not_null(equals, "%s", one);
		*equals = '\0';
		field = fields_find(reply_fields, one);
		cr_assert_not_null(field, "%s", one);
		field_write(field, reply, value, sizeof value);
		cr_expect_str_eq(value, equals + 1, "row %zu: %s is '%s'", row,
				 one, value);
		values += length + (values[length] == '|');
	}
}

Test(replyask, whole_replies)
{
	for (size_t i = 0; i < sizeof replies / sizeof replies[0]; i++) {
		struct reply_form form;
		struct reply reply;
		struct fault why = {FAULT_NONE, ""};

		begin(&form);
		answer_all(&form, replies[i].answers, i);
		reply_ask_settle(&form, &reply);
		cr_expect(reply_check(&reply, day_none(), form.today, &why),
			  "row %zu: %s", i, why.sentence);
		expect_values(&reply, replies[i].values, i);
	}
}

/*
 * A keystroke takes an average typist 0.28 s and each question 1.35 s of
 * thought: Card, Moran and Newell, The psychology of human-computer interaction
 * (1983), as quoted in lecture notes on that model.
 */
Test(replyask, a_reply_with_all_quadrants_alike_takes_under_a_minute)
{
	const char *answers = replies[0].answers;
	struct reply_form form;
	int questions, keys;

	begin(&form);
	/* And the summary's Enter; a separator stands for each other one. */
	questions = answer_all(&form, answers, 0) + 1;
	keys = (int)strlen(answers) + 1;
	cr_log_info("%d keys, %d questions", keys, questions);
	cr_expect_eq(questions, 23, "%d questions", questions);
	cr_expect_leq(keys, 64, "%d keys", keys);
	cr_expect_lt(28 * keys + 135 * questions, 100 * 60,
		     "%d keys and %d questions", keys, questions);
}

/* After the answers, the next one is refused with these words, and nothing is
 * changed. */
static const struct {
	const char *answers, *refused, *said;
} bad[] = {
	{"", "", "an answer is needed"},
	{"", "-", "an answer is needed"},
	{"", "4", "a number from 1 to 3"},
	{"", "=", "there is none before"},
	{"1", "24.3.2026", "seen_on: "},
	{"1", "2026-03-09", "before the day of screening, 2026-03-10"},
	{"1", "2026-03-31", "after today"},
	{"1|2026-03-24|||||||==|||||==|=||", "12",
	 "says nothing, and something"},
	{"1", "", "an answer is needed"},
	{"1|2026-03-24", "=DrT", "examiner: "},
	{"1|2026-03-24|", "=", "there is none before"},
	{"1|2026-03-24|", "==", "there is none before"},
	{"1|2026-03-24|", "9", "a number from 1 to 8"},
	{"1|2026-03-24||5|1", "2", "cannot insert in front"},
	{"1|2026-03-24||1|1|2|||5", "=", "cannot insert in front"},
	{"1|2026-03-24|||||||==", "=", "there is none before"},
	{"1|2026-03-24|||||||==", "0", "pressure_right: "},
	{"1|2026-03-24|||||||==|", "101", "cup_right: "},
	{"1|2026-03-24|||||||==|||||==|=|", "19", "each 1 to 8"},
	{"1|2026-03-24|||||||==|||||==|=||", "8", "each 1 to 7"},
};

Test(replyask, a_refused_answer_leaves_the_form_as_it_was)
{
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct reply_form form, before;
		struct fault why = {FAULT_NONE, ""};
		const char *at = bad[i].answers;
		int question, asked;

		begin(&form);
		question = reply_ask_next(&form, -1);
		while (*at != '\0') {
			size_t length = strcspn(at, "|");
			char answer[40];

			snprintf(answer, sizeof answer, "%.*s", (int)length,
				 at);
			cr_assert(reply_ask_answer(&form, &question, answer,
						   &why),
				  "row %zu: %s", i, why.sentence);
			question = reply_ask_next(&form, question);
			/* A separator at the end is an Enter of its own. */
			at += length;
			if (at[0] == '|' && at[1] == '\0') {
				cr_assert(reply_ask_answer(&form, &question, "",
							   &why));
				question = reply_ask_next(&form, question);
			}
			at += *at == '|';
		}
		before = form;
		asked = question;
		cr_expect_not(reply_ask_answer(&form, &question, bad[i].refused,
					       &why),
			      "row %zu", i);
		cr_expect_not_null(strstr(why.sentence, bad[i].said),
				   "row %zu: %s", i, why.sentence);
		cr_expect_eq(question, asked, "row %zu", i);
		cr_expect_eq(memcmp(&form, &before, sizeof form), 0, "row %zu",
			     i);
	}
}

/* The day somebody was seen is never guessed from the day of a call. */
Test(replyask, another_outcome_asks_for_its_day_anew)
{
	static const struct {
		const char *answers; /* then the first question once more */
		const char *outcome;
		bool asks;
		const char *offered;
	} rows[] = {
		{"2||1||", "1", true, ""},
		{"2|2026-03-28|1||", "3", true, ""},
		{"2|2026-03-28|1||", "2", false, "2026-03-28"},
		{NULL, "2", true, "2026-03-30"}, /* attended so far */
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		int day = reply_question_index("seen_on"), first;
		char shown[DIALOG_SHOWN_SIZE];
		struct reply_form form;
		struct fault why;

		begin(&form);
		if (rows[i].answers != NULL)
			answer_all(&form, rows[i].answers, i);
		else
			for (int q = reply_ask_next(&form, -1), j = 0; j < 2;
			     q = reply_ask_next(&form, q), j++)
				cr_assert(reply_ask_answer(
					&form, &q, j == 0 ? "1" : "2026-03-24",
					&why));
		first = reply_ask_next(&form, -1);
		cr_assert(
			reply_ask_answer(&form, &first, rows[i].outcome, &why));
		cr_expect_eq(reply_ask_is_open(&form, day), rows[i].asks,
			     "row %zu", i);
		reply_ask_show(&form, day, shown);
		cr_expect_str_eq(shown, rows[i].offered, "row %zu", i);
	}
}

Test(replyask, back_walks_the_same_way)
{
	struct reply_form form;
	int forward[REPLY_ASK_MOST], count = 0;

	begin(&form);
	for (int outcome = 0; outcome < OUTCOME_COUNT; outcome++) {
		form.reply.outcome = outcome;
		count = 0;
		for (int i = reply_ask_next(&form, -1);
		     i < (int)reply_fields.count; i = reply_ask_next(&form, i))
			forward[count++] = i;
		for (int i = (int)reply_fields.count; count > 0;) {
			i = reply_ask_back(&form, i);
			cr_expect_eq(i, forward[--count], "outcome %d",
				     outcome);
		}
		cr_expect_eq(reply_ask_back(&form, forward[0]), forward[0]);
	}
}

/* A slip of the finger at the outcome must not cost what was typed. */
Test(replyask, what_is_not_asked_is_kept_in_the_form_and_not_in_the_reply)
{
	struct reply_form form;
	struct reply reply;
	struct fault why;
	int outcome = reply_question_index("outcome");
	int day = reply_question_index("seen_on");

	begin(&form);
	answer_all(&form, replies[0].answers, 0);
	cr_assert(reply_ask_answer(&form, &outcome, "2", &why));
	reply_ask_settle(&form, &reply);
	cr_expect(reply_check(&reply, day_none(), form.today, &why), "%s",
		  why.sentence);
	expect_values(&reply, "deepest_right_superior=|examiner=|useful=", 0);
	cr_expect(reply_ask_is_open(&form, reply_question_index("why_not")));
	cr_assert(reply_ask_answer(&form, &outcome, "1", &why));
	cr_expect(reply_ask_is_open(&form, day));
	cr_assert(reply_ask_answer(&form, &day, "2026-03-24", &why));
	reply_ask_settle(&form, &reply);
	expect_values(&reply, replies[0].values, 0);
}

static const struct {
	const char *name, *label, *shown;
} lines[] = {
	{"outcome", "Whether the person was seen", "attended"},
	{"examiner", "Who examined", "Dr T"},
	{"deepest_left_nasal", "LEFT eye, nasal",
	 "deepest scleral spur, iris flat, inserts at spur, indentation opens, "
	 "synechiae no"},
	{"pressure_right", "RIGHT eye",
	 "pressure 16, cup 40, disc normal, field normal"},
	{"done_text", "What was done, in words", "not recorded"},
};

Test(replyask, a_line_of_the_summary_has_a_quadrant)
{
	struct reply_form form;

	begin(&form);
	answer_all(&form, replies[0].answers, 0);
	for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
		char label[DIALOG_TITLE_SIZE], shown[DIALOG_SHOWN_SIZE];
		int question = reply_question_index(lines[i].name);

		reply_ask_line(&form, question, label, shown);
		cr_expect_str_eq(label, lines[i].label, "row %zu: %s", i,
				 label);
		cr_expect_str_eq(shown, lines[i].shown, "row %zu: %s", i,
				 shown);
	}
	cr_expect_eq(reply_ask_line_end(reply_question_index("deepest_left_"
							     "nasal")),
		     reply_question_index("synechiae_left_nasal"));
	cr_expect_eq(reply_ask_line_end(reply_question_index("pressure_left")),
		     reply_question_index("field_left"));
	cr_expect_eq(reply_ask_line_end(reply_question_index("useful")),
		     reply_question_index("useful"));
}
