/* followup.h: everybody screened in some days, with the clinic's replies. */
#ifndef SHOAL_DESK_FOLLOWUP_H
#define SHOAL_DESK_FOLLOWUP_H

#include "base/day.h"
#include "base/fault.h"
#include "counts/yield.h"
#include "desk/desk.h"

/* Called per person who is not void; false stops. */
typedef bool followup_see(void *context, const struct yield_person *person,
			  struct fault *why);

/*
 * Everybody screened from `from` (none = from the first) to `to`, as known on
 * `today`. Chosen for examination are those whom the policy that judged them
 * chose; classes are derived by the policy in force.
 */
bool followup_visit(struct desk *desk, struct day from, struct day to,
		    struct day today, followup_see *see, void *context,
		    struct fault *why);

#endif
