/* collating.c: everything given is read, and every file accounted for. */
#include "desk/collating.h"

#include "base/text.h"
#include "counts/collate.h"
#include "desk/accounts.h"
#include "desk/progress.h"
#include "desk/settle.h"
#include "keep/batchfile.h"
#include "keep/intake.h"
#include "keep/spool.h"
#include "keep/walk.h"

#include <string.h>
#include <unistd.h>

struct collating {
	struct desk *desk;
	const struct onlooker *onlooker;
	size_t onlookers;
	struct collating_totals *totals;
	struct progress progress;
	struct collate collate;
	struct walk walk;
	struct spool spool;
	int input;		    /* of standard input, or -1 */
	struct stat output;	    /* of standard output, when it is a file */
	struct spool_record record; /* of the file at hand */
	struct batchfile file;
};

/* --- telling -------------------------------------------------------------- */

static bool
tell_tally(const struct onlooker *one, const struct gather *tally, int sign,
	   struct fault *why)
{
	for (int row = 0; one->row != NULL && row < tally->batch.count; row++)
		if (!one->row(one->context, &tally->row[row], sign, why))
			return false;
	return true;
}

static bool
tell_yield(const struct onlooker *one, const struct yieldgather *yield,
	   int sign, struct fault *why)
{
	for (int row = 0; one->yield_row != NULL && row < yield->batch.count;
	     row++)
		if (!one->yield_row(one->context, &yield->row[row], sign, why))
			return false;
	return true;
}

/* Of the batch that was read last. */
static bool
tell_rows(struct collating *all, int sign, struct fault *why)
{
	const struct batchfile *file = &all->file;

	for (size_t i = 0; i < all->onlookers; i++) {
		const struct onlooker *one = &all->onlooker[i];

		if (batchfile_holds_yields(file)
			    ? !tell_yield(one, &file->of.yield.gather, sign,
					  why)
			    : !tell_tally(one, &file->of.tally.gather, sign,
					  why))
			return false;
	}
	return true;
}

/* A settle_see. */
static bool
see_settled(void *context, const struct batch *batch, int sign,
	    struct fault *why)
{
	(void)batch;
	return tell_rows(context, sign, why);
}

/* A ledger_see. */
static bool
see_line(void *context, const struct ledger_line *line, struct fault *why)
{
	struct collating *all = context;

	all->totals->of[line->status]++;
	for (size_t i = 0; i < all->onlookers; i++) {
		const struct onlooker *one = &all->onlooker[i];

		if (one->line != NULL && !one->line(one->context, line, why))
			return false;
	}
	return true;
}

/* --- reading -------------------------------------------------------------- */

/* A batch_see. */
static bool
see_batch(void *context, const struct batch *batch, long long place,
	  struct fault *why)
{
	struct collating *all = context;
	bool adds;

	progress_show(&all->progress, all->totals->files + 1,
		      (long long)all->collate.count + 1);
	return collate_add(&all->collate, batch, all->spool.end, place, &adds,
			   why) &&
	       (!adds || tell_rows(all, 1, why));
}

static bool
keep_record(struct collating *all, enum spool_kind kind, struct fault *why)
{
	unsigned number;

	all->record.kind = kind;
	if (kind != SPOOL_PASSED_OVER)
		all->totals->files++;
	return spool_add(&all->spool, &all->record, &number, why);
}

static bool
refuse(struct collating *all, const struct refusal *refusal, struct fault *why)
{
	all->record.row = refusal->row;
	text_copy(all->record.column, sizeof all->record.column,
		  refusal->column);
	text_copy(all->record.reason, sizeof all->record.reason,
		  refusal->fault.sentence);
	return keep_record(
		all, refusal->passed_over ? SPOOL_PASSED_OVER : SPOOL_REFUSED,
		why);
}

static bool
read_handle(struct collating *all, int handle, struct fault *why)
{
	size_t first = all->collate.count;
	struct refusal refusal;

	switch (batchfile_read(&all->file, handle, all->record.status.st_size,
			       false, see_batch, all, &refusal, why)) {
	case TALLYFILE_READ:
		return keep_record(all, SPOOL_READ, why);
	case TALLYFILE_REFUSED:
		collate_drop(&all->collate, first);
		return refuse(all, &refusal, why);
	case TALLYFILE_STOPPED:
		break;
	}
	return false;
}

