/* compare.c: what two policies say of the same people. */
#include "counts/compare.h"

#include "base/field.h"

#include <string.h>

void
compare_init(struct compare *compare)
{
	memset(compare, 0, sizeof *compare);
}

/* Negative when `one` is earlier. Only a referral has days, only a new
 * screening has months. */
static int
order(const struct decision *one, const struct decision *other)
{
	bool refers = one->within_days != FIELD_BLANK;

	if (refers != (other->within_days != FIELD_BLANK))
		return refers ? -1 : 1;
	return refers ? one->within_days - other->within_days
		      : one->rescreen_months - other->rescreen_months;
}

enum compare_change
compare_add(struct compare *compare, const struct decision *before,
	    const struct decision *after)
{
	int moved = order(after, before);
	enum compare_change change = COMPARE_SAME;

	if (moved < 0)
		change = COMPARE_SOONER;
	else if (moved > 0)
		change = COMPARE_LATER;
	else if (before->urgency != after->urgency)
		change = COMPARE_RENAMED;
	compare->people++;
	compare->before[before->urgency]++;
	compare->after[after->urgency]++;
	compare->changed[change]++;
	return change;
}

long
compare_referred(const long count[URGENCY_COUNT])
{
	long sum = 0;

	for (int i = 0; i < URGENCY_NO_REFERRAL; i++)
		sum += count[i];
	return sum;
}

long
compare_changed(const struct compare *compare)
{
	return compare->people - compare->changed[COMPARE_SAME];
}
