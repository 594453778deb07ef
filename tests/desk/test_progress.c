/* Tests of desk/progress: silent for a second and off a terminal, gone at the
 * end. */
#include "desk/progress.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

enum { STEP = 10 }; /* milliseconds a look at the clock takes here */

/* A clock has no context; each test is a process of its own. */
static long long clock_shown;

static long long
tick(void)
{
	clock_shown += STEP;
	return clock_shown;
}

/* What is written in so many milliseconds of work. */
static void
work(bool rewrites, int milliseconds, char *said, size_t size)
{
	struct desk *desk = calloc(1, sizeof *desk);
	struct progress progress;

	cr_assert_not_null(desk);
	desk->talk = fmemopen(said, size, "w");
	desk->talk_can_rewrite = rewrites;
	desk->milliseconds = tick;
	progress_begin(&progress, desk);
	for (long i = 0; i < milliseconds / STEP * 16L; i++)
		progress_show(&progress, i, 2 * i);
	progress_end(&progress);
	fclose(desk->talk);
	free(desk);
}

static int
count_of(const char *said, const char *what)
{
	int count = 0;

	while ((said = strstr(said, what)) != NULL) {
		count++;
		said++;
	}
	return count;
}

Test(progress, a_line_is_shown_after_a_second_on_a_terminal)
{
	static const struct {
		bool rewrites;
		int milliseconds, least, most;
	} rows[] = {{true, 0, 0, 0},	 {true, 990, 0, 0},
		    {true, 1100, 1, 1},	 {true, 3000, 8, 9},
		    {false, 3000, 0, 0}, {false, 100000, 0, 0}};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char said[8192] = "";
		int lines;

		work(rows[i].rewrites, rows[i].milliseconds, said, sizeof said);
		lines = count_of(said, "Reading: file ");
		cr_expect(lines >= rows[i].least && lines <= rows[i].most,
			  "row %zu: %d lines", i, lines);
		cr_expect_eq(said[0] == '\0', rows[i].most == 0, "row %zu", i);
	}
}

/* Carriage returns and spaces, no escapes, and nothing is left standing. */
Test(progress, the_line_is_wiped_out_at_the_end)
{
	char said[8192] = "", *wipe;
	size_t width;

	work(true, 2000, said, sizeof said);
	cr_assert(strlen(said) > 3);
	cr_expect_null(strpbrk(said, "\x1b\n\b"));
	cr_expect_eq(said[strlen(said) - 1], '\r');
	said[strlen(said) - 1] = '\0';
	wipe = strrchr(said, '\r') + 1;
	width = strspn(wipe, " ");
	cr_expect(width == strlen(wipe));
	wipe[-1] = '\0';
	cr_expect_geq(width, strlen(strrchr(said, '\r') + 1));
}
