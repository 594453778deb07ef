/* Tests of desk/page: one person on one screen. */
#include "scene.h"

#include "desk/page.h"
#include "desk/placing.h"
#include "desk/verdict.h"

enum { ROWS = 24, WIDE = PLACING_COLUMNS };

/* What was drawn: a character and a style for each cell. */
struct picture {
	char cell[ROWS][WIDE + 1];
	unsigned style[ROWS][WIDE];
	int outside; /* cells drawn where there is no screen */
};

static int
put(void *context, int row, int column, int width, unsigned style,
    const char *text)
{
	struct picture *picture = context;
	int used = (int)strlen(text) < width ? (int)strlen(text) : width;
	bool fills = (style & (BRUSH_REVERSE | BRUSH_UNDERLINE)) != 0;

	for (int i = 0; i < (fills ? width : used); i++) {
		if (row < 0 || row >= ROWS || column + i >= WIDE) {
			picture->outside++;
			continue;
		}
		picture->cell[row][column + i] = i < used ? text[i] : ' ';
		picture->style[row][column + i] = style;
	}
	return used;
}

static int
width_of(const char *text)
{
	return (int)strlen(text);
}

struct show {
	struct scene scene;
	struct session session;
	struct keying keying;
	struct page page;
	struct picture picture;
	int row, column;
};

static void
open_show(struct show *show)
{
	memset(show, 0, sizeof *show);
	scene_open(&show->scene);
	scene_begin(&show->scene, false);
	show->session.desk = show->scene.desk;
	show->session.counts = (struct session_counts){84, 15, 2};
	show->page.session = &show->session;
	show->page.keying = &show->keying;
	keying_begin(&show->keying, &show->scene.form);
}

static void
look(struct show *show)
{
	struct picture *picture = &show->picture;
	struct brush brush = {put, width_of, picture, ROWS};

	memset(picture, 0, sizeof *picture);
	for (int row = 0; row < ROWS; row++)
		memset(picture->cell[row], ' ', WIDE);
	page_draw(&show->page, &brush, &show->row, &show->column);
	cr_expect_eq(picture->outside, 0);
}

static void
look_at_help(struct show *show)
{
	struct picture *picture = &show->picture;
	struct brush brush = {put, width_of, picture, ROWS};

	memset(picture, 0, sizeof *picture);
	for (int row = 0; row < ROWS; row++)
		memset(picture->cell[row], ' ', WIDE);
	page_draw_help(&show->page, &brush);
	cr_expect_eq(picture->outside, 0);
}

/* The row in which the words stand, -1 when nowhere. */
static int
row_of(const struct show *show, const char *words)
{
	for (int row = 0; row < ROWS; row++)
		if (strstr(show->picture.cell[row], words) != NULL)
			return row;
	return -1;
}

/* Whether a row is drawn in reverse from one side to the other. */
static bool
is_reverse(const struct show *show, int row)
{
	int count = 0;

	for (int i = 0; i < WIDE; i++)
		count += (show->picture.style[row][i] & BRUSH_REVERSE) != 0;
	return count == WIDE;
}

static void
type(struct show *show, enum question question, const char *keys)
{
	keying_go(&show->keying, question);
	for (; *keys != '\0'; keys++)
		keying_type(&show->keying, (char[2]){*keys, '\0'});
	keying_enter(&show->keying);
}

static void
type_all(struct show *show)
{
	static const char *const keys[QUESTION_COUNT] = {
		[ASK_NAME] = "Adira Moru",   [ASK_CONTACT] = "Upper Mavi",
		[ASK_AGE] = "66*",	     [ASK_SEX] = "1",
		[ASK_COMPLAINTS] = "8",	     [ASK_RISKS] = "25",
		[ASK_PAST_RIGHT] = "3",	     [ASK_PAST_LEFT] = "",
		[ASK_SIGNS_RIGHT] = "",	     [ASK_SIGNS_LEFT] = "4",
		[ASK_DEPTH_RIGHT] = "25",    [ASK_WHY_RIGHT] = "",
		[ASK_DEPTH_LEFT] = "x",	     [ASK_WHY_LEFT] = "2",
		[ASK_PRESSURE_RIGHT] = "16", [ASK_PRESSURE_LEFT] = "",
		[ASK_CONSENT] = "2"};

	for (int i = ASK_NAME; i < QUESTION_COUNT; i++)
		if (form_asks(&show->scene.form, (enum question)i))
			type(show, (enum question)i, keys[i]);
}

