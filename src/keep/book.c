/* book.c: the file of the register: its tables, how it is made and opened. */
#include "keep/book.h"

#include "base/number.h"
#include "base/text.h"
#include "clinic/visit.h"
#include "keep/safefile.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

enum { SCHEMA_SIZE = 8192, DEVICE_LETTERS = 6 };

static const char file_name[] = "register.db";

/* The letters "shol". A version is never used again for other tables. */
static const struct storefile_form form = {0x73686f6c, 1};

#define REFUSE "SELECT raise(ABORT, 'rows are only added');"

/* --- tables --------------------------------------------------------------- */

/* Text that grows; what does not fit is cut, and cut SQL is refused. */
struct schema {
	size_t length;
	char text[SCHEMA_SIZE];
};

__attribute__((format(printf, 2, 3))) static void
add(struct schema *schema, const char *format, ...)
{
	size_t left = sizeof schema->text - schema->length;
	va_list arguments;
	int needed;

	va_start(arguments, format);
	needed = vsnprintf(schema->text + schema->length, left, format,
			   arguments);
	va_end(arguments);
	if (needed > 0)
		schema->length += (size_t)needed < left ? (size_t)needed
							: left - 1;
}

static void
add_visit_table(struct schema *schema)
{
	add(schema, "CREATE TABLE visit(entry INTEGER PRIMARY KEY, "
		    "revises INTEGER REFERENCES visit(entry), "
		    "reason TEXT, folded_name TEXT");
	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		add(schema, ", %s %s%s", field->name, field->kind->sql_type,
		    field->need == FIELD_NEEDED ? " NOT NULL" : "");
	}
	add(schema, ", CHECK (number NOT NULL AND state NOT NULL), "
		    "CHECK ((revises IS NULL) = (reason IS NULL))) STRICT;\n");
}

/* Rows are only added: not even INSERT OR REPLACE, which deletes without
 * asking the trigger for that, takes the place of a row. */
