/* Tests of keep/register: what is added, and that it is added only. */
#include "keep/register.h"

#include "people.h"

#include <criterion/criterion.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>

TestSuite(register, .init = people_begin, .fini = people_end);

/* --- what is saved -------------------------------------------------------- */

Test(register, people_come_back_as_they_were_saved)
{
	for (int blank = 0; blank < 2; blank++) {
		char number[REFNUM_SIZE];
		struct visit visit, again;
		long long entry;

		if (blank)
			person_bare(&visit);
		else
			person_full(&visit);
		save_soundly(&visit);
		refnum_write(visit.number, number);
		cr_expect_str_eq(number,
				 blank ? "0014-00002-95" : "0014-00001-98");
		cr_expect_eq(visit.state, STATE_CURRENT);
		memset(&again, 0x5a, sizeof again);
		cr_assert(register_find(&book, visit.number, &again, &entry,
					&why),
			  "%s", why.sentence);
		cr_expect_eq(entry, blank + 1);
		for (size_t i = 0; i < visit_fields.count; i++) {
			const struct field *field = &visit_fields.field[i];

			cr_expect(person_same(field, &visit, &again),
				  "blank %d: field %s", blank, field->name);
			cr_expect(field_is_blank(field, &visit) ==
					  field_is_blank(field, &again),
				  "blank %d: field %s", blank, field->name);
		}
	}
}

Test(register, blanks_are_null_and_never_zero_or_empty)
{
	char sql[2000] = "SELECT 1 FROM visit WHERE entry = 1";
	struct store_row row;
	struct visit visit;

	person_bare(&visit);
	save_soundly(&visit);
	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];
		size_t length = strlen(sql);

		snprintf(sql + length, sizeof sql - length, " AND %s IS %s",
			 field->name,
			 field_is_blank(field, &visit) ? "NULL" : "NOT NULL");
	}
	cr_assert(store_ask(&book.store, sql, NULL, 0, &row, &why), "%s",
		  why.sentence);
	cr_expect(row.found);
	store_end(&row);
}

Test(register, numbers_rise_and_are_never_given_twice)
{
	struct visit visit, third;

	for (int serial = 1; serial <= 3; serial++) {
		person_bare(&visit);
		save_soundly(&visit);
		cr_expect_eq(visit.number.station, 14);
		cr_expect_eq(visit.number.serial, serial, "%d",
			     visit.number.serial);
	}
	third = visit;
	third.state = STATE_VOID;
	cr_assert(register_revise(&book, &third, 3, "typed twice", NULL, &why),
		  "%s", why.sentence);
	person_bare(&visit);
	visit.number = (struct refnum){14, REFNUM_PAPER_FIRST};
	save_soundly(&visit);
	person_bare(&visit);
	save_soundly(&visit);
	cr_expect_eq(visit.number.serial, 4, "%d", visit.number.serial);
}

Test(register, the_last_number_is_the_last)
{
	char number[REFNUM_SIZE], sql[200];
	struct visit visit;

	refnum_write((struct refnum){14, 89999}, number);
	snprintf(sql, sizeof sql,
		 "INSERT INTO visit(number, depth_right, depth_left, state) "
		 "VALUES ('%s', '25', '25', 'current')",
		 number);
	cr_assert_str_eq(run_beside(sql), "");
	person_bare(&visit);
	save_soundly(&visit);
	cr_expect_eq(visit.number.serial, 90000);
	person_bare(&visit);
	cr_expect_not(save(&visit));
	cr_expect_eq(why.kind, FAULT_REGISTER);
	cr_expect_str_eq(why.sentence, "NOT saved: station 0014 has given out "
				       "all its numbers (1 to 90000); set up a "
				       "station with a new code; write this "
				       "person on paper");
	cr_expect(refnum_is_none(visit.number));
}

