/* test_upgrade.c: a register of an older form is read, and brought up to
 * date, without losing anything. */
#include "keep/replies.h"

#include "keep/copies.h"
#include "keep/policyfile.h"
#include "keep/schema.h"
#include "people.h"

#include <signal.h>
#include <sys/resource.h>

enum { STORE_MOST = 200000, ALL_SIZE = 20000 };

#define REGISTERS "tests/fixtures/registers/"

/* One of each older form; the last tally's mark, and the policy. */
static const struct golden {
	int form;
	const char *register_db, *visits, *replies, *tally, *policy;
} golden[] = {
	{1, REGISTERS "v1.db", REGISTERS "v1.txt", NULL, "JUNOJXW", "VYZXCS"},
	{2, REGISTERS "v2.db", REGISTERS "v2.txt", REGISTERS "v2-replies.txt",
	 "HDNIYMU", "QZXVYI"},
};

enum { GOLDEN = sizeof golden / sizeof golden[0] };

/* The one in the folder now. */
static const struct golden *old;
static char before[STORE_MOST], after[STORE_MOST];
static long length;
static char path[FOLDER_PATH];

/* A folder with an old register and nothing else. */
static void
begin(const struct golden *which)
{
	old = which;
	length = folder_get(old->register_db, before, sizeof before);
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

/* Adds the line of an entry as the golden texts have it. */
static void
add_line(char *all, const struct fields *fields, const void *record,
	 const char *reason)
{
	char text[FIELD_TEXT_SIZE];
	size_t used = strlen(all);

	for (size_t i = 0; i < fields->count; i++) {
		field_write(&fields->field[i], record, text, sizeof text);
		used += (size_t)snprintf(all + used, ALL_SIZE - used, "%s|",
					 text);
	}
	snprintf(all + used, ALL_SIZE - used, "%s\n", reason);
}

static bool
add_entry(void *context, const struct visit *visit, const char *reason,
	  struct fault *unused)
{
	(void)unused;
	add_line(context, &visit_fields, visit, reason);
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

/* What the golden text has as the last entry of each number, without its
 * reason. */
static bool
add_reply(void *context, const struct visit *visit, const struct reply *reply,
	  struct fault *unused)
{
	(void)visit;
	(void)unused;
	if (reply != NULL)
		add_line(context, &reply_fields, reply, "");
	return true;
}

/* Of a text's lines, those whose first 13 characters, the number, do not stand
 * in front of the next one too; their last column is left out. */
static void
keep_last_lines(char *text)
{
	char *to = text;

	for (char *line = text, *next; *line != '\0'; line = next) {
		size_t size = strcspn(line, "\n");
		size_t kept = size;

		next = line + size + 1;
		if (strncmp(line, next, 13) == 0)
			continue;
		while (line[kept - 1] != '|')
			kept--;
		memmove(to, line, kept);
		to[kept] = '\n';
		to += kept + 1;
	}
	*to = '\0';
}

static void
expect_replies(const char *when)
{
	static char wanted[ALL_SIZE], all[ALL_SIZE];

	memset(wanted, 0, sizeof wanted);
	if (old->replies != NULL)
		cr_assert_gt(
			folder_get(old->replies, wanted, sizeof wanted - 1), 0);
	keep_last_lines(wanted);
	all[0] = '\0';
	cr_assert(register_visit_replies(&book, add_reply, all, &why), "%s: %s",
		  when, why.sentence);
	cr_expect_str_eq(all, wanted, "form %d %s: %s", old->form, when, all);
}

static void
expect_policy(const char *when)
{
	static char text[70000];
	static struct policy policy;
	char mark[POLICY_MARK_SIZE];

	cr_assert(register_policy_text(&book, old->policy, text, sizeof text,
				       &why),
		  "%s: %s", when, why.sentence);
	cr_assert(policyfile_read_bytes("kept", text, strlen(text), &policy,
					hear_and_fail, (void *)"kept", &why));
	policy_fingerprint(&policy, mark);
	cr_expect_str_eq(mark, old->policy, "%s", when);
	cr_expect(old->form > 1 || policy.hidden_quadrants == FIELD_BLANK);
}

/* The open book has everything that the old one had. */
static void
expect_all(const char *when)
{
	static char wanted[ALL_SIZE], all[ALL_SIZE];
	struct tally_written tally;
	struct day day;

	memset(wanted, 0, sizeof wanted);
	cr_assert_gt(folder_get(old->visits, wanted, sizeof wanted - 1), 0);
	all[0] = '\0';
	cr_assert(register_visit_day(&book, day_none(), add_history, all, &why),
		  "%s: %s", when, why.sentence);
	cr_expect_str_eq(all, wanted, "form %d %s: %s", old->form, when, all);
	cr_assert(register_last_day(&book, &day, &why));
	cr_assert(register_last_tally(&book, day, &tally, &why));
	cr_expect(tally.revision == 2 && tally.closed, "%s", when);
	cr_expect_str_eq(tally.mark, old->tally, "%s", when);
	expect_policy(when);
}

/* Of somebody who has none in either. */
static void
save_a_reply(void)
{
	struct reply reply;
	struct day today;

	cr_assert(day_read("2026-03-20", &today, &why));
	reply_init(&reply);
	cr_assert(refnum_read("0014-00004-89", &reply.number, &why));
	reply.outcome = OUTCOME_ATTENDED;
	reply.seen_on = today;
	cr_assert(register_save_reply(&book, &reply, today, &why), "%s",
		  why.sentence);
}

static const char *
path_of_copy(const char *more, char *copy)
{
	char name[40];

	snprintf(name, sizeof name, "register.db.v%d%s", old->form, more);
	return folder_path(folder, name, copy);
}

static void
read_as_it_is(const struct golden *which)
{
	struct reply reply;
	struct refnum number;
	long long entry = 7;

	begin(which);
	open_it(BOOK_READ);
	cr_expect_eq(book.form, old->form);
	expect_all("read");
	expect_replies("read");
	cr_assert(refnum_read("0014-00004-89", &number, &why));
	cr_expect(register_find_reply(&book, number, &reply, &entry, &why));
	cr_expect_eq(entry, 0);
	register_close(&book);
	cr_expect_eq(folder_count(folder), 1, "reading leaves nothing behind");
	cr_expect_eq(folder_get(path, after, sizeof after), length);
	cr_expect_eq(memcmp(before, after, (size_t)length), 0);
	end();
}

Test(upgrade, an_old_register_is_read_as_it_is)
{
	for (int i = 0; i < GOLDEN; i++)
		read_as_it_is(&golden[i]);
}

static void
bring_up_to_date(const struct golden *which)
{
	char copy[FOLDER_PATH];

	begin(which);
	open_it(BOOK_WRITE);
	cr_expect_eq(book.form, SCHEMA_VERSION);
	expect_all("upgraded");
	expect_replies("upgraded");
	cr_expect(copies_check(&book, &why), "each row has its mark: %s",
		  why.sentence);
	save_a_reply();
	expect_all("with a reply");
	register_close(&book);
	cr_expect_eq(folder_count(folder), 2, "the register and its copy");
	cr_expect_eq(folder_mode(path_of_copy("", copy)), 0600);

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
	cr_expect_eq(book.form, old->form);
	expect_all("the copy");
	expect_replies("the copy");
	register_close(&book);
	end();
}

Test(upgrade, opened_for_writing_it_is_brought_up_to_date_after_a_copy)
{
	for (int i = 0; i < GOLDEN; i++)
		bring_up_to_date(&golden[i]);
}

Test(upgrade, a_copy_that_is_there_is_never_written_over)
{
	char copy[FOLDER_PATH], other[FOLDER_PATH];

	begin(&golden[0]);
	cr_assert(folder_put(path_of_copy("", copy), "mine", 4));
	cr_assert_eq(symlink("/nowhere", path_of_copy("-2", other)), 0);
	open_it(BOOK_WRITE);
	expect_all("upgraded");
	register_close(&book);
	cr_expect(folder_holds(copy, "mine"));
	cr_expect_eq(folder_mode(path_of_copy("-3", other)), 0600);
	cr_expect_eq(folder_count(folder), 4);
	end();
}

/* Files may grow to a size at which the copy, or the register itself, fails. */
static void
without_room(const struct golden *which)
{
	struct rlimit limit;

	begin(which);
	cr_assert_eq(getrlimit(RLIMIT_FSIZE, &limit), 0);
	signal(SIGXFSZ, SIG_IGN);
	for (rlim_t most = 4096; most < (rlim_t)length; most += 8192) {
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
		cr_expect_eq(book.form, old->form);
		expect_all("no room");
		register_close(&book);
		cr_expect_eq(folder_count(folder), 1, "%d", (int)most);
	}
	end();
}

Test(upgrade, without_room_the_register_stays_as_it_was)
{
	for (int i = 0; i < GOLDEN; i++)
		without_room(&golden[i]);
}

Test(upgrade, tables_must_be_those_of_the_form_that_the_file_names)
{
	for (int i = 0; i < GOLDEN; i++) {
		begin(&golden[i]);
		/* user_version, by the file format's section 1.3 */
		before[63] = (char)(old->form + 1);
		cr_assert(folder_put(path, before, (size_t)length));
		for (int use = BOOK_READ; use <= BOOK_WRITE; use++) {
			cr_expect_not(register_open(&book, folder,
						    (enum book_use)use, &why));
			cr_expect_not_null(strstr(why.sentence, "holds other "
								"tables"),
					   "%s", why.sentence);
		}
		cr_expect_eq(folder_count(folder), 1);
		end();
	}
}
