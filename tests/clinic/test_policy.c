/* test_policy.c: rules that contradict themselves are told, and every policy
 * has a fingerprint of its own. */
#include "clinic/policy.h"

#include "clinic/policycheck.h"
#include "clinic/visit.h"
#include "sets.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

static void
make_draft(struct rule_draft *draft, const char *name, const char *sets)
{
	rule_draft_init(draft);
	snprintf(draft->rule.name, sizeof draft->rule.name, "%s", name);
	sets_read(rule_fields, draft, sets);
}

static void
add_rule(struct policy *policy, const char *name, const char *sets)
{
	struct rule_draft draft;

	make_draft(&draft, name, sets);
	policy_add(policy, &draft);
}

/* Sentences heard, one a line. */
struct heard {
	int count;
	char lines[4000];
};

static void
hear(void *context, const struct fault *one)
{
	struct heard *heard = context;
	size_t used = strlen(heard->lines);

	snprintf(heard->lines + used, sizeof heard->lines - used, "%s\n",
		 one->sentence);
	heard->count += one->kind == FAULT_POLICY;
}

static void
expect_keys(const char *section, struct fields fields, size_t record_size,
	    const char *expected)
{
	char names[1000] = "";
	size_t used = 0;

	for (size_t i = 0; i < fields.count; i++) {
		const struct field *one = &fields.field[i];

		used += (size_t)snprintf(names + used, sizeof names - used,
					 "%s%s", i > 0 ? " " : "", one->name);
		cr_expect_leq(one->offset + one->size, record_size, "%s: %s",
			      section, one->name);
		for (size_t j = 0; j < i; j++) {
			const struct field *other = &fields.field[j];

			cr_expect(one->offset >= other->offset + other->size ||
					  other->offset >=
						  one->offset + one->size,
				  "%s: %s and %s overlap", section, one->name,
				  other->name);
		}
	}
	cr_expect_str_eq(names, expected, "%s: %s", section, names);
}

Test(policy, sections_have_the_keys_that_the_file_has)
{
	static const struct {
		const char *name, *keys;
	} rows[POLICY_SECTIONS] = {
		{"policy", "name version approved_by approved_on "
			   "weighs_only_with_others"},
		{"urgency", "urgent_within_days"},
		{"rescreen", "months"},
		{"tally", "age_bands"},
		{"gonioscopy", "hidden_quadrants "
			       "pressure_raised_at_or_above_mmhg "
			       "cup_abnormal_at_or_above_percent"},
		{"verify", "every"},
	};

	for (int i = 0; i < POLICY_SECTIONS; i++) {
		cr_expect_str_eq(policy_sections[i].name, rows[i].name);
		expect_keys(rows[i].name, policy_sections[i].fields,
			    sizeof(struct policy), rows[i].keys);
	}
	expect_keys("rule", rule_fields, sizeof(struct rule_draft),
		    "depth_at_or_below_percent depth_below_percent "
		    "not_gradable_counts not_gradable "
		    "unequal_steps_at_or_above pressure_at_or_above_mmhg "
		    "pressure_above_mmhg age_at_or_above_years "
		    "age_below_years all_of any_of two_of none_of "
		    "other_eye_any_of other_eye_none_of refer_within_days "
		    "rescreen_within_months say advise");
}

/* clang-format off */
/* Values that every key takes, the first two of them different, and refused
 * ones with what is said. */
