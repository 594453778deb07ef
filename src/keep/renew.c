/* renew.c: a register that goes on from a copy, or from what was left. */
#include "keep/renew.h"

#include "base/day.h"
#include "base/number.h"
#include "base/refnum.h"
#include "keep/book.h"
#include "keep/serials.h"

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

/* The trigger that keeps rows as they are is taken away for the one change, and
 * comes back as it was in the same transaction. */
static bool
change_device(struct store *store, const char *device, struct fault *why)
{
	const char *values[] = {device};
	char trigger[400];

	return store_ask_text(store,
			      "SELECT sql FROM sqlite_schema WHERE name = "
			      "'station_no_update'",
			      NULL, 0, trigger, sizeof trigger, why) &&
	       store_run(store,
			 "INSERT INTO station(name, value) SELECT 'device_' || "
			 "(SELECT count(*) + 1 FROM station WHERE name GLOB "
			 "'device_*'), value FROM station WHERE name = "
			 "'device'; DROP TRIGGER station_no_update;",
			 why) &&
	       store_put(store,
			 "UPDATE station SET value = ?1 WHERE name = 'device'",
			 values, 1, why) &&
	       store_run(store, trigger, why);
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
	const char *values[] = {day, revision};

	return store_put(store,
			 "INSERT INTO tally_written(day, revision, closed, "
			 "mark) SELECT ?1, ?2, (SELECT ifnull(max(closed), 0) "
			 "FROM tally_written WHERE day = ?1), '-' WHERE NOT "
			 "EXISTS (SELECT 1 FROM tally_written WHERE day = ?1 "
			 "AND revision >= CAST(?2 AS INTEGER))",
			 values, 2, why);
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

static bool
renew(const char *path, const char *device, int station, int serial_from,
      const char *tallies, struct fault *why)
{
	struct store store;
	bool done = store_open(&store, path, why);

	store.may_write = true;
	done = done && store_begin(&store, why) &&
	       change_device(&store, device, why) &&
	       serials_keep_from(&store, serial_from, why) &&
	       renew_keep_revisions(&store, tallies, station, why) &&
	       store_commit(&store, why);
	store_close(&store);
	return done;
}

bool
renew_register(const char *path, int serial_from, const char *tallies,
	       struct fault *why)
{
	char device[BOOK_DEVICE_LETTERS + 1];
	struct book book;
	int station;
	bool done = register_open_copy(&book, path, why) &&
		    register_draw_device(book.device, device, why);

	station = book.station;
	register_close(&book);
	return done && renew(path, device, station, serial_from, tallies, why);
}
