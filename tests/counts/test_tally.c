/* Tests of counts/tally: a day's people become rows that check themselves. */
#include "counts/tally.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

enum { ROW_TEXT_SIZE = 4096, PEOPLE = 120 };

static const struct age_bands usual_bands = {4, {40, 50, 60, 70}};

static const struct tally_head usual_head = {.programme = "Lantern Valley",
					     .site = "Mavi school",
					     .station = 14,
					     .device = "QWERTZ",
					     .policy = "ABCDEF",
					     .date = {20522},
					     .revision = 3,
					     .closed = false};

/* A tally is large; each test has its own on the heap. */
static struct tally *
new_tally(void)
{
	struct tally *tally = calloc(1, sizeof *tally);

	cr_assert_not_null(tally);
	tally_init(tally, &usual_bands);
	return tally;
}

static void
put(struct visit *visit, const char *name, const char *text)
{
	const struct field *field = fields_find(visit_fields, name);
	struct fault why;

	cr_assert_not_null(field, "no field %s", name);
	if (text[0] == '\0')
		field_blank(field, visit);
	else
		cr_assert(field_read(field, text, visit, &why), "%s",
			  why.sentence);
}

/* A woman of 58 with deep chambers whom nothing refers. */
static void
usual_visit(struct visit *visit)
{
	visit_init(visit);
	put(visit, "site", "Mavi school");
	put(visit, "policy", "ABCDEF");
	put(visit, "age_years", "58");
	put(visit, "sex", "F");
	put(visit, "depth_right", "100");
	put(visit, "depth_left", "100");
	put(visit, "urgency", "no_referral");
	put(visit, "late", "0");
	put(visit, "state", "current");
}

/* The values of the columns `from` to `to`, joined by commas. */
static void
join(const struct tally_row *row, const char *from, const char *to, char *text)
{
	const struct field *field = fields_find(tally_columns, from);
	char value[FIELD_TEXT_SIZE];
	size_t used = 0;

	cr_assert_not_null(field);
	for (;; field++) {
		field_write(field, row, value, sizeof value);
		used += (size_t)snprintf(text + used, ROW_TEXT_SIZE - used,
					 "%s%s", used > 0 ? "," : "", value);
		cr_assert_lt(used, (size_t)ROW_TEXT_SIZE);
		if (strcmp(field->name, to) == 0)
			return;
	}
}

static void
row_of(const struct tally *tally, int index, struct tally_row *row)
{
	struct fault why;

	cr_assert(tally_row(tally, &usual_head, index, row, &why), "row %d: %s",
		  index, why.sentence);
}

Test(tally, columns_stand_in_the_order_of_the_format)
{
	static const char expected[] =
		"schema,programme,site,station,device,date,revision,state,"
		"policy,sex,age_band,screened,same_day,urgent,routine,"
		"no_referral,depth_0,depth_5,depth_15,depth_25,depth_40,"
		"depth_75,depth_100,not_gradable,with_symptoms,late_entries,"
		"row,rows,day_total,check";
	char header[ROW_TEXT_SIZE] = "";

	for (size_t i = 0; i < tally_columns.count; i++) {
		size_t used = strlen(header);

		snprintf(header + used, sizeof header - used, "%s%s",
			 i > 0 ? "," : "", tally_columns.field[i].name);
	}
	cr_expect_str_eq(header, expected);
}

/* What one person adds; "" = not recorded. */
static const struct {
	const char *state, *sex, *age, *right, *left, *urgency, *findings,
		*late, *expected;
} persons[] = {
	/* sex,band, screened, 4 urgencies, 7 depths, x, symptoms, late */
	{"current", "F", "58", "100", "100", "no_referral", "", "0",
	 "F,50-59,1,0,0,0,1,0,0,0,0,0,0,1,0,0,0"},
	{"corrected", "M", "70", "5", "15", "same_day", "eye_pain;haloes", "1",
	 "M,70+,1,1,0,0,0,0,1,0,0,0,0,0,0,1,1"},
	{"", "X", "39", "75", "0", "urgent", "right:red_eye", "",
	 "X,0-39,1,0,1,0,0,1,0,0,0,0,0,0,0,0,0"},
	{"current", "", "", "x", "40", "routine", "headache", "0",
	 "unknown,unknown,1,0,0,1,0,0,0,0,0,1,0,0,0,0,0"},
	{"current", "F", "0", "25", "-", "routine", "past_spells", "0",
	 "F,0-39,1,0,0,1,0,0,0,0,1,0,0,0,0,1,0"},
	{"current", "F", "64", "x", "x", "routine", "", "0",
	 "F,60-69,1,0,0,1,0,0,0,0,0,0,0,0,1,0,0"},
	{"current", "M", "64", "x", "-", "urgent", "", "0",
	 "M,60-69,1,0,1,0,0,0,0,0,0,0,0,0,1,0,0"},
	{"current", "M", "64", "-", "15", "urgent", "", "0",
	 "M,60-69,1,0,1,0,0,0,0,1,0,0,0,0,0,0,0"},
	{"void", "M", "64", "0", "0", "same_day", "eye_pain", "1",
	 "unknown,unknown,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0"},
};