static const struct {
	const char *key, *taken[2], *refused, *sentence;
} keys[] = {
	{"depth_at_or_below_percent", {"0", "100"}, "30",
		"'30' is not a cut-off; allowed are 0 5 15 25 40 75 100 (per "
		"cent), digits only"},
	{"depth_below_percent", {"5", "100"}, "0",
		"'0' is not a cut-off; allowed are 5 15 25 40 75 100 (per "
		"cent), digits only"},
	{"not_gradable_counts", {"no", "yes"}, "maybe",
		"'maybe' is not one of: yes, no"},
	{"not_gradable", {"no", "yes"}, "1", "'1' is not one of: yes, no"},
	{"unequal_steps_at_or_above", {"1", "6"}, "7",
		"7 is out of range; allowed are 1 to 6 steps"},
	{"pressure_at_or_above_mmhg", {"1", "99"}, "21.5",
		"'21.5' is not a plain whole number; allowed are 1 to 99 "
		"mmHg"},
	{"pressure_above_mmhg", {"1", "98"}, "99",
		"99 is out of range; allowed are 1 to 98 mmHg"},
	{"age_at_or_above_years", {"1", "120"}, "0",
		"0 is out of range; allowed are 1 to 120 years"},
	{"age_below_years", {"1", "120"}, "121",
		"121 is out of range; allowed are 1 to 120 years"},
	{"all_of", {"eye_pain", "eye_pain,red_eye"}, "pain",
		"'pain' is not a finding; 'shoal help findings' lists them "
		"all"},
	{"any_of", {"eye_pain", "only_seeing_eye"}, "eye_pain,",
		"the list ends with a comma"},
	{"two_of", {"nausea,haloes", "eye_pain,haloes"}, "haloes,haloes",
		"'haloes' stands twice in the list"},
	{"none_of", {"iridotomy", "artificial_lens"}, "iridotmy",
		"'iridotmy' is not a finding; did you mean 'iridotomy'?"},
	{"other_eye_any_of", {"past_attack", "injury"}, ",",
		"an item of the list is empty; write codes with one separator "
		"between them"},
	{"other_eye_none_of", {"past_attack", "injury"}, "left:injury",
		"'left:injury' names a side; a rule is tried on each eye by "
		"itself, so write injury"},
	{"refer_within_days", {"0", "365"}, "366",
		"366 is out of range; allowed are 0 to 365 days"},
	{"rescreen_within_months", {"1", "120"}, "0",
		"0 is out of range; allowed are 1 to 120 months"},
	{"say", {"a", "b"}, "", "it is empty; a value is needed"},
	{"advise", {"a", "b"}, "=a", "it may not begin with = + - or @, which "
		"a spreadsheet takes for a formula"},
};
/* clang-format on */

/* The fingerprint of a policy that is this rule and nothing else. */
static void
mark_alone(const struct rule_draft *draft, char *mark)
{
	static struct policy policy;

	policy_init(&policy);
	policy_add(&policy, draft);
	policy_fingerprint(&policy, mark);
}

Test(policy, every_key_of_a_rule_is_read_written_and_marked)
{
	char text[FIELD_TEXT_SIZE], expected[FAULT_SENTENCE_SIZE];
	char marks[3][POLICY_MARK_SIZE];

	cr_assert_eq(sizeof keys / sizeof keys[0], rule_fields.count);
	for (size_t i = 0; i < rule_fields.count; i++) {
		const struct field *field = &rule_fields.field[i];
		struct rule_draft draft;
		struct fault why = {0};

		make_draft(&draft, "trial", "");
		cr_assert_str_eq(field->name, keys[i].key);
		cr_expect(field_is_blank(field, &draft), "%s", keys[i].key);
		mark_alone(&draft, marks[2]);
		for (int v = 0; v < 2; v++) {
			cr_expect(field_read(field, keys[i].taken[v], &draft,
					     &why),
				  "%s: %s", keys[i].key, why.sentence);
			field_write(field, &draft, text, sizeof text);
			cr_expect_str_eq(text, keys[i].taken[v], "%s",
					 keys[i].key);
			mark_alone(&draft, marks[v]);
		}
		cr_expect(strcmp(marks[0], marks[1]) != 0 &&
				  strcmp(marks[1], marks[2]) != 0 &&
				  strcmp(marks[0], marks[2]) != 0,
			  "%s changes the fingerprint", keys[i].key);
		cr_expect(!field_read(field, keys[i].refused, &draft, &why),
			  "%s", keys[i].key);
		snprintf(expected, sizeof expected, "%s: %s", keys[i].key,
			 keys[i].sentence);
		cr_expect_str_eq(why.sentence, expected);
	}
}

#define REFER "|refer_within_days=7|say=a"

