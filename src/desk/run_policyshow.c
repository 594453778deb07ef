/* run_policyshow.c: the rules in plain words, for the wall and the doctor. */
#include "desk/run.h"

#include "clinic/grid.h"
#include "desk/outfile.h"
#include "paper/card.h"
#include "paper/cardhtml.h"

#include <string.h>

/* What is to be shown: a kept text, or a card in one of its forms. */
struct shown {
	const struct card *card;
	const char *text; /* NULL = the card */
	bool html, grid;
};

static void
write_shown(const struct shown *shown, FILE *out)
{
	if (shown->text != NULL)
		fputs(shown->text, out);
	else if (shown->html)
		card_write_html(shown->card, out);
	else if (shown->grid)
		card_write_grid(shown->card, out);
	else
		card_write_text(shown->card, out);
}

static bool
write_to(const struct desk *desk, const struct shown *shown,
	 const struct given *given, struct fault *why)
{
	const char *path = given_value(given, "out");
	struct safefile file;

	if (path == NULL || strcmp(path, "-") == 0) {
		write_shown(shown, desk->out);
		return true;
	}
	if (!outfile_open(&file, desk, given, "out",
			  shown->html ? OUTFILE_PAGE : NULL, why))
		return false;
	write_shown(shown, file.out);
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

static bool
mark_is_sound(const char *mark)
{
	return strlen(mark) == POLICY_MARK_SIZE - 1 &&
	       strspn(mark, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == strlen(mark);
}

/* The policy in force may be at fault: an earlier one can be had all the
 * same. */
static bool
show_kept(struct desk *desk, const struct given *given, const char *mark,
	  struct fault *why)
{
	struct shown shown = {.text = desk->policy_text};

	if (given_is(given, "html") || given_is(given, "grid"))
		return fault_set(why, FAULT_USAGE,
				 "--fingerprint prints the text that was kept; "
				 "write it to a file with --out FILE, then "
				 "'shoal --policy FILE policy show --html'");
	if (!mark_is_sound(mark))
		return fault_set(why, FAULT_USAGE,
				 "'%.20s' is not a fingerprint; it has six "
				 "large letters, as on a slip",
				 mark);
	return desk_open(desk, NEED_BOOK_READ, why) &&
	       desk_kept_policy(desk, mark, desk->policy_text, &desk->policy,
				why) &&
	       write_to(desk, &shown, given, why);
}

bool
run_policy_show(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *mark = given_value(given, "fingerprint");
	struct grid grid;
	struct card card = {&desk->policy, desk->policy_mark, desk->today,
			    &desk->wording, NULL};
	struct shown shown = {&card, NULL, given_is(given, "html"),
			      given_is(given, "grid")};

	if (mark != NULL)
		return show_kept(desk, given, mark, why);
	if (!desk_open(desk, NEED_POLICY, why) ||
	    !wording_read(&desk->wording, NULL, "en", desk_hear, desk, why))
		return false;
	if (shown.grid) {
		grid_fill(&desk->policy, &grid);
		card.grid = &grid;
	}
	return write_to(desk, &shown, given, why);
}
