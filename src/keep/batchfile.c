/* batchfile.c: a file of tallies, or of yields, read and checked whole. */
#include "keep/batchfile.h"

void
batchfile_begin(struct batchfile *file, const struct batch_kind *kind)
{
	file->kind = kind;
	if (!batchfile_holds_yields(file))
		tallyfile_begin(&file->of.tally);
}

bool
batchfile_holds_yields(const struct batchfile *file)
{
	return file->kind == &yieldgather_kind;
}

/* There are few yields, so the reader of CSV has time for all of them. */
static enum tallyfile_end
read_yields(struct batchfile *file, int handle, batch_see *see, void *context,
	    struct refusal *refusal, struct fault *why)
{
	struct batchtable table = {.kind = file->kind,
				   .gather = &file->of.yield.gather.batch,
				   .row = &file->of.yield.row,
				   .see = see,
				   .context = context,
				   .refusal = refusal};

	if (batchtable_read(&table, handle, why))
		return TALLYFILE_READ;
	return table.stopped ? TALLYFILE_STOPPED : TALLYFILE_REFUSED;
}

enum tallyfile_end
batchfile_read(struct batchfile *file, int handle, long long size, bool as_csv,
	       batch_see *see, void *context, struct refusal *refusal,
	       struct fault *why)
{
	if (batchfile_holds_yields(file))
		return read_yields(file, handle, see, context, refusal, why);
	return tallyfile_read(&file->of.tally, handle, size, as_csv, see,
			      context, refusal, why);
}

const struct batch *
batchfile_read_at(struct batchfile *file, int handle, long long place)
{
	if (batchfile_holds_yields(file) ||
	    !tallyfile_read_at(&file->of.tally, handle, place))
		return NULL;
	return &file->of.tally.gather.batch;
}
