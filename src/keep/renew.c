/* renew.c: a register that goes on from a copy, or from what was left. */
#include "keep/renew.h"

#include "base/day.h"
#include "base/number.h"
#include "base/refnum.h"
#include "keep/book.h"
#include "keep/rowmark.h"
#include "keep/schema.h"
#include "keep/serials.h"
#include "keep/stationrow.h"
#include "keep/upgrade.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>

enum { REVISION_MOST = 1000000 };

int
renew_serial(int last, int step)
{
	int next = step <= 1 ? last + 1 : (last / step + 1) * step + 1;

	return next > REFNUM_PAPER_FIRST ? REFNUM_PAPER_FIRST : next;
}

static bool
change_device(struct store *store, const char *former, const char *device,
	      struct fault *why)
{
	return stationrow_add_next(store, "device", former, why) &&
	       stationrow_change(store, "device", device, why);
}

/* Of a file's name, tally-SSSS-YYYY-MM-DD-rN.csv. */
static bool
read_name(const char *name, int station, char *day, char *revision)
{
	char begins[20];
	struct fault ignored;
	struct day read;
	long number;
	size_t digits;

	snprintf(begins, sizeof begins, "tally-%04u-",
		 (unsigned)station % 10000);
	if (strncmp(name, begins, 11) != 0 || strlen(name) < 23 ||
	    strncmp(name + 21, "-r", 2) != 0)
		return false;
	snprintf(day, DAY_SIZE, "%.10s", name + 11);
	digits = strspn(name + 23, "0123456789");
	snprintf(revision, STORE_NUMBER_SIZE, "%.*s", (int)digits, name + 23);
	return strcmp(name + 23 + digits, ".csv") == 0 &&
	       day_read(day, &read, &ignored) &&
	       number_read(revision, 1, REVISION_MOST, "", &number, &ignored);
}

/* With a mark that no content has, so that what is made next differs. A day
 * that is known as closed stays so. */
static bool
keep_revision(struct store *store, const char *day, const char *revision,
	      struct fault *why)
{
	char known[STORE_NUMBER_SIZE], closed[STORE_NUMBER_SIZE];
	const char *tally[] = {day, revision, closed, "-"};

	if (!store_ask_text(store,
			    "SELECT 1 FROM tally_written WHERE day = ?1 AND "
			    "revision >= CAST(?2 AS INTEGER) LIMIT 1",
			    tally, 2, known, sizeof known, why))
		return false;
	return known[0] != '\0' ||
	       (store_ask_text(store,
			       "SELECT ifnull(max(closed), 0) FROM "
			       "tally_written WHERE day = ?1",
			       tally, 1, closed, sizeof closed, why) &&
		rowmark_add(store, "tally_written", tally, 4, why));
}

bool
renew_keep_revisions(struct store *store, const char *tallies, int station,
		     struct fault *why)
{
	char day[DAY_SIZE], revision[STORE_NUMBER_SIZE];
	DIR *listing = opendir(tallies);
	const struct dirent *one;
	bool done = true;

	if (listing == NULL)
		return true;
	/* cppcheck-suppress readdirCalled */
	while (done && (one = readdir(listing)) != NULL)
		if (read_name(one->d_name, station, day, revision))
			done = keep_revision(store, day, revision, why);
	closedir(listing);
	return done;
}

/* What the file is now, and what it goes on as. */
struct renewal {
	int form, station, serial_from;
	char former[BOOK_DEVICE_LETTERS + 1], device[BOOK_DEVICE_LETTERS + 1];
	const char *tallies;
};

static bool
renew(struct store *store, const struct renewal *renewal, struct fault *why)
{
	store->may_write = true;
	return store_begin(store, why) &&
	       (renewal->form == SCHEMA_VERSION ||
		upgrade_in_place(store, renewal->form, why)) &&
	       change_device(store, renewal->former, renewal->device, why) &&
	       serials_keep_from(store, renewal->serial_from, why) &&
	       renew_keep_revisions(store, renewal->tallies, renewal->station,
				    why) &&
	       store_commit(store, why);
}

bool
renew_register(const char *path, int serial_from, const char *tallies,
	       struct fault *why)
{
	struct renewal renewal = {0, 0, serial_from, "", "", tallies};
	struct store store;
	struct book book;
	bool done = register_open_copy(&book, path, why) &&
		    register_draw_device(book.device, renewal.device, why);

	renewal.form = book.form;
	renewal.station = book.station;
	memcpy(renewal.former, book.device, sizeof renewal.former);
	register_close(&book);
	if (!done)
		return false;
	done = store_open(&store, path, why) && renew(&store, &renewal, why);
	store_close(&store);
	return done;
}
