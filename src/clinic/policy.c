/* policy.c: the referral rules that a supervisor may change. */
#include "clinic/policy.h"

#include "base/mark.h"
#include "base/text.h"

#include <stddef.h>
#include <string.h>

#define KEY(record, name, kind, least, most, need, words, about)           \
	{                                                                  \
#name, &field_##kind, FIELD_AT(record, name), least, most, \
			need, FIELD_TYPED, words, about                    \
	}

/* The same of the rule in a draft. */
#define RULE(name, kind, least, most, need, words, about)                     \
	{                                                                     \
#name, &field_##kind, FIELD_AT(rule_draft, rule.name), least, \
			most, need, FIELD_TYPED, words, about                 \
	}

/* clang-format off */
static const struct field policy_keys[] = {
KEY(policy, name, text, 1, 80, FIELD_NEEDED, "", "the policy's name"),
KEY(policy, version, text, 1, 80, FIELD_NEEDED, "", "its version"),
KEY(policy, approved_by, text, 0, 80, FIELD_OPTIONAL, "",
	"the eye doctor who approved it"),
KEY(policy, approved_on, day, 0, 0, FIELD_OPTIONAL, "", "the day of approval"),
KEY(policy, weighs_only_with_others, finding_set, 0, 0, FIELD_OPTIONAL, "",
	"findings that by themselves change nothing"),
};

static const struct field urgency_keys[] = {
KEY(policy, urgent_within_days, count, 1, 90, FIELD_NEEDED, "days",
	"a referral up to so many days is urgent"),
};

static const struct field rescreen_keys[] = {
{"months", &field_count, FIELD_AT(policy, rescreen_months), 1, 120, FIELD_NEEDED,
	FIELD_TYPED, "months", "screen again when no rule holds"},
};

static const struct field tally_keys[] = {
KEY(policy, age_bands, bands, 1, 120, FIELD_NEEDED, "years",
	"ages at which a band of the tally begins"),
};

static const struct field gonioscopy_keys[] = {
KEY(policy, hidden_quadrants, count, 2, 3, FIELD_OPTIONAL, "quadrants",
	"so many hidden quadrants make an angle suspect"),
KEY(policy, pressure_raised_at_or_above_mmhg, count, 1, 99, FIELD_OPTIONAL,
	"mmHg", "pressure raised at or above"),
KEY(policy, cup_abnormal_at_or_above_percent, count, 1, 100, FIELD_OPTIONAL,
	"%", "cup abnormal at or above"),
};

static const struct field verify_keys[] = {
{"every", &field_count, FIELD_AT(policy, verify_every), 1, 1000, FIELD_OPTIONAL,
	FIELD_TYPED, "", "of those not referred, every so many-th is checked"},
};

static const struct field rule_keys[] = {
RULE(depth_at_or_below_percent, cutoff, 0, 100, FIELD_OPTIONAL, "%",
	"depth at or below"),
RULE(depth_below_percent, cutoff, 5, 100, FIELD_OPTIONAL, "%",
	"depth below"),
RULE(not_gradable_counts, choice, 0, 0, FIELD_OPTIONAL, "yes|no",
	"an eye that could not be graded counts as shallow"),
RULE(not_gradable, choice, 0, 0, FIELD_OPTIONAL, "yes|no",
	"could not be graded"),
RULE(unequal_steps_at_or_above, count, 1, 6, FIELD_OPTIONAL, "steps",
	"eyes so many steps apart"),
RULE(pressure_at_or_above_mmhg, count, 1, 99, FIELD_OPTIONAL, "mmHg",
	"pressure at or above"),
RULE(pressure_above_mmhg, count, 1, 98, FIELD_OPTIONAL, "mmHg",
	"pressure above"),
RULE(age_at_or_above_years, count, 1, 120, FIELD_OPTIONAL, "years",
	"age at or above"),
RULE(age_below_years, count, 1, 120, FIELD_OPTIONAL, "years",
	"age below"),
RULE(all_of, finding_set, 0, 0, FIELD_OPTIONAL, "", "every one of"),
RULE(any_of, finding_set, 0, 0, FIELD_OPTIONAL, "",
	"at least one of"),
RULE(two_of, finding_set, 0, 0, FIELD_OPTIONAL, "",
	"at least two of"),
RULE(none_of, finding_set, 0, 0, FIELD_OPTIONAL, "", "none of"),
RULE(other_eye_any_of, finding_set, 0, 0, FIELD_OPTIONAL, "",
	"in the other eye at least one of"),
RULE(other_eye_none_of, finding_set, 0, 0, FIELD_OPTIONAL, "",
	"in the other eye none of"),
RULE(refer_within_days, count, 0, 365, FIELD_OPTIONAL, "days",
	"refer within"),
RULE(rescreen_within_months, count, 1, 120, FIELD_OPTIONAL, "months",
	"screen again within"),
KEY(rule_draft, say, text, 1, 160, FIELD_NEEDED, "", "the reason in plain words"),
KEY(rule_draft, advise, text, 1, 160, FIELD_OPTIONAL, "",
	"what the nurse should do"),
};

