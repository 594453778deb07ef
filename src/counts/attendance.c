/* attendance.c: how long people take to come, counting those still awaited. */
#include "counts/attendance.h"

#include "base/maths.h"

#include <math.h>
#include <string.h>

void
attendance_init(struct attendance *attendance)
{
	memset(attendance, 0, sizeof *attendance);
}

bool
attendance_add(struct attendance *attendance, int day, bool came,
	       struct fault *why)
{
	if (day < 0)
		return fault_set(why, FAULT_INPUT,
				 "%d days before the referral cannot be; "
				 "allowed is the day of the referral or later",
				 -day);
	attendance->people++;
	if (day > ATTENDANCE_DAYS_MOST)
		attendance->later++;
	else if (came)
		attendance->attended[day]++;
	else
		attendance->awaited[day]++;
	return true;
}

/* Those still to come at the end of a day. */
struct curve {
	double still;  /* share */
	double square; /* of the relative standard error */
	long at_risk;  /* before the day */
	long left;     /* after it */
};

static void
begin(const struct attendance *attendance, struct curve *curve)
{
	*curve = (struct curve){1, 0, attendance->people, attendance->people};
}

static void
step(const struct attendance *attendance, int day, struct curve *curve)
{
	long came = attendance->attended[day];
	double n = (double)curve->left, rest = (double)(curve->left - came);

	curve->at_risk = curve->left;
	curve->left -= came + attendance->awaited[day];
	if (came == 0)
		return;
	curve->still *= rest / n;
	if (rest > 0)
		curve->square += (double)came / (n * rest);
}

static bool
has_interval(const struct curve *curve)
{
	return curve->still > 0 && curve->square > 0;
}

/* Of the share still to come, from the logarithm of minus its logarithm. */
static struct rates_interval
log_log(const struct curve *curve)
{
	double reach = maths_exp(rates_z_95 * sqrt(curve->square) /
				 -maths_log(curve->still));

	return (struct rates_interval){maths_power(curve->still, reach),
				       maths_power(curve->still, 1 / reach)};
}

/* Nobody or everybody came. */
static void
set_plain_interval(struct attendance_share *share, long came, long people,
		   bool all_followed)
{
	struct fault ignored;

	share->kind = ATTENDANCE_NO_INTERVAL;
	if (all_followed &&
	    rates_wilson(came, people, rates_z_95, &share->interval, &ignored))
		share->kind = ATTENDANCE_WILSON;
}

static bool
check_asked(const struct attendance *attendance, int day, struct fault *why)
{
	if (day < 0 || day > ATTENDANCE_DAYS_MOST)
		return fault_set(why, FAULT_INPUT,
				 "day %d is out of range; allowed are 0 to %d",
				 day, ATTENDANCE_DAYS_MOST);
	if (attendance->people == 0)
		return fault_set(why, FAULT_INPUT, "nobody was counted");
	return true;
}

bool
attendance_by(const struct attendance *attendance, int day,
	      struct attendance_share *share, struct fault *why)
{
	struct curve curve;
	bool all_followed = true;
	int last = 0;

	if (!check_asked(attendance, day, why))
		return false;
	begin(attendance, &curve);
	for (int i = 0; i <= day; i++) {
		if (curve.left > 0)
			last = i;
		step(attendance, i, &curve);
		if (i < day && attendance->awaited[i] > 0)
			all_followed = false;
	}
	if (last < day && curve.still > 0)
		return fault_set(why, FAULT_INPUT,
				 "nobody was followed for %d days yet; the "
				 "longest is %d",
				 day, last);
	*share = (struct attendance_share){.share = 1 - curve.still,
					   .error = curve.still *
						    sqrt(curve.square),
					   .at_risk = curve.at_risk};
	if (!has_interval(&curve)) {
		set_plain_interval(share,
				   curve.still > 0 ? 0 : attendance->people,
				   attendance->people, all_followed);
		return true;
	}
	share->kind = ATTENDANCE_LOG_LOG;
	share->interval.low = 1 - log_log(&curve).high;
	share->interval.high = 1 - log_log(&curve).low;
	return true;
}

/* The products can miss a half by a rounding error. */
static void
note(int *day, int today, double still)
{
	if (*day == ATTENDANCE_NOT_REACHED && still <= 0.5 + 1e-9)
		*day = today;
}

bool
attendance_median(const struct attendance *attendance,
		  struct attendance_median *median, struct fault *why)
{
	struct curve curve;

	if (!check_asked(attendance, 0, why))
		return false;
	begin(attendance, &curve);
	*median = (struct attendance_median){ATTENDANCE_NOT_REACHED,
					     ATTENDANCE_NOT_REACHED,
					     ATTENDANCE_NOT_REACHED};
	for (int i = 0; i <= ATTENDANCE_DAYS_MOST; i++) {
		step(attendance, i, &curve);
		note(&median->day, i, curve.still);
		if (has_interval(&curve)) {
			note(&median->low, i, log_log(&curve).low);
			note(&median->high, i, log_log(&curve).high);
		}
	}
	return true;
}
