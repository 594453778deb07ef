/* Tests of counts/yield: what became of people is counted, and nothing comes
 * out of nothing. */
#include "counts/yield.h"

#include "yieldcase.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

enum { TEXT_SIZE = 200 };

/* The names of the counts that are 1, joined by spaces. */
static void
name_counts(const struct yield_counts *counts, char *text)
{
	const int *count = (const int *)(const void *)counts;

	text[0] = '\0';
	for (size_t i = 0; i < yield_count_fields.count; i++) {
		size_t used = strlen(text);

		if (count[i] != 0)
			snprintf(text + used, TEXT_SIZE - used, "%s%s",
				 used > 0 ? " " : "",
				 yield_count_fields.field[i].name);
	}
}

/* Why somebody did not come is counted by its place among the words. */
Test(yield, the_reasons_are_those_of_a_reply)
{
	const struct field *why_not = fields_find(reply_fields, "why_not");
	const struct field *count = fields_find(yield_count_fields, "cost");
	size_t length;

	for (int i = 0;; i++) {
		const char *word = field_word(why_not->words, i, &length);

		if (word == NULL) {
			cr_expect_eq(i, 9);
			return;
		}
		cr_expect(strncmp(count[i].name, word, length) == 0 &&
				  count[i].name[length] == '\0',
			  "%s is counted as %s", word, count[i].name);
	}
}

Test(yield, each_person_adds_to_the_right_counts)
{
	static const struct {
		enum visit_urgency urgency;
		bool chosen;
		char found;		    /* of somebody who came, or 0 */
		int outcome, why_not, days; /* since the screening */
		const char *counts;
	} rows[] = {
		{URGENCY_URGENT, false, 'o', 0, 0, 60, "people attended open"},
		{URGENCY_URGENT, false, 's', 0, 0, 60,
		 "people attended suspect"},
		{URGENCY_ROUTINE, false, 'c', 0, 0, 60,
		 "people attended closure"},
		{URGENCY_SAME_DAY, false, 'g', 0, 0, 60,
		 "people attended closure_glaucoma"},
		{URGENCY_ROUTINE, false, 'n', 0, 0, 60,
		 "people attended closed"},
		{URGENCY_ROUTINE, false, '?', 0, 0, 60,
		 "people attended not_derivable"},
		{URGENCY_ROUTINE, false, 0, OUTCOME_ELSEWHERE, FIELD_BLANK, 60,
		 "people elsewhere"},
		{URGENCY_ROUTINE, false, 0, OUTCOME_NOT_ATTENDED, 0, 60,
		 "people not_attended cost"},
		{URGENCY_ROUTINE, false, 0, OUTCOME_NOT_ATTENDED, 6, 60,
		 "people not_attended died"},
		{URGENCY_ROUTINE, false, 0, OUTCOME_NOT_ATTENDED, 8, 60,
		 "people not_attended not_known"},
		{URGENCY_ROUTINE, false, 0, OUTCOME_NOT_ATTENDED, FIELD_BLANK,
		 60, "people not_attended not_known"},
		{URGENCY_ROUTINE, false, 0, -1, 0, 60, "people unknown"},
		{URGENCY_ROUTINE, false, 0, -1, 0, 31, "people unknown"},
		{URGENCY_ROUTINE, false, 0, -1, 0, 30,
		 "people unknown in_time"},
		{URGENCY_ROUTINE, false, 0, -1, 0, 1, "people unknown in_time"},
		/* not referred: only the fixed rule makes a reply count */
		{URGENCY_NO_REFERRAL, true, 's', 0, 0, 60,
		 "people attended suspect"},
		{URGENCY_NO_REFERRAL, false, 's', 0, 0, 60, "people unknown"},
		{URGENCY_NO_REFERRAL, true, 0, -1, 0, 60, "people unknown"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct yield_counts counts;
		struct yieldcase one;
		char text[TEXT_SIZE];
		struct fault why;

		case_begin(&one, 1);
		one.visit.urgency = rows[i].urgency;
		if (rows[i].urgency == URGENCY_NO_REFERRAL)
			one.visit.see_by = day_none();
		one.person.chosen = rows[i].chosen;
		one.person.today =
			day_plus_days(one.visit.screened_on, rows[i].days);
		if (rows[i].found != 0)
			case_came(&one, 12, rows[i].found);
		else if (rows[i].outcome >= 0)
			case_absent(&one, (enum reply_outcome)rows[i].outcome,
				    rows[i].why_not);
		cr_assert(yield_count(&one.person, &counts, &why),
			  "row %zu: %s", i, why.sentence);
		name_counts(&counts, text);
		cr_expect_str_eq(text, rows[i].counts, "row %zu: %s", i, text);
		cr_expect(yield_counts_agree(&counts, &why), "row %zu: %s", i,
			  why.sentence);
	}
}

/* Somebody with one eye is classed by that eye. */
Test(yield, an_eye_that_is_not_there_leaves_the_class_to_the_other)
{
	static const char found[] = "oscg";
	struct yieldcase one;
	struct yield_counts counts;
	struct fault why;

	for (int i = 0; found[i] != '\0'; i++)
		for (int eye = 0; eye < EYE_COUNT; eye++) {
			struct reply nothing;

			case_begin(&one, 1);
			case_came(&one, 12, found[i]);
			reply_init(&nothing);
			memcpy(one.reply.deepest[eye], nothing.deepest[eye],
			       sizeof nothing.deepest[eye]);
			one.reply.pressure[eye] = FIELD_BLANK;
			cr_assert(yield_count(&one.person, &counts, &why));
			/* the unknown eye may be as bad as a closure */
			cr_expect_eq((&counts.open)[i], i >= 2);
			if (eye == EYE_RIGHT)
				one.visit.depth_right = DEPTH_NO_EYE;
			else
				one.visit.depth_left = DEPTH_NO_EYE;
			cr_assert(yield_count(&one.person, &counts, &why));
			cr_expect_eq((&counts.open)[i], 1, "%c, eye %d",
				     found[i], eye);
		}
}

static void
hear_one(void *context, const struct fault *one)
{
	text_copy(context, TEXT_SIZE, one->sentence);
}

Test(yield, a_reply_with_an_impossible_day_is_named_and_not_counted)
{
	static const struct {
		int day;
		const char *told;
	} rows[] = {
		{-1, "0014-00007-14: seen_on: 2026-02-28 is before the day of "
		     "screening, 2026-03-01"},
		{61, "0014-00007-14: seen_on: 2026-05-01 is after today, "
		     "2026-04-30"},
		{0, ""},
		{60, ""},
	};
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct yield *yield = new_yield();
		char told[TEXT_SIZE] = "", number[REFNUM_SIZE];
		bool is_odd = rows[i].told[0] != '\0';
		struct yieldcase one;

		case_begin(&one, 7);
		refnum_write(one.visit.number, number);
		case_came(&one, rows[i].day, 's');
		cr_assert(yield_add(yield, &one.person, hear_one, told, &why));
		cr_expect_str_eq(told + (is_odd ? REFNUM_SIZE - 1 : 0),
				 rows[i].told + (is_odd ? REFNUM_SIZE - 1 : 0),
				 "row %zu: %s", i, told);
		cr_expect(!is_odd ||
			  strncmp(told, number, REFNUM_SIZE - 1) == 0);
		cr_expect_eq(yield->misdated, is_odd, "row %zu", i);
		cr_expect_eq(yield->cell[0].counts.attended, !is_odd);
		cr_expect_eq(yield->cell[0].counts.unknown, is_odd);
		free(yield);
	}
}

