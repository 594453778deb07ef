/* funnel.h: whether one share differs from another by more than chance. */
#ifndef SHOAL_COUNTS_FUNNEL_H
#define SHOAL_COUNTS_FUNNEL_H

/*
 * The binomial distribution of a count among `of` people when each counts with
 * the chance `share`: 0 < share < 1, 0 <= count <= of, of >= 1. Pure
 * arithmetic, good to at least nine digits for ten million people.
 */

/* The chance of so few, and of so many: P(X <= count) and P(X >= count). */
struct funnel_tails {
	double few, many;
};

struct funnel_tails funnel_tails(long long count, long long of, double share);

/* Rising with how unusual; below, then above. */
enum funnel_flag {
	FUNNEL_INSIDE,
	FUNNEL_LOW, /* outside the limits of 95 % */
	FUNNEL_HIGH,
	FUNNEL_VERY_LOW, /* outside the limits of 99.8 % */
	FUNNEL_VERY_HIGH
};

/* By the exact tail: at most 0.025, and at most 0.001, on its side. */
enum funnel_flag funnel_flag(long long count, long long of, double share);

/*
 * Limits as a share, for drawing only: with r the smallest count at which the
 * distribution reaches `chance`, (r - a) / of, where a is the part of its last
 * step beyond `chance` (Spiegelhalter, Stat Med 2005;24:1185-202, appendix A.1;
 * formula from memory). A count on the line's wrong side may still be no
 * unusual one, so flags come from the tails. May lie below 0.
 */
double funnel_limit(long long of, double share, double chance);

#endif
