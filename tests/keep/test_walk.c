/* Tests of keep/walk: every file is met once, in one order, and nothing leads
 * elsewhere or blocks. */
#include "keep/walk.h"

#include "folder.h"

#include <criterion/criterion.h>
#include <fcntl.h>
#include <sys/socket.h>
#include <sys/un.h>

static void
make(const char *folder, const char *name)
{
	char path[FOLDER_PATH];

	folder_path(folder, name, path);
	if (name[strlen(name) - 1] == '/')
		cr_assert(mkdir(path, 0700) == 0, "%s", path);
	else
		cr_assert(folder_put(path, name, strlen(name)), "%s", path);
}

static void
make_link(const char *folder, const char *to, const char *name)
{
	char path[FOLDER_PATH];

	cr_assert(symlink(to, folder_path(folder, name, path)) == 0);
}

/* All that is met, a line each: the path without the folder, and what it is.
 * The bytes of files are their own names. */
static void
walk_all(const char *folder, const char *const *given, size_t count, char *said,
	 size_t size)
{
	static const char *const kinds[] = {[WALK_FILE] = "file",
					    [WALK_INPUT] = "input",
					    [WALK_REFUSED] = "refused",
					    [WALK_PASSED_OVER] = "passed"};
	struct walk *walk = malloc(sizeof *walk);
	size_t skip = strlen(folder) + 1;
	enum walk_kind kind;
	struct fault why;

	cr_assert_not_null(walk);
	said[0] = '\0';
	cr_assert(walk_begin(walk, given, count, &why));
	while (walk_next(walk, &kind, &why) && kind != WALK_END) {
		const char *path = walk->path;
		size_t used = strlen(said);

		if (strncmp(path, folder, skip - 1) == 0)
			path += path[skip - 1] == '\0' ? skip - 1 : skip;
		snprintf(said + used, size - used, "%s: %s%s%s\n", path,
			 kinds[kind],
			 kind == WALK_FILE || kind == WALK_INPUT ? "" : ": ",
			 kind == WALK_FILE || kind == WALK_INPUT
				 ? ""
				 : walk->reason.sentence);
		if (kind != WALK_FILE)
			continue;
		cr_expect(S_ISREG(walk->status.st_mode), "%s", path);
		close(walk->handle);
	}
	walk_release(walk);
	free(walk);
}

#define NO_CSV                                                             \
	"its name does not end in .csv; rename it if it is a tally, else " \
	"move it away"
#define A_LINK "it is a link, and links are not followed"
#define A_WORKBOOK                                                             \
	"it is a workbook; give the CSV file that the program wrote, or save " \
	"the sheet as CSV"

Test(walk, everything_in_a_folder_is_told_of_in_order)
{
	static const char *const names[] = {
		"b.csv",       "a/",	       "a/z.csv",      "a/y.CSV",
		"a/deep/",     "a/deep/x.csv", ".hidden.csv",  ".dir/",
		".dir/in.csv", "~$a.csv",      "a.csv~",       "notes.txt",
		"sheet.XLSX",  "old.zip",      "a.csv.tmp-12", "Thumbs.db",
		"empty/",      "c.csv"};
	static const char expected[] =
		".dir/: passed: the folder is hidden\n"
		".hidden.csv: passed: it is hidden\n"
		"Thumbs.db: passed: it belongs to the desktop\n"
		"a.csv.tmp-12: passed: a program is writing it, or was stopped "
		"while it did\n"
		"a.csv~: passed: another program left it while a file was "
		"open\n"
		"a/deep/x.csv: file\n"
		"a/y.CSV: file\n"
		"a/z.csv: file\n"
		"b.csv: file\n"
		"c.csv: file\n"
		"notes.txt: refused: " NO_CSV "\n"
		"old.zip: refused: it is an archive; unpack it first\n"
		"sheet.XLSX: refused: " A_WORKBOOK "\n"
		"~$a.csv: passed: another program left it while a file was "
		"open\n";
	char folder[FOLDER_SIZE], said[4096];
	const char *given[] = {folder};

	cr_assert(folder_make(folder));
	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		make(folder, names[i]);
	walk_all(folder, given, 1, said, sizeof said);
	cr_expect_str_eq(said, expected, "%s", said);
	folder_remove(folder);
}

static void
make_special(const char *folder)
{
	struct sockaddr_un address = {.sun_family = AF_UNIX};
	char path[FOLDER_PATH];
	int socket_handle = socket(AF_UNIX, SOCK_STREAM, 0);

	cr_assert(mkfifo(folder_path(folder, "pipe.csv", path), 0600) == 0);
	folder_path(folder, "socket.csv", path);
	memcpy(address.sun_path, path, strlen(path) + 1);
	cr_assert(bind(socket_handle, (struct sockaddr *)&address,
		       sizeof address) == 0);
	close(socket_handle);
}

