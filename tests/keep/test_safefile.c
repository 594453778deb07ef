/* Tests of keep/safefile: what stands on the disk before and after. */
#include "keep/safefile.h"

#include "folder.h"

#include <criterion/criterion.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>

static char folder[FOLDER_SIZE];

static void
begin(void)
{
	cr_assert(folder_make(folder));
	umask(0);
}

static void
end(void)
{
	folder_remove(folder);
}

TestSuite(safefile, .init = begin, .fini = end);

static const enum safefile_care cares[] = {SAFEFILE_SYNCED, SAFEFILE_RENAMED,
					   SAFEFILE_FIRST};

enum { CARES = sizeof cares / sizeof cares[0] };

Test(safefile, the_new_file_stands_only_after_commit)
{
	for (size_t i = 0; i < CARES; i++) {
		char path[FOLDER_PATH], name[20];
		struct safefile file;
		struct fault why;
		bool over = cares[i] != SAFEFILE_FIRST;

		snprintf(name, sizeof name, "file-%zu", i);
		folder_path(folder, name, path);
		cr_assert(!over || folder_put(path, "old", 3));
		cr_assert(safefile_open(&file, path, &why));
		fputs("new", file.out);
		fflush(file.out);
		cr_expect(over ? folder_holds(path, "old")
			       : !safefile_exists(path),
			  "care %zu: before commit", i);
		cr_expect_eq(folder_mode(file.temporary), 0600, "care %zu", i);
		cr_expect(safefile_commit(&file, cares[i], &why),
			  "care %zu: %s", i, why.sentence);
		cr_expect(folder_holds(path, "new"), "care %zu: after", i);
		cr_expect_eq(folder_mode(path), 0600, "care %zu: mode %o", i,
			     (unsigned)folder_mode(path));
		cr_expect_null(file.out, "care %zu: closed", i);
		safefile_drop(&file);
		cr_expect_eq(folder_count(folder), (int)i + 1,
			     "care %zu: no other file remains", i);
	}
}

Test(safefile, a_dropped_file_leaves_nothing)
{
	char path[FOLDER_PATH];
	struct safefile file;
	struct fault why;

	folder_path(folder, "file", path);
	cr_assert(folder_put(path, "old", 3));
	cr_assert(safefile_open(&file, path, &why));
	fputs("new", file.out);
	safefile_drop(&file);
	cr_expect(folder_holds(path, "old"));
	cr_expect_eq(folder_count(folder), 1);
}

Test(safefile, first_is_never_over_another_file)
{
	char path[FOLDER_PATH];
	struct safefile file;
	struct fault why;

	folder_path(folder, "file", path);
	cr_assert(safefile_open(&file, path, &why));
	fputs("mine", file.out);
	cr_assert(folder_put(path, "theirs", 6));
	cr_expect_not(safefile_commit(&file, SAFEFILE_FIRST, &why));
	cr_expect_eq(why.kind, FAULT_OUTPUT);
	cr_expect(folder_holds(path, "theirs"));
	cr_expect_eq(folder_count(folder), 1);
}

/* A file may not grow over a limit here, as on a full disk. */
Test(safefile, a_failed_write_leaves_the_old_file_and_says_so)
{
	static const struct {
		size_t bytes; /* written before commit */
		bool flushed; /* so that the stream has failed before */
	} rows[] = {{100, false}, {100, true}, {100000, false}};
	const struct rlimit limit = {50, RLIM_INFINITY};
	char path[FOLDER_PATH];

	signal(SIGXFSZ, SIG_IGN);
	folder_path(folder, "file", path);
	cr_assert(folder_put(path, "old", 3));
	cr_assert_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct safefile file;
		struct fault why;

		cr_assert(safefile_open(&file, path, &why));
		for (size_t j = 0; j < rows[i].bytes; j++)
			putc('x', file.out);
		if (rows[i].flushed)
			fflush(file.out);
		cr_expect_not(safefile_commit(&file, SAFEFILE_RENAMED, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, FAULT_OUTPUT, "row %zu", i);
		cr_expect_not_null(strstr(why.sentence, "was not written"),
				   "row %zu: %s", i, why.sentence);
		cr_expect(folder_holds(path, "old"), "row %zu", i);
		cr_expect_eq(folder_count(folder), 1, "row %zu", i);
	}
}