static void
add_triggers(struct schema *schema)
{
	static const struct {
		const char *table, *taken;
	} rows[] = {
		{"station", "name = new.name"},
		{"policy_text", "id = new.id"},
		{"visit", "entry = new.entry OR revises = new.revises OR "
			  "(number = new.number AND ifnull(revises, 0) = "
			  "ifnull(new.revises, 0))"},
		{"tally_written", "day = new.day AND revision = new.revision"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const char *name = rows[i].table;

		add(schema,
		    "CREATE TRIGGER %s_no_update BEFORE UPDATE ON %s "
		    "BEGIN " REFUSE " END;\n",
		    name, name);
		add(schema,
		    "CREATE TRIGGER %s_no_delete BEFORE DELETE ON %s "
		    "BEGIN " REFUSE " END;\n",
		    name, name);
		add(schema,
		    "CREATE TRIGGER %s_no_replace BEFORE INSERT ON %s WHEN "
		    "EXISTS (SELECT 1 FROM %s WHERE %s) "
		    "BEGIN " REFUSE " END;\n",
		    name, name, name, rows[i].taken);
	}
}

/* Tables, then indexes, then triggers, as VACUUM leaves them; single spaces up
 * to the name, as SQLite keeps them. A number has one first entry, and no
 * entry is revised twice: so each number has one last entry. */
static void
make_schema(struct schema *schema)
{
	schema->length = 0;
	add(schema, "CREATE TABLE station(name TEXT PRIMARY KEY, "
		    "value TEXT NOT NULL) STRICT;\n");
	add(schema, "CREATE TABLE policy_text(id INTEGER PRIMARY KEY, "
		    "fingerprint TEXT NOT NULL, text TEXT NOT NULL) "
		    "STRICT;\n");
	add_visit_table(schema);
	add(schema, "CREATE TABLE tally_written(day TEXT NOT NULL, "
		    "revision INTEGER NOT NULL, closed INTEGER NOT NULL, "
		    "mark TEXT NOT NULL, PRIMARY KEY(day, revision)) "
		    "STRICT;\n");
	add(schema, "CREATE UNIQUE INDEX visit_number ON "
		    "visit(number, ifnull(revises, 0));\n");
	add(schema, "CREATE INDEX visit_day ON visit(screened_on, number);\n");
	/* Only what holds something: most saves then touch fewer pages. */
	add(schema, "CREATE UNIQUE INDEX visit_revises ON visit(revises) "
		    "WHERE revises IS NOT NULL;\n");
	add(schema, "CREATE INDEX visit_name ON visit(folded_name) "
		    "WHERE folded_name IS NOT NULL;\n");
	add_triggers(schema);
}

/* --- making --------------------------------------------------------------- */

/* Letters of equal chance: bytes from 234 (nine times 26) on are drawn
 * again. */
static bool
draw_device(char *device, struct fault *why)
{
	int count = 0;

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
fill(const char *path, int station, struct fault *why)
{
	char script[SCHEMA_SIZE + 400], device[DEVICE_LETTERS + 1];
	struct schema schema;
	struct store store;
	bool done;

	if (!draw_device(device, why))
		return false;
	make_schema(&schema);
	snprintf(script, sizeof script,
		 "BEGIN IMMEDIATE; PRAGMA application_id = %ld; "
		 "PRAGMA user_version = %ld; %s "
		 "INSERT INTO station VALUES ('station', '%d'), "
		 "('device', '%s'); COMMIT;",
		 form.application_id, form.version, schema.text, station,
		 device);
	done = store_open(&store, path, why) && store_run(&store, script, why);
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
		if (fill(file.temporary, station, why) &&
		    safefile_commit(&file, SAFEFILE_FIRST, why))
			return true;
		safefile_drop(&file);
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
check_form(struct store *store, struct fault *why)
{
	struct storefile_form found;
	long long id, version;

	if (!store_ask_number(store, "PRAGMA application_id", &id, why) ||
	    !store_ask_number(store, "PRAGMA user_version", &version, why))
		return false;
	found.application_id = (long)id;
	found.version = (long)version;
	return storefile_check_form(store->path, &form, &found, why);
}

static bool
check_tables(struct store *store, struct fault *why)
{
	struct schema schema;
	char found[SCHEMA_SIZE];

	make_schema(&schema);
	if (!store_ask_text(store,
			    "SELECT group_concat(sql || ';' || char(10), '') "
			    "FROM (SELECT sql FROM sqlite_schema WHERE sql NOT "
			    "NULL AND name NOT LIKE 'sqlite~_%' ESCAPE '~' "
			    "ORDER BY rowid)",
			    NULL, 0, found, sizeof found, why))
		return false;
	if (strcmp(schema.text, found) == 0)
		return true;
	return fault_set(why, FAULT_REGISTER,
			 "'%.*s' holds other tables than this program keeps "
			 "in it, and stays as it is",
			 STOREFILE_SHOWN, store->path);
}

static bool
check_writable(struct store *store, const char *folder, struct fault *why)
{
	char answer[200];

	if (access(folder, W_OK) != 0)
		return fault_set(why, FAULT_REGISTER,
				 "the folder '%.*s' cannot be written: %s",
				 STOREFILE_SHOWN, folder, strerror(errno));
	if (!store_can_write(store))
		return fault_set(why, FAULT_REGISTER,
				 "'%.*s' cannot be written", STOREFILE_SHOWN,
				 store->path);
	if (!store_ask_text(store, "PRAGMA quick_check(1)", NULL, 0, answer,
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

	if (!store_ask_text(&book->store,
			    "SELECT value FROM station WHERE name = 'station'",
			    NULL, 0, code, sizeof code, why) ||
	    !store_ask_text(&book->store,
			    "SELECT value FROM station WHERE name = 'device'",
			    NULL, 0, book->device, sizeof book->device, why))
		return false;
	if (strspn(book->device, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") !=
		    DEVICE_LETTERS ||
	    !number_read(code, 1, REFNUM_STATION_MOST, "", &station, &unused))
		return store_found_damaged(&book->store, why);
	book->station = (int)station;
	return true;
}

static bool
check_book(struct book *book, const char *folder, enum book_use use,
	   struct fault *why)
{
	struct store *store = &book->store;

	if (!check_length(store, why) || !check_form(store, why) ||
	    !check_tables(store, why) || !read_station(book, why))
		return false;
	store->may_write = use == BOOK_WRITE;
	if (use == BOOK_WRITE)
		return check_writable(store, folder, why);
	return store_run(store, "PRAGMA query_only = ON", why);
}

bool
register_open(struct book *book, const char *folder, enum book_use use,
	      struct fault *why)
{
	char path[STOREFILE_PATH_SIZE];
	bool damaged;

	memset(book, 0, sizeof *book);
	if (!storefile_path(folder, file_name, path, why) ||
	    !storefile_check(path, &form, why))
		return false;
	if (store_open(&book->store, path, why) &&
	    check_book(book, folder, use, why))
		return true;
	damaged = book->store.damaged;
	register_close(book);
	if (damaged)
		storefile_check_length(path, why);
	return false;
}

void
register_close(struct book *book)
{
	store_close(&book->store);
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
