/* book.c: the file of the register: its tables, how it is made and opened. */
#include "keep/book.h"

#include "base/number.h"
#include "base/text.h"
#include "base/refnum.h"
#include "keep/hold.h"
#include "keep/safefile.h"
#include "keep/schema.h"
#include "keep/stationrow.h"
#include "keep/upgrade.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

enum { DEVICE_LETTERS = BOOK_DEVICE_LETTERS, FAMILY_LETTERS = 4 };

static const char file_name[] = "register.db";

/* --- making --------------------------------------------------------------- */

/* Letters of equal chance: bytes from 234 (nine times 26) on are drawn
 * again. */
bool
register_draw_device(const char *family, char *device, struct fault *why)
{
	int count = family == NULL ? 0 : FAMILY_LETTERS;

	if (family != NULL)
		memcpy(device, family, FAMILY_LETTERS);

	while (count < DEVICE_LETTERS) {
		unsigned char byte;

		if (getrandom(&byte, 1, 0) != 1)
			return fault_set(why, FAULT_REGISTER,
					 "no random letters could be drawn: %s",
					 strerror(errno));
		if (byte < 234)
			device[count++] = (char)('A' + byte % 26);
	}
	device[count] = '\0';
	return true;
}

static bool
fill(struct store *store, int station, const char *device, struct fault *why)
{
	char script[SCHEMA_SIZE + 200], code[STORE_NUMBER_SIZE];
	struct schema schema;

	schema_make(&schema, 0, SCHEMA_VERSION);
	snprintf(script, sizeof script,
		 "PRAGMA application_id = %ld; PRAGMA user_version = %ld; %s",
		 schema_form.application_id, schema_form.version, schema.text);
	snprintf(code, sizeof code, "%d", station);
	store->may_write = true;
	return store_begin(store, why) && store_run(store, script, why) &&
	       stationrow_add(store, "station", code, why) &&
	       stationrow_add(store, "device", device, why) &&
	       store_commit(store, why);
}

bool
register_fill(const char *path, int station, const char *family,
	      struct fault *why)
{
	char device[DEVICE_LETTERS + 1];
	struct store store;
	bool done;

	if (!register_draw_device(family, device, why))
		return false;
	done = store_open(&store, path, why) &&
	       fill(&store, station, device, why);
	store_close(&store);
	return done;
}

bool
register_create(const char *folder, int station, struct fault *why)
{
	char path[STOREFILE_PATH_SIZE];
	struct safefile file;

	if (!storefile_path(folder, file_name, path, why) ||
	    !storefile_check_absent(path, why))
		return false;
	if (safefile_open(&file, path, why)) {
		if (register_fill(file.temporary, station, NULL, why) &&
		    safefile_commit(&file, SAFEFILE_FIRST, why))
			return true;
		storefile_drop(&file);
	}
	why->kind = FAULT_REGISTER;
	return false;
}

/* --- opening -------------------------------------------------------------- */

/* SQLite does not miss a part of the last page. The row found keeps others
 * from saving meanwhile, so the length is that of a whole file. */
static bool
check_length(struct store *store, struct fault *why)
{
	long long pages, page;
	struct store_row row;
	struct stat status;
	bool done;

	if (!store_ask(store, "SELECT count(*) FROM sqlite_schema", NULL, 0,
		       &row, why))
		return false;
	done = store_ask_number(store, "PRAGMA page_count", &pages, why) &&
	       store_ask_number(store, "PRAGMA page_size", &page, why);
	if (done && lstat(store->path, &status) != 0)
		done = fault_set(why, FAULT_REGISTER,
				 "'%.*s' cannot be read: %s", STOREFILE_SHOWN,
				 store->path, strerror(errno));
	else if (done && status.st_size < pages * page)
		done = store_found_damaged(store, why);
	store_end(&row);
	return done;
}

/* The form once more: storefile_check does not look beside a journal. */
static bool
read_form(struct book *book, struct fault *why)
{
	struct store *store = &book->store;
	struct storefile_form found;
	long long id, version;

	if (!store_ask_number(store, "PRAGMA application_id", &id, why) ||
	    !store_ask_number(store, "PRAGMA user_version", &version, why))
		return false;
	found.application_id = (long)id;
	found.version = (long)version;
	book->form = (int)version;
	return storefile_check_form(store->path, &schema_form, &found, why) &&
	       schema_check(store, book->form, why);
}

