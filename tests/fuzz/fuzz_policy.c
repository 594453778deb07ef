/* fuzz_policy.c: whatever bytes a policy file holds, it is read alike by both
 * readers or refused.
 *
 * seeds: tests/fixtures/policies/good tests/fixtures/policies/bad config
 */
#include "base/field.h"
#include "clinic/policy.h"
#include "keep/inifile.h"
#include "keep/policyfile.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/* The scan and iniparser may never come to a value each. */
static void
hear(void *context, const struct fault *one)
{
	static const char never[] = "the two readers disagree";
	const char *after_place = strstr(one->sentence, ": ");

	(void)context;
	if (after_place == NULL ||
	    strncmp(after_place + 2, never, sizeof never - 1) == 0)
		abort();
}

/* What was accepted has a meaning that can be judged by. */
static void
check_meaning(const struct policy *policy)
{
	char mark[POLICY_MARK_SIZE];

	policy_fingerprint(policy, mark);
	if (strlen(mark) != POLICY_MARK_SIZE - 1 || policy->rule_count < 1 ||
	    policy->urgent_within_days < 1 || policy->rescreen_months < 1)
		abort();
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];

		if ((rule->refer_within_days == FIELD_BLANK) ==
			    (rule->rescreen_within_months == FIELD_BLANK) ||
		    policy_say(policy, rule)[0] == '\0')
			abort();
	}
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	static struct policy policy;
	struct fault why = {FAULT_NONE, ""};

	if (policyfile_read_bytes("fuzz.ini", (const char *)bytes, length,
				  &policy, hear, NULL, &why))
		check_meaning(&policy);
	else if (why.kind != FAULT_POLICY || why.sentence[0] == '\0')
		abort();
	return 0;
}
