/* slipfit.c: whether a slip's page has so much to say that it is set smaller.
 */
#include "paper/slipfit.h"

#include "base/text.h"
#include "paper/slipfacts.h"

/*
 * Heights in hundredths of a millimetre and columns that fit a line, for the
 * sizes of type in fieldforms/slip.html: measured on pages in five languages.
 */
enum {
	PAGE = 18600,
	PAGE_AND_MORE = 22500, /* with the room above the reply */
	FIXED = 3500, /* the number's row, rules, borders and margins */
	TEXT_SIZE = 6000
};

/* How a part is set: as phrases on lines of their own, or one after another. */
static const struct set {
	enum slip_part part;
	int columns, height;
	bool runs_on;
} sets[] = {
	{SLIP_HEADLINE, 24, 890, false},      {SLIP_WHEN, 36, 690, false},
	{SLIP_STATE, 54, 740, false},	      {SLIP_MESSAGE, 45, 545, false},
	{SLIP_WHERE, 54, 545, false},	      {SLIP_AT_ONCE, 44, 545, true},
	{SLIP_ENDING, 56, 545, true},	      {SLIP_PERSON, 82, 366, true},
	{SLIP_REPORTS, 82, 366, true},	      {SLIP_CAMP, 84, 366, true},
	{SLIP_FINDINGS_RIGHT, 36, 366, true}, {SLIP_DECIDING, 78, 366, false},
	{SLIP_OTHERS, 82, 366, true},	      {SLIP_ADVICE, 84, 366, true},
	{SLIP_NOT_DONE, 82, 366, true},	      {SLIP_CAUTIONS, 84, 366, true},
	{SLIP_POLICY, 82, 366, true},
};

/* A part as it is measured. */
struct measure {
	const struct slip *slip;
	const struct set *set;
	int width; /* gathered on the line, or lines, that run on */
	int lines;
};

static int
lines_of(const struct set *set, int width)
{
	return (width + set->columns - 1) / set->columns;
}

static void
measure_phrase(void *context, const struct phrase *phrase)
{
	struct measure *measure = context;
	char text[TEXT_SIZE];
	int width;

	phrase_fill(measure->slip->wording, phrase, text, sizeof text);
	width = text_width(text);
	if (measure->set->runs_on)
		measure->width += width + 3;
	else
		measure->lines += lines_of(measure->set, width);
}

enum slip_fit
slip_fit(const struct slip *slip)
{
	int height = FIXED;

	for (size_t i = 0; i < sizeof sets / sizeof sets[0]; i++) {
		struct measure measure = {slip, &sets[i], 0, 0};

		slip_visit(slip, sets[i].part, measure_phrase, &measure);
		measure.lines += lines_of(&sets[i], measure.width);
		height += measure.lines * sets[i].height;
	}
	return height > PAGE_AND_MORE ? SLIP_FIT_FULLEST
	       : height > PAGE	      ? SLIP_FIT_FULL
				      : SLIP_FIT_EASY;
}
