/* upgrade.c: a register of an older form brought up to date. */
#include "keep/upgrade.h"

#include "keep/rowmark.h"
#include "keep/safefile.h"
#include "keep/schema.h"

#include <stdio.h>
#include <unistd.h>

enum { COPIES_MOST = 99 };

/* The first name that is free. */
static bool
name_copy(const char *path, int from, char *name, struct fault *why)
{
	for (int i = 1; i <= COPIES_MOST; i++) {
		int needed = snprintf(name, STOREFILE_PATH_SIZE,
				      i == 1 ? "%s.v%d" : "%s.v%d-%d", path,
				      from, i);

		if (needed >= STOREFILE_PATH_SIZE)
			break;
		if (!safefile_exists(name))
			return true;
	}
	return fault_set(why, FAULT_REGISTER,
			 "no name is left for the copy that is made first; "
			 "move the files '%.*s.v%d-...' to another place",
			 STOREFILE_SHOWN, path, from);
}

/* By another connection: the one that holds the lock is in a transaction, and
 * reading the file past SQLite would drop that lock
 * (https://www.sqlite.org/howtocorrupt.html 2.2). */
static bool
copy_into(const char *path, const char *temporary, struct fault *why)
{
	const char *values[] = {temporary};
	struct store store;
	bool done = store_open(&store, path, why) &&
		    store_put(&store, "VACUUM INTO ?1", values, 1, why);

	store_close(&store);
	return done;
}

/* Writes the name of the copy that it makes. */
static bool
back_up(const struct store *store, int from, char *name, struct fault *why)
{
	const struct storefile_form form = {schema_form.application_id, from};
	struct safefile file;

	if (!name_copy(store->path, from, name, why))
		return false;
	if (safefile_open(&file, name, why)) {
		if (copy_into(store->path, file.temporary, why) &&
		    storefile_check(file.temporary, &form, why) &&
		    safefile_commit(&file, SAFEFILE_FIRST, why))
			return true;
		storefile_drop(&file);
	}
	why->kind = FAULT_REGISTER;
	return false;
}

static bool
mark_rows(struct store *store, struct fault *why)
{
	static const char *const tables[] = {"reply", "station",
					     "tally_written", "visit"};

	for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++)
		if (!rowmark_renew(store, tables[i], why))
			return false;
	return true;
}

bool
upgrade_in_place(struct store *store, int from, struct fault *why)
{
	char version[sizeof "PRAGMA user_version = 2147483647"];
	struct schema schema;

	schema_make(&schema, from, SCHEMA_VERSION);
	snprintf(version, sizeof version, "PRAGMA user_version = %d",
		 SCHEMA_VERSION);
	return store_run(store, schema.text, why) &&
	       (from >= SCHEMA_MARKED || mark_rows(store, why)) &&
	       store_run(store, version, why);
}

/* On a full disk each try would leave one more copy, of what is still there. */
static bool
copy_and_add(struct store *store, int from, struct fault *why)
{
	char name[STOREFILE_PATH_SIZE];

	if (!back_up(store, from, name, why))
		return false;
	if (upgrade_in_place(store, from, why) && store_commit(store, why))
		return true;
	store_undo(store);
	if (!store_is_begun(store))
		unlink(name);
	return false;
}

bool
upgrade_store(struct store *store, int from, struct fault *why)
{
	long long now;

	if (!store_begin(store, why))
		return false;
	if (store_ask_number(store, "PRAGMA user_version", &now, why)) {
		if (now != from) {
			store_undo(store);
			return true;
		}
		if (copy_and_add(store, from, why))
			return true;
	}
	store_undo(store);
	return fault_at(why, "the register is of an older form and could not "
			     "be brought up to date; it is as it was");
}
