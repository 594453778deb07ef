/* daytally.h: a day's tally as the register has it now. */
#ifndef SHOAL_DESK_DAYTALLY_H
#define SHOAL_DESK_DAYTALLY_H

#include "base/day.h"
#include "counts/tally.h"
#include "desk/desk.h"

struct daytally {
	struct tally tally;
	struct tally_head head;
	struct tally_written written; /* its revision and mark, as head has */
	struct tally_written last;    /* what was written before; 0 = never */
	long people;		      /* entered for that day, void ones too */
};

/*
 * Counts a day from the register. Its revision is that of the last tally
 * written when nothing changed since, and the next one otherwise; a day that
 * was closed stays so. `close` closes it.
 */
bool daytally_take(struct desk *desk, struct day day, bool close,
		   struct daytally *day_now, struct fault *why);

/* Says on the talking stream when the tally written of a day does not say any
 * more what the register does: it has to be sent again. After a save. */
void daytally_tell(struct desk *desk, struct day day);

#endif
