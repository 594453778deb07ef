/* undo.c: taking back the entry of a person. */
#include "desk/undo.h"

const char *const undo_reasons[UNDO_REASONS] = {
	"the wrong person",
	"entered twice",
	"a wrong answer",
};

bool
undo_entry(struct desk *desk, const struct visit *visit, long long entry,
	   const char *reason, struct fault *why)
{
	struct visit after = *visit;

	desk_stamp(desk, &after);
	after.late = visit->late;
	after.state = STATE_VOID;
	/* The policy that judged is kept already; the one in force may be
	 * another. */
	return register_revise(&desk->book, &after, entry, reason, NULL, why);
}

/* What is not valid does not say what was answered, so that any policy will do
 * where the person's own cannot be read, or was written by an earlier
 * version. */
static bool
write_slips(struct desk *desk, struct visit *visit, struct fault *why)
{
	struct policy policy;
	struct decision decision;
	struct fault unsaid;

	if (!desk_policy_of(desk, visit, &policy, &unsaid))
		policy = desk->policy;
	policy_fingerprint(&policy, visit->policy);
	decide(&policy, visit, &decision);
	return desk_write_slips(desk, visit, &policy, &decision, why);
}

bool
undo_write_slips(struct desk *desk, const struct visit *visit,
		 struct fault *why)
{
	struct visit taken_back = *visit;
	char number[REFNUM_SIZE];

	taken_back.state = STATE_VOID;
	refnum_write(visit->number, number);
	return write_slips(desk, &taken_back, why) ||
	       fault_at(why,
			"%s IS void, but its slip still stands in the folder "
			"slips as if it was valid: do not print it",
			number);
}

bool
undo_find(struct session *session, struct visit *visit, long long *entry,
	  struct fault *why)
{
	if (refnum_is_none(session->last))
		return fault_set(why, FAULT_INPUT,
				 "nobody was saved since the program was "
				 "started; others are taken back with 'shoal "
				 "void NUMBER'");
	if (!register_find(&session->desk->book, session->last, visit, entry,
			   why))
		return false;
	if (visit->state != STATE_CURRENT)
		return fault_set(why, FAULT_INPUT,
				 "the last person was taken back or corrected "
				 "already");
	return true;
}

bool
undo_last(struct session *session, const char *reason, struct fault *paper,
	  struct fault *why)
{
	struct visit visit;
	long long entry = 0;

	visit_init(&visit);
	if (!undo_find(session, &visit, &entry, why) ||
	    !undo_entry(session->desk, &visit, entry, reason, why))
		return false;
	session->last = (struct refnum){0, 0};
	paper->kind = FAULT_NONE;
	undo_write_slips(session->desk, &visit, paper);
	return session_count(session, why);
}
