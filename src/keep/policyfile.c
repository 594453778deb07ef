/* policyfile.c: the policy file, read whole or refused whole. */
#include "keep/policyfile.h"

#include "base/text.h"
#include "clinic/policycheck.h"
#include "keep/inifile.h"
#include "keep/safefile.h"

#include <string.h>

/* The sections of the rules are "rule NAME". */
static const char rule_word[] = "rule";

/* What the clinic's checks find between keys, put at a section's line on the
 * way to the caller's ear. */
struct placer {
	const struct ini *ini;
	int line;
	const char *section; /* "" = the file as a whole */
	fault_hear *hear;
	void *context;
};

static void
hear_placed(void *context, const struct fault *one)
{
	const struct placer *placer = context;

	if (placer->section[0] == '\0')
		ini_tell(placer->ini, placer->line, placer->hear,
			 placer->context, "%s", one->sentence);
	else
		ini_tell(placer->ini, placer->line, placer->hear,
			 placer->context, "[%s]: %s", placer->section,
			 one->sentence);
}

/* The name behind "rule", or NULL when the section is no rule. */
static const char *
name_of_rule(const char *section)
{
	size_t length = strlen(rule_word);

	if (strncmp(section, rule_word, length) != 0 ||
	    (section[length] != '\0' && section[length] != ' '))
		return NULL;
	section += length;
	return section + strspn(section, " ");
}

/* False when a fault was told. */
static bool
read_rule_name(const struct ini *ini, const struct ini_entry *header,
	       struct rule *rule, fault_hear *hear, void *context)
{
	const char *name = name_of_rule(header->section);
	char joined[INI_NAME_SIZE];

	if (rule_name_is_sound(name) || header->refused)
		return text_copy(rule->name, sizeof rule->name, name);
	if (name[0] == '\0') {
		ini_tell(ini, header->line, hear, context,
			 "the rule has no name; write [%s NAME], such as [%s "
			 "shallow]",
			 rule_word, rule_word);
		return false;
	}
	text_copy(joined, sizeof joined, name);
	for (char *at = joined; *at != '\0'; at++)
		if (*at == ' ' || *at == '_')
			*at = '-';
	ini_tell(ini, header->line, hear, context,
		 "'%s' is not a rule's name; allowed is one word of small "
		 "letters a to z, digits and '-', a letter first, at most %d "
		 "characters%s%s%s",
		 name, RULE_NAME_SIZE - 1,
		 rule_name_is_sound(joined) ? "; did you mean '" : "",
		 rule_name_is_sound(joined) ? joined : "",
		 rule_name_is_sound(joined) ? "'?" : "");
	return false;
}

/* Reads one rule; returns how many faults. Its keys are checked against each
 * other only when each is sound by itself. */
static int
read_rule(const struct ini *ini, const struct ini_entry *header,
	  struct rule_draft *draft, fault_hear *hear, void *context)
{
	struct placer placer = {ini, header->line, header->section, hear,
				context};
	int faults;

	rule_draft_init(draft);
	faults = ini_fill(ini, header->section, rule_fields, draft, hear,
			  context);
	if (faults == 0 && ini_section_is_sound(ini, header->section))
		faults = rule_check(&draft->rule, hear_placed, &placer);
	if (!read_rule_name(ini, header, &draft->rule, hear, context))
		faults++;
	return faults;
}

static int
read_rules(const struct ini *ini, struct policy *policy, fault_hear *hear,
	   void *context)
{
	struct rule_draft draft;
	int faults = 0;

	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *header = &ini->entry[i];

		if (header->key[0] != '\0' ||
		    name_of_rule(header->section) == NULL)
			continue;
		if (policy->rule_count == POLICY_RULES_MOST) {
			ini_tell(ini, header->line, hear, context,
				 "there are more than %d rules; take some out",
				 POLICY_RULES_MOST);
			return faults + 1;
		}
		faults += read_rule(ini, header, &draft, hear, context);
		policy_add(policy, &draft);
	}
	return faults;
}

/* The sections with fixed names. What is missing need not be told where it may
 * stand misspelt, which is told already (`faults` counts what was told). */
static int
read_sections(const struct ini *ini, struct policy *policy, int faults,
	      fault_hear *hear, void *context)
{
	int told = 0;

	for (int i = 0; i < POLICY_SECTIONS; i++) {
		const struct policy_section *section = &policy_sections[i];

		if (faults > 0 && ini_section_line(ini, section->name) == 0 &&
		    ini_section_is_meant(ini, section->name))
			continue;
		told += ini_fill(ini, section->name, section->fields, policy,
				 hear, context);
	}
	return told;
}

/* Between the keys outside the rules, when each is sound by itself. */
static int
check_whole(const struct ini *ini, const struct policy *policy,
	    fault_hear *hear, void *context)
{
	const char *section = policy->rule_count == 0 ? ""
						      : policy_sections[0].name;
	struct placer placer = {ini, ini_section_line(ini, section), section,
				hear, context};

	return policy_check(policy, hear_placed, &placer);
}

static bool
read_policy(const struct ini *ini, struct policy *policy, fault_hear *hear,
	    void *context, struct fault *why)
{
	const char *names[POLICY_SECTIONS + 1];
	int faults = ini->faults, in_rules;

	for (int i = 0; i < POLICY_SECTIONS; i++)
		names[i] = policy_sections[i].name;
	names[POLICY_SECTIONS] = "rule NAME";
	policy_init(policy);
	faults += ini_check_sections(ini, names, POLICY_SECTIONS + 1, hear,
				     context);
	if (ini->count == 0)
		return ini_conclude(ini, faults, why);
	faults += read_sections(ini, policy, faults, hear, context);
	in_rules = read_rules(ini, policy, hear, context);
	if (faults == 0)
		faults = check_whole(ini, policy, hear, context);
	return ini_conclude(ini, faults + in_rules, why);
}

bool
policyfile_read_bytes(const char *name, const char *bytes, size_t length,
		      struct policy *policy, fault_hear *hear, void *context,
		      struct fault *why)
{
	struct ini ini;

	if (!ini_read_bytes(&ini, name, bytes, length, hear, context, why) &&
	    ini.count == 0)
		return false;
	return read_policy(&ini, policy, hear, context, why);
}

bool
policyfile_read(const char *path, struct policy *policy, char *text,
		size_t size, fault_hear *hear, void *context, struct fault *why)
{
	struct ini ini;
	size_t length;

	if (text != NULL)
		return safefile_read(path, text, size, &length, FAULT_POLICY,
				     why) &&
		       policyfile_read_bytes(path, text, length, policy, hear,
					     context, why);
	if (!ini_read_file(&ini, path, hear, context, why) && ini.count == 0)
		return false;
	return read_policy(&ini, policy, hear, context, why);
}
