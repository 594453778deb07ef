/* test_qrcode.c: a short text as a square code for a scanner. */
#include "paper/qrcode.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

enum { SIDE = QRCODE_MODULES + 2 * QRCODE_QUIET, PAGE_SIZE = 8192 };

static bool
draw(const char *text, char *page)
{
	FILE *out = fmemopen(page, PAGE_SIZE, "w");
	bool done;

	cr_assert_not_null(out);
	page[0] = '\0';
	done = qrcode_write_svg(text, out);
	fclose(out);
	return done;
}

/* Reads the path back: M x y h n v1 h -n z for each run of black modules. */
static void
read_path(const char *page, char black[SIDE][SIDE])
{
	const char *at = strstr(page, " d=\"");
	int runs = 0;

	cr_assert_not_null(at, "no path in %s", page);
	memset(black, 0, (size_t)SIDE * SIDE);
	for (at += 4; *at == 'M'; runs++) {
		char *end;
		long x = strtol(at + 1, &end, 10);
		long y = strtol(end, &end, 10);
		long run;

		cr_assert_eq(*end, 'h');
		run = strtol(end + 1, &end, 10);
		cr_assert(x >= 0 && y >= 0 && y < SIDE && run > 0 &&
			  x + run <= SIDE);
		for (long i = x; i < x + run; i++)
			black[y][i] = 1;
		at = strchr(end, 'z') + 1;
	}
	cr_assert_eq(*at, '"');
	cr_expect_gt(runs, QRCODE_MODULES);
}

/* A finder: a ring of 7 with a square of 3 inside, a white line round it. ISO/
 * IEC 18004 has one in three of the four corners (from memory). */
static bool
is_finder(char black[SIDE][SIDE], int left, int top)
{
	for (int y = 0; y < 7; y++)
		for (int x = 0; x < 7; x++) {
			bool ring = x == 0 || x == 6 || y == 0 || y == 6;
			bool heart = x >= 2 && x <= 4 && y >= 2 && y <= 4;

			if ((black[top + y][left + x] != 0) != (ring || heart))
				return false;
		}
	return true;
}

Test(qrcode, a_number_is_one_path_with_its_finders_and_a_quiet_zone)
{
	static char black[SIDE][SIDE];
	const int near = QRCODE_QUIET, far = QRCODE_QUIET + QRCODE_MODULES - 7;
	char page[PAGE_SIZE];

	cr_assert(draw("0014-00001-98", page));
	cr_expect_null(strstr(strstr(page, "<path") + 1, "<path"));
	cr_expect_not_null(strstr(page, "viewBox=\"0 0 29 29\""));
	cr_expect_not_null(strstr(page, "<title>0014-00001-98</title>"));
	read_path(page, black);
	cr_expect(is_finder(black, near, near));
	cr_expect(is_finder(black, far, near));
	cr_expect(is_finder(black, near, far));
	cr_expect_not(is_finder(black, far, far));
	for (int i = 0; i < SIDE; i++)
		for (int j = 0; j < QRCODE_QUIET; j++) {
			cr_expect_eq(black[i][j] + black[j][i] +
					     black[i][SIDE - 1 - j] +
					     black[SIDE - 1 - j][i],
				     0, "%d, %d", i, j);
		}
}

Test(qrcode, what_does_not_fit_writes_nothing)
{
	char page[PAGE_SIZE];

	cr_expect_not(draw("0014-00001-98 and more than fits into it", page));
	cr_expect_str_eq(page, "");
	cr_expect_not(draw("", page));
	cr_expect_str_eq(page, "");
}
