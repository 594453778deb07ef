/* Tests of keep/backup and keep/copies: copies of the register. */
#include "keep/backup.h"

#include "people.h"

#include <criterion/criterion.h>
#include <fcntl.h>

static char stick[FOLDER_SIZE], path[FOLDER_PATH];
static struct backup backup;
static struct day today;

static void
begin(void)
{
	people_begin();
	cr_assert(folder_make(stick));
	folder_path(stick, "copy.db", path);
	cr_assert(day_read("2026-03-10", &today, &why));
}

static void
end(void)
{
	folder_remove(stick);
	people_end();
}

TestSuite(backup, .init = begin, .fini = end);

static void
save_many(int count)
{
	struct visit visit;

	for (int i = 0; i < count; i++) {
		person_full(&visit);
		save_soundly(&visit);
	}
}

static bool
copy(void)
{
	return backup_place(&backup, &book, path, false, today, &why) &&
	       backup_write(&backup, &book, &why);
}

Test(backup, a_copy_has_everything_and_is_for_its_owner_alone)
{
	struct book there;
	struct copy_difference difference;

	save_many(3);
	cr_assert(copy(), "%s", why.sentence);
	cr_expect_eq(folder_mode(path), 0600);
	cr_expect_eq(folder_count(stick), 1);
	cr_expect_eq(backup.facts.station, 14);
	cr_expect_eq(backup.facts.people, 3);
	cr_expect_eq(backup.facts.entries, 3);
	cr_expect_eq(backup.facts.last.serial, 3);
	cr_assert(register_open_copy(&there, path, &why), "%s", why.sentence);
	save_many(2);
	cr_assert(copies_compare(&book, &there, &difference, &why), "%s",
		  why.sentence);
	cr_expect_eq(difference.only_here, 2);
	cr_expect_eq(difference.only_there, 0);
	register_close(&there);
}

/* Asks for a copy over what stands there, which has to stay as it is. */
static void
expect_refused(const char *says)
{
	static char before[200000], after[200000];
	long length = folder_get(path, before, sizeof before);

	cr_expect(!copy(), "replaced: %s", says);
	cr_expect(strstr(why.sentence, says) != NULL, "%s: %s", says,
		  why.sentence);
	cr_expect_eq(why.kind, FAULT_INPUT, "%s", says);
	cr_expect(folder_get(path, after, sizeof after) == length &&
			  (length <= 0 ||
			   memcmp(before, after, (size_t)length) == 0),
		  "%s", says);
	cr_expect_eq(folder_count(stick), 1, "%s", says);
}

Test(backup, only_an_older_copy_of_the_same_register_is_replaced)
{
	char other[FOLDER_SIZE], theirs[FOLDER_PATH];

	save_many(2);
	cr_assert(copy(), "%s", why.sentence);
	save_many(1);
	cr_assert(copy(), "%s", why.sentence);
	cr_expect_eq(backup.facts.entries, 3);

	cr_assert(folder_put(path, "holiday pictures", 16));
	expect_refused("is no register");
	cr_assert_eq(unlink(path), 0);
	cr_assert_eq(mkfifo(path, 0600), 0);
	expect_refused("no plain file");
	cr_assert_eq(unlink(path), 0);
	cr_assert_eq(symlink("/dev/null", path), 0);
	expect_refused("no plain file");
	cr_assert_eq(unlink(path), 0);

	/* Another station's, and another laptop's. */
	for (int station = 14; station <= 15; station++) {
		cr_assert(folder_make(other));
		cr_assert(register_create(other, station, &why));
		cr_assert_eq(rename(folder_path(other, "register.db", theirs),
				    path),
			     0);
		expect_refused(station == 14 ? "another laptop"
					     : "station 0015");
		folder_remove(other);
	}

	/* One that has more than this register. */
	cr_assert_eq(unlink(path), 0);
	save_many(1);
	cr_assert(copy(), "%s", why.sentence);
	run_beside("DROP TRIGGER visit_no_delete; DELETE FROM visit WHERE "
		   "entry = 4; CREATE TRIGGER visit_no_delete BEFORE DELETE ON "
		   "visit BEGIN SELECT raise(ABORT, 'rows are only added'); "
		   "END;");
	expect_refused("1 entry that this register has not");
}

