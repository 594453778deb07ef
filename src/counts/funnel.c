/* funnel.c: whether one share differs from another by more than chance. */
#include "counts/funnel.h"

#include "base/maths.h"

/* Of exactly so many; in logarithms, for the factors leave every range. */
static double
chance_of(long long count, long long of, double share)
{
	double x = (double)count, n = (double)of;

	return maths_exp(maths_log_gamma(n + 1) - maths_log_gamma(x + 1) -
			 maths_log_gamma(n - x + 1) + x * maths_log(share) +
			 (n - x) * maths_log(1 - share));
}

/* The sum of the chances from `count` away from the middle, where each is
 * smaller than the one before, until they add nothing. */
static double
sum_away(long long count, long long of, double share, int step)
{
	double chance = chance_of(count, of, share), sum = 0;
	double odds = share / (1 - share);

	for (long long x = count; chance > sum * 1e-17; x += step) {
		double more = (double)(of - x), fewer = (double)x;

		sum += chance;
		chance *= step > 0 ? more / (fewer + 1) * odds
				   : fewer / (more + 1) / odds;
	}
	return sum;
}

/* The side that holds the middle follows from the other one, which keeps the
 * digits of the small one. */
struct funnel_tails
funnel_tails(long long count, long long of, double share)
{
	struct funnel_tails tails;
	double here = chance_of(count, of, share);

	if ((double)count <= (double)of * share) {
		tails.few = sum_away(count, of, share, -1);
		tails.many = 1 - tails.few + here;
	} else {
		tails.many = sum_away(count, of, share, 1);
		tails.few = 1 - tails.many + here;
	}
	tails.few = maths_smaller(tails.few, 1);
	tails.many = maths_smaller(tails.many, 1);
	return tails;
}

enum funnel_flag
funnel_flag(long long count, long long of, double share)
{
	struct funnel_tails tails = funnel_tails(count, of, share);

	if (tails.few <= 0.001)
		return FUNNEL_VERY_LOW;
	if (tails.many <= 0.001)
		return FUNNEL_VERY_HIGH;
	if (tails.few <= 0.025)
		return FUNNEL_LOW;
	return tails.many <= 0.025 ? FUNNEL_HIGH : FUNNEL_INSIDE;
}

double
funnel_limit(long long of, double share, double chance)
{
	long long low = -1, high = of;
	double beyond;

	while (high - low > 1) {
		long long middle = low + (high - low) / 2;

		if (funnel_tails(middle, of, share).few >= chance)
			high = middle;
		else
			low = middle;
	}
	beyond = (funnel_tails(high, of, share).few - chance) /
		 chance_of(high, of, share);
	return ((double)high - beyond) / (double)of;
}
