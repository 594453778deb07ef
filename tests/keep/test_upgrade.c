/* test_upgrade.c: a register of an older form is read, and brought up to
 * date, without losing anything. */
#include "keep/replies.h"

#include "keep/policyfile.h"
#include "keep/schema.h"
#include "people.h"

#include <signal.h>
#include <sys/resource.h>

enum { STORE_MOST = 200000, ALL_SIZE = 20000 };

static const char golden[] = "tests/fixtures/registers/v1.db";
static char before[STORE_MOST], after[STORE_MOST];
static long length;
static char path[FOLDER_PATH];

/* A folder with the register of form 1 and nothing else. */
static void
begin(void)
{
	length = folder_get(golden, before, sizeof before);
	cr_assert(length > 0 && length < STORE_MOST);
	cr_assert(folder_make(folder));
	folder_path(folder, "register.db", path);
	cr_assert(folder_put(path, before, (size_t)length));
}

static void
end(void)
{
	register_close(&book);
	folder_remove(folder);
}

static void
open_it(enum book_use use)
{
	cr_assert(register_open(&book, folder, use, &why), "%s", why.sentence);
}

/* Adds the line of an entry as v1.txt has it. */
static bool
add_entry(void *context, const struct visit *visit, const char *reason,
	  struct fault *unused)
{
	char *all = context, text[FIELD_TEXT_SIZE];
	size_t used = strlen(all);

	(void)unused;
	for (size_t i = 0; i < visit_fields.count; i++) {
		field_write(&visit_fields.field[i], visit, text, sizeof text);
		used += (size_t)snprintf(all + used, ALL_SIZE - used, "%s|",
					 text);
	}
	snprintf(all + used, ALL_SIZE - used, "%s\n", reason);
	return true;
}

static bool
add_history(void *context, const struct visit *visit, const char *reason,
	    struct fault *one)
{
	(void)reason;
	return register_visit_history(&book, visit->number, add_entry, context,
				      one);
}

static void
hear_and_fail(void *context, const struct fault *one)
{
	cr_assert_fail("%s: %s", (const char *)context, one->sentence);
}

/* The open book has everything that v1.db had. */
static void
expect_all(const char *when)
{
	static char wanted[ALL_SIZE], all[ALL_SIZE], text[70000];
	static struct policy policy;
	struct tally_written tally;
	struct day day;
	char mark[POLICY_MARK_SIZE];

	memset(wanted, 0, sizeof wanted);
	cr_assert_gt(folder_get("tests/fixtures/registers/v1.txt", wanted,
				sizeof wanted - 1),
		     0);
	all[0] = '\0';
	cr_assert(register_visit_day(&book, day_none(), add_history, all, &why),
		  "%s: %s", when, why.sentence);
	cr_expect_str_eq(all, wanted, "%s: %s", when, all);
	cr_assert(register_last_day(&book, &day, &why));
	cr_assert(register_last_tally(&book, day, &tally, &why));
	cr_expect(tally.revision == 2 && tally.closed, "%s", when);
	cr_expect_str_eq(tally.mark, "JUNOJXW", "%s", when);
	/* The policy it kept is still read, and means what it meant. */
	cr_assert(register_policy_text(&book, "VYZXCS", text, sizeof text,
				       &why),
		  "%s: %s", when, why.sentence);
	cr_assert(policyfile_read_bytes("kept", text, strlen(text), &policy,
					hear_and_fail, (void *)"kept", &why));
	policy_fingerprint(&policy, mark);
	cr_expect_str_eq(mark, "VYZXCS", "%s", when);
	cr_expect_eq(policy.hidden_quadrants, FIELD_BLANK);
}

static void
save_a_reply(void)
{
	struct reply reply;
	struct day today;

	cr_assert(day_read("2026-03-20", &today, &why));
	reply_init(&reply);
	cr_assert(refnum_read("0014-00002-95", &reply.number, &why));
	reply.outcome = OUTCOME_ATTENDED;
	reply.seen_on = today;
	cr_assert(register_save_reply(&book, &reply, today, &why), "%s",
		  why.sentence);
}

