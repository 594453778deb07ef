/* rates.c: shares, predictive values and sample sizes. */
#include "counts/rates.h"

#include "base/maths.h"

#include <math.h>

const double rates_z_95 = 1.9599639845400542;
const double rates_z_99 = 2.5758293035489;
const double rates_z_998 = 3.09023230616781;

/* The limits are the roots of p^2 (n + z^2) - p (2x + z^2) + x^2 / n = 0. The
 * lower comes from the product of both: as a difference it would lose its
 * digits where the count is small. */
bool
rates_wilson(long long count, long long of, double z,
	     struct rates_interval *interval, struct fault *why)
{
	double x = (double)count, n = (double)of, square = z * z, high;

	if (of == 0 && count == 0)
		return fault_set(why, FAULT_INPUT,
				 "nobody was counted, so there is no share and "
				 "no interval");
	if (count < 0 || count > of)
		return fault_set(why, FAULT_INPUT,
				 "%lld of %lld cannot be; allowed are counts "
				 "from 0 to the number of people",
				 count, of);
	high = (2 * x + square +
		z * sqrt(square + 4 * x * (double)(of - count) / n)) /
	       (2 * (n + square));
	interval->low = count == 0 ? 0 : x / n * x / (n + square) / high;
	interval->high = high;
	if (count == of) {
		interval->low = n / (n + square);
		interval->high = 1;
	}
	return true;
}

/* Written so that what is not a number is refused as well. */
static bool
is_fraction(double value)
{
	return value >= 0 && value <= 1;
}

static bool
check_test(const struct rates_test *test, double prevalence, struct fault *why)
{
	if (!is_fraction(test->sensitivity) || !is_fraction(test->specificity))
		return fault_set(why, FAULT_INPUT,
				 "a sensitivity or specificity is out of "
				 "range; allowed are 0 to 100 %%");
	if (!(prevalence > 0 && prevalence < 1))
		return fault_set(why, FAULT_INPUT,
				 "the prevalence must be above 0 and below 100 "
				 "%%: where nobody or everybody has the "
				 "condition, there is nothing to tell apart");
	return true;
}

bool
rates_ppv(const struct rates_test *test, double prevalence, double *ppv,
	  struct fault *why)
{
	double found = test->sensitivity * prevalence;
	double alarms = (1 - test->specificity) * (1 - prevalence);

	if (!check_test(test, prevalence, why))
		return false;
	if (found + alarms <= 0)
		return fault_set(why, FAULT_INPUT,
				 "a test that flags nobody has no positive "
				 "predictive value");
	*ppv = found / (found + alarms);
	return true;
}

bool
rates_npv(const struct rates_test *test, double prevalence, double *npv,
	  struct fault *why)
{
	double cleared = test->specificity * (1 - prevalence);
	double missed = (1 - test->sensitivity) * prevalence;

	if (!check_test(test, prevalence, why))
		return false;
	if (cleared + missed <= 0)
		return fault_set(why, FAULT_INPUT,
				 "a test that flags everybody has no negative "
				 "predictive value");
	*npv = cleared / (cleared + missed);
	return true;
}

bool
rates_expect(const struct rates_test *test, double prevalence, double people,
	     struct rates_expected *expected, struct fault *why)
{
	double ill = people * prevalence, well = people * (1 - prevalence);

	if (!check_test(test, prevalence, why))
		return false;
	if (!(people > 0 && isfinite(people)))
		return fault_set(why, FAULT_INPUT,
				 "without people there is nothing to expect; "
				 "allowed is 1 or more");
	expected->found = ill * test->sensitivity;
	expected->missed = ill * (1 - test->sensitivity);
	expected->false_alarms = well * (1 - test->specificity);
	expected->flagged = expected->found + expected->false_alarms;
	return true;
}

/* A full day and a rounding error are not two days. */
long
rates_days(double people, long per_day)
{
	double days = maths_ceiling(people / (double)per_day - 1e-9);

	return days > 0 ? (long)days : 0;
}

static bool
check_sample(const struct rates_test *test, double half_width,
	     struct fault *why)
{
	if (!(half_width > 0 && half_width <= 0.5))
		return fault_set(why, FAULT_INPUT,
				 "the half-width must be above 0 and at most "
				 "50 %%");
	if (test->sensitivity <= 0 || test->sensitivity >= 1)
		return fault_set(why, FAULT_INPUT,
				 "at a sensitivity of 0 or 100 %% the formula "
				 "asks for nobody, so it gives no number");
	if (test->specificity <= 0 || test->specificity >= 1)
		return fault_set(why, FAULT_INPUT,
				 "at a specificity of 0 or 100 %% the formula "
				 "asks for nobody, so it gives no number");
	return true;
}

/* People of one kind that a share needs. */
static double
needed(double share, double half_width, double z)
{
	return z * z * share * (1 - share) / (half_width * half_width);
}

bool
rates_sample_size(const struct rates_test *test, double prevalence,
		  double half_width, double z, struct rates_sample *sample,
		  struct fault *why)
{
	double ill, well;

	if (!check_test(test, prevalence, why) ||
	    !check_sample(test, half_width, why))
		return false;
	ill = needed(test->sensitivity, half_width, z);
	well = needed(test->specificity, half_width, z);
	sample->diseased_exact = ill;
	sample->healthy_exact = well;
	sample->diseased = maths_ceiling(ill);
	sample->healthy = maths_ceiling(well);
	sample->people_for_sensitivity = maths_ceiling(ill / prevalence);
	sample->people_for_specificity = maths_ceiling(well / (1 - prevalence));
	sample->people = maths_larger(sample->people_for_sensitivity,
				      sample->people_for_specificity);
	return true;
}