Test(register, paper_numbers_are_kept_once_and_only_if_they_are_ours)
{
	static const struct {
		struct refnum number;
		const char *said; /* NULL = kept */
	} rows[] = {
		{{14, 90001}, NULL},
		{{14, 99999}, NULL},
		{{14, 90001}, "is in the register already"},
		{{15, 90002},
		 "is a number of another station; this one is "
		 "0014"},
		{{14, 90000}, "is no number of a paper pad"},
		{{14, 1}, "is no number of a paper pad"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct visit visit;
		bool done;

		person_bare(&visit);
		visit.number = rows[i].number;
		done = save(&visit);
		cr_expect_eq(done, rows[i].said == NULL, "row %zu", i);
		cr_expect_eq(visit.number.serial, rows[i].number.serial,
			     "row %zu", i);
		if (done || rows[i].said == NULL)
			continue;
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect_eq(strncmp(why.sentence, "NOT saved: ", 11), 0,
			     "row %zu: %s", i, why.sentence);
		cr_expect_not_null(strstr(why.sentence, rows[i].said),
				   "row %zu: %s", i, why.sentence);
		cr_expect_eq(visit.state, FIELD_BLANK, "row %zu", i);
	}
}

Test(register, what_could_not_be_read_back_is_not_saved)
{
	for (int i = 0; i < 4; i++) {
		struct visit visit;

		person_full(&visit);
		if (i == 0)
			snprintf(visit.name, sizeof visit.name, "a\x1b[31m");
		else if (i == 1)
			visit.depth_left = DEPTH_BLANK;
		else if (i == 2)
			visit.age_years = 121;
		else
			snprintf(visit.site, sizeof visit.site, "=1");
		cr_expect_not(save(&visit), "row %d", i);
		cr_expect(refnum_is_none(visit.number), "row %d", i);
		cr_expect_not(store_is_begun(&book.store), "row %d", i);
	}
	cr_expect_str_eq(run_beside("CREATE TEMP TABLE t(n CHECK (n = 0)); "
				    "INSERT INTO t SELECT count(*) FROM visit; "
				    "INSERT INTO t SELECT count(*) FROM "
				    "policy_text"),
			 "");
}

/* --- later entries -------------------------------------------------------- */

Test(register, a_correction_is_a_new_entry_and_the_old_one_stays)
{
	char list[LIST_SIZE] = "";
	struct visit visit, other;
	long long entry;

	person_named(&visit, "Tilo Marn");
	save_soundly(&visit);
	person_named(&other, "Ana Brel");
	save_soundly(&other);
	snprintf(visit.name, sizeof visit.name, "Tilo Maren");
	visit.state = STATE_CORRECTED;
	cr_assert(register_revise(&book, &visit, 1, "name misspelt", NULL,
				  &why),
		  "%s", why.sentence);
	cr_assert(register_find(&book, visit.number, &other, &entry, &why));
	cr_expect_str_eq(other.name, "Tilo Maren");
	cr_expect_eq(entry, 3);
	visit.state = STATE_VOID;
	cr_assert(
		register_revise(&book, &visit, 3, "entered twice", NULL, &why));
	cr_assert(register_visit_history(&book, visit.number, list_entry, list,
					 &why),
		  "%s", why.sentence);
	cr_expect_str_eq(list, "1 Tilo Marn current (); "
			       "1 Tilo Maren corrected (name misspelt); "
			       "1 Tilo Maren void (entered twice); ");
	list[0] = '\0';
	cr_assert(
		register_visit_day(&book, day_none(), list_entry, list, &why));
	cr_expect_str_eq(list, "1 Tilo Maren void (entered twice); "
			       "2 Ana Brel current (); ");
}

Test(register, a_correction_that_does_not_fit_is_refused)
{
	static const struct {
		int serial, state;
		long long entry;
		const char *reason;
		enum fault_kind kind;
		const char *said;
	} rows[] = {
		{1, STATE_CORRECTED, 1, "late", FAULT_INPUT,
		 "NOT saved: '0014-00001-98' was changed by somebody else "
		 "meanwhile; look at it again"},
		{1, STATE_CORRECTED, 3, "", FAULT_INPUT,
		 "NOT saved: the reason is empty; say why in a few words"},
		{1, STATE_CORRECTED, 3, "=1", FAULT_INPUT,
		 "NOT saved: reason: it may not begin with = + - or @, which "
		 "a spreadsheet takes for a formula"},
		{2, STATE_VOID, 3, "of another", FAULT_INPUT,
		 "NOT saved: '0014-00002-95' was changed by somebody else "
		 "meanwhile; look at it again"},
		{3, STATE_VOID, 1, "of nobody", FAULT_INPUT,
		 "NOT saved: '0014-00003-92' is not in this register"},
		{1, STATE_CURRENT, 3, "no state", FAULT_INTERNAL,
		 "NOT saved: a later entry is a correction or void; write "
		 "this change on paper"},
	};
	struct visit visit;

	person_named(&visit, "Tilo Marn");
	save_soundly(&visit);
	visit.state = STATE_CORRECTED;
	person_bare(&visit);
	save_soundly(&visit);
	visit.number.serial = 1;
	visit.state = STATE_CORRECTED;
	cr_assert(register_revise(&book, &visit, 1, "first", NULL, &why));
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		visit.number.serial = rows[i].serial;
		visit.state = rows[i].state;
		cr_expect_not(register_revise(&book, &visit, rows[i].entry,
					      rows[i].reason, NULL, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, rows[i].kind, "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].said, "row %zu", i);
	}
	cr_expect_not(register_find(&book, (struct refnum){14, 3}, &visit, NULL,
				    &why));
	cr_expect_eq(why.kind, FAULT_INPUT);
	cr_expect_str_eq(why.sentence, "'0014-00003-92' is not in this "
				       "register");
}

Test(register, rows_are_only_added)
{
	static const char *const rows[] = {
		"UPDATE visit SET name = 'other'",
		"UPDATE visit SET age_years = 9 WHERE entry = 1",
		"DELETE FROM visit",
		"DELETE FROM visit WHERE entry = 1",
		"UPDATE policy_text SET text = 'other'",
		"DELETE FROM policy_text",
		"UPDATE tally_written SET revision = 9",
		"DELETE FROM tally_written",
		"UPDATE station SET value = '15' WHERE name = 'station'",
		"DELETE FROM station",
		"REPLACE INTO visit(entry, number, depth_right, depth_left, "
		"state) VALUES (1, '0014-00009-74', '25', '25', 'current')",
		"REPLACE INTO visit(number, depth_right, depth_left, state) "
		"VALUES ('0014-00001-98', '25', '25', 'current')",
		"REPLACE INTO visit(number, depth_right, depth_left, state, "
		"revises, reason) VALUES ('0014-00009-74', '25', '25', "
		"'void', 1, 'x')",
		"REPLACE INTO policy_text VALUES (1, 'ABCDEF', 'other')",
		"REPLACE INTO station VALUES ('station', '15', 'AAAAAAA')",
		"REPLACE INTO tally_written VALUES "
		"('2026-03-04', 1, 0, 'BBBBBBB', 'AAAAAAA')",
	};
	/* Two first entries, two followers, a follower of nothing. */
	static const char *const forks[] = {
		"INSERT INTO visit(number, depth_right, depth_left, state) "
		"SELECT number, '25', '25', 'current' FROM visit",
		"INSERT INTO visit(number, depth_right, depth_left, state, "
		"revises, reason) SELECT number, '25', '25', 'void', 1, 'x' "
		"FROM visit WHERE entry = 1",
		"PRAGMA foreign_keys = ON; "
		"INSERT INTO visit(number, depth_right, depth_left, state, "
		"revises, reason) VALUES ('0014-00009-74', '25', '25', "
		"'void', 99, 'x')",
	};
	const struct tally_written written = {1, true, "ABCDEFG"};
	struct visit visit, again;

	person_full(&visit);
	save_soundly(&visit);
	visit.state = STATE_CORRECTED;
	cr_assert(register_revise(&book, &visit, 1, "again", NULL, &why));
	cr_assert(
		register_keep_tally(&book, visit.screened_on, &written, &why));
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		cr_expect_str_eq(run_beside(rows[i]), "rows are only added",
				 "row %zu", i);
	for (size_t i = 0; i < sizeof forks / sizeof forks[0]; i++) {
		char sql[2000];

		snprintf(sql, sizeof sql,
			 "DROP TRIGGER IF EXISTS visit_no_replace; %s",
			 forks[i]);
		cr_expect_not_null(strstr(run_beside(sql), "constraint failed"),
				   "fork %zu", i);
	}
	cr_assert(register_find(&book, visit.number, &again, NULL, &why));
	for (size_t i = 0; i < visit_fields.count; i++)
		cr_expect(person_same(&visit_fields.field[i], &visit, &again),
			  "field %s", visit_fields.field[i].name);
}

/* --- tallies -------------------------------------------------------------- */

Test(register, the_last_tally_of_a_day_is_remembered)
{
	static const struct {
		int day;
		struct tally_written written, last;
		bool kept;
	} rows[] = {
		{0, {1, false, "AAAAAAA"}, {1, false, "AAAAAAA"}, true},
		{0, {2, false, "BBBBBBB"}, {2, false, "BBBBBBB"}, true},
		{0, {2, false, "BBBBBBB"}, {2, false, "BBBBBBB"}, true},
		{0, {2, false, "CCCCCCC"}, {2, false, "BBBBBBB"}, false},
		{0, {1, false, "AAAAAAA"}, {2, false, "BBBBBBB"}, false},
		{1, {1, true, "DDDDDDD"}, {1, true, "DDDDDDD"}, true},
		{0, {9, true, "EEEEEEE"}, {9, true, "EEEEEEE"}, true},
	};
	struct tally_written last;
	struct day day;

	cr_assert(day_make(2026, 3, 4, &day));
	cr_assert(register_last_tally(&book, day, &last, &why));
	cr_expect_eq(last.revision, 0);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct day on = day_plus_days(day, rows[i].day);

		cr_expect_eq(register_keep_tally(&book, on, &rows[i].written,
						 &why),
			     rows[i].kept, "row %zu: %s", i, why.sentence);
		if (!rows[i].kept)
			cr_expect_str_eq(why.sentence,
					 "the tally of 2026-03-04 has revision "
					 "2 already; make it again",
					 "row %zu", i);
		cr_assert(register_last_tally(&book, on, &last, &why), "%s",
			  why.sentence);
		cr_expect(last.revision == rows[i].last.revision &&
				  last.closed == rows[i].last.closed &&
				  strcmp(last.mark, rows[i].last.mark) == 0,
			  "row %zu: %d %s", i, last.revision, last.mark);
	}
}

/* --- together and undone -------------------------------------------------- */

static int
count_people(struct book *of)
{
	char text[STORE_NUMBER_SIZE];

	cr_assert(store_ask_text(&of->store, "SELECT count(*) FROM visit", NULL,
				 0, text, sizeof text, &why),
		  "%s", why.sentence);
	return atoi(text);
}

Test(register, several_saves_are_kept_together_or_not_at_all)
{
	struct visit visit;
	struct book other;

	cr_assert(register_open(&other, folder, BOOK_READ, &why));
	for (int undone = 1; undone >= 0; undone--) {
		cr_assert(register_begin(&book, &why));
		for (int serial = 1; serial <= 3; serial++) {
			person_bare(&visit);
			save_soundly(&visit);
			cr_expect_eq(visit.number.serial, serial);
		}
		cr_expect_eq(count_people(&other), 0, "before, %d", undone);
		if (undone)
			register_undo(&book);
		else
			cr_assert(register_commit(&book, &why));
		cr_expect_eq(count_people(&other), undone ? 0 : 3);
	}
	register_undo(&book);
	cr_expect_eq(count_people(&other), 3);
	cr_expect_not(register_begin(&other, &why));
	cr_expect_not_null(strstr(why.sentence, "was opened for reading only"));
	person_bare(&visit);
	cr_expect_not(register_save(&other, &visit, NULL, &why));
	cr_expect_eq(why.kind, FAULT_REGISTER);
	register_close(&other);
}

/* The file may not grow any more, as on a full disk. */
Test(register, a_failed_save_changes_nothing_and_says_what_to_do)
{
	static char text[50000];
	struct rlimit limit = {0, RLIM_INFINITY};
	struct visit visit, before;
	struct stat status;

	person_full(&visit);
	save_soundly(&visit);
	cr_assert_eq(lstat(book.store.path, &status), 0);
	memset(text, 'x', sizeof text - 1);
	signal(SIGXFSZ, SIG_IGN);
	limit.rlim_cur = (rlim_t)status.st_size;
	cr_assert_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
	person_full(&visit);
	before = visit;
	cr_expect_not(register_save(&book, &visit, text, &why));
	cr_expect_eq(why.kind, FAULT_REGISTER);
	cr_expect_eq(strncmp(why.sentence, "NOT saved: '", 12), 0, "%s",
		     why.sentence);
	cr_expect_not_null(strstr(why.sentence, "; write this person on paper"),
			   "%s", why.sentence);
	cr_expect_eq(memcmp(&visit, &before, sizeof visit), 0);

	limit.rlim_cur = RLIM_INFINITY;
	cr_assert_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
	cr_expect_not(register_save(&book, &visit, NULL, &why));
	cr_expect_not_null(strstr(why.sentence, "could not be written before"),
			   "%s", why.sentence);
	register_close(&book);
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why), "%s",
		  why.sentence);
	cr_expect_eq(count_people(&book), 1);
	save_soundly(&visit);
	cr_expect_eq(visit.number.serial, 2);
}