Test(backup, a_place_that_does_not_help_is_refused)
{
	static const struct {
		const char *name;
		enum fault_kind kind;
		const char *says;
	} rows[] = {
		{"-", FAULT_INPUT, "standard output"},
		{"", FAULT_INPUT, "name of a file"},
		{"/nowhere/x.db", FAULT_OUTPUT, "cannot be used"},
		{"/tmp/nowhere/", FAULT_OUTPUT, "not there"},
		{"/dev/null", FAULT_INPUT, "no plain file"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_expect(!backup_place(&backup, &book, rows[i].name, false,
					today, &why),
			  "row %zu", i);
		cr_expect_eq(why.kind, rows[i].kind, "row %zu", i);
		cr_expect(strstr(why.sentence, rows[i].says) != NULL,
			  "row %zu: %s", i, why.sentence);
	}
	for (int i = 0; i < 2; i++) {
		char inside[FOLDER_PATH];

		cr_expect(!backup_place(&backup, &book,
					i == 0 ? folder
					       : folder_path(folder,
							     "register.db",
							     inside),
					false, today, &why),
			  "row %d", i);
		cr_expect(strstr(why.sentence, "own folder") != NULL,
			  "row %d: %s", i, why.sentence);
	}
	cr_assert(backup_place(&backup, &book, stick, false, today, &why), "%s",
		  why.sentence);
	cr_expect(strstr(backup.path, "/backup-0014-2026-03-10.db") != NULL);
}

/* Flips a bit in every so many bytes that are not zero: nothing that was
 * altered may pass for a copy that matches, but for the header's counters. */
Test(backup, an_altered_copy_never_matches)
{
	static char bytes[200000];
	struct copy_counts before;
	int tried = 0, used = 0;
	long length;

	save_many(2);
	cr_assert(copies_count(&book, &before, &why));
	cr_assert(copy(), "%s", why.sentence);
	length = folder_get(path, bytes, sizeof bytes);
	for (long i = 100; i < length; i++) {
		struct book there;
		bool sound;

		if (bytes[i] == 0 || ++used % 101 != 0)
			continue;
		tried++;
		bytes[i] ^= 4;
		cr_assert(folder_put(path, bytes, (size_t)length));
		bytes[i] ^= 4;
		sound = register_open_copy(&there, path, &why) &&
			copies_check(&there, &why);
		register_close(&there);
		cr_expect(!sound || !copies_match(&book, &before, path, &why),
			  "byte %ld, which is '%c', was altered unnoticed", i,
			  bytes[i]);
	}
	cr_expect_gt(tried, 50);
}

Test(backup, nobody_puts_another_register_where_one_is_in_use)
{
	char slips[FOLDER_PATH];
	struct book alone;

	register_close(&book);
	cr_assert_eq(mkdir(folder_path(folder, "slips", slips), 0700), 0);
	cr_assert(register_open(&book, folder, BOOK_WRITE, &why));
	cr_expect(!register_open(&alone, folder, BOOK_ALONE, &why));
	cr_expect(strstr(why.sentence, "open in another program") != NULL, "%s",
		  why.sentence);
	cr_expect_eq(why.kind, FAULT_REGISTER);
	register_close(&book);
	cr_assert(register_open(&alone, folder, BOOK_ALONE, &why), "%s",
		  why.sentence);
	cr_expect(!register_open(&book, folder, BOOK_WRITE, &why));
	cr_expect(strstr(why.sentence, "try again") != NULL, "%s",
		  why.sentence);
	cr_expect(register_open(&book, folder, BOOK_READ, &why), "%s",
		  why.sentence);
	register_close(&alone);
}
