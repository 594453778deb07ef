/* Tests of counts/yieldfigures: rates beside their bounds, and nothing out of
 * nothing. */
#include "counts/yieldfigures.h"

#include "yieldcase.h"

#include <math.h>
#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static void
expect_share(const struct yield_share *share, double value, double low,
	     double high, const char *name)
{
	cr_expect(share->has && share->has_interval, "%s", name);
	cr_expect_float_eq(share->value, value, 1e-7, "%s: %.9f", name,
			   share->value);
	cr_expect_float_eq(share->low, low, 1e-7, "%s: %.9f", name, share->low);
	cr_expect_float_eq(share->high, high, 1e-7, "%s: %.9f", name,
			   share->high);
}

/* Of 20 sent 8 came: 1 open, 2 suspect, 1 closure, 1 glaucoma, 1 narrow of a
 * kind not known, 2 not known at all. 2 elsewhere, 3 not come, 7 unknown. The
 * Wilson limits were computed by R's prop.test(correct = FALSE). */
Test(yieldfigures, rates_stand_between_their_bounds)
{
	static const char came[] = "osscgn??";
	struct yield *yield = new_yield();
	struct yield_figures figures;
	struct yieldcase one;

	case_begin(&one, 1);
	add_many(yield, &one, 7);
	case_absent(&one, OUTCOME_ELSEWHERE, FIELD_BLANK);
	add_many(yield, &one, 2);
	case_absent(&one, OUTCOME_NOT_ATTENDED, 2);
	add_many(yield, &one, 3);
	for (int i = 0; came[i] != '\0'; i++) {
		case_came(&one, 10, came[i]);
		case_add(yield, &one);
	}
	yield_figure(&yield->cell[0], &figures);
	expect_share(&figures.uptake, 0.4, 0.2188065, 0.6134185, "uptake");
	expect_share(&figures.found[YIELD_CLOSED].bounds, 0.25, 0.25,
		     (5 + 12 + 2) / 20.0, "closed");
	expect_share(&figures.found[YIELD_SUSPECT].bounds, 0.1, 0.1,
		     (2 + 12 + 2 + 1) / 20.0, "suspect");
	expect_share(&figures.found[YIELD_GLAUCOMA].bounds, 0.05, 0.05,
		     (1 + 12 + 2 + 1) / 20.0, "glaucoma");
	expect_share(&figures.found[YIELD_OPEN].bounds, 0.05, 0.05,
		     (1 + 12 + 2) / 20.0, "open");
	cr_expect_not(figures.found[YIELD_NOT_DERIVABLE].bounds.has);
	/* Of 8 it can be told in 6, and of what kind in 5. */
	cr_expect_float_eq(figures.found[YIELD_CLOSED].share.value, 5 / 6.0,
			   1e-12);
	expect_share(&figures.found[YIELD_SUSPECT].share, 0.4, 0.1176208,
		     0.7692757, "suspect of those told");
	expect_share(&figures.found[YIELD_SUSPECT].came, 2 / 8.0, 2 / 8.0,
		     (2 + 2 + 1) / 8.0, "suspect of those who came");
	expect_share(&figures.found[YIELD_OPEN].came, 1 / 8.0, 1 / 8.0, 3 / 8.0,
		     "open of those who came");
	cr_expect_eq(figures.found[YIELD_OPEN].of, 6);
	cr_expect_eq(figures.found[YIELD_NOT_DERIVABLE].of, 8);
	cr_expect_float_eq(figures.found[YIELD_NOT_DERIVABLE].share.value,
			   2 / 8.0, 1e-12);
	free(yield);
}

/* Who died or was seen elsewhere is left out; who was sent a short while ago is
 * no failure; who did not come is awaited until today. */
Test(yieldfigures, the_share_that_came_by_day_30_counts_who_could_have_come)
{
	static const struct {
		const char *name;
		int came_on[3]; /* of three people; -1 = no reply */
		int outcome;	/* of a fourth, -1 = no reply */
		int why_not, days;
		bool has;
		double share;
	} rows[] = {
		{"sent yesterday", {-1, -1, -1}, -1, 0, 1, false, 0},
		{"no reply", {-1, -1, -1}, -1, 0, 60, false, 0},
		{"nobody came",
		 {-1, -1, -1},
		 OUTCOME_NOT_ATTENDED,
		 0,
		 60,
		 true,
		 0},
		{"one did not come",
		 {5, 10, -1},
		 OUTCOME_NOT_ATTENDED,
		 0,
		 60,
		 true,
		 0.5},
		{"one died",
		 {5, 10, -1},
		 OUTCOME_NOT_ATTENDED,
		 6,
		 60,
		 true,
		 2 / 3.0},
		{"one elsewhere",
		 {5, 10, -1},
		 OUTCOME_ELSEWHERE,
		 FIELD_BLANK,
		 60,
		 true,
		 2 / 3.0},
		{"one came on day 31", {5, 31, -1}, -1, 0, 60, true, 0.25},
		{"all the same day",
		 {0, 0, 0},
		 OUTCOME_ELSEWHERE,
		 FIELD_BLANK,
		 60,
		 true,
		 1},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct yield *yield = new_yield();
		struct yield_figures figures;
		struct yieldcase one;

		for (int j = 0; j < 4; j++) {
			case_begin(&one, j + 1);
			one.person.today = day_plus_days(one.visit.screened_on,
							 rows[i].days);
			if (j < 3 && rows[i].came_on[j] >= 0)
				case_came(&one, rows[i].came_on[j], 'o');
			else if (j == 3 && rows[i].outcome >= 0)
				case_absent(&one,
					    (enum reply_outcome)rows[i].outcome,
					    rows[i].why_not);
			case_add(yield, &one);
		}
		yield_figure(&yield->cell[0], &figures);
		cr_expect_eq(figures.by_day.has, rows[i].has, "%s",
			     rows[i].name);
		cr_expect_float_eq(figures.by_day.value, rows[i].share, 1e-9,
				   "%s: %.9f", rows[i].name,
				   figures.by_day.value);
		free(yield);
	}
}

