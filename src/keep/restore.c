/* restore.c: a copy of the register brought back into a station's folder. */
#include "keep/restore.h"

#include "keep/hold.h"
#include "keep/renew.h"
#include "keep/scrub.h"
#include "keep/serials.h"
#include "keep/storefile.h"

#include <string.h>

enum { SERIALS_SKIPPED = 1000, FAMILY_LETTERS = 4 };

/* --- looking at the copy -------------------------------------------------- */

static bool
unseal(struct restore *restore, const char *name, const struct key_pair *pair,
       struct fault *why)
{
	return pair == NULL ? fault_set(why, FAULT_INPUT,
					"'%.300s' is sealed; give the file of "
					"the private key with --key FILE",
					name)
			    : sealing_unseal(name, &restore->file, pair, why);
}

static bool
fetch_plain(struct restore *restore, const char *name, struct fault *why)
{
	char real[STOREFILE_PATH_SIZE];
	struct book copy;
	bool done = register_open_copy(&copy, name, why);

	register_close(&copy);
	if (done)
		return storefile_resolve(name, real, why) &&
		       copies_make(real, restore->file.temporary, why);
	/* Whoever names a copy is not helped by the register's exit status. */
	why->kind = FAULT_INPUT;
	return false;
}

static bool
fetch(struct restore *restore, const char *name, const struct key_pair *pair,
      struct fault *why)
{
	struct sealing_label label;
	bool sealed;

	if (!sealing_look(name, &sealed, &label, why))
		return false;
	return sealed ? unseal(restore, name, pair, why)
		      : fetch_plain(restore, name, why);
}

static bool
check_copy(struct restore *restore, int station, struct fault *why)
{
	struct book copy;
	bool done = register_open_copy(&copy, restore->file.temporary, why) &&
		    copies_check(&copy, why) &&
		    copies_read_facts(&copy, &restore->copy, why);

	register_close(&copy);
	if (!done)
		return fault_at(why, "the copy is no use");
	return restore->copy.station == station ||
	       fault_set(why, FAULT_INPUT,
			 "the copy is of station %04d, and this folder is "
			 "station %04d's",
			 restore->copy.station, station);
}

/* --- looking at the folder ------------------------------------------------ */

static bool
compare(struct restore *restore, struct book *here, struct fault *why)
{
	struct book copy;
	bool done = register_open_copy(&copy, restore->file.temporary, why) &&
		    copies_compare(here, &copy, &restore->difference, why);

	register_close(&copy);
	return done;
}

/* A register that cannot be read is no reason to stop: it may be why a copy is
 * wanted. */
static void
look_here(struct restore *restore, const char *folder)
{
	struct book here;
	struct fault *why = &restore->here_fault;

	restore->here_is = HERE_IS_NONE;
	if (!safefile_exists(restore->file.path))
		return;
	restore->here_is = HERE_CANNOT_BE_READ;
	if (register_open(&here, folder, BOOK_READ, why) &&
	    copies_check(&here, why) &&
	    copies_read_facts(&here, &restore->here, why) &&
	    compare(restore, &here, why))
		restore->here_is = HERE_IS_SOUND;
	register_close(&here);
}

static bool
read_from(const char *path, int *from, struct fault *why)
{
	struct book book;
	bool done = register_open_copy(&book, path, why) &&
		    serials_read_from(&book.store, book.form, from, why);

	register_close(&book);
	return done;
}

static int
larger(int one, int other)
{
	return one > other ? one : other;
}

static bool
find_serial(struct restore *restore, const char *folder, struct fault *why)
{
	const struct copy_facts *here = &restore->here, *copy = &restore->copy;
	bool is_sound = restore->here_is == HERE_IS_SOUND;
	bool knows_all = is_sound && restore->difference.only_there == 0 &&
			 memcmp(here->device, copy->device, FAMILY_LETTERS) ==
				 0;
	char slips[SAFEFILE_PATH_SIZE];
	int from = 1, from_here = 1, last;

	if (!safefile_join(slips, sizeof slips, folder, "slips", why) ||
	    !read_from(restore->file.temporary, &from, why) ||
	    (is_sound && !read_from(restore->file.path, &from_here, why)))
		return false;
	last = larger(copy->last.serial, is_sound ? here->last.serial : 0);
	last = larger(last, larger(from, from_here) - 1);
	last = larger(last, serials_of_slips(slips, copy->station));
	restore->serial_from =
		renew_serial(last, knows_all ? 1 : SERIALS_SKIPPED);
	return true;
}

bool
restore_look(struct restore *restore, const char *folder, int station,
	     const char *name, const struct key_pair *pair, struct fault *why)
{
	char path[STOREFILE_PATH_SIZE];

	restore->difference = (struct copy_difference){0, 0, 0};
	if (!storefile_path(folder, "register.db", path, why) ||
	    !safefile_join(restore->tallies, sizeof restore->tallies, folder,
			   "tallies", why) ||
	    !hold_take(folder, HOLD_ALONE, &restore->hold, why))
		return false;
	if (!safefile_open(&restore->file, path, why)) {
		hold_end(&restore->hold);
		return false;
	}
	if (fetch(restore, name, pair, why) &&
	    check_copy(restore, station, why)) {
		look_here(restore, folder);
		if (find_serial(restore, folder, why))
			return true;
	}
	restore_drop(restore);
	return false;
}

/* --- deciding and doing --------------------------------------------------- */

bool
restore_loses(const struct restore *restore)
{
	return restore->here_is == HERE_CANNOT_BE_READ ||
	       (restore->here_is == HERE_IS_SOUND &&
		(restore->difference.only_here > 0 ||
		 restore->difference.names_there > 0));
}

bool
restore_is_needless(const struct restore *restore)
{
	return restore->here_is == HERE_IS_SOUND &&
	       restore->difference.only_here == 0 &&
	       restore->difference.only_there == 0 &&
	       restore->difference.names_there == 0 &&
	       restore->here.entries > 0;
}

bool
restore_put(struct restore *restore, struct day today, struct fault *why)
{
	bool done;

	restore->put.is_there = false;
	if (!renew_register(restore->file.temporary, restore->serial_from,
			    restore->tallies, why)) {
		restore_drop(restore);
		return false;
	}
	done = setaside_commit(&restore->file, today, &restore->put, why);
	hold_end(&restore->hold);
	return done;
}

void
restore_drop(struct restore *restore)
{
	struct fault ignored;

	scrub_file(restore->file.temporary, &ignored);
	safefile_drop(&restore->file);
	hold_end(&restore->hold);
}
