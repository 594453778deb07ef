/* Tests of counts/recount: what was reported beside what the register holds. */
#include "counts/recount.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static const struct day day = {20522}, other_day = {20523};
static const struct age_bands bands = {4, {40, 50, 60, 70}};

/* A day of 20 people as the register has it: 12 women of 50-59, 8 men over
 * 70, one site, one policy. */
static struct tally *
new_day(void)
{
	static const struct tally_cell cell[2] = {
		{.site = "Mavi school",
		 .policy = "ABCDEF",
		 .sex = 0,
		 .band = 2,
		 .counts = {.screened = 12,
			    .routine = 2,
			    .no_referral = 10,
			    .depth_100 = 12}},
		{.site = "Mavi school",
		 .policy = "ABCDEF",
		 .sex = 1,
		 .band = 4,
		 .counts = {.screened = 8,
			    .urgent = 1,
			    .no_referral = 7,
			    .depth_75 = 8,
			    .late_entries = 1}}};
	struct tally *tally = calloc(1, sizeof *tally);

	cr_assert_not_null(tally);
	tally_init(tally, &bands);
	tally->count = 2;
	memcpy(tally->cell, cell, sizeof cell);
	return tally;
}

/* The rows of that day as they were reported, and one of another day. */
static void
usual_rows(struct counted row[3])
{
	struct tally *tally = new_day();

	for (int i = 0; i < 3; i++)
		row[i] = (struct counted){.date = i < 2 ? day : other_day,
					  .station = 14,
					  .site = "Mavi school",
					  .policy = "ABCDEF",
					  .sex = i == 1,
					  .age_band = i == 1 ? "70+" : "50-59",
					  .counts = tally->cell[i == 1].counts};
	free(tally);
}

static void
compare(const struct counted row[3], struct recounted *recounted)
{
	struct recount recount;
	struct tally *tally = new_day();
	struct fault why;

	recount_init(&recount);
	for (int i = 0; i < 3; i++)
		cr_assert(recount_report(&recount, &row[i], 1, &why));
	/* What does not count after all leaves no trace. */
	cr_assert(recount_report(&recount, &row[0], 1, &why));
	cr_assert(recount_report(&recount, &row[0], -1, &why));
	cr_assert(recount_compare(&recount, day, tally, recounted, &why));
	recount_release(&recount);
	free(tally);
}

/* One change each to what was reported. */
static void
change(int which, struct counted row[3])
{
	switch (which) {
	case 1: /* two people too many */
		row[0].counts.screened += 2;
		row[0].counts.no_referral += 2;
		row[0].counts.depth_100 += 2;
		break;
	case 2: /* a referral called less urgent */
		row[1].counts.urgent--;
		row[1].counts.routine++;
		break;
	case 3: /* the men's row is missing */
		row[1].counts = (struct tally_counts){0};
		break;
	case 4: /* counted to another site */
		row[1].site = "Ridge hall";
		break;
	case 5: /* other age bands */
		row[0].age_band = "45-59";
		break;
	case 6: /* people moved from one sex to the other */
		row[0].sex = 2;
		break;
	case 7:
		row[0].policy = "GHIJKL";
		break;
	default:
		break;
	}
}

Test(recount, every_difference_is_named)
{
	static const struct {
		const char *factor, *differs;
	} row[] = {
		{"1.000", ""},
		{"0.909", "screened;no_referral;depth_100"},
		{"1.000", "urgent;routine"},
		{"1.667", "screened;urgent;no_referral;depth_75;late_entries"},
		{"1.000", "site"},
		{"1.000", "age_band"},
		{"1.000", "sex"},
		{"1.000", "policy"},
	};

	for (size_t i = 0; i < COUNT(row); i++) {
		char factor[RECOUNT_FACTOR_SIZE];
		char differs[RECOUNT_DIFFERS_SIZE];
		struct counted reported[3];
		struct recounted recounted;

		usual_rows(reported);
		change((int)i, reported);
		compare(reported, &recounted);
		recounted_write_factor(&recounted, factor, sizeof factor);
		recounted_write_differs(&recounted, differs, sizeof differs);
		cr_expect_str_eq(factor, row[i].factor, "row %zu: %s", i,
				 factor);
		cr_expect_str_eq(differs, row[i].differs, "row %zu: %s", i,
				 differs);
		cr_expect_eq(recounted_agrees(&recounted), i == 0, "row %zu",
			     i);
		cr_expect_eq(recounted.recounted, 20);
	}
}

/* A factor out of nothing is none. */
Test(recount, nobody_reported)
{
	char factor[RECOUNT_FACTOR_SIZE], differs[RECOUNT_DIFFERS_SIZE];
	struct tally *tally = new_day();
	struct recounted recounted;
	struct recount recount;
	struct fault why;

	recount_init(&recount);
	cr_assert(recount_compare(&recount, day, tally, &recounted, &why));
	recounted_write_factor(&recounted, factor, sizeof factor);
	cr_expect_str_eq(factor, "-");
	cr_expect_not(recounted_agrees(&recounted));
	tally->count = 0;
	cr_assert(recount_compare(&recount, day, tally, &recounted, &why));
	recounted_write_factor(&recounted, factor, sizeof factor);
	recounted_write_differs(&recounted, differs, sizeof differs);
	cr_expect_str_eq(factor, "-");
	cr_expect_str_eq(differs, "");
	cr_expect(recounted_agrees(&recounted));
	recount_release(&recount);
	free(tally);
}

/* Whom a recount_see told of. */
static bool
hear_missing(void *context, struct day missing,
	     const struct recounted *recounted, struct fault *why)
{
	char *told = context, date[DAY_SIZE];
	size_t used = strlen(told);

	(void)why;
	cr_expect_not(recounted_agrees(recounted));
	day_write(missing, date);
	snprintf(told + used, 100 - used, "%s:%lld of %lld|", date,
		 recounted->reported, recounted->recounted);
	return true;
}

/* What was reported and taken back again reports nothing: only a day that was
 * compared is there. */
Test(recount, days_that_nothing_reports_are_named_in_order)
{
	static const struct day held[] = {
		{20525}, {20522}, {20524}, {20525}, {20523}};
	struct tally *tally = new_day();
	struct recounted recounted;
	struct counted row[3];
	struct recount recount;
	char told[100] = "";
	struct fault why;

	usual_rows(row);
	recount_init(&recount);
	cr_assert(recount_report(&recount, &row[2], 1, &why));
	cr_assert(recount_report(&recount, &row[2], -1, &why));
	cr_assert(recount_compare(&recount, day, tally, &recounted, &why));
	for (size_t i = 0; i < COUNT(held); i++)
		cr_assert(recount_hold(&recount, held[i], &why));
	cr_assert(recount_visit_missing(&recount, hear_missing, told, &why));
	cr_expect_str_eq(told, "2026-03-11:0 of 1|2026-03-12:0 of 1|"
			       "2026-03-13:0 of 2|");
	recount_release(&recount);
	free(tally);
}

/* The longest list of differences fits. */
Test(recount, everything_differs)
{
	char differs[RECOUNT_DIFFERS_SIZE];
	struct recounted recounted;

	memset(&recounted, 1, sizeof recounted);
	recounted_write_differs(&recounted, differs, sizeof differs);
	cr_expect_eq(strcmp(strrchr(differs, ';'), ";late_entries"), 0, "%s",
		     differs);
}
