/* test_describe.c: a rule in plain words says all of the rule, and no more. */
#include "clinic/describe.h"

#include "sets.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static void
make_rule(const char *keys, struct rule *rule)
{
	rule_init(rule);
	sets_read(rule_fields, rule, keys);
}

Test(describe, conditions_are_told_in_plain_words)
{
	static const struct {
		const char *keys, *words;
	} rows[] = {
		{"depth_at_or_below_percent=25", "depth at or below 25 %"},
		{"depth_at_or_below_percent=0", "depth 0 %"},
		{"depth_below_percent=25", "depth below 25 %"},
		{"depth_at_or_below_percent=40|not_gradable_counts=yes",
		 "depth at or below 40 %, or not gradable"},
		{"depth_below_percent=5|not_gradable_counts=yes", "depth below "
								  "5 %, or not "
								  "gradable"},
		{"depth_below_percent=5|not_gradable_counts=no", "depth below "
								 "5 %"},
		{"not_gradable=yes", "depth not gradable"},
		{"not_gradable=no|all_of=nausea", "nausea"},
		{"unequal_steps_at_or_above=2", "the two eyes 2 or more grades "
						"apart"},
		{"pressure_at_or_above_mmhg=30", "pressure 30 mmHg or more"},
		{"pressure_above_mmhg=21", "pressure above 21 mmHg"},
		{"age_at_or_above_years=60", "age 60 or more, or not known"},
		{"age_below_years=40", "age below 40, or not known"},
		{"all_of=red_eye, eye_pain", "all of: eye pain, red eye"},
		{"any_of=hazy_cornea, fixed_pupil", "any of: hazy cornea, "
						    "fixed pupil"},
		{"any_of=hazy_cornea", "hazy cornea"},
		{"two_of=eye_pain, nausea, haloes", "at least two of: eye "
						    "pain, nausea, haloes"},
		{"all_of=injury|none_of=iridotomy", "injury; but not with: "
						    "iridotomy"},
		{"all_of=injury|none_of=iridotomy, artificial_lens", "injury; "
								     "but not "
								     "with any "
								     "of: "
								     "artificia"
								     "l lens, "
								     "iridotom"
								     "y"},
		{"other_eye_any_of=past_attack", "in the other eye: past "
						 "attack"},
		{"other_eye_any_of=past_attack, injury", "in the other eye any "
							 "of: injury, past "
							 "attack"},
		{"all_of=injury|other_eye_none_of=artificial_lens", "injury; "
								    "but not "
								    "when the "
								    "other eye "
								    "has: "
								    "artificial"
								    " lens"},
		{"depth_at_or_below_percent=25|pressure_above_mmhg=21|"
		 "age_below_years=40|all_of=only_seeing_eye|none_of=iridotomy",
		 "only seeing eye; depth at or below 25 %; pressure above 21 "
		 "mmHg; age below 40, or not known; but not with: iridotomy"},
	};
	char words[DESCRIBE_SIZE];
	struct rule rule;

	for (size_t i = 0; i < COUNT(rows); i++) {
		make_rule(rows[i].keys, &rule);
		describe_conditions(&rule, words, sizeof words);
		cr_expect_str_eq(words, rows[i].words, "row %zu: %s", i, words);
	}
}

/* Keys that are no condition, and the one that only adds to another. */
static bool
stands_alone(const char *key)
{
	return strcmp(key, "say") != 0 && strcmp(key, "advise") != 0 &&
	       strcmp(key, "refer_within_days") != 0 &&
	       strcmp(key, "rescreen_within_months") != 0 &&
	       strcmp(key, "not_gradable_counts") != 0;
}

/* Two values that every key of its kind takes. */
static const char *
value_for(const struct field *field, int which)
{
	static const char *const pair[][2] = {{"5", "15"},
					      {"yes", "no"},
					      {"injury", "injury, red_eye"},
					      {"2", "3"}};
	int row = field->kind == &field_choice	      ? 1
		  : field->kind == &field_finding_set ? 2
		  : field->kind == &field_count	      ? 3
						      : 0;

	return pair[row][which];
}

Test(describe, no_condition_is_left_out_and_no_value_is_lost)
{
	char one[DESCRIBE_SIZE], other[DESCRIBE_SIZE];
	struct rule rule;
	struct fault why;

	for (size_t i = 0; i < rule_fields.count; i++) {
		const struct field *field = &rule_fields.field[i];

		if (!stands_alone(field->name))
			continue;
		rule_init(&rule);
		cr_assert(field_read(field, value_for(field, 0), &rule, &why),
			  "%s: %s", field->name, why.sentence);
		describe_conditions(&rule, one, sizeof one);
		cr_assert(field_read(field, value_for(field, 1), &rule, &why),
			  "%s: %s", field->name, why.sentence);
		describe_conditions(&rule, other, sizeof other);
		cr_expect_gt(strlen(one), 4U, "%s", field->name);
		cr_expect_str_neq(one, other, "%s", field->name);
	}
}

Test(describe, the_longest_rule_is_not_cut)
{
	static const char end[] = "only seeing eye";
	finding_set all = (finding_bit(FINDING_COUNT - 1) << 1) - 1;
	char words[DESCRIBE_SIZE];
	struct rule rule;

	make_rule("depth_at_or_below_percent=100|depth_below_percent=100|"
		  "not_gradable_counts=yes|not_gradable=yes|"
		  "unequal_steps_at_or_above=6|pressure_at_or_above_mmhg=99|"
		  "pressure_above_mmhg=98|age_at_or_above_years=120|"
		  "age_below_years=120",
		  &rule);
	rule.all_of = rule.any_of = rule.two_of = rule.none_of = all;
	rule.other_eye_any_of = rule.other_eye_none_of = all;
	describe_conditions(&rule, words, sizeof words);
	cr_expect_str_eq(words + strlen(words) - strlen(end), end);
	cr_expect_lt(strlen(words) + 100, (size_t)DESCRIBE_SIZE);
}

struct seen {
	int count;
	char told[200];
};

static void
see(void *context, const struct rule *rule, bool first)
{
	struct seen *seen = context;
	size_t used = strlen(seen->told);
	char outcome[DESCRIBE_SIZE];

	describe_outcome(rule, outcome, sizeof outcome);
	snprintf(seen->told + used, sizeof seen->told - used, "%s%s%s.",
		 first ? "|" : "", first ? outcome : "", rule->name);
	seen->count++;
}

Test(describe, rules_come_by_urgency_and_else_in_the_order_of_the_file)
{
	static const char *const keys[] = {
		"rescreen_within_months=12", "refer_within_days=30",
		"refer_within_days=0",	     "rescreen_within_months=1",
		"refer_within_days=1",	     "refer_within_days=30",
		"refer_within_days=0"};
	struct policy policy;
	struct seen seen = {0, ""};

	policy_init(&policy);
	describe_by_urgency(&policy, see, &seen);
	cr_expect_eq(seen.count, 0);
	for (size_t i = 0; i < COUNT(keys); i++) {
		make_rule(keys[i], &policy.rule[i]);
		snprintf(policy.rule[i].name, RULE_NAME_SIZE, "r%zu", i);
		policy.rule_count++;
	}
	describe_by_urgency(&policy, see, &seen);
	cr_expect_str_eq(seen.told, "|todayr2.r6.|within 1 dayr4.|within 30 "
				    "daysr1.r5.|screen again within 1 "
				    "monthr3.|screen again within 12 "
				    "monthsr0.");
}
