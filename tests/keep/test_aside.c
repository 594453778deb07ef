/* Tests of keep/aside: a small text put aside. */
#include "keep/aside.h"

#include <criterion/criterion.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void
make_folder(char *folder, size_t size)
{
	const char *base = getenv("TMPDIR");

	snprintf(folder, size, "%s/shoal-XXXXXX", base == NULL ? "/tmp" : base);
	cr_assert_not_null(mkdtemp(folder));
}

static bool
touch(const char *folder, const char *name)
{
	char path[400];
	int handle;

	snprintf(path, sizeof path, "%s/%s", folder, name);
	handle = open(path, O_CREAT | O_WRONLY, 0600);
	return handle >= 0 && close(handle) == 0;
}

/* Whether it is there; it is gone afterwards. */
static bool
take(const char *folder, const char *name)
{
	char path[400];

	snprintf(path, sizeof path, "%s/%s", folder, name);
	return unlink(path) == 0;
}

Test(aside, a_text_comes_back_whole_and_the_last_one_counts)
{
	static const char *const texts[] = {"", "one\n", "two lines\nor so",
					    "\xc3\xa9"};
	char folder[200], read[ASIDE_TEXT_SIZE];
	struct fault why = {FAULT_NONE, ""};
	struct aside aside;
	struct stat status;

	make_folder(folder, sizeof folder);
	cr_assert(aside_open(&aside, folder, "it.txt", &why), "%s",
		  why.sentence);
	cr_expect(aside_read(&aside, read, &why));
	cr_expect_str_eq(read, "");
	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
		cr_assert(aside_write(&aside, texts[i], &why), "%s",
			  why.sentence);
		cr_expect(aside_read(&aside, read, &why));
		cr_expect_str_eq(read, texts[i], "row %zu", i);
	}
	cr_expect_eq(stat(aside.path, &status), 0);
	cr_expect_eq(status.st_mode & 0777, 0600U);
	cr_expect(aside_remove(&aside, &why));
	cr_expect(aside_remove(&aside, &why), "a second time");
	cr_expect(aside_read(&aside, read, &why));
	cr_expect_str_eq(read, "");
	aside_close(&aside);
	aside_close(&aside);
	cr_expect_eq(rmdir(folder), 0);
}

Test(aside, one_program_at_a_time_and_leftovers_go)
{
	struct fault why = {FAULT_NONE, ""};
	struct aside one, other;
	char folder[200];

	make_folder(folder, sizeof folder);
	cr_assert(touch(folder, "it.txt") && touch(folder, "it.txt.tmp-7-0") &&
		  touch(folder, "it.txt.old") &&
		  touch(folder, "that.txt.tmp-7-0"));
	cr_expect(aside_open(&one, folder, "it.txt", &why));
	cr_expect_not(aside_open(&other, folder, "it.txt", &why));
	cr_expect_eq(why.kind, FAULT_OUTPUT);
	cr_expect_not_null(strstr(why.sentence, "another program"));
	aside_close(&other);
	aside_close(&one);
	cr_expect(aside_open(&other, folder, "it.txt", &why));
	aside_close(&other);
	cr_expect(take(folder, "it.txt"));
	cr_expect_not(take(folder, "it.txt.tmp-7-0"));
	cr_expect(take(folder, "it.txt.old"));
	cr_expect(take(folder, "that.txt.tmp-7-0"));
	cr_expect_eq(rmdir(folder), 0);
}

Test(aside, what_is_no_text_of_ours_is_refused)
{
	struct fault why = {FAULT_NONE, ""};
	char folder[200], read[ASIDE_TEXT_SIZE], path[300];
	struct aside aside;
	FILE *out;

	make_folder(folder, sizeof folder);
	cr_expect_not(aside_open(&aside, "/no/such/folder", "it.txt", &why));
	aside_close(&aside);
	cr_assert(aside_open(&aside, folder, "it.txt", &why));
	snprintf(path, sizeof path, "%s/canary", folder);
	cr_assert(touch(folder, "canary"));
	cr_assert_eq(symlink(path, aside.path), 0);
	cr_expect_not(aside_write(&aside, "x", &why), "through a link");
	cr_assert_eq(unlink(aside.path), 0);
	out = fopen(aside.path, "w");
	cr_assert_not_null(out);
	fwrite("a\0b", 1, 3, out);
	fclose(out);
	cr_expect_not(aside_read(&aside, read, &why), "a NUL");
	out = fopen(aside.path, "w");
	cr_assert_not_null(out);
	for (int i = 0; i < ASIDE_TEXT_SIZE; i++)
		fputc('a', out);
	fclose(out);
	cr_expect_not(aside_read(&aside, read, &why), "too long");
	aside_close(&aside);
	cr_expect(take(folder, "it.txt"));
	cr_expect(take(folder, "canary"));
	cr_expect_eq(rmdir(folder), 0);
}
