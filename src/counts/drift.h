/* drift.h: whether one station's grades spread like the others'. */
#ifndef SHOAL_COUNTS_DRIFT_H
#define SHOAL_COUNTS_DRIFT_H

enum { DRIFT_GRADES_MOST = 8, DRIFT_EXPECTED_LEAST = 5 };

/* A chi-squared above which chance rarely goes. */
struct drift {
	double chi_squared;
	int freedom;   /* degrees of it: grades in use less one */
	double chance; /* of as large a chi-squared or a larger one */
	double least_expected;
};

enum drift_answer {
	DRIFT_TESTED,
	DRIFT_NOTHING, /* one side is empty, or only one grade is in use */
	DRIFT_TOO_FEW  /* an expected count is under DRIFT_EXPECTED_LEAST */
};

/*
 * Pearson's chi-squared of two rows of counts (at least 0) over `grades`
 * columns; a column in which nobody is in either row is dropped. All of
 * `drift` is set also when the answer is DRIFT_TOO_FEW, since then the numbers
 * are there but cannot be trusted; nothing of it with DRIFT_NOTHING.
 */
enum drift_answer drift_test(const long long *station, const long long *others,
			     int grades, struct drift *drift);

/*
 * Joins neighbouring grades, shallow to deep, until each expected count is
 * DRIFT_EXPECTED_LEAST or more, and tests those; `from` gets the first grade
 * of each of the `*joined` groups. DRIFT_TOO_FEW when no two groups remain.
 */
enum drift_answer drift_test_joined(const long long *station,
				    const long long *others, int grades,
				    int *from, int *joined,
				    struct drift *drift);

#endif
