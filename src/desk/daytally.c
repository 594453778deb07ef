/* daytally.c: a day's tally as the register has it now. */
#include "desk/daytally.h"

#include "base/text.h"

#include <string.h>

static bool
see(void *context, const struct visit *visit, const char *reason,
    struct fault *why)
{
	struct daytally *now = context;

	(void)reason;
	now->people++;
	return tally_add(&now->tally, visit, why);
}

/* Which revision this content has: the last one's when nothing changed. */
static bool
number_revision(struct desk *desk, bool close, struct daytally *now,
		struct fault *why)
{
	struct tally_written *written = &now->written;
	const struct tally_written *last = &now->last;

	if (!register_last_tally(&desk->book, now->head.date, &now->last, why))
		return false;
	now->head.closed = close || last->closed;
	if (!tally_mark(&now->tally, &now->head, written->mark, why))
		return false;
	written->closed = now->head.closed;
	written->revision = last->revision;
	if (last->revision == 0 || strcmp(last->mark, written->mark) != 0)
		written->revision++;
	now->head.revision = written->revision;
	return true;
}

bool
daytally_take(struct desk *desk, struct day day, bool close,
	      struct daytally *now, struct fault *why)
{
	now->head = (struct tally_head){.programme = desk->station.programme,
					.site = desk->station.site,
					.station = desk->station.code,
					.device = desk->book.device,
					.policy = desk->policy_mark,
					.date = day};
	memset(&now->written, 0, sizeof now->written);
	now->people = 0;
	tally_init(&now->tally, &desk->policy.age_bands);
	return register_visit_day(&desk->book, day, see, now, why) &&
	       number_revision(desk, close, now, why);
}

/* What was saved is saved: a register that cannot be read now says so when the
 * next one asks. */
void
daytally_tell(struct desk *desk, struct day day)
{
	char written[DAY_SIZE], sentence[200];
	struct daytally now;
	struct fault ignored;

	/* Most days have none yet, and need no counting. */
	if (!register_last_tally(&desk->book, day, &now.last, &ignored) ||
	    now.last.revision == 0 ||
	    !daytally_take(desk, day, false, &now, &ignored) ||
	    now.written.revision == now.last.revision)
		return;
	day_write(day, written);
	snprintf(sentence, sizeof sentence,
		 "The tally of %s was written before this, and says something "
		 "else: write it again with 'shoal tally --date %s', and send "
		 "revision %d.",
		 written, written, now.written.revision);
	text_write_wrapped(desk->talk, sentence, desk->columns, 0, 0);
}
