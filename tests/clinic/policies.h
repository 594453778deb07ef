/* policies.h: policies that the tests read from a text without a fault. */
#ifndef TESTS_CLINIC_POLICIES_H
#define TESTS_CLINIC_POLICIES_H

#include "base/embedded.h"
#include "keep/policyfile.h"

#include <criterion/criterion.h>

static inline void
policies_hear(void *context, const struct fault *one)
{
	(void)context;
	cr_assert_fail("%s", one->sentence);
}

static inline void
policies_read(const char *text, size_t length, struct policy *policy)
{
	struct fault why = {0};

	cr_assert(policyfile_read_bytes("policy.ini", text, length, policy,
					policies_hear, NULL, &why),
		  "%s", why.sentence);
	cr_assert_gt(policy->rule_count, 0);
}

/* config/policy.ini, as it is compiled in. */
static inline void
policies_read_default(struct policy *policy)
{
	policies_read((const char *)embedded_policy, embedded_policy_size,
		      policy);
}

#endif
