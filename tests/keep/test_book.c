/* Tests of keep/book, keep/store and keep/storefile: the register's file. */
#include "keep/book.h"

#include "keep/schema.h"
#include "people.h"

#include <criterion/criterion.h>
#include <fcntl.h>
#include <grp.h>
#include <signal.h>
#include <sys/wait.h>

static char path[FOLDER_PATH], journal[FOLDER_PATH];

static void
begin(void)
{
	umask(0);
	people_begin();
	folder_path(folder, "register.db", path);
	folder_path(folder, "register.db-journal", journal);
}

TestSuite(book, .init = begin, .fini = people_end);

enum { FILE_MOST = 200000 };

static char file_before[FILE_MOST], file_now[FILE_MOST];
static char sound_file[FILE_MOST]; /* of fill_and_close */
static long before_length, sound_length;

/* Remembers the file, and holds it to that later. */
static void
note_file(void)
{
	before_length = folder_get(path, file_before, FILE_MOST);
	cr_assert_lt(before_length, FILE_MOST);
}

static bool
file_is_as_noted(void)
{
	long length = folder_get(path, file_now, FILE_MOST);

	return length == before_length &&
	       (length <= 0 ||
		memcmp(file_now, file_before, (size_t)length) == 0);
}

/* Closes the register with one person in it, and notes its file. */
static void
fill_and_close(void)
{
	struct visit visit;

	person_full(&visit);
	save_soundly(&visit);
	register_close(&book);
	note_file();
	memcpy(sound_file, file_before, (size_t)before_length);
	sound_length = before_length;
}

/* Puts that register there again, into an empty folder: a new file, for the
 * disk waits for one that is emptied and written again. */
static void
put_sound_file(void)
{
	folder_remove(folder);
	cr_assert_eq(mkdir(folder, 0700), 0);
	cr_assert(folder_put(path, sound_file, (size_t)sound_length));
	note_file();
}

/* --- making --------------------------------------------------------------- */

