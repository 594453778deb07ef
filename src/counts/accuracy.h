/* accuracy.h: how well a test told who has a condition, from counts. */
#ifndef SHOAL_COUNTS_ACCURACY_H
#define SHOAL_COUNTS_ACCURACY_H

#include "base/fault.h"
#include "counts/rates.h"

/*
 * Pure arithmetic. Shares are fractions from 0 to 1; every interval is of 95 %.
 * What cannot be estimated is refused with a sentence that may be printed as
 * it is (FAULT_INPUT), and the result left alone: no value here is ever
 * infinite, not a number, or 100 % out of nothing. Counts are 0 or more.
 */

/* `count` of `of`, with Wilson's interval. */
struct accuracy_share {
	long long count, of;
	double share;
	struct rates_interval interval;
};

/* Refused: nobody counted, a count that is negative or more than `of`. */
bool accuracy_share(long long count, long long of, struct accuracy_share *share,
		    struct fault *why);

/* People by what the test said and what they have. */
struct accuracy_table {
	long long true_positive, false_positive;
	long long false_negative, true_negative;
};

enum accuracy_measure {
	ACCURACY_SENSITIVITY, /* flagged, of those who have it */
	ACCURACY_SPECIFICITY, /* not flagged, of those who do not */
	ACCURACY_PPV,	      /* have it, of those flagged */
	ACCURACY_NPV	      /* do not have it, of those not flagged */
};

/* Refused when there is nobody to take the share of, with a sentence that says
 * who is missing. A predictive value is that of the people in the table only:
 * of the camp's only when nobody was selected. */
bool accuracy_measure(const struct accuracy_table *table,
		      enum accuracy_measure measure,
		      struct accuracy_share *share, struct fault *why);

struct accuracy_estimate {
	double value;
	double error; /* standard error */
	struct rates_interval interval;
};

/*
 * How many times more often people who have it are flagged (`flagged` true,
 * the positive likelihood ratio) or not flagged (false, the negative one) than
 * people who do not. `error` is that of the logarithm (Simel, Samsa and
 * Matchar, J Clin Epidemiol 1991;44:763-70, from memory). Refused where a count
 * the ratio needs is 0: nothing is added to the cells.
 */
bool accuracy_likelihood(const struct accuracy_table *table, bool flagged,
			 struct accuracy_estimate *ratio, struct fault *why);

/* People with one answer of the test, of whom some were examined fully. */
struct accuracy_verified {
	long long diseased, healthy; /* examined */
	long long unverified;	     /* not examined, or not known yet */
};

struct accuracy_sample {
	struct accuracy_verified flagged, cleared;
};

/*
 * Sensitivity or specificity (the measure is one of these two) where not all
 * were examined, and those who were had been chosen by the test's answer or by
 * a rule fixed beforehand, never by suspicion (Begg and Greenes, Biometrics
 * 1983;39:207-15, from memory; variance by the delta method as in Zhou, Commun
 * Stat 1993;22:3177-98, from memory; the interval is that of the logit).
 *
 * It rests on sample->cleared.diseased, the missed ones, who are few: print how
 * many. Refused: nobody examined among the flagged or among the cleared; no
 * missed one found, where the sentence gives the upper limit (Wilson, 0 of so
 * many) instead of 100 %; nobody healthy among the flagged who were examined,
 * likewise; none diseased among them, or none healthy among the cleared, for
 * which 0 % would be printed.
 */
bool accuracy_corrected(const struct accuracy_sample *sample,
			enum accuracy_measure measure,
			struct accuracy_estimate *estimate, struct fault *why);

/*
 * The area under the curve of an ordinal grade: how often an eye with the
 * condition is graded more suspicious than one without, ties counting half.
 * Both arrays have `grades` counts, the most suspicious (the shallowest) first:
 * the direction is fixed, so a scale the wrong way round shows as an area below
 * 0.5. `error` is DeLong's (Biometrics 1988;44:837-45, from memory), the
 * interval that of its logit. Refused: fewer than two eyes with or without the
 * condition; perfect separation or a single grade, where the error would be 0.
 */
bool accuracy_area(const long long *diseased, const long long *healthy,
		   int grades, struct accuracy_estimate *area,
		   struct fault *why);

/* The standard error that Hanley and McNeil (Radiology 1982;143:29-36) give for
 * an area and the numbers of eyes, at least 1 each, with their approximation by
 * exponential distributions. */
double accuracy_area_error(double area, long long diseased, long long healthy);

#endif