/* Nothing blocks: a pipe that nobody writes to would wait for ever. */
Test(walk, links_pipes_and_devices_are_refused, .timeout = 20)
{
	static const char expected[] = "dead.csv: refused: " A_LINK "\n"
				       "pipe.csv: refused: it is no plain "
				       "file\n"
				       "real.csv: file\n"
				       "round: refused: " A_LINK "\n"
				       "socket.csv: refused: it is no plain "
				       "file\n"
				       "to.csv: refused: " A_LINK "\n"
				       "up: refused: " A_LINK "\n";
	char folder[FOLDER_SIZE], said[4096];
	const char *given[] = {folder};

	cr_assert(folder_make(folder));
	make(folder, "real.csv");
	make_link(folder, "real.csv", "to.csv");
	make_link(folder, "nowhere", "dead.csv");
	make_link(folder, ".", "round");
	make_link(folder, "/", "up");
	make_special(folder);
	walk_all(folder, given, 1, said, sizeof said);
	cr_expect_str_eq(said, expected, "%s", said);
	folder_remove(folder);
}

/* Given by name a link is not followed either, nor behind a slash. */
Test(walk, what_is_given_by_name_is_met_in_order)
{
	static const char expected[] = "-: input\n"
				       "/dev/null: refused: it is no plain "
				       "file\n"
				       "a/z.csv: file\n"
				       "linked: refused: " A_LINK "\n"
				       "linked: refused: " A_LINK "\n"
				       "nowhere: refused: there is no such "
				       "file\n"
				       "tally: file\n"
				       "to.csv: refused: " A_LINK "\n";
	static const char *const names[] = {"tally",  "to.csv",	 "nowhere",
					    "linked", "linked/", "a//"};
	char folder[FOLDER_SIZE], said[4096], again[4096];
	char path[6][FOLDER_PATH];
	const char *given[8] = {"/dev/null", "-"};

	cr_assert(folder_make(folder));
	make(folder, "tally");
	make(folder, "a/");
	make(folder, "a/z.csv");
	make_link(folder, "tally", "to.csv");
	make_link(folder, "a", "linked");
	for (int i = 0; i < 6; i++)
		given[i + 2] = folder_path(folder, names[i], path[i]);
	walk_all(folder, given, 8, said, sizeof said);
	cr_expect_str_eq(said, expected, "%s", said);
	for (int i = 0; i < 4; i++) {
		const char *kept = given[i];

		given[i] = given[7 - i];
		given[7 - i] = kept;
	}
	walk_all(folder, given, 8, again, sizeof again);
	cr_expect_str_eq(again, said, "%s", again);
	folder_remove(folder);
}

/* One handle a level, so that few are enough; too deep is told of. */
Test(walk, folders_may_stand_thirty_deep)
{
	char folder[FOLDER_SIZE], said[4096], path[FOLDER_PATH];
	const char *given[] = {folder};
	size_t used;

	cr_assert(folder_make(folder));
	used = (size_t)snprintf(path, sizeof path, "%s", folder);
	for (int i = 0; i < 31; i++) {
		used += (size_t)snprintf(path + used, sizeof path - used, "/d");
		cr_assert(mkdir(path, 0700) == 0);
		if (i == 29 || i == 30) {
			snprintf(path + used, sizeof path - used, "/f.csv");
			cr_assert(folder_put(path, "", 0));
			path[used] = '\0';
		}
	}
	walk_all(folder, given, 1, said, sizeof said);
	cr_expect_not_null(strstr(said, "f.csv: file\n"), "%s", said);
	cr_expect_not_null(strstr(said, "refused: folders stand in one another "
					"more than 30 deep"),
			   "%s", said);
	folder_remove(folder);
}

Test(walk, a_file_is_opened_again_only_where_it_stood)
{
	char folder[FOLDER_SIZE], path[FOLDER_PATH];
	struct stat status;
	int handle;

	cr_assert(folder_make(folder));
	make(folder, "a.csv");
	make_link(folder, "a.csv", "to.csv");
	handle = walk_open_again(folder_path(folder, "a.csv", path), &status);
	cr_assert(handle >= 0);
	cr_expect_eq(status.st_size, 5);
	close(handle);
	cr_expect_lt(walk_open_again(folder_path(folder, "to.csv", path),
				     &status),
		     0);
	cr_expect_lt(walk_open_again(folder_path(folder, "b.csv", path),
				     &status),
		     0);
	folder_remove(folder);
}
