/* run_policy.c: looking at a policy before it is used. */
#include "desk/run.h"

#include "base/embedded.h"
#include "base/text.h"
#include "clinic/odd.h"
#include "keep/policyfile.h"

enum { PAGE_COLUMNS = 78, PAGE_INDENT = 3 };

/* The lines under "Worth a look:", whose heading comes with the first. */
struct look {
	FILE *out;
	bool begun;
};

static void
hear_oddity(void *context, const char *sentence)
{
	struct look *look = context;

	fputs(look->begun ? "" : "\nWorth a look:\n", look->out);
	look->begun = true;
	fputs(" - ", look->out);
	text_write_wrapped(look->out, sentence, PAGE_COLUMNS, PAGE_INDENT,
			   PAGE_INDENT);
}

static bool
tell_oddities(struct desk *desk, struct fault *why)
{
	struct look look = {desk->out, false};
	struct policy builtin;

	if (!policyfile_read_bytes(
		    "built-in policy.ini", (const char *)embedded_policy,
		    embedded_policy_size, &builtin, desk_hear, desk, why))
		return false;
	policy_tell_oddities(&desk->policy, &builtin, hear_oddity, &look);
	return true;
}

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
	return tell_oddities(desk, why);
}
