/* hide.h: small counts hidden before a table leaves the programme. */
#ifndef SHOAL_COUNTS_HIDE_H
#define SHOAL_COUNTS_HIDE_H

#include "base/fault.h"
#include "counts/groups.h"

/*
 * A count of one or two people in a small place tells who they are. In a row
 * of counts that is to be published with a limit N,
 *
 *  - counts from 1 to N - 1 are hidden; 0 stays 0;
 *  - with_symptoms and late_entries are hidden too when those who are left of
 *    screened are 1 to N - 1 people;
 *  - among the four urgencies, and among the depths with not_gradable, whose
 *    sum is screened, further counts are hidden, the smallest first, until
 *    what is hidden adds up to at least N people (else the sum itself would be
 *    a small count) and every small count could still be one of two numbers or
 *    more;
 *  - a row of 1 to N - 1 people is hidden whole, and so is one that cannot be
 *    kept otherwise. A row of 0 people is shown.
 *
 * "Could still be" supposes a reader who knows N, the sums, which of the
 * hidden counts are the small ones (1 to N - 1; a further one is N or more),
 * and that the smallest is hidden first (a further one is at most the least of
 * those shown). The range of each hidden count is then exact, since each sum
 * stands alone. The limits in use are 5 and 10 (common practice; a table that
 * some publish hides 1 to 4, others 1 to 10).
 *
 * What this cannot see: another table of the same people, by other groups or
 * for the same days, from which one can be subtracted from the other.
 */
enum {
	/* Hidden counts of 1 and 2 alone, as with 3, can be told apart by one
	 * who knows this program: 4 4 1 1 is the only row published as it. */
	HIDE_LEAST = 4,
	HIDE_MOST = 100
};

enum hide_kind {
	HIDE_SHOWN,
	HIDE_SMALL,  /* small, or what is left of screened is */
	HIDE_BESIDE, /* would give a small one away */
	HIDE_WHOLE   /* the whole row is hidden */
};

struct hidden {
	enum hide_kind kind[GROUPS_COUNTS]; /* as struct sums */
};

/* What stands for a hidden count, on paper and in CSV: a word, which nobody
 * adds up as a number; "<5" would be untrue of counts hidden beside a small
 * one, and an empty place or a 0 would be read as none. */
extern const char hide_word[];

/* Everything is shown. */
void hide_nothing(struct hidden *hidden);

/* What is to be hidden of a row whose sums agree; `under` is N, HIDE_LEAST to
 * HIDE_MOST. */
void hide_row(const struct sums *sums, long long under, struct hidden *hidden);

bool hide_is_shown(const struct hidden *hidden, int column);

/* Whether a count's share of screened may be shown, and the share that is
 * referred at any urgency. */
bool hide_share_is_shown(const struct hidden *hidden, int column);
bool hide_referred_is_shown(const struct hidden *hidden);

/*
 * For a line of totals: hides of `total` what is hidden of `part`, one of the
 * rows added up. A total shown is then the sum of counts that are all shown,
 * and tells nothing new. Begin with hide_nothing.
 */
void hide_join(struct hidden *total, const struct hidden *part);

/* Least and greatest value that a hidden count of the row could have, as far
 * as the reader described above can tell. False when the row is hidden whole
 * or the count is shown. */
bool hide_range(const struct sums *sums, const struct hidden *hidden,
		long long under, int column, long long *least,
		long long *greatest);

#endif
