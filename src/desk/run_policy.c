/* run_policy.c: looking at a policy before it is used. */
#include "desk/run.h"

#include "keep/policyfile.h"

bool
run_policy_check(struct desk *desk, const struct given *given,
		 struct fault *why)
{
	const char *path = given->argument[0];
	struct policy *policy = &desk->policy;
	char day[DAY_SIZE];

	if (!policyfile_read(path, policy, NULL, 0, desk_hear, desk, why))
		return false;
	policy_fingerprint(policy, desk->policy_mark);
	day_write(policy->approved_on, day);
	fprintf(desk->out,
		"%s version %s, fingerprint %s: %d rules, no fault\n",
		policy->name, policy->version, desk->policy_mark,
		policy->rule_count);
	if (policy_is_approved(policy))
		fprintf(desk->out, "approved by %s on %s\n",
			policy->approved_by, day);
	else
		fprintf(desk->out, "not yet approved by an eye doctor: slips "
				   "will say so\n");
	return true;
}
