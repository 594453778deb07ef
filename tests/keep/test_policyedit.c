/* test_policyedit.c: one value changed, every other byte kept. */
#include "keep/policyedit.h"

#include "base/embedded.h"
#include "base/text.h"
#include "keep/policyfile.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

static void
hear_nothing(void *context, const struct fault *one)
{
	(void)context;
	(void)one;
}

static bool
read_policy(const char *text, size_t length, struct policy *policy)
{
	struct fault why;

	return policyfile_read_bytes("p.ini", text, length, policy,
				     hear_nothing, NULL, &why);
}

/* Another value that the key takes, whatever it has now. */
static void
other_value(const struct field *field, const char *now, char *value,
	    size_t size)
{
	static const char *const grades[] = {"0",  "5",	 "15", "25",
					     "40", "75", "100"};

	snprintf(value, size, "Another text, of 2 words");
	if (field->kind == &field_day)
		snprintf(value, size, "2026-03-09");
	else if (field->kind == &field_count)
		snprintf(value, size, "%ld", strtol(now, NULL, 10) + 1);
	else if (field->kind == &field_bands)
		snprintf(value, size, "35, 45,65");
	else if (field->kind == &field_choice)
		snprintf(value, size, "no");
	else if (field->kind == &field_finding_set)
		snprintf(value, size, "headache, long_sighted");
	else if (field->kind == &field_cutoff)
		for (size_t i = 0; i + 1 < COUNT(grades); i++)
			if (strcmp(grades[i], now) == 0)
				snprintf(value, size, "%s", grades[i + 1]);
}

static const struct field *
field_of(const struct ini_entry *entry)
{
	for (int i = 0; i < POLICY_SECTIONS; i++)
		if (strcmp(policy_sections[i].name, entry->section) == 0)
			return fields_find(policy_sections[i].fields,
					   entry->key);
	return fields_find(rule_fields, entry->key);
}

static void
read_value(const struct ini_entry *entry, const char *value, void *record)
{
	struct fault why = {0};

	cr_assert(field_read(field_of(entry), value, record, &why), "%s: %s",
		  entry->key, why.sentence);
}

/* Writes a value into the policy itself. A rule with its words is put behind
 * the others and from there into its place. */
static void
set_value(struct policy *policy, const struct ini_entry *entry,
	  const char *value)
{
	struct rule_draft draft;

	if (strncmp(entry->section, "rule ", 5) != 0) {
		read_value(entry, value, policy);
		return;
	}
	for (int i = 0; i < policy->rule_count; i++) {
		if (strcmp(policy->rule[i].name, entry->section + 5) != 0)
			continue;
		policy_draft(policy, &policy->rule[i], &draft);
		read_value(entry, value, &draft);
		policy_add(policy, &draft);
		policy->rule[i] = policy->rule[--policy->rule_count];
	}
}

/* Byte for byte, but for one line. */
static void
expect_other_lines(const char *before, const char *after, int changed,
		   const char *key)
{
	for (int line = 1; *before != '\0' || *after != '\0'; line++) {
		size_t one = strcspn(before, "\n"), two = strcspn(after, "\n");

		cr_expect(line == changed || (one == two &&
					      memcmp(before, after, one) == 0),
			  "%s: line %d differs", key, line);
		before += one + (before[one] == '\n');
		after += two + (after[two] == '\n');
	}
}

static struct ini *
scan_default(void)
{
	struct ini *ini = calloc(1, sizeof *ini);

	cr_assert_not_null(ini);
	memcpy(ini->bytes, embedded_policy, embedded_policy_size);
	ini->length = embedded_policy_size;
	cr_assert_eq(ini_scan(ini, hear_nothing, NULL), 0);
	return ini;
}

/* The policy with one value written into the record itself. */
static void
expect_meaning(const struct ini_entry *entry, const char *value,
	       const struct policyedit *edit)
{
	struct policy *wanted = malloc(sizeof *wanted);
	struct policy *came = malloc(sizeof *came);
	char one[POLICY_MARK_SIZE], other[POLICY_MARK_SIZE];

	cr_assert(wanted != NULL && came != NULL);
	cr_assert(read_policy((const char *)embedded_policy,
			      embedded_policy_size, wanted));
	set_value(wanted, entry, value);
	cr_expect(read_policy(edit->text, edit->length, came),
		  "[%s] %s = %s is refused", entry->section, entry->key, value);
	policy_fingerprint(wanted, one);
	policy_fingerprint(came, other);
	cr_expect_str_eq(one, other, "[%s] %s", entry->section, entry->key);
	free(wanted);
	free(came);
}

/* Values that cannot change by themselves: name and day of an approval go
 * together, and a rule needs a condition. */