/* clang-format off */
static const struct {
	const char *sets, *lines;
} rules[] = {
	/* sound */
	{"all_of=eye_pain" REFER, ""},
	{"depth_at_or_below_percent=25|not_gradable_counts=yes" REFER, ""},
	{"depth_below_percent=25|not_gradable_counts=no" REFER, ""},
	{"not_gradable=yes|none_of=artificial_lens" REFER, ""},
	{"not_gradable=yes|depth_below_percent=25|not_gradable_counts=yes"
		REFER, ""},
	{"unequal_steps_at_or_above=2" REFER, ""},
	{"pressure_at_or_above_mmhg=24" REFER, ""},
	{"pressure_above_mmhg=21" REFER, ""},
	{"age_at_or_above_years=40|age_below_years=41" REFER, ""},
	{"any_of=eye_pain,iridotomy|none_of=iridotomy" REFER, ""},
	{"two_of=eye_pain,nausea,haloes|none_of=haloes" REFER, ""},
	{"other_eye_any_of=past_attack|none_of=past_attack" REFER, ""},
	{"all_of=eye_pain|rescreen_within_months=12|say=a", ""},
	/* outcomes and conditions */
	{"all_of=eye_pain|say=a",
		"it has no outcome; give refer_within_days (0 to 365 days) or "
		"rescreen_within_months (1 to 120 months)\n"},
	{"all_of=eye_pain|rescreen_within_months=12" REFER,
		"it has two outcomes; keep one of refer_within_days and "
		"rescreen_within_months\n"},
	{"refer_within_days=0|say=a",
		"it has no condition, so it would hold for everybody\n"},
	{"not_gradable=no" REFER,
		"it has no condition, so it would hold for everybody\n"},
	{"none_of=iridotomy|other_eye_none_of=iridotomy" REFER,
		"it has no condition, so it would hold for everybody\n"},
	/* limits */
	{"depth_at_or_below_percent=25|depth_below_percent=25" REFER,
		"it has two depth limits; keep one of "
		"depth_at_or_below_percent and depth_below_percent\n"},
	{"pressure_at_or_above_mmhg=24|pressure_above_mmhg=21" REFER,
		"it has two pressure limits; keep one of "
		"pressure_at_or_above_mmhg and pressure_above_mmhg\n"},
	{"age_at_or_above_years=40|age_below_years=40" REFER,
		"no known age can be at or above age_at_or_above_years and "
		"below age_below_years\n"},
	{"all_of=eye_pain|not_gradable_counts=yes" REFER,
		"not_gradable_counts needs a depth limit beside it\n"},
	{"not_gradable=yes|depth_at_or_below_percent=25" REFER,
		"an eye cannot be graded at a depth and not gradable; take out "
		"one of the two, or add not_gradable_counts = yes\n"},
	{"not_gradable=yes|unequal_steps_at_or_above=2" REFER,
		"an eye that could not be graded is never steps apart from the "
		"other; take out one of the two\n"},
	/* sets */
	{"all_of=eye_pain,iridotomy|none_of=iridotomy" REFER,
		"'iridotomy' stands in all_of and in none_of\n"},
	{"any_of=iridotomy|none_of=iridotomy,artificial_lens" REFER,
		"none_of switches off everything in any_of\n"},
	{"two_of=eye_pain" REFER,
		"two_of needs at least two findings that none_of does not "
		"switch off\n"},
	{"two_of=eye_pain,nausea|none_of=nausea" REFER,
		"two_of needs at least two findings that none_of does not "
		"switch off\n"},
	{"other_eye_any_of=injury|other_eye_none_of=injury" REFER,
		"other_eye_none_of switches off everything in "
		"other_eye_any_of\n"},
	/* several at once */
	{"say=a",
		"it has no outcome; give refer_within_days (0 to 365 days) or "
		"rescreen_within_months (1 to 120 months)\n"
		"it has no condition, so it would hold for everybody\n"},
};
/* clang-format on */

Test(policy, rules_that_contradict_themselves_are_told)
{
	for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
		struct heard heard = {0, ""};
		struct rule_draft draft;
		int lines = 0;

		make_draft(&draft, "trial", rules[i].sets);
		for (const char *at = rules[i].lines; *at != '\0'; at++)
			lines += *at == '\n';
		cr_expect_eq(rule_check(&draft.rule, hear, &heard), lines,
			     "row %zu", i);
		cr_expect_eq(heard.count, lines, "row %zu", i);
		cr_expect_str_eq(heard.lines, rules[i].lines, "row %zu: %s", i,
				 heard.lines);
	}
}

