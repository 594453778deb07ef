/* run_mend.c: what can be read of a damaged register, in a new one. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/copyfacts.h"
#include "keep/mend.h"

enum { MISSING_SHOWN = 50 };

struct missing {
	FILE *out;
	int count;
};

static void
tell_missing(void *context, struct refnum number)
{
	struct missing *missing = context;
	char written[REFNUM_SIZE];

	if (missing->count++ == 0)
		fprintf(missing->out, "Numbers that have a slip, and no entry "
				      "any more:\n");
	if (missing->count > MISSING_SHOWN)
		return;
	refnum_write(number, written);
	fprintf(missing->out, " %s\n", written);
}

static void
say(const struct desk *desk, const char *words)
{
	text_write_wrapped(desk->out, words, desk->columns, 0, 0);
}

static void
tell_done(const struct desk *desk, const struct mend_done *done)
{
	char number[REFNUM_SIZE];
	struct refnum next = {done->facts.station, done->serial_from};

	fprintf(desk->out, "Mended. The new register holds:\n");
	copyfacts_write(&done->facts, desk->out);
	fprintf(desk->out, " entries lost %lld, rows refused %lld\n",
		done->lost, done->refused);
	fprintf(desk->out, "The damaged one: %s\n", done->put.aside);
	if (done->serial_from < REFNUM_PAPER_FIRST) {
		refnum_write(next, number);
		fprintf(desk->out, "The next number is %s.\n", number);
	}
	say(desk, "A lost entry may have been a correction, and a single "
		  "letter or digit may have changed unseen: compare with the "
		  "slips, type in who is missing as a paper day, and tell the "
		  "manager, in whose total this counts as another laptop of "
		  "the same station.");
}

bool
run_mend(struct desk *desk, const struct given *given, struct fault *why)
{
	struct missing missing = {desk->talk, 0};
	struct mend_done done = {0};
	bool sound = false;

	(void)given;
	if (!mend_register(desk->folder, desk->station.code, desk->today,
			   tell_missing, &missing, &sound, &done, why))
		return fault_at(why, done.put.is_there ? "mended, but not for "
							 "sure"
						       : "not mended");
	if (missing.count > MISSING_SHOWN)
		fprintf(desk->talk, " and %d more\n",
			missing.count - MISSING_SHOWN);
	fflush(desk->talk);
	if (sound)
		fprintf(desk->out, "The register is sound. Nothing was "
				   "changed.\n");
	else
		tell_done(desk, &done);
	return true;
}