Test(safefile, what_is_no_plain_file_stays_as_it_is)
{
	char canary[FOLDER_PATH], link_to[FOLDER_PATH], loose[FOLDER_PATH],
		inner[FOLDER_PATH], pipe_at[FOLDER_PATH], absent[FOLDER_PATH];
	const struct {
		const char *path, *said;
	} rows[] = {
		{link_to, "a link stands there"},
		{loose, "a link stands there"},
		{inner, "what stands there is no plain file"},
		{pipe_at, "what stands there is no plain file"},
		{absent, "No such file"},
	};
	int before;

	folder_path(folder, "canary", canary);
	folder_path(folder, "link", link_to);
	folder_path(folder, "loose", loose);
	folder_path(folder, "inner", inner);
	folder_path(folder, "pipe", pipe_at);
	folder_path(folder, "absent/file", absent);
	cr_assert(folder_put(canary, "alive", 5));
	cr_assert_eq(symlink(canary, link_to), 0);
	cr_assert_eq(symlink("nowhere", loose), 0);
	cr_assert_eq(mkdir(inner, 0700), 0);
	cr_assert_eq(mkfifo(pipe_at, 0600), 0);
	before = folder_count(folder);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct safefile file;
		struct fault why;

		cr_expect_not(safefile_open(&file, rows[i].path, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, FAULT_OUTPUT, "row %zu", i);
		cr_expect_not_null(strstr(why.sentence, rows[i].said),
				   "row %zu: %s", i, why.sentence);
		cr_expect_eq(folder_count(folder), before, "row %zu", i);
	}
	cr_expect(folder_holds(canary, "alive"));
	cr_expect(safefile_exists(loose));
	cr_expect_not(safefile_exists(absent));
}

Test(safefile, a_planted_temporary_name_is_passed_over)
{
	char path[FOLDER_PATH], planted[FOLDER_PATH], canary[FOLDER_PATH];
	struct safefile file;
	struct fault why;
	char name[60];

	folder_path(folder, "file", path);
	folder_path(folder, "canary", canary);
	snprintf(name, sizeof name, "file.tmp-%ld-0", (long)getpid());
	folder_path(folder, name, planted);
	cr_assert(folder_put(canary, "alive", 5));
	cr_assert_eq(symlink(canary, planted), 0);
	cr_assert(safefile_open(&file, path, &why));
	fputs("new", file.out);
	cr_expect(safefile_commit(&file, SAFEFILE_SYNCED, &why));
	cr_expect(folder_holds(path, "new"));
	cr_expect(folder_holds(canary, "alive"));
	cr_expect_eq(folder_count(folder), 3);
}

Test(safefile, whole_files_up_to_the_limit_are_read)
{
	static const struct {
		const char *name;
		size_t length; /* of the file; 0 = none is made */
		const char *said;
	} rows[] = {
		{"nine", 9, NULL},
		{"ten", 10, "is too large; at most 9 bytes are allowed"},
		{"large", 5000, "is too large; at most 9 bytes are allowed"},
		{"absent", 0, "No such file"},
		{"inner", 0, "it is no plain file"},
		{"pipe", 0, "it is no plain file"},
	};
	static char some[5000];
	char path[FOLDER_PATH];

	memset(some, 'x', sizeof some);
	cr_assert_eq(mkdir(folder_path(folder, "inner", path), 0700), 0);
	cr_assert_eq(mkfifo(folder_path(folder, "pipe", path), 0600), 0);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why = {FAULT_NONE, ""};
		char bytes[10];
		size_t length = 0;
		bool done;

		folder_path(folder, rows[i].name, path);
		if (rows[i].length > 0)
			cr_assert(folder_put(path, some, rows[i].length));
		done = safefile_read(path, bytes, sizeof bytes, &length,
				     FAULT_POLICY, &why);
		cr_expect_eq(done, rows[i].said == NULL, "row %zu: %s", i,
			     why.sentence);
		if (done)
			cr_expect(length == rows[i].length &&
					  strlen(bytes) == length,
				  "row %zu: %zu bytes", i, length);
		else
			cr_expect(why.kind == FAULT_POLICY &&
					  strstr(why.sentence, rows[i].said),
				  "row %zu: %s", i, why.sentence);
	}
}