Test(policy, approval_has_a_name_and_a_day_or_neither)
{
	static const struct {
		const char *sets;
		int rule_count;
		bool approved;
		const char *lines;
	} rows[] = {
		{"name=a|version=1", 1, false, ""},
		{"approved_by=Dr A. Example|approved_on=2026-11-25", 1, true,
		 ""},
		{"name=a", 0, false,
		 "it has no rule; at least one section [rule NAME] is "
		 "needed\n"},
		{"approved_on=2026-11-25", 1, false,
		 "approved_on is given without approved_by; name the eye "
		 "doctor, or leave both empty\n"},
		{"approved_by=Dr A. Example", 1, true,
		 "approved_by is given without approved_on; give the day as "
		 "YYYY-MM-DD\n"},
	};
	static struct policy policy;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct heard heard = {0, ""};

		policy_init(&policy);
		policy.rule_count = rows[i].rule_count;
		sets_read(policy_sections[0].fields, &policy, rows[i].sets);
		policy_check(&policy, hear, &heard);
		cr_expect_str_eq(heard.lines, rows[i].lines, "row %zu: %s", i,
				 heard.lines);
		cr_expect_eq(policy_is_approved(&policy), rows[i].approved,
			     "row %zu", i);
	}
}

Test(policy, names_of_rules_are_small_letters_digits_and_hyphens)
{
	static const struct {
		const char *name;
		bool sound;
	} rows[] = {
		{"a", true},
		{"shallow", true},
		{"high-pressure-35", true},
		{"a2345678901234567890123456789012345678-0", true},
		{"a2345678901234567890123456789012345678901", false},
		{"", false},
		{"-shallow", false},
		{"35-high", false},
		{"Shallow", false},
		{"shalloW", false},
		{"very_shallow", false},
		{"very shallow", false},
		{"shallow;deep", false},
		{"shallow\n", false},
		{"\xc3\xa9tude", false},
		{"=a", false},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		cr_expect_eq(rule_name_is_sound(rows[i].name), rows[i].sound,
			     "row %zu: %s", i, rows[i].name);
}

/* A policy of two rules; `dirt` fills what its fields do not. */
static void
make_policy(struct policy *policy, int dirt)
{
	memset(policy, dirt, sizeof *policy);
	policy_init(policy);
	for (int i = 0; i < POLICY_SECTIONS; i++)
		sets_read(policy_sections[i].fields, policy,
			  (const char *const[]){"name=Trial|version=1",
						"urgent_within_days=14",
						"months=24", "age_bands=40,60",
						"", ""}[i]);
	add_rule(policy, "shallow",
		 "depth_at_or_below_percent=25|refer_within_days=30|say=a");
	add_rule(policy, "pain", "all_of=eye_pain|refer_within_days=14|say=b");
}

static void
change_last(struct policy *policy, const char *sets)
{
	struct rule_draft draft;

	policy_draft(policy, &policy->rule[policy->rule_count - 1], &draft);
	sets_read(rule_fields, &draft, sets);
	policy->rule_count--;
	policy_add(policy, &draft);
}

Test(policy, one_policy_has_one_fingerprint_and_others_have_others)
{
	static struct policy policy, other;
	/* Each of them changes the meaning. */
	static const struct {
		int section; /* of the policy; -1 = of its second rule */
		const char *sets;
	} rows[] = {
		{0, "name=Trials"},
		{0, "version=2"},
		{0, "approved_by=Dr A. Example"},
		{0, "approved_on=2026-11-25"},
		{1, "urgent_within_days=13"},
		{2, "months=12"},
		{3, "age_bands=40,61"},
		{3, "age_bands=40"},
		{4, "hidden_quadrants=2"},
		{4, "hidden_quadrants=3"},
		{5, "every=10"},
		{-1, "all_of=eye_pain,nausea"},
		{-1, "all_of=|any_of=eye_pain"},
		{-1, "refer_within_days=0"},
		{-1, "say=c"},
		{-1, "advise=c"},
		{-1, "not_gradable=no"},
	};
	char first[POLICY_MARK_SIZE], mark[POLICY_MARK_SIZE];
	struct rule swap;

	make_policy(&policy, 0);
	policy_fingerprint(&policy, first);
	cr_expect_eq(strlen(first), 6);
	cr_expect_eq(strspn(first, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"), 6);
	make_policy(&other, 0x5a);
	policy_fingerprint(&other, mark);
	cr_expect_str_eq(mark, first, "what is not used does not count");
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		make_policy(&other, 0);
		if (rows[i].section >= 0)
			sets_read(policy_sections[rows[i].section].fields,
				  &other, rows[i].sets);
		else
			change_last(&other, rows[i].sets);
		policy_fingerprint(&other, mark);
		cr_expect_str_neq(mark, first, "row %zu", i);
	}
	make_policy(&other, 0);
	other.rule_count = 1;
	policy_fingerprint(&other, mark);
	cr_expect_str_neq(mark, first, "a rule less");
	make_policy(&other, 0);
	swap = other.rule[0];
	other.rule[0] = other.rule[1];
	other.rule[1] = swap;
	policy_fingerprint(&other, mark);
	cr_expect_str_neq(mark, first, "rules in another order");
	make_policy(&other, 0);
	other.rule[1].name[0] = 'r';
	policy_fingerprint(&other, mark);
	cr_expect_str_neq(mark, first, "another name");
}

Test(policy, sections_that_are_not_there_leave_no_mark)
{
	static struct policy policy;
	char with[POLICY_MARK_SIZE], without[POLICY_MARK_SIZE];

	make_policy(&policy, 0);
	policy_fingerprint(&policy, without);
	policy.verify_every = 20;
	policy_fingerprint(&policy, with);
	cr_expect_str_neq(with, without);
	policy.verify_every = FIELD_BLANK;
	policy_fingerprint(&policy, with);
	cr_expect_str_eq(with, without);
}

Test(policy, who_is_asked_for_a_check_is_chosen_by_number_alone)
{
	static const struct {
		int every, serial;
		enum visit_urgency urgency;
		enum visit_state state;
		bool asked;
	} rows[] = {
		{20, 20, URGENCY_NO_REFERRAL, STATE_CURRENT, true},
		{20, 40, URGENCY_NO_REFERRAL, STATE_CORRECTED, true},
		{20, 90020, URGENCY_NO_REFERRAL, STATE_CURRENT, true},
		{20, 21, URGENCY_NO_REFERRAL, STATE_CURRENT, false},
		{20, 10, URGENCY_NO_REFERRAL, STATE_CURRENT, false},
		{20, 20, URGENCY_NO_REFERRAL, STATE_VOID, false},
		{20, 20, URGENCY_ROUTINE, STATE_CURRENT, false},
		{20, 20, URGENCY_SAME_DAY, STATE_CURRENT, false},
		{2, 90001, URGENCY_NO_REFERRAL, STATE_CURRENT, false},
		{2, 90002, URGENCY_NO_REFERRAL, STATE_CURRENT, true},
		/* Not kept yet, so without a number. */
		{2, 0, URGENCY_NO_REFERRAL, STATE_CURRENT, false},
		{1, 3, URGENCY_NO_REFERRAL, STATE_CURRENT, true},
		{FIELD_BLANK, 20, URGENCY_NO_REFERRAL, STATE_CURRENT, false},
	};
	static struct policy policy;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct visit visit;

		policy_init(&policy);
		visit_init(&visit);
		policy.verify_every = rows[i].every;
		visit.number = (struct refnum){14, rows[i].serial};
		visit.urgency = (int)rows[i].urgency;
		visit.state = (int)rows[i].state;
		cr_expect_eq(policy_verifies(&policy, &visit), rows[i].asked,
			     "row %zu", i);
	}
}

Test(policy, rules_are_found_by_name)
{
	static struct policy policy;

	make_policy(&policy, 0);
	cr_expect_eq(policy_rule(&policy, "pain"), &policy.rule[1]);
	cr_expect_null(policy_rule(&policy, "pai"));
	cr_expect_null(policy_rule(&policy, ""));
	policy.rule_count = 1;
	cr_expect_null(policy_rule(&policy, "pain"));
}

/* clang-format off */
static const struct {
	const char *text, *written; /* NULL = refused */
	const char *names, *sentence;
} bands[] = {
	{"40,50,60,70", "40,50,60,70", "0-39 40-49 50-59 60-69 70+", ""},
	{" 40 , 50 ", "40,50", "0-39 40-49 50+", ""},
	{"1", "1", "0-0 1+", ""},
	{"120", "120", "0-119 120+", ""},
	{"10,20,30,40,50,60,70,80", "10,20,30,40,50,60,70,80",
		"0-9 10-19 20-29 30-39 40-49 50-59 60-69 70-79 80+", ""},
	{"10,20,30,40,50,60,70,80,90", NULL, "", "at most 8 ages are allowed"},
	{"0,40", NULL, "", "0 is out of range; allowed are 1 to 120 years"},
	{"50,40", NULL, "", "the ages must rise, but 40 comes after 50"},
	{"40,40", NULL, "", "the ages must rise, but 40 comes after 40"},
	{"40,121", NULL, "", "121 is out of range; allowed are 1 to 120 "
		"years"},
	{"40,", NULL, "", "'' is not a plain whole number; allowed are 1 to "
		"120 years"},
	{",40", NULL, "", "'' is not a plain whole number; allowed are 1 to "
		"120 years"},
	{"40;50", NULL, "", "'40;50' is not a plain whole number; allowed are "
		"1 to 120 years"},
	{"40-49", NULL, "", "'40-49' is not a plain whole number; allowed are "
		"1 to 120 years"},
	/* nothing behind a run of spaces is lost */
	{"40                    7,50", NULL, "", "'40                    7,50' "
		"is not a list of ages; write them as 40,50,60"},
};
/* clang-format on */

Test(policy, age_bands_begin_where_the_list_says)
{
	const struct field *field = &policy_sections[3].fields.field[0];
	static struct policy policy;
	char text[FIELD_TEXT_SIZE], names[200], sentence[FAULT_SENTENCE_SIZE];

	for (size_t i = 0; i < sizeof bands / sizeof bands[0]; i++) {
		struct fault why = {0};
		size_t used = 0;

		policy_init(&policy);
		cr_expect(field_is_blank(field, &policy), "row %zu", i);
		cr_expect_eq(field_read(field, bands[i].text, &policy, &why),
			     bands[i].written != NULL, "row %zu: %s", i,
			     why.sentence);
		if (bands[i].written == NULL) {
			snprintf(sentence, sizeof sentence, "age_bands: %s",
				 bands[i].sentence);
			cr_expect_str_eq(why.sentence, sentence, "row %zu", i);
			cr_expect(field_is_blank(field, &policy), "row %zu", i);
			continue;
		}
		field_write(field, &policy, text, sizeof text);
		cr_expect_str_eq(text, bands[i].written, "row %zu", i);
		for (int b = 0; b <= policy.age_bands.count; b++) {
			age_band_write(&policy.age_bands, b, text, sizeof text);
			used += (size_t)snprintf(names + used,
						 sizeof names - used, "%s%s",
						 b > 0 ? " " : "", text);
		}
		cr_expect_str_eq(names, bands[i].names, "row %zu", i);
	}
}

Test(policy, every_age_falls_into_the_band_that_names_it)
{
	static struct policy policy;
	char text[20];

	policy_init(&policy);
	sets_read(policy_sections[3].fields, &policy, "age_bands=40,50,60,70");
	for (int age = 0; age <= 120; age++) {
		int expected = age < 40	  ? 0
			       : age < 50 ? 1
			       : age < 60 ? 2
			       : age < 70 ? 3
					  : 4;

		cr_expect_eq(age_band_of(&policy.age_bands, age), expected,
			     "%d", age);
	}
	age_band_write(&policy.age_bands, age_band_of(&policy.age_bands, 69),
		       text, sizeof text);
	cr_expect_str_eq(text, "60-69");
}
