/* agreement.h: how far two graders agree on an ordinal scale. */
#ifndef SHOAL_COUNTS_AGREEMENT_H
#define SHOAL_COUNTS_AGREEMENT_H

#include "base/fault.h"
#include "counts/accuracy.h"

/*
 * Pure arithmetic over a table of the same eyes graded twice. `grades` is that
 * of the scale (2 to AGREEMENT_GRADES_MOST), not of what occurs: leaving out an
 * unused grade in the middle would change a weighted kappa. Grade 0 is the
 * shallowest.
 */
enum { AGREEMENT_GRADES_MOST = 7 };

struct agreement_table {
	int grades;
	long count[AGREEMENT_GRADES_MOST]
		  [AGREEMENT_GRADES_MOST]; /* [grader][reference] */
};

/* An empty table. */
void agreement_init(struct agreement_table *table, int grades);

/* Adds one table to another of the same scale. */
void agreement_add(struct agreement_table *table,
		   const struct agreement_table *other);

struct agreement_summary {
	long cases;
	long equal, within_one; /* steps; within one counts the equal too */
	long deeper, shallower; /* than the reference */
	double mean_steps;	/* grader minus reference; above 0 = deeper */
};

/* Of an empty table all is 0. */
void agreement_summarise(const struct agreement_table *table,
			 struct agreement_summary *summary);

/* The table at a cut-off: positive = graded `cutoff` or shallower, the
 * reference being the truth. */
void agreement_at_cutoff(const struct agreement_table *table, int cutoff,
			 struct accuracy_table *two_by_two);

enum agreement_weights {
	AGREEMENT_UNWEIGHTED, /* equal or not */
	AGREEMENT_LINEAR,     /* 1 - steps / (grades - 1) */
	AGREEMENT_QUADRATIC,  /* 1 - steps^2 / (grades - 1)^2 */
	AGREEMENT_WEIGHTS
};

/*
 * Weighted kappa (Cohen, Psychol Bull 1968;70:213-20, from memory) with its
 * large-sample standard error where kappa is not 0 (Fleiss, Cohen and Everitt,
 * Psychol Bull 1969;72:323-7), which is the one for an interval; centred, so
 * that rounding cannot make it negative. The interval of 95 % is clamped to -1
 * and 1. With perfect agreement on two grades or more kappa is 1 and `error` 0:
 * the formula then gives no interval (it is left at 1 and 1), and whoever
 * prints says so.
 *
 * Refused, with a sentence that may be printed as it is: an empty table; all
 * in one cell of the diagonal ("both graders used one grade"); one grader with
 * one grade only, where kappa would be 0 +- 0.
 */
bool agreement_kappa(const struct agreement_table *table,
		     enum agreement_weights weights,
		     struct accuracy_estimate *kappa, struct fault *why);

#endif