Test(yield, groups_are_sorted_and_add_up)
{
	static const struct {
		const char *rules, *site, *grader;
		enum depth right, left;
	} rows[] = {
		{"shallow", "Mavi school", "NT", DEPTH_100, DEPTH_25},
		{"very-shallow;shallow", "Ombu hall", "AB", DEPTH_5, DEPTH_15},
		{"could-not-be-graded", "Mavi school", "NT", DEPTH_NOT_GRADABLE,
		 DEPTH_NO_EYE},
		{"shallow", "Ombu hall", "AB", DEPTH_0, DEPTH_NOT_GRADABLE},
	};
	static const char expected[] = "all : 4|rule could-not-be-graded: "
				       "1|rule shallow: 2|rule "
				       "very-shallow: 1|grade 0: 1|grade 5: "
				       "1|grade 25: 1|grade x: 1|"
				       "site Mavi school: 2|site Ombu hall: "
				       "2|grader AB: 2|grader "
				       "NT: 2|";
	struct yield *yield = new_yield();
	char text[2 * TEXT_SIZE] = "";
	struct yieldcase one;

	for (size_t i = 0; i < COUNT(rows); i++) {
		case_begin(&one, (int)i + 1);
		text_copy(one.visit.rules, sizeof one.visit.rules,
			  rows[i].rules);
		text_copy(one.visit.site, sizeof one.visit.site, rows[i].site);
		text_copy(one.visit.grader, sizeof one.visit.grader,
			  rows[i].grader);
		one.visit.depth_right = rows[i].right;
		one.visit.depth_left = rows[i].left;
		case_add(yield, &one);
	}
	for (int i = 0; i < yield->count; i++) {
		size_t used = strlen(text);

		snprintf(text + used, sizeof text - used, "%s %s: %d|",
			 yield_per_word(yield->cell[i].per),
			 yield->cell[i].label, yield->cell[i].counts.people);
	}
	cr_expect_str_eq(text, expected, "%s", text);
	free(yield);
}

/* A year of camps has more sites than a page has rows: nobody is left out, and
 * the other tables do not suffer. */
Test(yield, what_has_no_row_of_its_own_is_counted_with_the_others)
{
	enum { SITES = YIELD_LABELS_MOST + 10, TWICE = 3 };
	struct yield *yield = new_yield();
	int people[YIELD_PERS] = {0}, rows[YIELD_PERS] = {0}, others = 0;
	struct yieldcase one;

	case_begin(&one, 1);
	for (int i = 0; i < SITES * TWICE; i++) {
		snprintf(one.visit.site, sizeof one.visit.site, "site %d",
			 i % SITES);
		snprintf(one.visit.grader, sizeof one.visit.grader, "N%d",
			 i % SITES);
		case_add(yield, &one);
	}
	for (int i = 0; i < yield->count; i++) {
		const struct yield_cell *cell = &yield->cell[i];

		people[cell->per] += cell->counts.people;
		rows[cell->per]++;
		if (cell->order == YIELD_OTHERS) {
			others++;
			cr_expect_str_eq(cell->label, "(others)");
			cr_expect_eq(cell->counts.people, 10 * TWICE);
			cr_expect(i + 1 == yield->count ||
				  yield->cell[i + 1].per != cell->per);
		}
	}
	cr_expect_eq(others, 2);
	cr_expect_eq(rows[YIELD_PER_SITE], YIELD_LABELS_MOST + 1);
	cr_expect_eq(rows[YIELD_PER_GRADER], YIELD_LABELS_MOST + 1);
	cr_expect_eq(rows[YIELD_PER_RULE], 1);
	for (int per = YIELD_ALL; per < YIELD_PERS; per++)
		cr_expect_eq(people[per], SITES * TWICE, "%s",
			     yield_per_word((enum yield_per)per));
	free(yield);
}
