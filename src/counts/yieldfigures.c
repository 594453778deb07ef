/* yieldfigures.c: shares, bounds and times of a yield. */
#include "counts/yieldfigures.h"

#include <string.h>

void
yield_share_of(int count, int of, struct yield_share *share)
{
	struct accuracy_share found;
	struct fault why;

	memset(share, 0, sizeof *share);
	if (!accuracy_share(count, of, &found, &why))
		return;
	share->has = share->has_interval = true;
	share->value = found.share;
	share->low = found.interval.low;
	share->high = found.interval.high;
}

static void
put_time(const struct attendance *attendance, struct yield_figures *figures)
{
	struct yield_share *share = &figures->by_day;
	struct attendance_share by_day;
	struct fault why;

	if (attendance_by(attendance, YIELD_DAY, &by_day, &why)) {
		share->has = true;
		share->has_interval = by_day.kind != ATTENDANCE_NO_INTERVAL;
		share->value = by_day.share;
		share->low = by_day.interval.low;
		share->high = by_day.interval.high;
	}
	figures->has_median =
		attendance_median(attendance, &figures->median, &why);
}

/* Of `of` people, if none, or all, of `perhaps` more have it as well; 0 is
 * nobody of whom anything is known. */
static void
put_bounds(struct yield_share *bounds, int count, int perhaps, int of)
{
	memset(bounds, 0, sizeof *bounds);
	if (of == 0)
		return;
	bounds->has = bounds->has_interval = true;
	bounds->value = bounds->low = (double)count / of;
	bounds->high = (double)(count + perhaps) / of;
}

void
yield_figure(const struct yield_cell *cell, struct yield_figures *figures)
{
	const struct yield_counts *counts = &cell->counts;
	int count[YIELD_FINDINGS] = {
		[YIELD_CLOSED] = yield_closed(counts),
		[YIELD_SUSPECT] = counts->suspect,
		[YIELD_CLOSURE] = counts->closure,
		[YIELD_GLAUCOMA] = counts->closure_glaucoma,
		[YIELD_OPEN] = counts->open,
		[YIELD_NOT_DERIVABLE] = counts->not_derivable};
	int unseen = counts->people - counts->attended + counts->not_derivable;

	memset(figures, 0, sizeof *figures);
	if (counts->unknown < counts->people) {
		yield_share_of(counts->attended, counts->people,
			       &figures->uptake);
		put_bounds(&figures->uptake_bounds, counts->attended,
			   counts->unknown, counts->people);
		put_time(&cell->attendance, figures);
	}
	for (int i = 0; i < YIELD_FINDINGS; i++) {
		struct yield_found *found = &figures->found[i];
		bool is_part = i == YIELD_SUSPECT || i == YIELD_CLOSURE ||
			       i == YIELD_GLAUCOMA;

		int untold = i == YIELD_NOT_DERIVABLE
				     ? 0
				     : counts->not_derivable +
					       (is_part ? counts->closed : 0);

		found->count = count[i];
		found->of = counts->attended - untold;
		if (i == YIELD_NOT_DERIVABLE || unseen < counts->people)
			yield_share_of(count[i], found->of, &found->share);
		put_bounds(&found->came, count[i], untold, counts->attended);
		put_bounds(&found->bounds, count[i],
			   unseen + (is_part ? counts->closed : 0),
			   i == YIELD_NOT_DERIVABLE || unseen == counts->people
				   ? 0
				   : counts->people);
	}
}

static void
verified(const struct yield_counts *counts, enum yield_finding found,
	 struct accuracy_verified *verified)
{
	int diseased = counts->closure_glaucoma, healthy = counts->open;

	if (found != YIELD_GLAUCOMA)
		diseased += counts->closure;
	else
		healthy += counts->closure;
	if (found == YIELD_CLOSED)
		diseased += counts->suspect + counts->closed;
	else
		healthy += counts->suspect;
	verified->diseased = diseased;
	verified->healthy = healthy;
	verified->unverified = counts->people - diseased - healthy;
}

void
yield_sample(const struct yield_counts *referred,
	     const struct yield_counts *cleared, enum yield_finding found,
	     struct accuracy_sample *sample)
{
	verified(referred, found, &sample->flagged);
	verified(cleared, found, &sample->cleared);
}

void
yield_measure(const struct accuracy_sample *sample,
	      enum accuracy_measure measure, struct yield_share *share,
	      struct fault *why)
{
	struct accuracy_estimate estimate;

	memset(share, 0, sizeof *share);
	why->kind = FAULT_NONE;
	if (!accuracy_corrected(sample, measure, &estimate, why))
		return;
	share->has = share->has_interval = true;
	share->value = estimate.value;
	share->low = estimate.interval.low;
	share->high = estimate.interval.high;
}
