/* mend.c: what can be read of a damaged register goes into a new one. */
#include "keep/mend.h"

#include "base/text.h"
#include "keep/gleaning.h"
#include "keep/hold.h"
#include "keep/lookup.h"
#include "keep/renew.h"
#include "keep/salvage.h"
#include "keep/serials.h"
#include "keep/stationrow.h"

#include <stdio.h>
#include <string.h>

enum { SERIALS_SKIPPED = 100 };

/* Where things are, and whom to tell of numbers that are missing. */
struct places {
	const char *slips, *tallies;
	int station;
	mend_hear *hear;
	void *context;
};

/* --- soundness ------------------------------------------------------------ */

/* What a killed program left is undone by opening. */
static bool
is_sound(const char *folder)
{
	struct fault ignored;
	struct book book;
	bool sound = register_open(&book, folder, BOOK_READ, &ignored) &&
		     copies_check(&book, &ignored);

	register_close(&book);
	return sound;
}

/* --- the new one ---------------------------------------------------------- */

static bool
build(struct gleaning *gleaning, const char *path, const char *tallies,
      struct mend_done *done, struct fault *why)
{
	struct store *store = &gleaning->store;

	if (!gleaning_begin(gleaning, why) ||
	    !salvage_visit(path, gleaning_take, gleaning, why))
		return false;
	if (gleaning->people == 0)
		return fault_set(why, FAULT_REGISTER,
				 "nobody's entry can be read in it; restore "
				 "the last backup copy with 'shoal restore'");
	done->serial_from = renew_serial(gleaning->last, SERIALS_SKIPPED);
	done->refused = gleaning->refused;
	return gleaning_end(gleaning, &done->lost, why) &&
	       (gleaning->device[0] == '\0' ||
		stationrow_add(store, "device_1", gleaning->device, why)) &&
	       serials_keep_from(store, done->serial_from, why) &&
	       renew_keep_revisions(store, tallies, gleaning->station, why) &&
	       store_commit(store, why);
}

/* The device's letters have to be known before there is a store to read into:
 * so the file is read twice. */
static bool
fill(struct safefile *file, const struct places *places, struct mend_done *done,
     struct fault *why)
{
	struct gleaning gleaning;
	bool built;

	memset(&gleaning, 0, sizeof gleaning);
	gleaning.station = places->station;
	gleaning.last = serials_of_slips(places->slips, places->station);
	if (!salvage_visit(file->path, gleaning_look, &gleaning, why) ||
	    !register_fill(file->temporary, places->station,
			   gleaning.device[0] == '\0' ? NULL : gleaning.device,
			   why))
		return false;
	built = store_open(&gleaning.store, file->temporary, why) &&
		build(&gleaning, file->path, places->tallies, done, why);
	store_close(&gleaning.store);
	return built;
}

/* --- numbers without an entry --------------------------------------------- */

static bool
has_slip(const struct places *places, struct refnum number)
{
	char path[SAFEFILE_PATH_SIZE], name[REFNUM_SIZE + 8];
	char written[REFNUM_SIZE];
	struct fault ignored;

	refnum_write(number, written);
	snprintf(name, sizeof name, "%s.txt", written);
	return safefile_join(path, sizeof path, places->slips, name,
			     &ignored) &&
	       safefile_exists(path);
}

static bool
tell_missing(struct book *book, const struct places *places, int last,
	     struct fault *why)
{
	for (int serial = 1; serial <= last; serial++) {
		struct refnum number = {places->station, serial};
		struct visit visit;

		if (!has_slip(places, number))
			continue;
		if (register_find(book, number, &visit, NULL, why))
			continue;
		if (why->kind != FAULT_INPUT)
			return false;
		places->hear(places->context, number);
	}
	return true;
}

static bool
check_new(const char *path, struct mend_done *done, const struct places *places,
	  struct fault *why)
{
	struct book book;
	bool sound = register_open_copy(&book, path, why) &&
		     copies_check(&book, why) &&
		     copies_read_facts(&book, &done->facts, why) &&
		     tell_missing(&book, places, done->serial_from - 1, why);

	register_close(&book);
	return sound;
}

static bool
mend(const char *path, struct day today, const struct places *places,
     struct mend_done *done, struct fault *why)
{
	struct safefile file;

	if (!safefile_open(&file, path, why))
		return false;
	if (!fill(&file, places, done, why) ||
	    !check_new(file.temporary, done, places, why)) {
		safefile_drop(&file);
		return false;
	}
	return setaside_commit(&file, today, &done->put, why);
}

bool
mend_register(const char *folder, int station, struct day today,
	      mend_hear *hear, void *context, bool *sound,
	      struct mend_done *done, struct fault *why)
{
	char path[STOREFILE_PATH_SIZE], slips[SAFEFILE_PATH_SIZE];
	char tallies[SAFEFILE_PATH_SIZE];
	const struct places places = {slips, tallies, station, hear, context};
	bool mended = true;
	int hold;

	if (!storefile_path(folder, "register.db", path, why) ||
	    !safefile_join(slips, sizeof slips, folder, "slips", why) ||
	    !safefile_join(tallies, sizeof tallies, folder, "tallies", why))
		return false;
	if (!safefile_exists(path))
		return fault_set(why, FAULT_REGISTER,
				 "'%.300s' is not there; bring it back from a "
				 "copy with 'shoal restore'",
				 path);
	if (!hold_take(folder, HOLD_ALONE, &hold, why))
		return false;
	*sound = is_sound(folder);
	if (!*sound)
		mended = mend(path, today, &places, done, why);
	hold_end(&hold);
	if (!mended)
		why->kind = FAULT_REGISTER;
	return mended;
}
