/* waiting.c: who was sent to the clinic and has no reply yet. */
#include "desk/waiting.h"

#include "keep/replies.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* Order first, person second: sorted, they are the list. */
struct due {
	int see_by; /* INT_MAX: without such a day */
	struct refnum number;
};

struct search {
	struct desk *desk;
	struct policy policy; /* the one that judged the last person asked of */
	char mark[POLICY_MARK_SIZE];
	int count;
	struct due due[REFNUM_SERIAL_MOST];
};

/* The rules of the day chose who is verified, so those are asked; most people
 * in a row have the same. */
static bool
is_verified(struct search *search, const struct visit *visit, bool *so,
	    struct fault *why)
{
	if (strcmp(search->mark, visit->policy) != 0) {
		if (!desk_policy_of(search->desk, visit, &search->policy, why))
			return false;
		memcpy(search->mark, visit->policy, sizeof search->mark);
	}
	*so = policy_verifies(&search->policy, visit);
	return true;
}

static bool
see(void *context, const struct visit *visit, const struct reply *reply,
    struct fault *why)
{
	struct search *search = context;
	bool waits = visit->urgency != URGENCY_NO_REFERRAL;

	if (reply != NULL)
		return true;
	if (!waits && !is_verified(search, visit, &waits, why))
		return false;
	if (waits)
		search->due[search->count++] = (struct due){
			day_is_none(visit->see_by) ? INT_MAX
						   : visit->see_by.number,
			visit->number};
	return true;
}

static int
in_order(const void *one, const void *other)
{
	const struct due *left = one, *right = other;

	if (left->see_by != right->see_by)
		return left->see_by < right->see_by ? -1 : 1;
	return left->number.serial - right->number.serial;
}

bool
waiting_visit(struct desk *desk, waiting_see *see_one, void *context,
	      struct fault *why)
{
	struct search search;
	struct visit visit;

	search.desk = desk;
	search.mark[0] = '\0';
	search.count = 0;
	if (!register_visit_replies(&desk->book, see, &search, why))
		return false;
	qsort(search.due, (size_t)search.count, sizeof search.due[0], in_order);
	for (int i = 0; i < search.count; i++) {
		int over = desk->today.number - search.due[i].see_by;

		if (!register_find(&desk->book, search.due[i].number, &visit,
				   NULL, why) ||
		    !see_one(context, &visit,
			     search.due[i].see_by != INT_MAX && over > 0 ? over
									 : 0,
			     why))
			return false;
	}
	return true;
}
