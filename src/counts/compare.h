/* compare.h: what two policies say of the same people. */
#ifndef SHOAL_COUNTS_COMPARE_H
#define SHOAL_COUNTS_COMPARE_H

#include "clinic/decide.h"

/* Whether the second answer asks for an earlier look at the eye than the
 * first. A referral is earlier than a new screening, fewer days or months are
 * earlier than more. COMPARE_RENAMED: the same days, but under another urgency
 * word, since a policy says itself what it calls urgent. */
enum compare_change {
	COMPARE_SAME,
	COMPARE_SOONER,
	COMPARE_LATER,
	COMPARE_RENAMED,
	COMPARE_CHANGES
};

struct compare {
	long people;
	long before[URGENCY_COUNT], after[URGENCY_COUNT];
	long changed[COMPARE_CHANGES];
};

void compare_init(struct compare *compare);

/* Counts one person; returns how the answer changed. */
enum compare_change compare_add(struct compare *compare,
				const struct decision *before,
				const struct decision *after);

/* People referred, at any urgency, of counts by urgency. */
long compare_referred(const long count[URGENCY_COUNT]);

/* People whose answer is another than before. */
long compare_changed(const struct compare *compare);

#endif