static bool
check_writable(struct store *store, const char *folder, struct fault *why)
{
	if (access(folder, W_OK) != 0)
		return fault_set(why, FAULT_REGISTER,
				 "the folder '%.*s' cannot be written: %s",
				 STOREFILE_SHOWN, folder, strerror(errno));
	if (!store_can_write(store))
		return fault_set(why, FAULT_REGISTER,
				 "'%.*s' cannot be written", STOREFILE_SHOWN,
				 store->path);
	return true;
}

/* The letters over a row tell when it was changed, and nothing but this that an
 * index no longer leads to it: somebody would be missing from a day without a
 * word. It takes about a millisecond per thousand people. */
static bool
check_indexes(struct store *store, struct fault *why)
{
	char answer[200];

	if (!store_ask_text(store, "PRAGMA integrity_check(1)", NULL, 0, answer,
			    sizeof answer, why))
		return false;
	return strcmp(answer, "ok") == 0 || store_found_damaged(store, why);
}

static bool
read_station(struct book *book, struct fault *why)
{
	char code[STORE_NUMBER_SIZE];
	struct fault unused;
	long station;

	if (!stationrow_ask(&book->store, book->form, "name = 'station'", code,
			    sizeof code, why) ||
	    !stationrow_ask(&book->store, book->form, "name = 'device'",
			    book->device, sizeof book->device, why))
		return false;
	if (strspn(book->device, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") !=
		    DEVICE_LETTERS ||
	    !number_read(code, 1, REFNUM_STATION_MOST, "", &station, &unused))
		return store_found_damaged(&book->store, why);
	book->station = (int)station;
	return true;
}

static bool
ready_to_write(struct book *book, const char *folder, struct fault *why)
{
	book->store.may_write = true;
	if (!check_writable(&book->store, folder, why))
		return false;
	return book->form == SCHEMA_VERSION ||
	       (upgrade_store(&book->store, book->form, why) &&
		read_form(book, why));
}

static bool
check_book(struct book *book, const char *folder, enum book_use use,
	   struct fault *why)
{
	struct store *store = &book->store;

	if (!check_length(store, why) || !read_form(book, why) ||
	    !read_station(book, why) || !check_indexes(store, why))
		return false;
	if (use != BOOK_READ)
		return ready_to_write(book, folder, why);
	return store_run(store, "PRAGMA query_only = ON", why);
}

static bool
open_path(struct book *book, const char *path, const char *folder,
	  enum book_use use, struct fault *why)
{
	bool damaged;

	if (!storefile_check(path, &schema_form, why))
		return false;
	if (store_open(&book->store, path, why) &&
	    check_book(book, folder, use, why))
		return true;
	damaged = book->store.damaged;
	store_close(&book->store);
	if (damaged)
		storefile_check_length(path, why);
	return false;
}

bool
register_open(struct book *book, const char *folder, enum book_use use,
	      struct fault *why)
{
	char path[STOREFILE_PATH_SIZE];

	memset(book, 0, sizeof *book);
	if (!storefile_path(folder, file_name, path, why) ||
	    (use != BOOK_READ &&
	     !hold_take(folder, use == BOOK_ALONE ? HOLD_ALONE : HOLD_TOGETHER,
			&book->hold, why)))
		return false;
	if (open_path(book, path, folder, use, why))
		return true;
	register_close(book);
	return false;
}

bool
register_open_copy(struct book *book, const char *path, struct fault *why)
{
	char real[STOREFILE_PATH_SIZE];

	memset(book, 0, sizeof *book);
	if (storefile_resolve(path, real, why) &&
	    open_path(book, real, "", BOOK_READ, why))
		return true;
	register_close(book);
	return false;
}

void
register_close(struct book *book)
{
	store_close(&book->store);
	hold_end(&book->hold);
	memset(book, 0, sizeof *book);
}

/* --- transactions --------------------------------------------------------- */

bool
register_begin(struct book *book, struct fault *why)
{
	return store_begin(&book->store, why) || fault_at(why, "NOT saved");
}

bool
register_commit(struct book *book, struct fault *why)
{
	return store_commit(&book->store, why) || fault_at(why, "NOT saved");
}

void
register_undo(struct book *book)
{
	store_undo(&book->store);
}
