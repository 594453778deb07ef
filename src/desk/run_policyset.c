/* run_policyset.c: one value of a policy file changed without fear. */
#include "desk/run.h"

#include "keep/policyedit.h"
#include "keep/policyfile.h"
#include "keep/safefile.h"

#include <string.h>

enum { CHANGES_MOST = 3 /* the value, approved_by, approved_on */ };

/* The file before and after. */
struct setting {
	const char *path;
	struct policyedit edit;
	char old_mark[POLICY_MARK_SIZE]; /* "" when it was refused */
	char new_mark[POLICY_MARK_SIZE];
	int changes;
	struct policyedit_change change[CHANGES_MOST];
};

static bool
is_approval(const char *key)
{
	return strncmp(key, "policy.approved", strlen("policy.approved")) == 0;
}

static void
hear_nothing(void *context, const struct fault *one)
{
	(void)context;
	(void)one;
}

static bool
read_old(struct desk *desk, struct setting *setting, struct fault *why)
{
	struct fault refused;
	size_t length;

	setting->old_mark[0] = '\0';
	if (strcmp(setting->path, "-") == 0)
		return fault_set(why, FAULT_USAGE,
				 "standard input cannot be changed; name the "
				 "policy's file");
	if (!safefile_read(setting->path, desk->policy_text,
			   sizeof desk->policy_text, &length, FAULT_POLICY,
			   why) ||
	    !policyedit_init(&setting->edit, desk->policy_text, length, why))
		return false;
	/* One fault may be just what is being mended; it is no fault now. */
	if (policyfile_read_bytes(setting->path, setting->edit.text, length,
				  &desk->policy, hear_nothing, NULL, &refused))
		policy_fingerprint(&desk->policy, setting->old_mark);
	return true;
}

/* A change that leaves its line as it was is none. */
static bool
set_one(struct setting *setting, const char *key, const char *value,
	struct fault *why)
{
	struct policyedit_change *change = &setting->change[setting->changes];

	if (!policyedit_set(&setting->edit, key, value, change, why))
		return false;
	setting->changes += !policyedit_is_same(change);
	return true;
}

/* Whoever approved the old rules has not seen the new ones. */
static bool
set_approval(struct desk *desk, struct setting *setting, const char *name,
	     struct fault *why)
{
	char day[DAY_SIZE] = "";

	if (name != NULL)
		day_write(desk->today, day);
	else if (setting->changes == 0 || setting->old_mark[0] == '\0' ||
		 !policy_is_approved(&desk->policy))
		return true;
	return set_one(setting, "policy.approved_by", name == NULL ? "" : name,
		       why) &&
	       set_one(setting, "policy.approved_on", day, why);
}

static bool
read_new(struct desk *desk, struct setting *setting, struct fault *why)
{
	if (!policyfile_read_bytes(setting->path, setting->edit.text,
				   setting->edit.length, &desk->policy,
				   desk_hear, desk, why))
		return fault_set(why, FAULT_POLICY,
				 "'%s' stays as it was: with this change it "
				 "would be refused",
				 setting->path);
	policy_fingerprint(&desk->policy, setting->new_mark);
	return true;
}

static bool
write_new(const struct setting *setting, struct fault *why)
{
	struct safefile file;

	if (!safefile_open(&file, setting->path, why))
		return false;
	fwrite(setting->edit.text, 1, setting->edit.length, file.out);
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

static void
tell(struct desk *desk, const struct setting *setting)
{
	for (int i = 0; i < setting->changes; i++) {
		const struct policyedit_change *change = &setting->change[i];

		fprintf(desk->out, "%s:%d\n", setting->path, change->line);
		if (!change->added)
			fprintf(desk->out, "- %s\n", change->old_line);
		fprintf(desk->out, "+ %s\n", change->new_line);
	}
	if (setting->changes == 0)
		fprintf(desk->out,
			"%s has that value already; nothing was "
			"changed\n",
			setting->path);
	fprintf(desk->out, "fingerprint %s, before %s\n", setting->new_mark,
		setting->old_mark[0] == '\0' ? "(the file was refused)"
					     : setting->old_mark);
	if (!policy_is_approved(&desk->policy))
		fprintf(desk->out, "not yet approved by an eye doctor: slips "
				   "will say so\n");
}

bool
run_policy_set(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *key = given->argument[0];
	struct setting setting = {.path = given->argument[2]};

	if (is_approval(key))
		return fault_set(why, FAULT_USAGE,
				 "'%.60s' is set with --approved-by NAME, and "
				 "emptied by every change without it",
				 key);
	if (!read_old(desk, &setting, why) ||
	    !set_one(&setting, key, given->argument[1], why) ||
	    !set_approval(desk, &setting, given_value(given, "approved-by"),
			  why) ||
	    !read_new(desk, &setting, why))
		return false;
	if (setting.changes > 0 && !write_new(&setting, why))
		return false;
	tell(desk, &setting);
	return true;
}
