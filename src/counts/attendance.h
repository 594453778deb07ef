/* attendance.h: how long people take to come, counting those still awaited. */
#ifndef SHOAL_COUNTS_ATTENDANCE_H
#define SHOAL_COUNTS_ATTENDANCE_H

#include "base/fault.h"
#include "counts/rates.h"

#include <stdbool.h>

/*
 * The share attended by a day after the referral (Kaplan and Meier, J Am Stat
 * Assoc 1958;53:457-81, from memory), with Greenwood's standard error and the
 * log-log interval of 95 %. Somebody who has not come counts as followed until
 * the day he was last known not to have come, and no longer. On one day those
 * who come are counted before those who are not followed further. Somebody who
 * died or was seen elsewhere is a case of its own: leave him out and count him
 * apart.
 *
 * Counts are kept by day up to ATTENDANCE_DAYS_MOST, however many people there
 * are; who came or was followed later counts as followed up to then.
 */
enum {
	ATTENDANCE_DAYS_MOST = 1096, /* three years */
	ATTENDANCE_NOT_REACHED = -1
};

struct attendance {
	long people;
	int attended[ATTENDANCE_DAYS_MOST + 1]; /* by day; 0 = the same day */
	int awaited[ATTENDANCE_DAYS_MOST + 1]; /* last known not to have come */
	int later;			       /* beyond the last day here */
};

void attendance_init(struct attendance *attendance);

/* Adds one person: came on that day after the referral, or was awaited until
 * then. Refused: a day before the referral. */
bool attendance_add(struct attendance *attendance, int day, bool came,
		    struct fault *why);

enum attendance_interval {
	ATTENDANCE_NO_INTERVAL, /* nobody or everybody, with some not followed
				 * so far: the share stands alone */
	ATTENDANCE_LOG_LOG,
	ATTENDANCE_WILSON /* nobody or everybody, and all were followed so far:
			   * a plain share */
};

struct attendance_share {
	double share; /* attended by the end of the day */
	double error; /* Greenwood's; 0 where nobody or everybody came */
	long at_risk; /* not come before the day, and still followed */
	enum attendance_interval kind;
	struct rates_interval interval; /* unless ATTENDANCE_NO_INTERVAL */
};

/* Refused: nobody counted; a day past the last one on which anybody was
 * followed, unless all had come by then; a day outside 0 to
 * ATTENDANCE_DAYS_MOST. */
bool attendance_by(const struct attendance *attendance, int day,
		   struct attendance_share *share, struct fault *why);

/* Days, or ATTENDANCE_NOT_REACHED each. */
struct attendance_median {
	int day;       /* the first by which half have come */
	int low, high; /* of the log-log interval of 95 % */
};

/* The textbook's median: the first day on which not more than half are still
 * to come (not the middle of a flat stretch). Refused: nobody counted. */
bool attendance_median(const struct attendance *attendance,
		       struct attendance_median *median, struct fault *why);

#endif