/* The inode 0 stands for standard input, which has no path to open again. */
static bool
read_input(struct collating *all, struct fault *why)
{
	struct refusal refusal = {.column = "", .passed_over = false};
	int handle = -1;

	text_copy(all->record.path, sizeof all->record.path, "standard input");
	if (all->input >= 0)
		fault_set(&refusal.fault, FAULT_INPUT, "it is given twice");
	else
		handle = intake_open(fileno(all->desk->in), &all->record.status,
				     &refusal.fault);
	all->record.status.st_ino = 0;
	if (handle >= 0) {
		all->input = handle;
		return read_handle(all, handle, why);
	}
	if (refusal.fault.kind == FAULT_INPUT)
		return refuse(all, &refusal, why);
	*why = refusal.fault;
	return false;
}

/* "shoal collate . > total.csv" makes the file before it is met. */
static bool
is_own_output(const struct collating *all, const struct stat *status)
{
	return all->output.st_ino != 0 &&
	       all->output.st_ino == status->st_ino &&
	       all->output.st_dev == status->st_dev;
}

static bool
read_file(struct collating *all, struct fault *why)
{
	bool done;

	all->record.status = all->walk.status;
	if (is_own_output(all, &all->walk.status)) {
		text_copy(all->record.reason, sizeof all->record.reason,
			  "the sums are being written there");
		done = keep_record(all, SPOOL_PASSED_OVER, why);
	} else {
		done = read_handle(all, all->walk.handle, why);
	}
	close(all->walk.handle);
	return done;
}

static bool
meet(struct collating *all, enum walk_kind kind, struct fault *why)
{
	struct spool_record *record = &all->record;

	memset(&record->status, 0, sizeof record->status);
	record->row = 0;
	record->column[0] = record->reason[0] = '\0';
	text_copy(record->path, sizeof record->path, all->walk.path);
	progress_show(&all->progress, all->totals->files,
		      (long long)all->collate.count);
	if (kind == WALK_FILE)
		return read_file(all, why);
	if (kind == WALK_INPUT)
		return read_input(all, why);
	text_copy(record->reason, sizeof record->reason,
		  all->walk.reason.sentence);
	return keep_record(
		all, kind == WALK_REFUSED ? SPOOL_REFUSED : SPOOL_PASSED_OVER,
		why);
}

static bool
read_all(struct collating *all, struct fault *why)
{
	enum walk_kind kind;

	for (;;) {
		if (!walk_next(&all->walk, &kind, why))
			return false;
		if (kind == WALK_END)
			return true;
		if (!meet(all, kind, why))
			return false;
	}
}

/* --- all of it ------------------------------------------------------------ */

static bool
settle(struct collating *all, struct fault *why)
{
	struct settle settle = {.collate = &all->collate,
				.spool = &all->spool,
				.file = &all->file,
				.input = all->input,
				.see = see_settled,
				.context = all};

	collate_settle(&all->collate);
	return settle_sums(&settle, why);
}

static void
look_at_output(FILE *out, struct stat *output)
{
	int handle = fileno(out);

	if (handle < 0 || fstat(handle, output) != 0 ||
	    !S_ISREG(output->st_mode))
		output->st_ino = 0;
}

static bool
run(struct collating *all, struct fault *why)
{
	bool done;

	progress_begin(&all->progress, all->desk);
	done = read_all(all, why) && settle(all, why);
	progress_end(&all->progress);
	return done && accounts_visit(&all->collate, &all->spool,
				      all->file.kind, see_line, all, why);
}

bool
collating_run(struct desk *desk, const struct batch_kind *kind,
	      const char *const path[], size_t paths,
	      const struct onlooker *onlooker, size_t onlookers,
	      struct collating_totals *totals, struct fault *why)
{
	struct collating all;
	bool done = false;

	all.desk = desk;
	all.onlooker = onlooker;
	all.onlookers = onlookers;
	all.totals = totals;
	all.input = -1;
	*totals = (struct collating_totals){0};
	collate_init(&all.collate, kind->grows);
	batchfile_begin(&all.file, kind);
	look_at_output(desk->out, &all.output);
	if (spool_begin(&all.spool, why)) {
		done = walk_begin(&all.walk, path, paths, why);
		if (done) {
			done = run(&all, why);
			walk_release(&all.walk);
		}
		spool_release(&all.spool);
	}
	collate_release(&all.collate);
	if (all.input >= 0)
		close(all.input);
	return done;
}

int
collating_columns(const struct desk *desk)
{
	return desk->talk_can_rewrite ? desk->columns : 0;
}