static bool
changes_alone(const struct ini_entry *entry)
{
	return strncmp(entry->key, "approved", 8) != 0 &&
	       strcmp(entry->key, "not_gradable") != 0;
}

Test(policyedit, every_value_of_the_default_policy_can_be_changed_alone)
{
	struct ini *ini = scan_default();
	struct policyedit *edit = calloc(1, sizeof *edit);
	struct policyedit_change *change = calloc(1, sizeof *change);
	char key[2 * INI_NAME_SIZE], value[80];
	struct fault why;
	int changed = 0;

	cr_assert(edit != NULL && change != NULL);
	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *entry = &ini->entry[i];
		/* Rules by their name alone every other time. */
		bool short_name = i % 2 == 0 &&
				  strncmp(entry->section, "rule ", 5) == 0;

		if (entry->key[0] == '\0')
			continue;
		snprintf(key, sizeof key, "%s.%s",
			 entry->section + (short_name ? 5 : 0), entry->key);
		other_value(field_of(entry), entry->value, value, sizeof value);
		cr_assert(policyedit_init(edit, (const char *)embedded_policy,
					  embedded_policy_size, &why));
		cr_assert(policyedit_set(edit, key, value, change, &why),
			  "%s: %s", key, why.sentence);
		cr_expect_eq(change->line, entry->line, "%s", key);
		cr_expect_not(change->added, "%s", key);
		expect_other_lines((const char *)embedded_policy, edit->text,
				   entry->line, key);
		if (changes_alone(entry))
			expect_meaning(entry, value, edit);
		changed++;
	}
	cr_expect_gt(changed, 100);
	free(change);
	free(edit);
	free(ini);
}

#define HEAD "; kept\n[policy]\nname = \"A\"\n"