#define TABLE(rows) {rows, sizeof (rows) / sizeof (rows)[0]}

const struct policy_section policy_sections[POLICY_SECTIONS] = {
	{"policy", TABLE(policy_keys)},
	{"urgency", TABLE(urgency_keys)},
	{"rescreen", TABLE(rescreen_keys)},
	{"tally", TABLE(tally_keys)},
	{"gonioscopy", TABLE(gonioscopy_keys)},
	{"verify", TABLE(verify_keys)},
};

const struct fields rule_fields = TABLE(rule_keys);
/* clang-format on */

static bool
is_of_words(const struct field *field)
{
	return field->offset >= sizeof(struct rule);
}

/* The fields of a rule without its words lie in the rule. */
void
rule_init(struct rule *rule)
{
	memset(rule->name, 0, sizeof rule->name);
	for (size_t i = 0; i < rule_fields.count; i++)
		if (!is_of_words(&rule_fields.field[i]))
			field_blank(&rule_fields.field[i], rule);
	rule->say = rule->advise = 0;
}

void
rule_draft_init(struct rule_draft *draft)
{
	rule_init(&draft->rule);
	draft->say[0] = draft->advise[0] = '\0';
}

void
policy_init(struct policy *policy)
{
	for (int i = 0; i < POLICY_SECTIONS; i++)
		fields_blank(policy_sections[i].fields, policy);
	policy->rule_count = 0;
	policy->words[0] = '\0';
	policy->words_used = 1;
}

/* Returns where the text begins. */
static int
add_words(struct policy *policy, const char *text)
{
	int at = policy->words_used;

	if (text[0] == '\0')
		return 0;
	text_copy(policy->words + at, sizeof policy->words - (size_t)at, text);
	policy->words_used += (int)strlen(text) + 1;
	return at;
}

void
policy_add(struct policy *policy, const struct rule_draft *draft)
{
	struct rule *rule = &policy->rule[policy->rule_count++];

	*rule = draft->rule;
	rule->say = add_words(policy, draft->say);
	rule->advise = add_words(policy, draft->advise);
}

const char *
policy_say(const struct policy *policy, const struct rule *rule)
{
	return policy->words + rule->say;
}

const char *
policy_advise(const struct policy *policy, const struct rule *rule)
{
	return policy->words + rule->advise;
}

void
policy_draft(const struct policy *policy, const struct rule *rule,
	     struct rule_draft *draft)
{
	draft->rule = *rule;
	text_copy(draft->say, sizeof draft->say, policy_say(policy, rule));
	text_copy(draft->advise, sizeof draft->advise,
		  policy_advise(policy, rule));
}

bool
rule_name_is_sound(const char *name)
{
	size_t length = strlen(name);

	return length > 0 && length < RULE_NAME_SIZE && name[0] >= 'a' &&
	       name[0] <= 'z' &&
	       strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == length;
}

/* A section without a key leaves no mark, so that a new one changes no old
 * fingerprint. */
static void
mark_fields(struct mark *mark, const char *section, struct fields fields,
	    const void *record)
{
	char value[FIELD_TEXT_SIZE];
	bool named = false;

	for (size_t i = 0; i < fields.count; i++) {
		if (field_is_blank(&fields.field[i], record))
			continue;
		if (!named)
			mark_add(mark, section);
		named = true;
		field_write(&fields.field[i], record, value, sizeof value);
		mark_add(mark, fields.field[i].name);
		mark_add(mark, value);
	}
}

void
policy_fingerprint(const struct policy *policy, char *text)
{
	struct rule_draft draft;
	struct mark mark;

	mark_init(&mark);
	for (int i = 0; i < POLICY_SECTIONS; i++)
		mark_fields(&mark, policy_sections[i].name,
			    policy_sections[i].fields, policy);
	for (int i = 0; i < policy->rule_count; i++) {
		policy_draft(policy, &policy->rule[i], &draft);
		mark_fields(&mark, draft.rule.name, rule_fields, &draft);
	}
	mark_write(&mark, MARK_POLICY_LETTERS, text);
}

bool
policy_is_approved(const struct policy *policy)
{
	return policy->approved_by[0] != '\0';
}

const struct rule *
policy_rule(const struct policy *policy, const char *name)
{
	for (int i = 0; i < policy->rule_count; i++)
		if (strcmp(policy->rule[i].name, name) == 0)
			return &policy->rule[i];
	return NULL;
}

bool
policy_verifies(const struct policy *policy, const struct visit *visit)
{
	return policy->verify_every != FIELD_BLANK &&
	       visit->urgency == URGENCY_NO_REFERRAL &&
	       visit->state != STATE_VOID && visit->number.serial > 0 &&
	       visit->number.serial % policy->verify_every == 0;
}