Test(tally, each_person_adds_to_the_right_columns)
{
	for (size_t i = 0; i < sizeof persons / sizeof persons[0]; i++) {
		struct tally *tally = new_tally();
		char text[ROW_TEXT_SIZE];
		struct tally_row row;
		struct visit visit;
		struct fault why;

		usual_visit(&visit);
		put(&visit, "state", persons[i].state);
		put(&visit, "sex", persons[i].sex);
		put(&visit, "age_years", persons[i].age);
		put(&visit, "depth_right", persons[i].right);
		put(&visit, "depth_left", persons[i].left);
		put(&visit, "urgency", persons[i].urgency);
		put(&visit, "findings", persons[i].findings);
		put(&visit, "late", persons[i].late);
		cr_assert(tally_add(tally, &visit, &why), "row %zu", i);
		row_of(tally, 0, &row);
		join(&row, "sex", "late_entries", text);
		cr_expect_str_eq(text, persons[i].expected, "row %zu: %s", i,
				 text);
		cr_expect_eq(row.day_total, row.screened, "row %zu", i);
		free(tally);
	}
}

Test(tally, a_band_begins_at_its_first_year)
{
	static const struct {
		int age;
		const char *band;
	} rows[] = {{0, "0-39"},   {39, "0-39"},  {40, "40-49"},  {49, "40-49"},
		    {50, "50-59"}, {59, "50-59"}, {60, "60-69"},  {69, "60-69"},
		    {70, "70+"},   {120, "70+"},  {-1, "unknown"}};
	struct fault why;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tally *tally = new_tally();
		struct tally_row row;
		struct visit visit;

		usual_visit(&visit);
		visit.age_years = rows[i].age;
		cr_assert(tally_add(tally, &visit, &why));
		row_of(tally, 0, &row);
		cr_expect_str_eq(row.age_band, rows[i].band, "row %zu: %s", i,
				 row.age_band);
		free(tally);
	}
}

Test(tally, seven_complaints_and_no_other_finding_are_symptoms)
{
	static const char *const symptoms = " eye_pain severe_eye_pain nausea "
					    "haloes blurred_sight "
					    "past_spells sudden_sight_loss ";
	struct fault why;
	int counted = 0;

	for (int i = 0; i < FINDING_COUNT; i++) {
		struct tally *tally = new_tally();
		struct tally_counts total;
		struct visit visit;
		char padded[60];

		usual_visit(&visit);
		findings_add(&visit.findings, (enum finding)i, EYE_LEFT);
		cr_assert(tally_add(tally, &visit, &why));
		tally_total(tally, &total);
		snprintf(padded, sizeof padded, " %s ",
			 finding_code((enum finding)i));
		cr_expect_eq(total.with_symptoms,
			     strstr(symptoms, padded) != NULL, "finding %s",
			     padded);
		counted += total.with_symptoms;
		free(tally);
	}
	cr_expect_eq(counted, 7);
}

static unsigned
draw(unsigned *state, unsigned below)
{
	*state = *state * 1664525U + 1013904223U;
	return (*state >> 8) % below;
}

static void
random_visit(unsigned *state, struct visit *visit)
{
	static const char *const sites[] = {"Mavi school", "Ridge hall"};

	usual_visit(visit);
	put(visit, "site", sites[draw(state, 2)]);
	put(visit, "policy", draw(state, 4) == 0 ? "GHIJKL" : "ABCDEF");
	visit->sex = (int)draw(state, SEX_COUNT + 1) - 1;
	visit->age_years = (int)draw(state, 90) - 1;
	visit->depth_right = (enum depth)draw(state, DEPTH_NO_EYE + 1);
	visit->depth_left = (enum depth)draw(state, DEPTH_NO_EYE);
	visit->findings.person = draw(state, 8) == 0
					 ? finding_bit(HALOES)
					 : finding_bit(LONG_SIGHTED);
	visit->urgency = (int)draw(state, URGENCY_COUNT);
	visit->late = (int)draw(state, 2);
	visit->state = (int)draw(state, 3);
}

static void
count_all(struct tally *tally, const struct visit *visits)
{
	struct fault why;

	tally_init(tally, &usual_bands);
	for (int i = 0; i < PEOPLE; i++)
		cr_assert(tally_add(tally, &visits[i], &why), "%s",
			  why.sentence);
}

static void
shuffle(unsigned *state, struct visit *visits)
{
	for (unsigned i = PEOPLE - 1; i > 0; i--) {
		unsigned j = draw(state, i + 1);
		struct visit held = visits[i];

		visits[i] = visits[j];
		visits[j] = held;
	}
}