Test(book, a_new_register_is_for_its_owner_only_and_nothing_is_beside_it)
{
	char second[FOLDER_SIZE], device[7];

	cr_expect_eq(folder_count(folder), 1);
	cr_expect_eq(folder_mode(path), 0600);
	cr_expect_eq(book.station, 14);
	cr_expect_eq(strspn(book.device, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"), 6);
	cr_expect_eq(strlen(book.device), 6);
	snprintf(device, sizeof device, "%s", book.device);
	snprintf(second, sizeof second, "%s", folder);
	register_close(&book);
	cr_assert(folder_make(folder));
	cr_assert(register_create(folder, 9999, &why));
	cr_assert(register_open(&book, folder, BOOK_READ, &why));
	cr_expect_eq(book.station, 9999);
	cr_expect_str_neq(book.device, device);
	folder_remove(second);
}

Test(book, settings_are_as_the_header_says)
{
	static const struct {
		const char *pragma, *value;
	} rows[] = {
		{"PRAGMA journal_mode", "delete"},
		{"PRAGMA synchronous", "3"}, /* EXTRA */
		{"PRAGMA foreign_keys", "1"},
		{"PRAGMA secure_delete", "1"},
		{"PRAGMA trusted_schema", "0"},
		{"PRAGMA cell_size_check", "1"},
		{"PRAGMA mmap_size", "0"},
		{"PRAGMA temp_store", "2"}, /* MEMORY */
		{"PRAGMA busy_timeout", "5000"},
		{"PRAGMA integrity_check", "ok"},
		{"SELECT count(*) FROM pragma_table_list WHERE strict = 0 AND "
		 "name NOT LIKE 'sqlite%'",
		 "0"},
	};
	char text[100];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		cr_assert(store_ask_text(&book.store, rows[i].pragma, NULL, 0,
					 text, sizeof text, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_str_eq(text, rows[i].value, "row %zu", i);
	}
	/* Words in double quotes are names, never texts. */
	cr_expect_not(store_run(&book.store, "SELECT \"nowhere\"", &why));
	cr_expect_not(
		store_run(&book.store, "SELECT load_extension('x')", &why));
	cr_expect_not(store_run(&book.store,
				"PRAGMA writable_schema = ON; "
				"UPDATE sqlite_schema SET sql = ''",
				&why));
}

Test(book, what_is_there_is_never_made_into_a_register)
{
	static const char *const rows[] = {"file",   "empty", "link",
					   "folder", "loose", "journal"};

	register_close(&book);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const char *row = rows[i];
		bool made = false;

		folder_remove(folder);
		cr_assert_eq(mkdir(folder, 0700), 0);
		if (strcmp(row, "file") == 0)
			made = folder_put(path, "mine", 4);
		else if (strcmp(row, "empty") == 0)
			made = folder_put(path, "", 0);
		else if (strcmp(row, "link") == 0)
			made = folder_put(journal, "", 0) &&
			       symlink(journal, path) == 0;
		else if (strcmp(row, "folder") == 0)
			made = mkdir(path, 0700) == 0;
		else if (strcmp(row, "loose") == 0)
			made = symlink("nowhere", path) == 0;
		else
			made = folder_put(journal, "old", 3);
		cr_assert(made, "%s", row);
		note_file();
		cr_expect_not(register_create(folder, 14, &why), "%s", row);
		cr_expect_eq(why.kind, FAULT_REGISTER, "%s", row);
		cr_expect_not_null(strstr(why.sentence, "there"), "%s: %s", row,
				   why.sentence);
		cr_expect(file_is_as_noted(), "%s", row);
		cr_expect_eq(folder_count(folder),
			     strcmp(row, "link") == 0 ? 2 : 1, "%s", row);
	}
	cr_expect_not(register_create("/tmp/no/such/folder", 14, &why));
	cr_expect_eq(why.kind, FAULT_REGISTER);
}

Test(book, a_folder_behind_a_link_is_fine)
{
	char link_to[FOLDER_SIZE + 10];

	register_close(&book);
	snprintf(link_to, sizeof link_to, "%s-link", folder);
	cr_assert_eq(symlink(folder, link_to), 0);
	cr_expect(register_open(&book, link_to, BOOK_WRITE, &why), "%s",
		  why.sentence);
	unlink(link_to);
}

/* --- damage --------------------------------------------------------------- */

static void
put_number(size_t at, unsigned value)
{
	for (int i = 0; i < 4; i++)
		file_now[at + (size_t)i] = (char)(value >> (24 - 8 * i));
}

/* Puts `to` over the only place where `from` stands. */
static void
put_text(const char *from, const char *to, size_t length)
{
	size_t size = strlen(from);
	int found = 0;

	for (size_t i = 0; i + size <= length; i++)
		if (memcmp(file_now + i, from, size) == 0) {
			memcpy(file_now + i, to, size);
			found++;
		}
	cr_assert_eq(found, 1);
}

/* Replaces the register by a spoilt copy. */
static bool
spoil(const char *how)
{
	size_t length = (size_t)folder_get(path, file_now, FILE_MOST);
	const char *sql = strchr(how, ' ');

	if (strcmp(how, "absent") == 0)
		return unlink(path) == 0;
	if (strcmp(how, "link") == 0)
		return rename(path, journal) == 0 &&
		       symlink("register.db-journal", path) == 0;
	if (strcmp(how, "folder") == 0)
		return unlink(path) == 0 && mkdir(path, 0700) == 0;
	if (strcmp(how, "pipe") == 0)
		return unlink(path) == 0 && mkfifo(path, 0600) == 0;
	if (sql != NULL)
		return run_beside(how)[0] == '\0';
	if (strcmp(how, "empty") == 0)
		length = 0;
	else if (strcmp(how, "zeros") == 0)
		memset(file_now, 0, length);
	else if (strcmp(how, "text") == 0)
		memcpy(file_now, "number,name", 11);
	else if (strcmp(how, "ninety") == 0)
		length = 90;
	else if (strcmp(how, "half") == 0)
		length /= 2;
	else if (strcmp(how, "last") == 0)
		length--;
	else if (strcmp(how, "middle") == 0)
		memset(file_now + 4096, 0, 3 * 4096);
	else if (strcmp(how, "application") == 0)
		put_number(68, 77);
	else if (strcmp(how, "newer") == 0)
		put_number(60, SCHEMA_VERSION + 1);
	else if (strcmp(how, "no_version") == 0)
		put_number(60, 0);
	else if (strcmp(how, "station") == 0)
		put_text("station14", "stationx4", length);
	else if (strcmp(how, "day_index") == 0)
		put_text("2026-03-040014", "2026-03-050014", length);
	else if (strcmp(how, "wal") == 0)
		memset(file_now + 18, 2, 2);
	else
		return false;
	return folder_put(path, file_now, length);
}

Test(book, what_is_no_sound_register_is_said_and_left_alone)
{
	/* clang-format off */
	static const struct {
		const char *how, *said;
	} rows[] = {
		{"absent", "is not there; 'shoal start' makes a new register"},
		{"link", "is a link; the register itself has to stand there"},
		{"folder", "is no plain file"},
		{"pipe", "is no plain file"},
		{"empty", "is damaged: it is empty; keep it as it is"},
		{"zeros", "is damaged: it begins with zeros; keep it as"},
		{"text", "is no register, or damaged from its first byte on"},
		{"ninety", "is damaged: it is cut short at 90 bytes; keep it"},
		{"half", "is damaged: it is cut short at "},
		{"last", "is damaged: it is cut short at "},
		{"middle", "is damaged; keep it as it is"},
		{"application", "is a file of another program"},
		{"newer", "was written by a newer version of this program "
		 "(form 4; this one knows forms up to 3); use the newer one"},
		{"no_version", "is damaged: there is no form 0"},
		/* The row is whole, and nobody would find it by its day. */
		{"day_index", "is damaged; keep it as it is"},
		{"wal", "is kept in a way that this program does not use"},
		{"CREATE TABLE more(a)", "holds other tables than"},
		{"DROP TRIGGER visit_no_delete", "holds other tables than"},
		{"DROP INDEX visit_number", "holds other tables than"},
		{"ALTER TABLE visit ADD COLUMN more TEXT", "holds other tables"},
		{"station", "the register is damaged: what it holds is not "
		 "what was written; keep the file"},
	};
	/* clang-format on */

	fill_and_close();
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		for (int use = BOOK_READ; use <= BOOK_WRITE; use++) {
			int count;

			put_sound_file();
			cr_assert(spoil(rows[i].how), "%s", rows[i].how);
			note_file();
			count = folder_count(folder);
			cr_expect_not(register_open(&book, folder,
						    (enum book_use)use, &why),
				      "%s", rows[i].how);
			cr_expect_eq(why.kind, FAULT_REGISTER);
			cr_expect_not_null(strstr(why.sentence, rows[i].said),
					   "%s: %s", rows[i].how, why.sentence);
			cr_expect(strcmp(rows[i].how, "pipe") == 0 ||
					  file_is_as_noted(),
				  "%s", rows[i].how);
			cr_expect_eq(folder_count(folder), count, "%s",
				     rows[i].how);
		}
}

static bool
look(void *context, const struct visit *visit, const char *reason,
     struct fault *fault)
{
	(void)visit;
	(void)reason;
	(void)fault;
	++*(int *)context;
	return true;
}

/* Opens both ways and reads all; whether that was refused either way. */
static bool
is_refused(void)
{
	bool refused = false;

	for (int use = BOOK_READ; use <= BOOK_WRITE; use++) {
		int seen = 0;

		if (!register_open(&book, folder, (enum book_use)use, &why)) {
			refused = true;
			cr_expect_eq(why.kind, FAULT_REGISTER);
			continue;
		}
		if (!register_visit_day(&book, day_none(), look, &seen, &why)) {
			refused = true;
			cr_expect_eq(why.kind, FAULT_REGISTER);
		}
		register_close(&book);
	}
	return refused;
}

Test(book, no_beginning_of_a_register_is_taken_for_a_whole_one)
{
	long step = 509; /* a prime, so that no boundary is favoured */

	fill_and_close();
	cr_assert_not(is_refused(), "%s", why.sentence);
	for (long length = 0; length < before_length; length += step) {
		cr_assert_eq(unlink(path), 0);
		cr_assert(folder_put(path, file_before, (size_t)length));
		cr_expect(is_refused(), "%ld bytes", length);
		cr_expect_eq(folder_get(path, file_now, FILE_MOST), length);
		cr_expect_eq(memcmp(file_now, file_before, (size_t)length), 0,
			     "%ld bytes", length);
		cr_expect_eq(folder_count(folder), 1, "%ld bytes", length);
	}
}

static void
put_byte(long at, char byte)
{
	FILE *file = fopen(path, "r+b");

	cr_assert_not_null(file);
	cr_assert_eq(fseek(file, at, SEEK_SET), 0);
	putc(byte, file);
	cr_assert_eq(fclose(file), 0);
}

/* One bit of each byte of the header, and of some bytes after it. Not each can
 * be noticed (a letter of a name becomes another); none may crash, or make the
 * file change. */
Test(book, a_flipped_bit_is_refused_or_read_but_never_written_on)
{
	int refused = 0, tried = 0;

	fill_and_close();
	for (long at = 0; at < before_length; at += at < 100 ? 1 : 487) {
		char sound = file_before[at];

		file_before[at] = (char)(sound ^ 1 << at % 8);
		put_byte(at, file_before[at]);
		refused += is_refused();
		tried++;
		cr_expect(file_is_as_noted(), "byte %ld", at);
		cr_expect_eq(folder_count(folder), 1, "byte %ld", at);
		file_before[at] = sound;
		put_byte(at, sound);
	}
	cr_expect_gt(refused, 50, "%d of %d", refused, tried);
}

/* --- left half done, and not to be written -------------------------------- */

/* Leaves a save half done, as a program that is killed does: pages of it are
 * in the file, and what they were is in the journal. */
static void
leave_half_done(void)
{
	pid_t other = fork();
	int status;
	sqlite3 *db;

	cr_assert_geq(other, 0);
	if (other == 0) {
		sqlite3_open(path, &db);
		sqlite3_exec(db,
			     "PRAGMA cache_size = 1; BEGIN; WITH RECURSIVE "
			     "n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n "
			     "WHERE i < 400) INSERT INTO policy_text("
			     "fingerprint, text) SELECT i, hex(zeroblob(100)) "
			     "FROM n",
			     NULL, NULL, NULL);
		kill(getpid(), SIGKILL);
	}
	cr_assert_eq(waitpid(other, &status, 0), other);
	cr_assert(WIFSIGNALED(status));
	cr_assert_eq(folder_count(folder), 2, "a journal is left");
	cr_assert_not(file_is_as_noted(), "the file is half changed");
}

Test(book, what_a_killed_program_left_half_done_is_undone)
{
	fill_and_close();
	for (int use = BOOK_READ; use <= BOOK_WRITE; use++) {
		struct visit visit;

		put_sound_file();
		leave_half_done();
		cr_assert(register_open(&book, folder, (enum book_use)use,
					&why),
			  "%s", why.sentence);
		cr_expect_eq(folder_count(folder), 1);
		cr_expect(file_is_as_noted());
		cr_expect(register_find(&book, (struct refnum){14, 1}, &visit,
					NULL, &why),
			  "%s", why.sentence);
		register_close(&book);
	}
}

/* An empty file beside a journal is what a full disk or a broken copy leaves;
 * SQLite takes it for new and throws the journal away. */
Test(book, a_journal_is_not_thrown_away_for_an_empty_file)
{
	fill_and_close();
	leave_half_done();
	cr_assert_eq(truncate(path, 0), 0);
	cr_expect_not(register_open(&book, folder, BOOK_WRITE, &why));
	cr_expect_not_null(strstr(why.sentence, "it is empty"));
	cr_expect_eq(folder_count(folder), 2);
}

enum read_only_result {
	READ_WELL = 1,
	WRITE_REFUSED = 2,
	SAID_HALF_DONE = 4,
	SAID_NOT_WRITTEN = 8
};

/* What somebody finds who may read folder and file but not write them. */
static int
try_read_only(void)
{
	pid_t other;
	int status = -1;

	cr_assert_eq(chmod(path, 0444), 0);
	cr_assert_eq(chmod(folder, 0555), 0);
	other = fork();
	cr_assert_geq(other, 0);
	if (other == 0) {
		int result = 0, seen = 0;

		if (geteuid() == 0 &&
		    (setgroups(0, NULL) != 0 || setgid(65534) != 0 ||
		     setuid(65534) != 0))
			_exit(64);
		if (register_open(&book, folder, BOOK_READ, &why)) {
			if (register_visit_day(&book, day_none(), look, &seen,
					       &why) &&
			    seen == 1)
				result |= READ_WELL;
			register_close(&book);
		} else if (strstr(why.sentence, "was left in the middle of a "
						"save"))
			result |= SAID_HALF_DONE;
		if (!register_open(&book, folder, BOOK_WRITE, &why))
			result |= WRITE_REFUSED;
		if (strstr(why.sentence, "cannot be written: Permission"))
			result |= SAID_NOT_WRITTEN;
		_exit(result);
	}
	cr_assert_eq(waitpid(other, &status, 0), other);
	cr_assert(WIFEXITED(status));
	return WEXITSTATUS(status);
}

Test(book, a_register_that_cannot_be_written_is_read)
{
	fill_and_close();
	cr_expect_eq(try_read_only(),
		     READ_WELL | WRITE_REFUSED | SAID_NOT_WRITTEN);
	cr_expect_eq(folder_count(folder), 1);
	cr_expect(file_is_as_noted());
}

Test(book, one_left_half_done_that_cannot_be_written_is_refused)
{
	fill_and_close();
	leave_half_done();
	cr_assert_eq(chmod(journal, 0444), 0);
	note_file();
	cr_expect_eq(try_read_only(), SAID_HALF_DONE | WRITE_REFUSED);
	cr_expect_eq(folder_count(folder), 2);
	cr_expect(file_is_as_noted());
}
