/* missed.c: what the clinic confirmed, against what two policies say. */
#include "desk/missed.h"

#include "base/text.h"
#include "clinic/angle.h"
#include "keep/replies.h"

#include <string.h>

enum { LINE_SIZE = 900 };

/* Of the two policies: in force, other. */
struct count {
	struct desk *desk;
	const struct policy *policy[2];
	long seen, unknown;
	long closures, suspects;
	long closures_missed[2], suspects_missed[2];
	bool listing; /* the second time through */
};

void
missed_write_rules(const struct desk *desk, const char *label,
		   const struct policy *policy, const struct decision *decision)
{
	char line[LINE_SIZE] = "";
	size_t used = 0;

	for (int i = 0; i < decision->count; i++)
		if (decision_is_deciding(policy, decision, i) &&
		    used < sizeof line)
			used += (size_t)snprintf(
				line + used, sizeof line - used, "%s%s",
				used == 0 ? "" : ", ",
				policy->rule[decision->fired[i].rule].name);
	if (used == 0)
		snprintf(line, sizeof line, "no rule");
	fprintf(desk->out, "  %s", label);
	text_write_wrapped(desk->out, line, desk->columns,
			   2 + (int)strlen(label), 4);
}

static void
write_person(const struct count *count, const struct visit *visit,
	     const struct angle *angle, const struct decision *decision)
{
	static const char *const labels[] = {"in force: ", "new:      "};
	bool missed[2];
	char number[REFNUM_SIZE], right[FIELD_TEXT_SIZE], left[FIELD_TEXT_SIZE];
	FILE *out = count->desk->out;

	for (int i = 0; i < 2; i++)
		missed[i] = decision[i].urgency == URGENCY_NO_REFERRAL;
	refnum_write(visit->number, number);
	field_write(fields_find(visit_fields, "depth_right"), visit, right,
		    sizeof right);
	field_write(fields_find(visit_fields, "depth_left"), visit, left,
		    sizeof left);
	fprintf(out, "%s: %s, missed by %s\n  depth right %.8s, left %.8s\n",
		number, angle_words(angle->least),
		missed[0] && missed[1] ? "both policies"
		: missed[1]	       ? "the new policy"
				       : "the policy in force",
		right, left);
	for (int i = 0; i < 2; i++)
		missed_write_rules(count->desk, labels[i], count->policy[i],
				   &decision[i]);
}

static bool
see(void *context, const struct visit *visit, const struct reply *reply,
    struct fault *why)
{
	struct count *count = context;
	struct decision decision[2];
	struct angle angle;
	bool closure, missed = false;

	(void)why;
	if (reply == NULL || reply->outcome == OUTCOME_NOT_ATTENDED)
		return true;
	angle = angle_of_person(reply, count->policy[0], ANGLE_AS_SEEN);
	closure = angle.least == ANGLE_CLOSURE ||
		  angle.least == ANGLE_CLOSURE_GLAUCOMA;
	count->seen++;
	count->closures += closure;
	count->suspects += angle.least == ANGLE_SUSPECT;
	count->unknown +=
		angle.least == ANGLE_NOT_DERIVABLE ||
		(angle.least == ANGLE_OPEN && angle.most != ANGLE_OPEN);
	for (int i = 0; i < 2; i++) {
		bool its;

		decide(count->policy[i], visit, &decision[i]);
		its = decision[i].urgency == URGENCY_NO_REFERRAL;
		missed = missed || its;
		count->closures_missed[i] += closure && its;
		count->suspects_missed[i] += angle.least == ANGLE_SUSPECT &&
					     its;
	}
	if (closure && missed && count->listing)
		write_person(count, visit, &angle, decision);
	return true;
}

static void
write_line(const struct count *count, const char *label, const long *missed)
{
	fprintf(count->desk->out, "%-16s %8ld %8ld", label, missed[0],
		missed[1]);
	if (missed[0] != missed[1])
		fprintf(count->desk->out, "  %+6ld", missed[1] - missed[0]);
	fputc('\n', count->desk->out);
}

bool
missed_write(struct desk *desk, const struct policy *other, struct fault *why)
{
	struct count count = {.desk = desk, .policy = {&desk->policy, other}};
	char line[LINE_SIZE];
	FILE *out = desk->out;

	fputc('\n', out);
	if (!register_visit_replies(&desk->book, see, &count, why))
		return false;
	if (count.seen == 0) {
		text_write_wrapped(out,
				   "No reply from the clinic yet: which "
				   "confirmed closures would be missed cannot "
				   "be said.",
				   desk->columns, 0, 0);
		return true;
	}
	snprintf(line, sizeof line,
		 "Replies of people seen: %ld; by the limits in force %ld "
		 "confirmed closure%s, %ld suspect%s, %ld not derivable.",
		 count.seen, count.closures, count.closures == 1 ? "" : "s",
		 count.suspects, count.suspects == 1 ? "" : "s", count.unknown);
	text_write_wrapped(out, line, desk->columns, 0, 0);
	fprintf(out, "%-16s %8s %8s %8s\n", "", "in force", "new", "change");
	write_line(&count, "closures missed", count.closures_missed);
	write_line(&count, "suspects missed", count.suspects_missed);
	count.listing = true;
	return register_visit_replies(&desk->book, see, &count, why);
}
