/* settle.c: sums put right once it is known which batches count. */
#include "desk/settle.h"

#include "keep/walk.h"

#include <unistd.h>

/* One file being read again. */
struct again {
	struct settle *settle;
	size_t next, end; /* its entries that are not done yet */
	const char *path;
	bool met_all;
};

static bool
is_wrong(const struct collate_entry *entry)
{
	return collate_counts(entry) != (entry->added == 1);
}

static bool
changed(const char *path, struct fault *why)
{
	return fault_set(why, FAULT_INPUT,
			 "'%s' was changed while it was being read; collate "
			 "again",
			 path);
}

static bool
put_right(struct again *again, struct collate_entry *entry,
	  const struct batch *batch, struct fault *why)
{
	struct settle *settle = again->settle;

	if (batch->mark != entry->mark ||
	    batch->date.number != (int)entry->day ||
	    batch->station != (int)entry->station ||
	    batch->revision != (int)entry->revision)
		return changed(again->path, why);
	entry->added = !entry->added;
	return settle->see(settle->context, batch, entry->added ? 1 : -1, why);
}

/* Goes on to the next wrong entry; those in the program's own form (their
 * place is not negative) or the others. */
static struct collate_entry *
next_wrong(struct again *again, bool own_form)
{
	for (; again->next < again->end; again->next++) {
		struct collate_entry *entry =
			&again->settle->collate->entry[again->next];

		if (is_wrong(entry) && (entry->place >= 0) == own_form)
			return entry;
	}
	return NULL;
}

static bool
read_places(struct again *again, int handle, struct fault *why)
{
	struct collate_entry *entry;
	const struct batch *batch;

	while ((entry = next_wrong(again, true)) != NULL) {
		batch = batchfile_read_at(again->settle->file, handle,
					  entry->place);
		if (batch == NULL)
			return changed(again->path, why);
		if (!put_right(again, entry, batch, why))
			return false;
		again->next++;
	}
	return true;
}

/* A batch_see: stops when all that was wrong has come. */
static bool
see_again(void *context, const struct batch *batch, long long place,
	  struct fault *why)
{
	struct again *again = context;
	struct collate_entry *entry = next_wrong(again, false);

	if (entry == NULL)
		again->met_all = true;
	if (entry == NULL || entry->place != place)
		return entry != NULL;
	again->next++;
	return put_right(again, entry, batch, why);
}

/* Read as CSV there is only the way from the start. Of a file that was refused
 * the batches before the refusal come again, and then the refusal. */
static bool
read_table(struct again *again, int handle, struct fault *why)
{
	struct refusal refusal;

	if (next_wrong(again, false) == NULL)
		return true;
	if (batchfile_read(again->settle->file, handle, 0, true, see_again,
			   again, &refusal, why) == TALLYFILE_STOPPED &&
	    !again->met_all)
		return false;
	return next_wrong(again, false) == NULL || changed(again->path, why);
}

static bool
read_again(struct again *again, int handle, struct fault *why)
{
	size_t first = again->next;

	if (!read_places(again, handle, why))
		return false;
	again->next = first;
	return read_table(again, handle, why);
}

static bool
open_again(struct again *again, const struct spool_record *record,
	   struct fault *why)
{
	struct stat status;
	bool is_input = record->status.st_ino == 0;
	int handle = is_input ? again->settle->input
			      : walk_open_again(record->path, &status);
	bool done = false;

	again->path = record->path;
	if (handle < 0 || (!is_input && !spool_is_same(record, &status)))
		changed(record->path, why);
	else
		done = read_again(again, handle, why);
	if (handle >= 0 && !is_input)
		close(handle);
	return done;
}

bool
settle_sums(struct settle *settle, struct fault *why)
{
	struct collate *collate = settle->collate;
	struct spool_record record;
	unsigned next;

	for (size_t i = 0; i < collate->count; i++) {
		struct again again = {.settle = settle, .next = i, .end = i};

		if (!is_wrong(&collate->entry[i]))
			continue;
		while (again.end < collate->count &&
		       collate->entry[again.end].file == collate->entry[i].file)
			again.end++;
		if (!spool_read(settle->spool, collate->entry[i].file, &record,
				&next, why) ||
		    !open_again(&again, &record, why))
			return false;
		i = again.end - 1;
	}
	return true;
}
