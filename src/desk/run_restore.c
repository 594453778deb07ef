/* run_restore.c: the register brought back from a copy. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/confirm.h"
#include "desk/copyfacts.h"
#include "keep/keytext.h"
#include "keep/restore.h"

#include <string.h>

static bool
read_pair(const char *path, struct key_pair *pair, struct fault *why)
{
	return keytext_read_private(path, &pair->secret, why) &&
	       sealing_complete_pair(pair, why);
}

static void
tell_here(const struct restore *restore, FILE *out)
{
	long long lost = restore->difference.only_here;

	if (restore->here_is == HERE_CANNOT_BE_READ) {
		fprintf(out, "The register here cannot be read: %s.\n",
			restore->here_fault.sentence);
		fprintf(out, "It may hold people whom the copy does not have; "
			     "'shoal mend' saves what can be read.\n");
		return;
	}
	fprintf(out, "The register here holds:\n");
	copyfacts_write(&restore->here, out);
	if (lost > 0)
		fprintf(out,
			"It has %lld entr%s that the copy does NOT have, and "
			"that would be gone\n"
			"from lists, tallies and corrections.\n",
			lost, lost == 1 ? "y" : "ies");
	if (restore->difference.names_there > 0)
		fprintf(out,
			"Names that were purged here are still in the copy "
			"(%lld) and would be back: purge again then.\n",
			restore->difference.names_there);
}

static bool
may_go_on(struct desk *desk, const struct given *given,
	  const struct restore *restore, struct fault *why)
{
	fprintf(desk->talk, "The copy holds:\n");
	copyfacts_write(&restore->copy, desk->talk);
	if (restore->here_is != HERE_IS_NONE)
		tell_here(restore, desk->talk);
	if (!restore_loses(restore))
		return true;
	fprintf(desk->talk, "The register here is kept aside, not removed.\n");
	return confirm_by_word(desk, given, "restore", why);
}

static void
tell_done(const struct desk *desk, const struct restore *restore)
{
	FILE *out = desk->out;
	char number[REFNUM_SIZE];
	struct refnum next = {restore->copy.station, restore->serial_from};

	fprintf(out, "Restored, people %lld.\n", restore->copy.people);
	if (restore->put.aside[0] != '\0')
		fprintf(out, "The register that stood here: %s\n",
			restore->put.aside);
	if (restore->serial_from >= REFNUM_PAPER_FIRST) {
		fprintf(out, "No number is left: set up a station with a new "
			     "code.\n");
		return;
	}
	refnum_write(next, number);
	fprintf(desk->out, "The next number is %s.\n", number);
	text_write_wrapped(desk->out,
			   "Numbers before that may be on somebody's slip. "
			   "Tell the manager: in the total this register "
			   "counts as a second laptop of the station, and a "
			   "day that both report counts for neither until one "
			   "file is taken away.",
			   desk->columns, 0, 0);
}

/* The pair is on the stack, and goes with it. */
static bool
look(struct desk *desk, const struct given *given, struct restore *restore,
     struct fault *why)
{
	const char *key = given_value(given, "key");
	struct key_pair pair;
	bool done;

	if (key != NULL && !read_pair(key, &pair, why))
		return false;
	done = restore_look(restore, desk->folder, desk->station.code,
			    given->argument[0], key == NULL ? NULL : &pair,
			    why);
	memset(&pair, 0, sizeof pair);
	return done;
}

bool
run_restore(struct desk *desk, const struct given *given, struct fault *why)
{
	struct restore restore;

	if (!look(desk, given, &restore, why))
		return fault_at(why, "nothing was restored");
	if (restore_is_needless(&restore)) {
		restore_drop(&restore);
		fprintf(desk->out, "The register here has everything that the "
				   "copy has. Nothing was changed.\n");
		return true;
	}
	if (!may_go_on(desk, given, &restore, why)) {
		restore_drop(&restore);
		return false;
	}
	if (!restore_put(&restore, desk->today, why))
		return fault_at(why, restore.put.is_there ? "restored, but not "
							    "for sure"
							  : "nothing was "
							    "restored");
	fflush(desk->talk);
	tell_done(desk, &restore);
	return true;
}