Test(tally, the_order_of_adding_changes_no_row_and_no_mark)
{
	struct visit *visits = calloc(PEOPLE, sizeof *visits);
	struct tally *first = new_tally(), *other = new_tally();
	char mark[TALLY_MARK_SIZE], again[TALLY_MARK_SIZE];
	unsigned state = 7;
	struct fault why;

	cr_assert_not_null(visits);
	for (int i = 0; i < PEOPLE; i++)
		random_visit(&state, &visits[i]);
	count_all(first, visits);
	cr_assert(tally_mark(first, &usual_head, mark, &why));
	cr_expect_gt(tally_rows(first), 20);
	for (int round = 0; round < 20; round++) {
		shuffle(&state, visits);
		count_all(other, visits);
		cr_assert_eq(tally_rows(other), tally_rows(first));
		for (int i = 0; i < tally_rows(first); i++) {
			char one[ROW_TEXT_SIZE], two[ROW_TEXT_SIZE];
			struct tally_row row;

			row_of(first, i, &row);
			join(&row, "schema", "check", one);
			row_of(other, i, &row);
			join(&row, "schema", "check", two);
			cr_expect_str_eq(one, two, "round %d, row %d", round,
					 i);
		}
		cr_assert(tally_mark(other, &usual_head, again, &why));
		cr_expect_str_eq(again, mark, "round %d", round);
	}
	free(visits);
	free(first);
	free(other);
}

Test(tally, sums_agree_whoever_was_screened)
{
	struct visit *visits = calloc(PEOPLE, sizeof *visits);
	struct tally *tally = new_tally();

	cr_assert_not_null(visits);
	for (unsigned seed = 1; seed <= 40; seed++) {
		int people = 0, sum = 0, late = 0, late_sum = 0;
		unsigned state = seed;

		for (int i = 0; i < PEOPLE; i++) {
			random_visit(&state, &visits[i]);
			people += visits[i].state != STATE_VOID;
			late += visits[i].state != STATE_VOID &&
				visits[i].late == 1;
		}
		count_all(tally, visits);
		for (int i = 0; i < tally_rows(tally); i++) {
			struct tally_row r;

			row_of(tally, i, &r);
			cr_expect_eq(r.screened, r.same_day + r.urgent +
							 r.routine +
							 r.no_referral);
			cr_expect_eq(r.screened,
				     r.depth_0 + r.depth_5 + r.depth_15 +
					     r.depth_25 + r.depth_40 +
					     r.depth_75 + r.depth_100 +
					     r.not_gradable);
			cr_expect_gt(r.screened, 0);
			cr_expect_eq(r.row, i + 1);
			cr_expect_eq(r.rows, tally_rows(tally));
			cr_expect_eq(r.day_total, people, "seed %u", seed);
			sum += r.screened;
			late_sum += r.late_entries;
		}
		cr_expect_eq(sum, people, "seed %u", seed);
		cr_expect_eq(late_sum, late, "seed %u", seed);
	}
	free(visits);
	free(tally);
}

Test(tally, a_day_on_which_nobody_remains_has_one_row_of_zeros)
{
	struct tally *tally = new_tally();
	char text[ROW_TEXT_SIZE];
	struct tally_row row;

	cr_assert_eq(tally_rows(tally), 1);
	row_of(tally, 0, &row);
	join(&row, "schema", "day_total", text);
	cr_expect_str_eq(text,
			 "shoal-tally-1,Lantern Valley,Mavi school,0014,"
			 "QWERTZ,2026-03-10,3,open,ABCDEF,unknown,"
			 "unknown,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,1,1,0",
			 "%s", text);
	free(tally);
}

Test(tally, one_kind_of_people_too_many_is_refused)
{
	struct tally *tally = new_tally();
	struct visit visit;
	struct fault why = {FAULT_NONE, ""};

	usual_visit(&visit);
	for (int i = 0; i < TALLY_ROWS_MOST; i++) {
		snprintf(visit.site, sizeof visit.site, "site %d", 7 * i % 400);
		cr_assert(tally_add(tally, &visit, &why), "site %d", i);
	}
	cr_assert_eq(tally_rows(tally), TALLY_ROWS_MOST);
	snprintf(visit.site, sizeof visit.site, "one more");
	cr_expect_not(tally_add(tally, &visit, &why));
	cr_expect_eq(why.kind, FAULT_INPUT);
	cr_expect_str_eq(why.sentence, "the day has more than 400 kinds of "
				       "people (site, policy, sex, age band)");
	cr_expect_eq(tally_rows(tally), TALLY_ROWS_MOST);
	snprintf(visit.site, sizeof visit.site, "site 7");
	cr_expect(tally_add(tally, &visit, &why), "a kind that is there");
	free(tally);
}