enum { SAVES = 100, WRITERS = 2 };

/* What one of several programs does; its exit status is how many of its saves
 * failed. */
static void
write_people(void)
{
	struct book own;
	int failed = 0;

	if (!register_open(&own, folder, BOOK_WRITE, &why))
		_exit(SAVES);
	for (int i = 0; i < SAVES; i++) {
		struct visit visit;

		person_bare(&visit);
		failed += !register_save(&own, &visit, "policy text", &why);
	}
	register_close(&own);
	_exit(failed);
}

Test(register, two_programs_give_no_number_twice)
{
	pid_t writer[WRITERS];

	register_close(&book);
	for (int i = 0; i < WRITERS; i++) {
		writer[i] = fork();
		cr_assert_geq(writer[i], 0);
		if (writer[i] == 0)
			write_people();
	}
	for (int i = 0; i < WRITERS; i++) {
		int status = -1;

		cr_assert_eq(waitpid(writer[i], &status, 0), writer[i]);
		cr_expect(WIFEXITED(status) && WEXITSTATUS(status) == 0,
			  "writer %d: status %d", i, status);
	}
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why), "%s",
		  why.sentence);
	for (int serial = 1; serial <= WRITERS * SAVES; serial++) {
		struct visit visit;

		cr_expect(register_find(&book, (struct refnum){14, serial},
					&visit, NULL, &why),
			  "%s", why.sentence);
	}
	cr_expect_eq(count_people(&book), WRITERS * SAVES);
}

/* Another program that is in the middle of a save is waited for. */
Test(register, a_save_waits_for_another_program)
{
	int ready[2], status = -1;
	struct visit visit;
	pid_t other;
	char byte;

	register_close(&book);
	cr_assert_eq(pipe(ready), 0);
	other = fork();
	cr_assert_geq(other, 0);
	if (other == 0) {
		struct book own;

		person_bare(&visit);
		if (!register_open(&own, folder, BOOK_WRITE, &why) ||
		    !register_begin(&own, &why) ||
		    !register_save(&own, &visit, NULL, &why) ||
		    write(ready[1], "x", 1) != 1)
			_exit(1);
		usleep(300000);
		if (!register_commit(&own, &why))
			_exit(1);
		register_close(&own);
		_exit(0);
	}
	cr_assert_eq(read(ready[0], &byte, 1), 1);
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why), "%s",
		  why.sentence);
	person_bare(&visit);
	save_soundly(&visit);
	cr_expect_eq(visit.number.serial, 2);
	cr_assert_eq(waitpid(other, &status, 0), other);
	cr_expect(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}