static void
expect_sound(const struct yield_share *share, int of, int row)
{
	double value[3] = {share->value, share->low, share->high};

	cr_expect(of > 0 || !share->has, "row %d: something out of nothing",
		  row);
	for (int i = 0; i < 3; i++)
		cr_expect(isfinite(value[i]) && !signbit(value[i]) &&
				  value[i] <= 1,
			  "row %d: value %d is %f", row, i, value[i]);
	cr_expect(!share->has_interval || (share->low <= share->value &&
					   share->value <= share->high),
		  "row %d: %f is not within %f-%f", row, share->value,
		  share->low, share->high);
}

/* Nobody to three people of each of six kinds: 4096 camps. */
Test(yieldfigures, no_camp_gives_a_figure_out_of_nothing)
{
	static const char kinds[] = "os?-ed";
	struct yield *yield = new_yield();
	struct yield_figures figures;

	for (int row = 0; row < 4096; row += 1 + row / 64) {
		struct yieldcase one;
		int left = row, people = 0, came = 0;

		yield_init(yield);
		for (int i = 0; kinds[i] != '\0'; i++, left /= 4) {
			case_begin(&one, 1);
			if (i < 3)
				case_came(&one, 10 * i, kinds[i]);
			else if (kinds[i] == 'e')
				case_absent(&one, OUTCOME_ELSEWHERE, -1);
			else if (kinds[i] == 'd')
				case_absent(&one, OUTCOME_NOT_ATTENDED, 6);
			people += left % 4;
			came += i < 3 ? left % 4 : 0;
			add_many(yield, &one, left % 4);
		}
		yield_figure(&yield->cell[0], &figures);
		expect_sound(&figures.uptake, people, row);
		expect_sound(&figures.by_day, people, row);
		cr_expect(people > 0 || !figures.has_median);
		for (int i = 0; i < YIELD_FINDINGS; i++) {
			expect_sound(&figures.found[i].share, came, row);
			expect_sound(&figures.found[i].bounds, came, row);
		}
	}
	free(yield);
}

/* Foster et al., Br J Ophthalmol 2000;84:186-92, table 6: at a depth of 25 % or
 * less 139 of 140 people with an occludable angle were flagged, and 1022 of
 * 1560 without were not. Everybody had been examined. */
Test(yieldfigures, fosters_survey_gives_its_sensitivity_and_specificity)
{
	static const struct {
		enum visit_urgency urgency;
		char found;
		int people;
	} rows[] = {
		{URGENCY_ROUTINE, 's', 139},
		{URGENCY_ROUTINE, 'o', 1560 - 1022},
		{URGENCY_NO_REFERRAL, 's', 1},
		{URGENCY_NO_REFERRAL, 'o', 1022},
	};
	struct yield *yield = new_yield();
	struct accuracy_estimate estimate;
	struct accuracy_sample sample;
	struct yieldcase one;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		case_begin(&one, 1);
		one.visit.urgency = rows[i].urgency;
		one.person.chosen = rows[i].urgency == URGENCY_NO_REFERRAL;
		case_came(&one, 0, rows[i].found);
		add_many(yield, &one, rows[i].people);
	}
	yield_sample(&yield->cell[0].counts, &yield->cleared, YIELD_CLOSED,
		     &sample);
	cr_expect_eq(sample.cleared.diseased, 1);
	cr_expect_eq(sample.cleared.unverified + sample.flagged.unverified, 0);
	cr_assert(accuracy_corrected(&sample, ACCURACY_SENSITIVITY, &estimate,
				     &why));
	cr_expect_float_eq(estimate.value, 139.0 / 140, 1e-12);
	cr_assert(accuracy_corrected(&sample, ACCURACY_SPECIFICITY, &estimate,
				     &why));
	cr_expect_float_eq(estimate.value, 1022.0 / 1560, 1e-12);
	/* nobody had glaucoma here, so there is none to be found or missed */
	yield_sample(&yield->cell[0].counts, &yield->cleared, YIELD_GLAUCOMA,
		     &sample);
	cr_expect_eq(sample.flagged.diseased + sample.cleared.diseased, 0);
	cr_expect_eq(sample.flagged.healthy, 139 + 538);
	cr_expect_not(accuracy_corrected(&sample, ACCURACY_SENSITIVITY,
					 &estimate, &why));
	free(yield);
}
