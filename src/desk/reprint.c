/* reprint.c: whether a correction changes the paper that somebody holds. */
#include "desk/reprint.h"

#include "base/text.h"
#include "paper/slip.h"

#include <string.h>

/* Several times the longest slip. */
enum { SLIP_TEXT_SIZE = 65536 };

/* "" when it cannot be written, or not whole. */
static void
render(const struct desk *desk, const struct visit *visit, char *text)
{
	struct decision decision;
	struct slip slip = {visit,	    &desk->policy,  &decision,
			    &desk->station, &desk->wording, desk->policy_mark};
	FILE *out = fmemopen(text, SLIP_TEXT_SIZE, "w");
	struct fault ignored;
	bool whole;

	text[0] = '\0';
	if (out == NULL)
		return;
	decide(&desk->policy, visit, &decision);
	whole = slip_write_text(&slip, SLIP_COLUMNS, out, &ignored);
	if (fclose(out) != 0 || !whole)
		text[0] = '\0';
}

static bool
reads_the_same(const struct desk *desk, const struct visit *before,
	       const struct visit *after)
{
	char one[SLIP_TEXT_SIZE], other[SLIP_TEXT_SIZE];
	struct visit alike = *after;

	/* A day that has passed meanwhile is printed. */
	alike.state = before->state;
	if (visit_is_overdue(before) == visit_is_overdue(after))
		text_copy(alike.entered_at, sizeof alike.entered_at,
			  before->entered_at);
	render(desk, before, one);
	render(desk, &alike, other);
	return one[0] != '\0' && strcmp(one, other) == 0;
}

static bool
answers_the_same(const struct visit *one, const struct visit *other)
{
	return one->urgency == other->urgency &&
	       one->within_days == other->within_days &&
	       one->see_by.number == other->see_by.number &&
	       one->rescreen_months == other->rescreen_months;
}

enum reprint
reprint_after(const struct desk *desk, const struct visit *before,
	      const struct visit *after)
{
	if (!answers_the_same(before, after))
		return REPRINT_ANSWER;
	return reads_the_same(desk, before, after) ? REPRINT_NONE
						   : REPRINT_PAPER;
}

/* Urgencies are listed with the most urgent first. */
static bool
is_sooner(const struct visit *before, const struct visit *after)
{
	return after->urgency < before->urgency ||
	       (after->urgency == before->urgency &&
		(after->see_by.number < before->see_by.number ||
		 after->within_days < before->within_days));
}

void
reprint_tell(const struct visit *before, const struct visit *after,
	     enum reprint reprint, int columns, FILE *out)
{
	static const char *const words[] = {
		[REPRINT_NONE] = "The answer is the same, and so is the slip.",
		[REPRINT_PAPER] = "The answer is the same, but the slip reads "
				  "OTHERWISE: "
				  "replace the slip in the person's hand.",
		[REPRINT_ANSWER] = "The answer has CHANGED: replace the slip "
				   "in the "
				   "person's hand.",
	};

	text_write_wrapped(out, words[reprint], columns, 0, 0);
	if (reprint == REPRINT_ANSWER && is_sooner(before, after) &&
	    after->urgency != URGENCY_NO_REFERRAL)
		text_write_wrapped(out,
				   "The person has to be seen SOONER than the "
				   "earlier slip says: call or fetch whoever "
				   "has left already.",
				   columns, 0, 0);
}