Test(policyedit, the_text_around_a_value_stays)
{
	static const struct {
		const char *before, *key, *value, *after;
	} rows[] = {
		{"[urgency]\nurgent_within_days=14",
		 "urgency.urgent_within_days", "7",
		 "[urgency]\nurgent_within_days=7"},
		{"[urgency]\r\n\turgent_within_days  =\t14 \t\r\n; end\r\n",
		 "urgency.urgent_within_days", "7",
		 "[urgency]\r\n\turgent_within_days  =\t7 \t\r\n; end\r\n"},
		{"\xef\xbb\xbf[policy]\nname = 'A'\n", "policy.name", "B c",
		 "\xef\xbb\xbf[policy]\nname = 'B c'\n"},
		{"[policy]\nname = 'A'\n", "policy.name", "it's",
		 "[policy]\nname = \"it's\"\n"},
		{"[policy]\nname = A\n", "policy.name", "B",
		 "[policy]\nname = \"B\"\n"},
		{"[policy]\nname = \"A\"\napproved_by = \"\"\n",
		 "policy.approved_by", "Dr Adira Moru",
		 "[policy]\nname = \"A\"\napproved_by = \"Dr Adira Moru\"\n"},
		{"[rescreen]\nmonths = \"24\"\n", "rescreen.months", "12",
		 "[rescreen]\nmonths = \"12\"\n"},
		/* A key that is not there stands behind the section's last. */
		{HEAD "; more\n\n[urgency]\n", "policy.version", "2",
		 HEAD "version = \"2\"\n; more\n\n[urgency]\n"},
		{HEAD, "policy.approved_on", "2026-03-02",
		 HEAD "approved_on = \"2026-03-02\"\n"},
		{"[rule a]\r\nall_of = injury\r\n", "a.refer_within_days", "0",
		 "[rule a]\r\nall_of = injury\r\nrefer_within_days = 0\r\n"},
		{"[rule a]\nall_of = injury", "a.none_of", "iridotomy",
		 "[rule a]\nall_of = injury\nnone_of = iridotomy"},
		{"[tally]", "tally.age_bands", "40,50",
		 "[tally]\nage_bands = 40,50"},
		/* A fixed section goes before a rule of its name. */
		{"[rule tally]\nsay = \"s\"\n[tally]\nage_bands = 40\n",
		 "tally.age_bands", "50",
		 "[rule tally]\nsay = \"s\"\n[tally]\nage_bands = 50\n"},
		{"[rule tally]\nsay = \"s\"\n[tally]\nage_bands = 40\n",
		 "rule tally.say", "t",
		 "[rule tally]\nsay = \"t\"\n[tally]\nage_bands = 40\n"},
	};
	static struct policyedit edit;
	static struct policyedit_change change;
	struct fault why = {FAULT_NONE, ""};

	for (size_t i = 0; i < COUNT(rows); i++) {
		cr_assert(policyedit_init(&edit, rows[i].before,
					  strlen(rows[i].before), &why));
		cr_expect(policyedit_set(&edit, rows[i].key, rows[i].value,
					 &change, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_str_eq(edit.text, rows[i].after, "row %zu: %s", i,
				 edit.text);
		cr_expect_eq(edit.length, strlen(rows[i].after), "row %zu", i);
		cr_expect_not(policyedit_is_same(&change), "row %zu", i);
	}
}

Test(policyedit, what_is_refused_leaves_the_text)
{
	static const char text[] = "[policy]\nname = \"A\" ; odd\nversion = "
				   "\"1\"\n[rule shallow]\nall_of = injury\n";
	static const struct {
		const char *key, *value;
		enum fault_kind kind;
		const char *sentence;
	} rows[] = {
		{"urgency", "1", FAULT_USAGE, "'urgency' names no value"},
		{".months", "1", FAULT_USAGE, "'.months' names no value"},
		{"rescreen.", "1", FAULT_USAGE, "'rescreen.' names no value"},
		{"rescreen.months", "1", FAULT_INPUT,
		 "there is no section [rescreen] in the file"},
		{"shalow.all_of", "injury", FAULT_INPUT,
		 "there is no section [rule shalow] in the file; did you mean "
		 "[rule shallow]?"},
		{"rule shalow.all_of", "injury", FAULT_INPUT,
		 "did you mean [rule shallow]?"},
		{"polcy.name", "x", FAULT_INPUT, "did you mean [policy]?"},
		{"shallow.al_of", "injury", FAULT_INPUT,
		 "unknown key 'al_of' in [rule shallow]; did you mean "
		 "'all_of'?"},
		{"policy.all_of", "injury", FAULT_INPUT,
		 "unknown key 'all_of' in [policy]"},
		{"shallow.all_of", "injury\nrefer_within_days = 0", FAULT_INPUT,
		 "the value for 'all_of' holds a control character"},
		{"policy.version", "1\r", FAULT_INPUT, "control character"},
		{"policy.name", "B", FAULT_POLICY,
		 "line 2, where 'name' stands, is at fault"},
	};
	static struct policyedit edit;
	static struct policyedit_change change;
	static char longest[INI_LINE_MOST];
	struct fault why;

	cr_assert(policyedit_init(&edit, text, strlen(text), &why));
	for (size_t i = 0; i < COUNT(rows); i++) {
		cr_expect_not(policyedit_set(&edit, rows[i].key, rows[i].value,
					     &change, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, rows[i].kind, "row %zu", i);
		cr_expect_not_null(strstr(why.sentence, rows[i].sentence),
				   "row %zu: %s", i, why.sentence);
		cr_expect_str_eq(edit.text, text, "row %zu", i);
	}
	memset(longest, 'x', sizeof longest - 1);
	cr_expect_not(policyedit_set(&edit, "policy.version", longest, &change,
				     &why));
	cr_expect_str_eq(edit.text, text);
	cr_expect_not(policyedit_set(&edit, longest, "1", &change, &why));
}

Test(policyedit, a_text_that_is_full_takes_no_more)
{
	static char text[INI_FILE_MOST + 2];
	static struct policyedit edit;
	static struct policyedit_change change;
	struct fault why;

	memset(text, '\n', sizeof text - 1);
	memcpy(text, "[rescreen]\nmonths = 24\n", 23);
	cr_expect_not(policyedit_init(&edit, text, INI_FILE_MOST + 1, &why));
	cr_expect_eq(why.kind, FAULT_POLICY);
	text[INI_FILE_MOST] = '\0';
	cr_assert(policyedit_init(&edit, text, INI_FILE_MOST, &why));
	cr_expect_not(
		policyedit_set(&edit, "rescreen.months", "120", &change, &why));
	cr_expect_eq(why.kind, FAULT_POLICY);
	cr_expect_eq(memcmp(edit.text, text, INI_FILE_MOST), 0);
	cr_expect(policyedit_set(&edit, "rescreen.months", "36", &change, &why),
		  "%s", why.sentence);
}

Test(policyedit, the_same_value_again_is_no_change)
{
	static const char text[] = "[rescreen]\nmonths = 24\n";
	static struct policyedit edit;
	static struct policyedit_change change;
	struct fault why;

	cr_assert(policyedit_init(&edit, text, strlen(text), &why));
	cr_assert(
		policyedit_set(&edit, "rescreen.months", "24", &change, &why));
	cr_expect(policyedit_is_same(&change));
	cr_expect_str_eq(change.old_line, "months = 24");
	cr_assert(policyedit_set(&edit, "rescreen.months", "9", &change, &why));
	cr_expect_not(policyedit_is_same(&change));
	cr_expect_str_eq(change.new_line, "months = 9");
}
