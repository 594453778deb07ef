/* drift.c: whether one station's grades spread like the others'. */
#include "counts/drift.h"

#include "base/maths.h"

#include <stdbool.h>

/* x^a e^-x / Gamma(a), what both forms below begin with. */
static double
front(double a, double x)
{
	return maths_exp(a * maths_log(x) - x - maths_log_gamma(a));
}

/* The incomplete gamma function's lower part as a series, and its upper part as
 * a continued fraction (Abramowitz and Stegun, Handbook of Mathematical
 * Functions, 6.5.29 and 6.5.31; from memory). Each is good on its side of
 * a + 1. */
static double
lower_part(double a, double x)
{
	double term = 1 / a, sum = term;

	for (int k = 1; term > sum * 1e-17; k++) {
		term *= x / (a + k);
		sum += term;
	}
	return front(a, x) * sum;
}

/* Of the fraction x + 1 - a - (1 - a) / (x + 3 - a - ...), from the inside. */
static double
upper_part(double a, double x)
{
	double inner = 0;

	for (int k = 200; k > 0; k--)
		inner = k * (k - a) / (x + 2 * k + 1 - a - inner);
	return front(a, x) / (x + 1 - a - inner);
}

/* The chance of a chi-squared of `value` or more. */
static double
upper_tail(double value, int freedom)
{
	double a = freedom / 2.0, x = value / 2;

	if (x <= 0)
		return 1;
	return x < a + 1 ? 1 - lower_part(a, x) : upper_part(a, x);
}

static double
total(const long long *counts, int grades)
{
	double sum = 0;

	for (int i = 0; i < grades; i++)
		sum += (double)counts[i];
	return sum;
}

enum drift_answer
drift_test(const long long *station, const long long *others, int grades,
	   struct drift *drift)
{
	double one = total(station, grades), rest = total(others, grades);
	struct drift found = {0, -1, 1, one + rest};

	for (int i = 0; i < grades; i++) {
		double both = (double)station[i] + (double)others[i];
		double expected = both * one / (one + rest);
		double expected_rest = both - expected;
		double apart = (double)station[i] - expected;

		if (both <= 0 || expected <= 0 || expected_rest <= 0)
			continue;
		found.freedom++;
		found.chi_squared += apart * apart / expected +
				     apart * apart / expected_rest;
		found.least_expected =
			maths_smaller(found.least_expected,
				      maths_smaller(expected, expected_rest));
	}
	if (found.freedom < 1)
		return DRIFT_NOTHING;
	found.chance = upper_tail(found.chi_squared, found.freedom);
	*drift = found;
	return found.least_expected < DRIFT_EXPECTED_LEAST ? DRIFT_TOO_FEW
							   : DRIFT_TESTED;
}

enum drift_answer
drift_test_joined(const long long *station, const long long *others, int grades,
		  int *from, int *joined, struct drift *drift)
{
	long long here[DRIFT_GRADES_MOST] = {0}, there[DRIFT_GRADES_MOST] = {0};
	double one = total(station, grades), rest = total(others, grades);
	double least = maths_smaller(one, rest) / (one + rest);
	int group = -1;
	bool full = true;

	for (int i = 0; i < grades; i++) {
		if (full)
			from[++group] = i;
		here[group] += station[i];
		there[group] += others[i];
		full = (double)(here[group] + there[group]) * least >=
		       DRIFT_EXPECTED_LEAST;
	}
	/* What is left at the end goes to the group before. */
	if (!full && group > 0) {
		here[group - 1] += here[group];
		there[group - 1] += there[group];
		group--;
	}
	*joined = group + 1;
	if (group < 1)
		return one > 0 && rest > 0 ? DRIFT_TOO_FEW : DRIFT_NOTHING;
	return drift_test(here, there, *joined, drift);
}
