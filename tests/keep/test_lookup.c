/* Tests of keep/lookup: who and what is found, and how junk is. */
#include "keep/lookup.h"

#include "people.h"

#include <criterion/criterion.h>

TestSuite(lookup, .init = people_begin, .fini = people_end);

/* --- lists ---------------------------------------------------------------- */

Test(lookup, a_day_lists_its_people_by_serial_as_known_now)
{
	static const char *const names[] = {"A", "B", "C", "D"};
	char list[LIST_SIZE] = "";
	struct visit visit, paper;
	struct day day, next;

	cr_assert(day_make(2026, 3, 4, &day));
	next = day_plus_days(day, 1);
	person_named(&paper, "P");
	paper.screened_on = day;
	paper.number = (struct refnum){14, 90007};
	save_soundly(&paper);
	for (int i = 0; i < 4; i++) {
		person_named(&visit, names[i]);
		visit.screened_on = i == 1 ? next : day;
		save_soundly(&visit);
	}
	visit.screened_on = next;
	visit.state = STATE_CORRECTED;
	cr_assert(register_revise(&book, &visit, 5, "day", NULL, &why), "%s",
		  why.sentence);
	cr_assert(register_visit_day(&book, day, list_entry, list, &why));
	cr_expect_str_eq(list, "1 A current (); 3 C current (); "
			       "90007 P current (); ");
	list[0] = '\0';
	cr_assert(register_visit_day(&book, next, list_entry, list, &why));
	cr_expect_str_eq(list, "2 B current (); 4 D corrected (day); ");
	list[0] = '\0';
	cr_assert(
		register_visit_day(&book, day_none(), list_entry, list, &why));
	cr_expect_str_eq(list, "1 A current (); 2 B current (); "
			       "3 C current (); 4 D corrected (day); "
			       "90007 P current (); ");
}

static bool
stop(void *context, const struct visit *visit, const char *reason,
     struct fault *fault)
{
	(void)visit;
	(void)reason;
	++*(int *)context;
	return fault_set(fault, FAULT_OUTPUT, "no more paper");
}

/* A list may be asked and added to while it is gone through. */
static bool
save_another(void *context, const struct visit *visit, const char *reason,
	     struct fault *fault)
{
	struct book *other = context;
	struct visit one;

	(void)reason;
	if (visit->number.serial > 3)
		return true;
	person_bare(&one);
	return register_find(&book, visit->number, &one, NULL, fault) &&
	       (person_bare(&one), register_save(other, &one, NULL, fault));
}

Test(lookup, going_through_a_list_keeps_nobody_from_saving)
{
	char list[LIST_SIZE] = "";
	struct visit visit;
	struct book other;
	int calls = 0;

	person_named(&visit, "A");
	save_soundly(&visit);
	person_named(&visit, "B");
	save_soundly(&visit);
	cr_assert(register_open(&other, folder, BOOK_WRITE, &why));
	cr_expect(register_visit_day(&book, day_none(), save_another, &other,
				     &why),
		  "%s", why.sentence);
	register_close(&other);
	cr_expect(
		register_visit_day(&book, day_none(), list_entry, list, &why));
	cr_expect_str_eq(list, "1 A current (); 2 B current (); "
			       "3  current (); 4  current (); "
			       "5  current (); ");
	cr_expect_not(
		register_visit_day(&book, day_none(), stop, &calls, &why));
	cr_expect_eq(calls, 1);
	cr_expect_str_eq(why.sentence, "no more paper");
}

Test(lookup, perhaps_the_same_person_is_found)
{
	static const struct {
		const char *name;
		int age, sex;
		bool twin;
	} rows[] = {
		{"tilo  MAREN", 58, SEX_F, true},
		{"Tilo Maren", 60, SEX_F, true},
		{"Tilo Maren", 61, SEX_F, false},
		{"Tilo Maren", 56, SEX_F, true},
		{"Tilo Maren", 55, SEX_F, false},
		{"Tilo Maren", FIELD_BLANK, FIELD_BLANK, true},
		{"Tilo Maren", 58, SEX_M, false},
		{"Tilo Marens", 58, SEX_F, false},
		{"", 58, SEX_F, false},
	};
	struct visit visit;

	person_named(&visit, "Tilo Maren");
	visit.age_years = 58;
	visit.sex = SEX_F;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char list[LIST_SIZE] = "", expected[100] = "";
		struct visit other;

		person_named(&other, rows[i].name);
		other.age_years = rows[i].age;
		other.sex = rows[i].sex;
		save_soundly(&other);
		if (rows[i].twin)
			snprintf(expected, sizeof expected,
				 "%zu %s current (); ", i + 1, rows[i].name);
		cr_assert(register_visit_twins(&book, &visit, list_entry, list,
					       &why),
			  "%s", why.sentence);
		cr_expect_str_eq(list, expected, "row %zu", i);
		list[0] = '\0';
		visit.number = other.number;
		cr_assert(register_visit_twins(&book, &visit, list_entry, list,
					       &why));
		cr_expect_str_eq(list, "", "row %zu: of its own number", i);
		visit.number = (struct refnum){0, 0};
		other.state = STATE_VOID;
		cr_assert(register_revise(&book, &other, 2 * (long long)i + 1,
					  "void", NULL, &why),
			  "row %zu: %s", i, why.sentence);
		cr_assert(register_visit_twins(&book, &visit, list_entry, list,
					       &why));
		cr_expect_str_eq(list, "", "row %zu: void", i);
	}
}