Test(page, all_answers_of_a_person_stand_on_80_columns_by_24_rows)
{
	static const char *const shown[] = {"screened 84, referred 15, same "
					    "day 2",
					    "grader NT",
					    "Name Adira Moru",
					    "Phone or village Upper Mavi",
					    "Age 66*",
					    "Sex F",
					    "Complaints 8 headache",
					    "Risks      2 long sighted, 5 new "
					    "medicine",
					    "RIGHT EYE (on your left)",
					    "LEFT EYE (on your right)",
					    "History  3 artificial lens",
					    "Signs    none",
					    "Signs    4 odd pupil",
					    "Depth    25 %",
					    "Depth    x",
					    "why pterygium",
					    "Pressure 16",
					    "Pressure not measured",
					    "write back to you no",
					    "refer within 7 days",
					    "Enter saves",
					    "Esc menu"};
	struct show show;

	open_show(&show);
	type_all(&show);
	cr_expect_eq(show.keying.at, QUESTION_COUNT);
	look(&show);
	for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++)
		cr_expect_neq(row_of(&show, shown[i]), -1, "%s", shown[i]);
	cr_expect_lt(strstr(show.picture.cell[PLACING_EYES], "RIGHT"),
		     strstr(show.picture.cell[PLACING_EYES], "LEFT"));
	scene_close(&show.scene);
}

Test(page, who_must_go_today_is_told_in_words_and_in_reverse)
{
	struct show show;
	int row;

	open_show(&show);
	look(&show);
	for (row = 0; row < ROWS; row++)
		cr_expect_not(is_reverse(&show, row), "row %d", row);
	type(&show, ASK_COMPLAINTS, "7");
	look(&show);
	row = row_of(&show, "*** SEND TODAY ***");
	cr_expect_eq(row, (int)PLACING_DECISION);
	for (int i = 0; i < 4; i++)
		cr_expect(is_reverse(&show, row + i), "row %d", row + i);
	cr_expect_neq(row_of(&show, "no dilating"), -1,
		      "the advice is not whole");
	/* A menu or a question leaves the alarm standing. */
	snprintf(show.page.over, sizeof show.page.over, " 1 go on\n");
	show.page.keys = "1 to 5";
	look(&show);
	cr_expect_eq(row_of(&show, "*** SEND TODAY ***"),
		     (int)PLACING_DECISION);
	cr_expect(is_reverse(&show, PLACING_DECISION));
	show.page.over[0] = '\0';
	/* Taken back, it goes. */
	type(&show, ASK_COMPLAINTS, "7");
	look(&show);
	cr_expect_eq(row_of(&show, "SEND TODAY"), -1);
	scene_close(&show.scene);
}

/* The rows that the instructions of some rules of the policy need. */
static int
rows_of(const struct desk *desk, const int *rule, int count, char *text,
	size_t size)
{
	struct decision decision = {.count = 0, .urgency = URGENCY_SAME_DAY};
	FILE *out = fmemopen(text, size, "w");
	int lines = 0;

	for (; decision.count < count; decision.count++)
		decision.fired[decision.count] = (struct fired){
			rule[decision.count], {true, true}, false};
	verdict_write_instructions(desk, &decision, WIDE, out);
	fclose(out);
	for (const char *at = text; *at != '\0'; at++)
		lines += *at == '\n';
	return lines;
}

/* Every alarm of the default policy has room, whatever is being asked, and all
 * of them at once have. */
Test(page, no_advice_of_an_alarm_is_cut)
{
	const int rows = ROWS - PLACING_DECISION - PLACING_PANEL - 1;
	int alarm[POLICY_RULES_MOST], count = 0;
	char text[3000] = "";
	struct show show;

	open_show(&show);
	for (int i = 0; i < show.scene.desk->policy.rule_count; i++)
		if (show.scene.desk->policy.rule[i].refer_within_days == 0)
			alarm[count++] = i;
	cr_expect_gt(count, 5);
	for (int i = 0; i <= count; i++)
		cr_expect_leq(1 + rows_of(show.scene.desk,
					  alarm + (i < count ? i : 0),
					  i < count ? 1 : count, text,
					  sizeof text),
			      rows, "row %d: %s", i, text);
	cr_expect_not_null(strstr(text, "put a shield over the eye"));
	scene_close(&show.scene);
}

