/* followup.c: everybody screened in some days, with the clinic's replies. */
#include "desk/followup.h"

#include "base/text.h"
#include "keep/replies.h"

#include <string.h>

/* Days often have one policy, so the last one read is kept. */
struct following {
	struct desk *desk;
	struct day from, to, today;
	followup_see *see;
	void *context;
	struct policy judged_by;
	char mark[POLICY_MARK_SIZE]; /* of judged_by, "" = none yet */
};

static bool
is_chosen(struct following *following, const struct visit *visit, bool *chosen,
	  struct fault *why)
{
	if (visit->urgency == URGENCY_NO_REFERRAL &&
	    strcmp(following->mark, visit->policy) != 0) {
		following->mark[0] = '\0';
		if (!desk_policy_of(following->desk, visit,
				    &following->judged_by, why))
			return false;
		text_copy(following->mark, sizeof following->mark,
			  visit->policy);
	}
	*chosen = visit->urgency == URGENCY_NO_REFERRAL &&
		  policy_verifies(&following->judged_by, visit);
	return true;
}

static bool
see(void *context, const struct visit *visit, const struct reply *reply,
    struct fault *why)
{
	struct following *following = context;
	struct yield_person person = {.visit = visit,
				      .reply = reply,
				      .policy = &following->desk->policy,
				      .today = following->today};

	if (visit->screened_on.number > following->to.number ||
	    (!day_is_none(following->from) &&
	     visit->screened_on.number < following->from.number))
		return true;
	return is_chosen(following, visit, &person.chosen, why) &&
	       following->see(following->context, &person, why);
}

bool
followup_visit(struct desk *desk, struct day from, struct day to,
	       struct day today, followup_see *visit_one, void *context,
	       struct fault *why)
{
	struct following following = {.desk = desk,
				      .from = from,
				      .to = to,
				      .today = today,
				      .see = visit_one,
				      .context = context};

	return register_visit_replies(&desk->book, see, &following, why);
}