/* A letter with a mark above is one code point or two (Unicode, NFC). */
Test(lookup, both_spellings_of_a_marked_letter_are_one_name)
{
	static const char *const names[] = {"Ren\xc3\xa9 Osk", "Rene\xcc\x81 "
							       "Osk"};

	for (int i = 0; i < 2; i++) {
		char list[LIST_SIZE] = "";
		struct visit visit;

		person_named(&visit, names[i]);
		save_soundly(&visit);
		person_named(&visit, names[1 - i]);
		cr_assert(register_visit_twins(&book, &visit, list_entry, list,
					       &why));
		cr_expect_not_null(strstr(list, names[i]), "row %d: '%s'", i,
				   list);
	}
}

/* --- days and policies ---------------------------------------------------- */

Test(lookup, the_last_day_is_of_people_not_void_and_not_late)
{
	struct day day, found;
	struct visit visit;

	cr_assert(register_last_day(&book, &found, &why));
	cr_expect(day_is_none(found));
	cr_assert(day_make(2026, 3, 4, &day));
	for (int i = 0; i < 4; i++) {
		person_bare(&visit);
		visit.screened_on = day_plus_days(day, i);
		visit.late = i == 1;
		save_soundly(&visit);
		visit.state = i == 2 ? STATE_VOID : STATE_CORRECTED;
		if (i == 3)
			visit.screened_on = day_plus_days(day, -1);
		cr_assert(i < 2 ||
			  register_revise(&book, &visit, i == 2 ? 3 : 5,
					  "wrong day", NULL, &why));
		cr_assert(register_last_day(&book, &found, &why));
		cr_expect_eq(found.number, day.number, "after %d: %d", i,
			     found.number - day.number);
	}
}

Test(lookup, each_policy_is_kept_once)
{
	static const struct {
		const char *mark, *text, *found;
	} rows[] = {
		{"AAAAAA", "first", "first"},	{"AAAAAA", "first", "first"},
		{"BBBBBB", "second", "second"}, {"AAAAAA", "other", "first"},
		{"AAAAAA", NULL, "first"},	{"", "none", NULL},
	};
	char text[100];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct visit visit;

		person_bare(&visit);
		snprintf(visit.policy, sizeof visit.policy, "%s", rows[i].mark);
		cr_assert(register_save(&book, &visit, rows[i].text, &why));
		cr_expect_eq(register_policy_text(&book, rows[i].mark, text,
						  sizeof text, &why),
			     rows[i].found != NULL, "row %zu", i);
		if (rows[i].found != NULL)
			cr_expect_str_eq(text, rows[i].found, "row %zu", i);
	}
	cr_expect_str_eq(why.sentence, "the register does not have the policy "
				       "''");
	cr_expect_str_eq(run_beside("CREATE TEMP TABLE t(n CHECK (n = 3)); "
				    "INSERT INTO t SELECT count(*) FROM "
				    "policy_text"),
			 "");
	cr_expect_not(register_policy_text(&book, "BBBBBB", text, 6, &why));
	cr_expect_eq(why.kind, FAULT_REGISTER);
}

/* --- junk ----------------------------------------------------------------- */

/* An entry of somebody sound but for one column, put there by other hands. */
static const char *
insert_junk(const char *column, const char *value)
{
	static const char *const sound[][2] = {{"number", "'0014-00001-98'"},
					       {"depth_right", "'25'"},
					       {"depth_left", "'25'"},
					       {"state", "'current'"}};
	char columns[200] = "entry", values[400] = "1", sql[700];
	bool is_extra = true;

	for (size_t i = 0; i < 4; i++) {
		bool is_it = strcmp(sound[i][0], column) == 0;

		is_extra = is_extra && !is_it;
		snprintf(columns + strlen(columns),
			 sizeof columns - strlen(columns), ", %s", sound[i][0]);
		snprintf(values + strlen(values),
			 sizeof values - strlen(values), ", %s",
			 is_it ? value : sound[i][1]);
	}
	snprintf(sql, sizeof sql, "INSERT INTO visit(%s%s%s) VALUES (%s%s%s)",
		 columns, is_extra ? ", " : "", is_extra ? column : "", values,
		 is_extra ? ", " : "", is_extra ? value : "");
	return run_beside(sql);
}

Test(lookup, junk_in_the_register_is_named_and_never_guessed_at)
{
	static const struct {
		const char *column, *value, *said;
	} rows[] = {
		{"depth_right", "'33'", "depth_right: "},
		{"depth_right", "'1/4'",
		 "depth_right: it is not written as it should be"},
		{"depth_left", "CAST(x'323500' AS TEXT)",
		 "depth_left: it is not written as it should be"},
		{"age_years", "121", "age_years: "},
		{"age_years", "-1", "age_years: "},
		{"sex", "'f'", "sex: 'f' is not one of: F, M, X"},
		{"name", "'a'||char(27)", "name: "},
		{"screened_on", "'2026-02-30'", "screened_on: "},
		{"findings", "'red_eye'", "findings: "},
		{"pressure_left", "0", "pressure_left: "},
		{"rules", "char(8238)", "rules: "},
		{"number", "'00140000198'",
		 "number: it is not written as it should be"},
		{"number", "'0014-00001-97'", "number: "},
		{"state", "'gone'", "state: "},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char expected[100], list[LIST_SIZE] = "";

		people_end();
		people_begin();
		cr_assert_str_eq(insert_junk(rows[i].column, rows[i].value), "",
				 "row %zu", i);
		cr_expect_not(register_visit_day(&book, day_none(), list_entry,
						 list, &why),
			      "row %zu: %s", i, list);
		snprintf(expected, sizeof expected,
			 "the register is damaged: entry 1: %s", rows[i].said);
		cr_expect(why.kind == FAULT_REGISTER &&
				  strncmp(why.sentence, expected,
					  strlen(expected)) == 0,
			  "row %zu: %s", i, why.sentence);
	}
}
