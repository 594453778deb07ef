/* yieldfigures.h: shares, bounds and times of a yield. */
#ifndef SHOAL_COUNTS_YIELDFIGURES_H
#define SHOAL_COUNTS_YIELDFIGURES_H

#include "counts/accuracy.h"
#include "counts/yield.h"

/* What was found in people who attended. */
enum yield_finding {
	YIELD_CLOSED, /* suspect or worse */
	YIELD_SUSPECT,
	YIELD_CLOSURE,
	YIELD_GLAUCOMA,
	YIELD_OPEN,
	YIELD_NOT_DERIVABLE,
	YIELD_FINDINGS
};

/* Fractions; `has` false: there is nothing to take a share of. */
struct yield_share {
	bool has, has_interval;
	double value, low, high;
};

/* With Wilson's interval; no `has` for none of nobody. */
void yield_share_of(int count, int of, struct yield_share *share);

struct yield_found {
	int count;
	/* Those who attended and in whom it can be told: for a kind of narrow
	 * angle neither the "not derivable" nor those who are narrow of a kind
	 * that is not known. Taken as not having it, they would make a share of
	 * less than it may well be. "Not derivable" itself is of all. */
	int of;
	/* Of these, Wilson 95 %; only "not derivable" as long as no angle was
	 * classed. */
	struct yield_share share;
	/* Of all who attended, were none, or all, of the others so. */
	struct yield_share came;
	/* Of everybody, were none, or all, of those about whom it is not known
	 * so; no `has` for "not derivable", or when nothing is known. */
	struct yield_share bounds;
};

/* Nothing is told of uptake and time as long as no outcome is known. */
struct yield_figures {
	struct yield_share uptake; /* attended of all people, Wilson 95 % */
	/* The same, had none, or all, of those of unknown outcome attended. */
	struct yield_share uptake_bounds;
	struct yield_share by_day; /* attended by YIELD_DAY; see attendance.h */
	bool has_median;
	struct attendance_median median;
	struct yield_found found[YIELD_FINDINGS];
};

void yield_figure(const struct yield_cell *cell, struct yield_figures *figures);

/* People by whether the screening referred them and whether it was found:
 * YIELD_CLOSED; YIELD_CLOSURE, which here is closure or worse; YIELD_GLAUCOMA.
 * Those examined outside of the rule are among the unverified. */
void yield_sample(const struct yield_counts *referred,
		  const struct yield_counts *cleared, enum yield_finding found,
		  struct accuracy_sample *sample);

/* Sensitivity or specificity of a sample, as accuracy_corrected has it; no
 * `has` where it cannot be estimated, and `*why` says why. */
void yield_measure(const struct accuracy_sample *sample,
		   enum accuracy_measure measure, struct yield_share *share,
		   struct fault *why);

#endif
