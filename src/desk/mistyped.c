/* mistyped.c: a number of the register that somebody types. */
#include "desk/mistyped.h"

#include <string.h>

bool
mistyped_by_one_slip(const char *typed, const char *meant)
{
	size_t length = strlen(meant), first = 0, last;
	const char *t, *m;

	if (strlen(typed) != length || strcmp(typed, meant) == 0)
		return false;
	while (typed[first] == meant[first])
		first++;
	for (last = length - 1; typed[last] == meant[last]; last--)
		;
	t = typed + first;
	m = meant + first;
	switch (last - first) {
	case 0:
		return true;
	case 1:
		return (t[0] == m[1] && t[1] == m[0]) ||
		       (t[0] == t[1] && m[0] == m[1]);
	case 2:
		return t[0] == m[2] && t[1] == m[1] && t[2] == m[0];
	default:
		return false;
	}
}

/* The numbers of the register near to one that was typed. */
struct search {
	char typed[REFNUM_SIZE];
	struct refnum found;
	int count;
};

/* Digits alone; one too many makes it as long as no number is. */
static void
keep_digits(const char *text, char *digits)
{
	size_t used = 0;

	for (; *text != '\0' && used + 1 < REFNUM_SIZE; text++)
		if (strchr(" -\t\r\n", *text) == NULL)
			digits[used++] = *text;
	digits[used] = '\0';
}

static bool
compare(void *context, const struct visit *visit, const char *reason,
	struct fault *why)
{
	struct search *search = context;
	char written[REFNUM_SIZE], digits[REFNUM_SIZE];

	(void)reason, (void)why;
	refnum_write(visit->number, written);
	keep_digits(written, digits);
	if (mistyped_by_one_slip(search->typed, digits)) {
		search->found = visit->number;
		search->count++;
	}
	return true;
}

/* A register that cannot be read is told instead. */
static bool
suggest(struct desk *desk, const char *text, struct fault *why)
{
	struct search search = {.count = 0};
	char meant[REFNUM_SIZE];

	keep_digits(text, search.typed);
	if (strspn(search.typed, "0123456789") != strlen(search.typed) ||
	    !register_visit_day(&desk->book, day_none(), compare, &search,
				why) ||
	    search.count != 1)
		return false;
	refnum_write(search.found, meant);
	return fault_set(why, FAULT_INPUT,
			 "the last two digits of '%.40s' do not fit the "
			 "others; did you mean %s?",
			 text, meant);
}

bool
mistyped_read(struct desk *desk, const char *text, struct refnum *number,
	      struct fault *why)
{
	if (!refnum_read(text, number, why))
		return suggest(desk, text, why);
	if (number->station == desk->book.station)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "'%.40s' was given out by station %04d and is not in "
			 "this register, which is station %04d's; enter it "
			 "there",
			 text, number->station, desk->book.station);
}