Test(safefile, a_hyphen_reads_standard_input)
{
	struct fault why;
	char bytes[10];
	size_t length;
	int ends[2];

	cr_assert_eq(pipe(ends), 0);
	cr_assert_eq(write(ends[1], "abc", 3), 3);
	cr_assert_eq(close(ends[1]), 0);
	cr_assert_geq(dup2(ends[0], STDIN_FILENO), 0);
	cr_assert(safefile_read("-", bytes, sizeof bytes, &length, FAULT_INPUT,
				&why));
	cr_expect_str_eq(bytes, "abc");
	cr_expect_eq(length, 3);
}

Test(safefile, folders_are_made_for_their_owner_only)
{
	char path[FOLDER_PATH], part[FOLDER_PATH];
	struct fault why;

	folder_path(folder, "one//two/three/", path);
	cr_expect(safefile_make_folder(path, &why), "%s", why.sentence);
	cr_expect(safefile_make_folder(path, &why), "once more");
	cr_expect_eq(folder_mode(folder_path(folder, "one", part)), 0700);
	cr_expect_eq(folder_mode(folder_path(folder, "one/two", part)), 0700);
	cr_expect_eq(folder_mode(folder_path(folder, "one/two/three", part)),
		     0700);

	folder_path(folder, "file", part);
	cr_assert(folder_put(part, "old", 3));
	cr_expect_not(safefile_make_folder(part, &why));
	cr_expect_eq(why.kind, FAULT_OUTPUT);
	folder_path(folder, "file/inner", path);
	cr_expect_not(safefile_make_folder(path, &why));
	cr_expect(folder_holds(part, "old"));
	cr_expect_not(safefile_make_folder("", &why));
}

Test(safefile, paths_are_joined_or_refused)
{
	static const struct {
		const char *folder, *name, *path;
	} rows[] = {
		{"a", "b", "a/b"},	{"a/", "b", "a/b"},
		{"/", "b", "/b"},	{"a/bc", "def", "a/bc/def"},
		{"a/bcd", "def", NULL}, {"", "b", "b"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why = {FAULT_NONE, ""};
		char path[9];

		cr_expect_eq(safefile_join(path, sizeof path, rows[i].folder,
					   rows[i].name, &why),
			     rows[i].path != NULL, "row %zu", i);
		cr_expect_str_eq(path, rows[i].path ? rows[i].path : "",
				 "row %zu", i);
		cr_expect_eq(why.kind, rows[i].path ? FAULT_NONE : FAULT_INPUT,
			     "row %zu", i);
	}
}

Test(safefile, a_file_is_known_by_any_path_and_its_beginning_is_read)
{
	char path[FOLDER_PATH], other[FOLDER_PATH], bytes[4];

	cr_assert(folder_put(folder_path(folder, "one", path), "abcdef", 6));
	cr_assert(folder_put(folder_path(folder, "empty", other), "", 0));
	cr_expect_not(safefile_is_same(path, other));
	cr_expect_eq(safefile_peek(path, bytes, sizeof bytes), 4);
	cr_expect(memcmp(bytes, "abcd", 4) == 0);
	cr_expect_eq(safefile_peek(other, bytes, sizeof bytes), 0);
	cr_expect_eq(safefile_peek(folder, bytes, sizeof bytes), 0);
	cr_assert(symlink(path, folder_path(folder, "link", other)) == 0);
	cr_expect(safefile_is_same(path, other));
	cr_expect_eq(safefile_peek(other, bytes, sizeof bytes), 0);
	folder_path(folder, "none", other);
	cr_expect_not(safefile_is_same(path, other));
	cr_expect_not(safefile_is_same(other, other));
	cr_expect_eq(safefile_peek(other, bytes, sizeof bytes), 0);
}
