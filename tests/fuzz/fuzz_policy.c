/* fuzz_policy.c: whatever bytes a policy file holds, it is read alike by both
 * readers or refused.
 *
 * seeds: tests/fixtures/policies/good tests/fixtures/policies/bad config
 * options: -max_len=4096
 */
#include "fuzz.h"

#include "base/day.h"
#include "clinic/decide.h"
#include "clinic/policy.h"
#include "keep/policyfile.h"

/* What was accepted has a meaning that can be judged by. */
static void
check_meaning(const struct policy *policy)
{
	char mark[POLICY_MARK_SIZE];

	policy_fingerprint(policy, mark);
	FUZZ_HOLD(strlen(mark) == POLICY_MARK_SIZE - 1);
	FUZZ_HOLD(policy->rule_count >= 1);
	FUZZ_HOLD(policy->urgent_within_days >= 1);
	FUZZ_HOLD(policy->rescreen_months >= 1);
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];

		FUZZ_HOLD((rule->refer_within_days == FIELD_BLANK) !=
			  (rule->rescreen_within_months == FIELD_BLANK));
		FUZZ_HOLD(policy_say(policy, rule)[0] != '\0');
		FUZZ_HOLD(fuzz_is_harmless(policy_say(policy, rule)));
	}
}

/* Everybody gets an answer: a referral or a new screening, never both. */
static void
check_answer(const struct policy *policy, enum depth right, enum depth left)
{
	struct decision decision;
	struct visit visit;

	visit_init(&visit);
	visit.depth_right = right;
	visit.depth_left = left;
	decide(policy, &visit, &decision);
	FUZZ_HOLD(decision.urgency < URGENCY_COUNT);
	FUZZ_HOLD((decision.urgency == URGENCY_NO_REFERRAL) ==
		  (decision.within_days == FIELD_BLANK));
	FUZZ_HOLD((decision.within_days == FIELD_BLANK) !=
		  (decision.rescreen_months == FIELD_BLANK));
	FUZZ_HOLD(decision.by_default == (decision.count == 0));
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	static struct policy policy;
	struct fault why = {FAULT_NONE, ""};
	int faults = 0;

	if (!policyfile_read_bytes("fuzz.ini", (const char *)bytes, length,
				   &policy, fuzz_hear, &faults, &why)) {
		fuzz_sentence(&why, FAULT_POLICY);
		return 0;
	}
	FUZZ_HOLD(faults == 0);
	check_meaning(&policy);
	check_answer(&policy, DEPTH_0, DEPTH_100);
	check_answer(&policy, DEPTH_100, DEPTH_NO_EYE);
	check_answer(&policy, DEPTH_NOT_GRADABLE, DEPTH_25);
	return 0;
}