/* An injured, red and hazy eye: what must not be done to it stands there from
 * the moment it is certain to the end, on the page of help, and is not pushed
 * out by reasons. */
Test(page, all_instructions_stand_there_at_every_question)
{
	struct show show;

	open_show(&show);
	type_all(&show);
	type(&show, ASK_COMPLAINTS, "813");
	type(&show, ASK_PAST_RIGHT, "31");
	type(&show, ASK_SIGNS_RIGHT, "12");
	type(&show, ASK_DEPTH_RIGHT, "15");
	for (int open = 0; open < 2; open++) {
		show.scene.form.answered[ASK_CONSENT] = open == 0;
		for (int at = ASK_NAME; at <= QUESTION_COUNT; at++) {
			if (at < QUESTION_COUNT &&
			    !form_asks(&show.scene.form, (enum question)at))
				continue;
			keying_go(&show.keying, (enum question)at);
			look(&show);
			cr_expect_neq(row_of(&show, "put a shield"), -1,
				      "question %d", at);
			cr_expect_neq(row_of(&show, "no tonometry"), -1,
				      "question %d", at);
			cr_expect_neq(row_of(&show, "no dilating"), -1,
				      "question %d", at);
			look_at_help(&show);
			cr_expect_neq(row_of(&show, "put a shield"), -1,
				      "help of question %d", at);
		}
	}
	scene_close(&show.scene);
}

static int
run_of(const char *text, char what)
{
	int count = 0;

	for (; *text != '\0'; text++)
		count += *text == what;
	return count;
}

Test(page, the_grades_are_drawn_to_scale_as_they_are_typed)
{
	static const struct {
		const char *keys;
		int gap;
	} rows[] = {{"0", 0},  {"5", 1},   {"15", 3},  {"25", 5},
		    {"2", 5},  {"40", 8},  {"75", 15}, {"100", 20},
		    {"1", -1}, {"10", -1}, {"x", -1},  {"-", -1}};
	struct show show;

	open_show(&show);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		for (int left = 0; left < 2; left++) {
			const char *bar;

			scene_begin(&show.scene, false);
			keying_begin(&show.keying, &show.scene.form);
			keying_go(&show.keying,
				  left ? ASK_DEPTH_LEFT : ASK_DEPTH_RIGHT);
			for (const char *at = rows[i].keys; *at != '\0'; at++)
				keying_type(&show.keying, (char[2]){*at, '\0'});
			look(&show);
			bar = show.picture.cell[PLACING_BARS + left];
			cr_expect_eq(run_of(bar, '#'), rows[i].gap < 0 ? 0 : 20,
				     "row %zu: %s", i, bar);
			cr_expect_eq(run_of(bar, '.'),
				     rows[i].gap < 0 ? 0 : rows[i].gap,
				     "row %zu: %s", i, bar);
			cr_expect_eq(
				run_of(show.picture.cell[PLACING_BARS + !left],
				       '#'),
				0, "row %zu", i);
		}
	scene_close(&show.scene);
}

Test(page, every_key_of_the_question_at_hand_is_listed)
{
	struct show show;

	open_show(&show);
	for (int i = ASK_NAME; i < QUESTION_COUNT; i++) {
		const struct question_row *row = &question_table[i];

		if (!form_asks(&show.scene.form, (enum question)i))
			continue;
		keying_go(&show.keying, (enum question)i);
		look(&show);
		cr_expect_eq(show.row,
			     placing_of(&show.scene.form, (enum question)i).row,
			     "question %d", i);
		cr_expect_neq(row_of(&show, "Enter"), -1, "question %d", i);
		cr_expect_neq(row_of(&show, "Esc menu"), -1, "question %d", i);
		if (row->kind != ANSWER_FINDINGS)
			continue;
		for (int key = 1; key <= question_keys(row->group); key++) {
			char words[200];

			snprintf(words, sizeof words, "%d %s", key,
				 finding_about(
					 question_finding(row->group, key)));
			cr_expect_neq(row_of(&show, words), -1,
				      "question %d: %s", i, words);
		}
	}
	scene_close(&show.scene);
}

Test(page, many_findings_of_an_eye_stay_in_sight_as_keys)
{
	struct show show;

	open_show(&show);
	type(&show, ASK_SIGNS_LEFT, "123456");
	look(&show);
	cr_expect_not_null(strstr(show.picture.cell[7], "1 2 3 4 5 6"));
	scene_close(&show.scene);
}