Test(upgrade, an_old_register_is_read_as_it_is)
{
	struct reply reply;
	struct refnum number;
	long long entry = 7;

	begin();
	open_it(BOOK_READ);
	cr_expect_eq(book.form, 1);
	expect_all("read");
	cr_assert(refnum_read("0014-00002-95", &number, &why));
	cr_expect(register_find_reply(&book, number, &reply, &entry, &why));
	cr_expect_eq(entry, 0);
	register_close(&book);
	cr_expect_eq(folder_count(folder), 1, "reading leaves nothing behind");
	cr_expect_eq(folder_get(path, after, sizeof after), length);
	cr_expect_eq(memcmp(before, after, (size_t)length), 0);
	end();
}

Test(upgrade, opened_for_writing_it_is_brought_up_to_date_after_a_copy)
{
	char copy[FOLDER_PATH];

	begin();
	open_it(BOOK_WRITE);
	cr_expect_eq(book.form, SCHEMA_VERSION);
	expect_all("upgraded");
	save_a_reply();
	expect_all("with a reply");
	register_close(&book);
	cr_expect_eq(folder_count(folder), 2, "the register and its copy");
	folder_path(folder, "register.db.v1", copy);
	cr_expect_eq(folder_mode(copy), 0600);

	/* Opened again, nothing more is copied. */
	open_it(BOOK_WRITE);
	register_close(&book);
	open_it(BOOK_READ);
	cr_expect_eq(book.form, SCHEMA_VERSION);
	expect_all("opened again");
	register_close(&book);
	cr_expect_eq(folder_count(folder), 2);

	/* The copy is a whole register of the old form. */
	cr_assert_eq(rename(copy, path), 0);
	open_it(BOOK_READ);
	cr_expect_eq(book.form, 1);
	expect_all("the copy");
	register_close(&book);
	end();
}

Test(upgrade, a_copy_that_is_there_is_never_written_over)
{
	char copy[FOLDER_PATH], other[FOLDER_PATH];

	begin();
	folder_path(folder, "register.db.v1", copy);
	folder_path(folder, "register.db.v1-2", other);
	cr_assert(folder_put(copy, "mine", 4));
	cr_assert_eq(symlink("/nowhere", other), 0);
	open_it(BOOK_WRITE);
	expect_all("upgraded");
	register_close(&book);
	cr_expect(folder_holds(copy, "mine"));
	folder_path(folder, "register.db.v1-3", other);
	cr_expect_eq(folder_mode(other), 0600);
	cr_expect_eq(folder_count(folder), 4);
	end();
}

/* Files may grow to a size at which the copy, or the register itself, fails. */
Test(upgrade, without_room_the_register_stays_as_it_was)
{
	struct rlimit limit;

	begin();
	cr_assert_eq(getrlimit(RLIMIT_FSIZE, &limit), 0);
	signal(SIGXFSZ, SIG_IGN);
	for (rlim_t most = 4096; most < 80000; most += 8192) {
		bool done;

		cr_assert(folder_put(path, before, (size_t)length));
		limit.rlim_cur = most;
		cr_assert_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
		done = register_open(&book, folder, BOOK_WRITE, &why);
		limit.rlim_cur = limit.rlim_max;
		cr_assert_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
		cr_expect_not(done, "%d", (int)most);
		register_close(&book);
		cr_expect_eq(why.kind, FAULT_REGISTER);
		cr_expect_not_null(strstr(why.sentence, "is of an older form "
							"and could not "
							"be brought up to "
							"date; it is as it "
							"was: "),
				   "%s", why.sentence);
		open_it(BOOK_READ);
		cr_expect_eq(book.form, 1);
		expect_all("no room");
		register_close(&book);
		cr_expect_eq(folder_count(folder), 1, "%d", (int)most);
	}
	end();
}

Test(upgrade, tables_must_be_those_of_the_form_that_the_file_names)
{
	begin();
	before[63] = 2; /* user_version, by the file format's section 1.3 */
	cr_assert(folder_put(path, before, (size_t)length));
	for (int use = BOOK_READ; use <= BOOK_WRITE; use++) {
		cr_expect_not(
			register_open(&book, folder, (enum book_use)use, &why));
		cr_expect_not_null(strstr(why.sentence, "holds other tables"),
				   "%s", why.sentence);
	}
	cr_expect_eq(folder_count(folder), 1);
	end();
}
