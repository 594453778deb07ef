/* test_rowmark.c: a value that is not what was written is told, whatever it
 * is. */
#include "keep/rowmark.h"

#include "keep/copies.h"
#include "keep/entries.h"
#include "keep/lookup.h"
#include "keep/replies.h"
#include "keep/serials.h"
#include "people.h"

TestSuite(rowmark, .init = people_begin, .fini = people_end);

/* A person, a reply, a tally and a serial to go on from. */
static void
begin_with_all(void)
{
	const struct tally_written written = {2, false, "ABCDEFG"};
	struct visit visit;
	struct reply reply;

	person_full(&visit);
	save_soundly(&visit);
	visit.state = STATE_CORRECTED;
	cr_assert(register_revise(&book, &visit, 1, "again", NULL, &why));
	reply_init(&reply);
	reply.number = visit.number;
	reply.outcome = OUTCOME_ATTENDED;
	reply.seen_on = visit.screened_on;
	cr_assert(register_save_reply(&book, &reply, visit.screened_on, &why),
		  "%s", why.sentence);
	cr_assert(
		register_keep_tally(&book, visit.screened_on, &written, &why));
	cr_assert(serials_keep_from(&book.store, 40, &why));
	cr_assert(copies_check(&book, &why), "%s", why.sentence);
}

/* Changes something behind the back of the trigger that forbids it. */
static void
change(const char *table, const char *change)
{
	char sql[600];

	snprintf(sql, sizeof sql,
		 "BEGIN; CREATE TEMP TABLE old AS SELECT sql FROM "
		 "sqlite_schema "
		 "WHERE name = '%s_no_update'; DROP TRIGGER %s_no_update; "
		 "UPDATE %s SET %s; CREATE TRIGGER %s_no_update BEFORE UPDATE "
		 "ON %s BEGIN SELECT raise(ABORT, 'rows are only added'); END; "
		 "COMMIT",
		 table, table, table, change, table, table);
	cr_assert_str_eq(run_beside(sql), "", "%s", change);
}

static bool
is_said(void)
{
	return why.kind == FAULT_REGISTER &&
	       strstr(why.sentence, "the register is damaged") != NULL &&
	       strstr(why.sentence, "is not what was written") != NULL;
}

/* Each is a value that its reader takes. */
static const struct row {
	const char *table, *change;
} rows[] = {
	{"visit", "age_years = 59 WHERE entry = 2"},
	{"visit", "depth_right = '75' WHERE entry = 2"},
	{"visit", "contact = 'elsewhere' WHERE entry = 2"},
	{"visit", "urgency = 'no_referral' WHERE entry = 2"},
	{"visit", "folded_name = 'other' WHERE entry = 2"},
	{"visit", "reason = 'other' WHERE entry = 2"},
	{"visit", "entry = 5 WHERE entry = 2"},
	{"visit", "row_mark = NULL WHERE entry = 2"},
	{"visit", "row_mark = 'AAAAAAA' WHERE entry = 2"},
	{"reply", "outcome = 'elsewhere'"},
	{"reply", "teach = 'well done'"},
	{"reply", "entry = 2"},
	{"tally_written", "revision = 1"},
	{"tally_written", "closed = 1"},
	{"tally_written", "mark = 'ABCDEFH'"},
	{"station", "value = '41' WHERE name = 'serials_from_1'"},
	{"station", "value = 'ABCDEF' WHERE name = 'device'"},
	{"station", "name = 'serials_from_2' WHERE name = 'serials_from_1'"},
};

/* As a copy, which is checked whole. */
Test(rowmark, what_was_changed_is_found_by_the_check_of_a_copy)
{
	static struct people_kept kept;

	begin_with_all();
	people_keep(&kept);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		people_again(&kept);
		change(rows[i].table, rows[i].change);
		cr_expect(!copies_check(&book, &why) && is_said(),
			  "row %zu: %s", i, why.sentence);
	}
}

static bool
see_nobody(void *context, const struct visit *visit, const struct reply *reply,
	   struct fault *one)
{
	(void)context;
	(void)visit;
	(void)reply;
	(void)one;
	return true;
}

/* Where it is wanted. */
static bool
read_all(void)
{
	struct tally_written last;
	struct visit visit;
	struct day day;
	int serial;

	person_full(&visit);
	day = visit.screened_on;
	register_close(&book);
	return register_open(&book, folder, BOOK_READ, &why) &&
	       register_visit_replies(&book, see_nobody, NULL, &why) &&
	       register_last_tally(&book, day, &last, &why) &&
	       serials_read_from(&book.store, book.form, &serial, &why);
}

Test(rowmark, what_was_changed_is_never_believed)
{
	static struct people_kept kept;

	begin_with_all();
	people_keep(&kept);
	cr_expect(read_all(), "%s", why.sentence);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		people_again(&kept);
		change(rows[i].table, rows[i].change);
		cr_expect(!read_all() && is_said(), "row %zu: %s", i,
			  why.sentence);
	}
}

/* A letter that moves from one value to the next is a change, too; NULL and
 * nothing are the same. */
Test(rowmark, it_tells_values_apart)
{
	static const struct {
		const char *values[3];
		int count;
		bool same;
	} all[] = {
		{{"ab", "c", NULL}, 3, true},  {{"ab", "c", ""}, 3, true},
		{{"a", "bc", NULL}, 3, false}, {{"ab", "c"}, 2, false},
		{{"ab", NULL, "c"}, 3, false}, {{"ab", "d", NULL}, 3, false},
	};
	char first[ROWMARK_SIZE], mark[ROWMARK_SIZE];

	rowmark_write(all[0].values, all[0].count, first);
	cr_expect_eq(strspn(first, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"),
		     MARK_ROW_LETTERS);
	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
		rowmark_write(all[i].values, all[i].count, mark);
		cr_expect_eq(strcmp(first, mark) == 0, all[i].same, "row %zu",
			     i);
	}
}
