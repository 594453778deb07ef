/* rates.h: shares, predictive values and sample sizes. */
#ifndef SHOAL_COUNTS_RATES_H
#define SHOAL_COUNTS_RATES_H

#include "base/fault.h"

/*
 * Pure arithmetic. Shares, sensitivities, specificities, prevalences and
 * half-widths are fractions from 0 to 1. What cannot be estimated is refused
 * with a sentence (FAULT_INPUT) and the result left alone: no value here is
 * ever infinite, not a number, or 100 % out of nothing.
 */

/* Standard normal quantiles for intervals of 95, 99 and 99.8 %. */
extern const double rates_z_95, rates_z_99, rates_z_998;

struct rates_interval {
	double low, high;
};

/*
 * Wilson's score interval for `count` of `of` people, without a correction for
 * continuity (Wilson, J Am Stat Assoc 1927;22:209-12; method 3 of Newcombe,
 * Stat Med 1998;17:857-72; both references from memory). Refused: nobody
 * counted, a count that is negative or more than `of`.
 */
bool rates_wilson(long long count, long long of, double z,
		  struct rates_interval *interval, struct fault *why);

/* How well a test tells who has a condition. */
struct rates_test {
	double sensitivity, specificity;
};

/*
 * The share of those flagged who have the condition, and of those not flagged
 * who do not, by Bayes' theorem. Refused: a prevalence of 0 or 1, at which
 * there is nothing to tell apart; a test that flags, or clears, nobody.
 */
bool rates_ppv(const struct rates_test *test, double prevalence, double *ppv,
	       struct fault *why);
bool rates_npv(const struct rates_test *test, double prevalence, double *npv,
	       struct fault *why);

/* What is to be expected, on average, of so many people. */
struct rates_expected {
	double flagged;	     /* found and false alarms */
	double found;	     /* flagged, have it */
	double missed;	     /* not flagged, have it */
	double false_alarms; /* flagged, do not have it */
};

bool rates_expect(const struct rates_test *test, double prevalence,
		  double people, struct rates_expected *expected,
		  struct fault *why);

/* Days that so many people fill; `per_day` at least 1. */
long rates_days(double people, long per_day);

struct rates_sample {
	double diseased_exact, healthy_exact; /* before rounding up */
	double diseased, healthy;	      /* rounded up */
	double people_for_sensitivity;	      /* rounded up once, from exact */
	double people_for_specificity;
	double people; /* the larger of the two */
};

/*
 * How many people to examine so that the interval around sensitivity and
 * specificity reaches `half_width` to either side (Buderer, Acad Emerg Med
 * 1996;3:895-900, volume and pages from memory). Refused: a sensitivity or
 * specificity of 0 or 1, for which the formula asks for nobody; a prevalence of
 * 0 or 1; a half-width that is not above 0 and at most 0.5.
 */
bool rates_sample_size(const struct rates_test *test, double prevalence,
		       double half_width, double z, struct rates_sample *sample,
		       struct fault *why);

#endif
