/* test_compare.c: what two policies say of the same people. */
#include "counts/compare.h"

#include "base/field.h"

#include <criterion/criterion.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static struct decision
answer(enum visit_urgency urgency, int days, int months)
{
	return (struct decision){.urgency = urgency,
				 .within_days = days,
				 .rescreen_months = months};
}

Test(compare, earlier_is_told_from_later_and_from_another_word)
{
	static const struct {
		enum visit_urgency before;
		int days_before, months_before;
		enum visit_urgency after;
		int days_after, months_after;
		enum compare_change change;
	} rows[] = {
		{URGENCY_URGENT, 7, -1, URGENCY_URGENT, 7, -1, COMPARE_SAME},
		{URGENCY_URGENT, 7, -1, URGENCY_SAME_DAY, 0, -1,
		 COMPARE_SOONER},
		{URGENCY_URGENT, 7, -1, URGENCY_URGENT, 6, -1, COMPARE_SOONER},
		{URGENCY_URGENT, 7, -1, URGENCY_URGENT, 8, -1, COMPARE_LATER},
		{URGENCY_URGENT, 14, -1, URGENCY_ROUTINE, 14, -1,
		 COMPARE_RENAMED},
		/* Days and months do not mix: a referral is always earlier. */
		{URGENCY_NO_REFERRAL, -1, 1, URGENCY_ROUTINE, 365, -1,
		 COMPARE_SOONER},
		{URGENCY_ROUTINE, 365, -1, URGENCY_NO_REFERRAL, -1, 1,
		 COMPARE_LATER},
		{URGENCY_SAME_DAY, 0, -1, URGENCY_NO_REFERRAL, -1, 24,
		 COMPARE_LATER},
		{URGENCY_NO_REFERRAL, -1, 24, URGENCY_NO_REFERRAL, -1, 12,
		 COMPARE_SOONER},
		{URGENCY_NO_REFERRAL, -1, 12, URGENCY_NO_REFERRAL, -1, 24,
		 COMPARE_LATER},
		{URGENCY_NO_REFERRAL, -1, 24, URGENCY_NO_REFERRAL, -1, 24,
		 COMPARE_SAME},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct decision before = answer(rows[i].before,
						rows[i].days_before,
						rows[i].months_before);
		struct decision after = answer(rows[i].after,
					       rows[i].days_after,
					       rows[i].months_after);
		struct compare compare;

		compare_init(&compare);
		cr_expect_eq(compare_add(&compare, &before, &after),
			     rows[i].change, "row %zu", i);
		cr_expect_eq(compare.changed[rows[i].change], 1, "row %zu", i);
		cr_expect_eq(compare_changed(&compare),
			     rows[i].change != COMPARE_SAME, "row %zu", i);
	}
}

Test(compare, people_are_counted_by_urgency_on_both_sides)
{
	struct decision today = answer(URGENCY_SAME_DAY, 0, -1);
	struct decision urgent = answer(URGENCY_URGENT, 7, -1);
	struct decision routine = answer(URGENCY_ROUTINE, 60, -1);
	struct decision none = answer(URGENCY_NO_REFERRAL, -1, 24);
	struct compare compare;

	compare_init(&compare);
	cr_expect_eq(compare_changed(&compare), 0);
	compare_add(&compare, &today, &today);
	compare_add(&compare, &routine, &urgent);
	compare_add(&compare, &routine, &none);
	compare_add(&compare, &none, &urgent);
	compare_add(&compare, &none, &none);
	cr_expect_eq(compare.people, 5);
	cr_expect_eq(compare.before[URGENCY_SAME_DAY], 1);
	cr_expect_eq(compare.before[URGENCY_URGENT], 0);
	cr_expect_eq(compare.before[URGENCY_ROUTINE], 2);
	cr_expect_eq(compare.before[URGENCY_NO_REFERRAL], 2);
	cr_expect_eq(compare.after[URGENCY_SAME_DAY], 1);
	cr_expect_eq(compare.after[URGENCY_URGENT], 2);
	cr_expect_eq(compare.after[URGENCY_ROUTINE], 0);
	cr_expect_eq(compare.after[URGENCY_NO_REFERRAL], 2);
	cr_expect_eq(compare_referred(compare.before), 3);
	cr_expect_eq(compare_referred(compare.after), 3);
	cr_expect_eq(compare.changed[COMPARE_SOONER], 2);
	cr_expect_eq(compare.changed[COMPARE_LATER], 1);
	cr_expect_eq(compare.changed[COMPARE_SAME], 2);
	cr_expect_eq(compare_changed(&compare), 3);
}
