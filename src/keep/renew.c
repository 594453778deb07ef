/* renew.c: a register that goes on from a copy, or from what was left. */
#include "keep/renew.h"

#include "base/refnum.h"
#include "keep/book.h"
#include "keep/serials.h"

#include <stdio.h>

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

static bool
renew(struct store *store, const char *device, int serial_from,
      struct fault *why)
{
	store->may_write = true;
	return store_begin(store, why) && change_device(store, device, why) &&
	       serials_keep_from(store, serial_from, why) &&
	       store_commit(store, why);
}

bool
renew_register(const char *path, int serial_from, struct fault *why)
{
	char device[BOOK_DEVICE_LETTERS + 1];
	struct book book;
	struct store store;
	bool done = register_open_copy(&book, path, why) &&
		    register_draw_device(book.device, device, why);

	register_close(&book);
	if (!done)
		return false;
	done = store_open(&store, path, why) &&
	       renew(&store, device, serial_from, why);
	store_close(&store);
	return done;
}
