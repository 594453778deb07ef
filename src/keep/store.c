/* store.c: one file of tables that a power cut leaves whole. */
#include "keep/store.h"

#include "base/library.h"
#include "base/text.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* --- the library --------------------------------------------------------- */

/*
 * SQLite is by far the largest library here, and a decision that saves nothing
 * does without it: loading it at every start would cost more than the decision.
 * So its functions are looked up when a store is opened, each under its own
 * type from the header.
 */
/* clang-format off */
#define SQLITE_FUNCTIONS(FUNCTION) \
	FUNCTION(bind_null) FUNCTION(bind_text) FUNCTION(busy_timeout) \
	FUNCTION(clear_bindings) FUNCTION(close) FUNCTION(column_bytes) \
	FUNCTION(column_count) FUNCTION(column_text) FUNCTION(column_type) FUNCTION(db_config) \
	FUNCTION(db_readonly) FUNCTION(errmsg) FUNCTION(errstr) \
	FUNCTION(exec) FUNCTION(finalize) FUNCTION(get_autocommit) \
	FUNCTION(open_v2) FUNCTION(prepare_v3) FUNCTION(reset) \
	FUNCTION(sql) FUNCTION(step)
/* clang-format on */

enum {
#define FUNCTION_INDEX(name) INDEX_##name,
	SQLITE_FUNCTIONS(FUNCTION_INDEX)
#undef FUNCTION_INDEX
		FUNCTION_COUNT
};

#define SQLITE(store, name) \
	((__typeof__(&sqlite3_##name))(store)->function[INDEX_##name])

_Static_assert((int)FUNCTION_COUNT == (int)STORE_FUNCTIONS, "a place for each");

/* The library stays loaded until the program ends. */
static bool
look_up(struct store *store, struct fault *why)
{
	static const char *const names[FUNCTION_COUNT] = {
#define FUNCTION_NAME(name) "sqlite3_" #name,
		SQLITE_FUNCTIONS(FUNCTION_NAME)
#undef FUNCTION_NAME
	};
	void *library = library_open("libsqlite3.so.0");

	for (int i = 0; i < FUNCTION_COUNT; i++) {
		if (!library_find(library, names[i], &store->function[i]))
			return fault_set(why, FAULT_REGISTER,
					 "SQLite cannot be used (%s); install "
					 "the package libsqlite3-0",
					 library == NULL ? "libsqlite3.so.0"
							 : names[i]);
	}
	return true;
}

/* --- faults --------------------------------------------------------------- */

static bool
refused(const char *path, const char *words, struct fault *why)
{
	return fault_set(why, FAULT_REGISTER, "'%.*s' %s", STOREFILE_SHOWN,
			 path, words);
}

/* Extended codes before the plain ones they belong to. */
static const char *
meaning(int code)
{
	/* clang-format off */
	static const struct {
		int code;
		const char *words;
	} known[] = {
		{SQLITE_IOERR_DIR_FSYNC, STOREFILE_FOR_NOW},
		{SQLITE_READONLY_ROLLBACK, STOREFILE_HALF_SAVED},
		{SQLITE_BUSY,
		 "is held by another program that does not let go; try again"},
		{SQLITE_CANTOPEN, "cannot be opened"},
		{SQLITE_CORRUPT, "is damaged" STOREFILE_KEEP_IT},
		{SQLITE_FULL, "cannot grow: the disk is full"},
		{SQLITE_IOERR, "cannot be reached: the disk reports an error"},
		{SQLITE_NOMEM, "cannot be used: there is not enough memory"},
		{SQLITE_NOTADB, "is damaged" STOREFILE_KEEP_IT},
		{SQLITE_READONLY, "cannot be written"},
	};
	/* clang-format on */

	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
		if (code == known[i].code || (code & 0xff) == known[i].code)
			return known[i].words;
	return NULL;
}

static bool
failure(struct store *store, int code, struct fault *why)
{
	const char *words = meaning(code);

	if ((code & 0xff) != SQLITE_BUSY && (code & 0xff) != SQLITE_CONSTRAINT)
		store->failed = true;
	if ((code & 0xff) == SQLITE_CORRUPT)
		store->damaged = true;
	if (words != NULL)
		return fault_set(why, FAULT_REGISTER, "'%.*s' %s (code %d)",
				 STOREFILE_SHOWN, store->path, words, code);
	return fault_set(why, FAULT_REGISTER,
			 "'%.*s' cannot be used: %s (code %d)", STOREFILE_SHOWN,
			 store->path,
			 store->db == NULL ? SQLITE(store, errstr)(code)
					   : SQLITE(store, errmsg)(store->db),
			 code);
}

bool
store_found_damaged(struct store *store, struct fault *why)
{
	return failure(store, SQLITE_CORRUPT, why);
}

bool
store_misread(struct fault *why)
{
	why->kind = FAULT_REGISTER;
	return fault_at(why, "the register is damaged");
}

/* --- statements ----------------------------------------------------------- */

static sqlite3_stmt *
find_kept(const struct store *store, const char *sql)
{
	for (int i = 0; i < store->kept_count; i++)
		if (strcmp(SQLITE(store, sql)(store->kept[i]), sql) == 0)
			return store->kept[i];
	return NULL;
}

/* The oldest makes room; no caller holds a row that long. */
static void
keep(struct store *store, sqlite3_stmt *statement)
{
	if (store->kept_count < STORE_KEPT) {
		store->kept[store->kept_count++] = statement;
		return;
	}
	SQLITE(store, finalize)(store->kept[store->next_out]);
	store->kept[store->next_out] = statement;
	store->next_out = (store->next_out + 1) % STORE_KEPT;
}

static int
prepare(struct store *store, const char *sql, sqlite3_stmt **statement)
{
	int code;

	*statement = find_kept(store, sql);
	if (*statement != NULL)
		return SQLITE_OK;
	code = SQLITE(store, prepare_v3)(
		store->db, sql, -1, SQLITE_PREPARE_PERSISTENT, statement, NULL);
	if (code == SQLITE_OK)
		keep(store, *statement);
	return code;
}

static int
bind_values(const struct store *store, sqlite3_stmt *statement,
	    const char *const *values, int count)
{
	int code = SQLITE_OK;

	for (int i = 0; i < count && code == SQLITE_OK; i++)
		if (values[i] == NULL || values[i][0] == '\0')
			code = SQLITE(store, bind_null)(statement, i + 1);
		else
			code = SQLITE(store, bind_text)(
				statement, i + 1, values[i], -1, SQLITE_STATIC);
	return code;
}

bool
store_ask(struct store *store, const char *sql, const char *const *values,
	  int count, struct store_row *row, struct fault *why)
{
	int code = prepare(store, sql, &row->statement);

	row->store = store;
	row->found = false;
	if (code == SQLITE_OK)
		code = bind_values(store, row->statement, values, count);
	if (code == SQLITE_OK)
		code = SQLITE(store, step)(row->statement);
	if (code == SQLITE_ROW || code == SQLITE_DONE) {
		row->found = code == SQLITE_ROW;
		return true;
	}
	failure(store, code, why);
	store_end(row);
	return false;
}

const char *
store_text(const struct store_row *row, int column)
{
	const struct store *store = row->store;
	const char *text;
	int length;

	/* First: a number for whose text there is no memory becomes a NULL. */
	if (SQLITE(store, column_type)(row->statement, column) == SQLITE_NULL)
		return "";
	text = (const char *)SQLITE(store, column_text)(row->statement, column);
	length = SQLITE(store, column_bytes)(row->statement, column);
	return text == NULL || strlen(text) != (size_t)length ? NULL : text;
}

int
store_columns(const struct store_row *row)
{
	return SQLITE(row->store, column_count)(row->statement);
}

void
store_end(struct store_row *row)
{
	const struct store *store = row->store;

	if (row->statement == NULL)
		return;
	SQLITE(store, reset)(row->statement);
	SQLITE(store, clear_bindings)(row->statement);
}

bool
store_put(struct store *store, const char *sql, const char *const *values,
	  int count, struct fault *why)
{
	struct store_row row;

	if (!store_ask(store, sql, values, count, &row, why))
		return false;
	store_end(&row);
	return true;
}

bool
store_ask_text(struct store *store, const char *sql, const char *const *values,
	       int count, char *text, size_t size, struct fault *why)
{
	struct store_row row;
	const char *found;
	bool done;

	if (!store_ask(store, sql, values, count, &row, why))
		return false;
	found = row.found ? store_text(&row, 0) : "";
	done = found != NULL && text_copy(text, size, found);
	store_end(&row);
	return done || store_found_damaged(store, why);
}

bool
store_ask_number(struct store *store, const char *sql, long long *number,
		 struct fault *why)
{
	char text[STORE_NUMBER_SIZE];

	if (!store_ask_text(store, sql, NULL, 0, text, sizeof text, why))
		return false;
	*number = strtoll(text, NULL, 10);
	return true;
}

bool
store_run(struct store *store, const char *script, struct fault *why)
{
	int code = SQLITE(store, exec)(store->db, script, NULL, NULL, NULL);

	return code == SQLITE_OK || failure(store, code, why);
}

/* --- transactions --------------------------------------------------------- */

bool
store_is_begun(const struct store *store)
{
	return store->db != NULL &&
	       SQLITE(store, get_autocommit)(store->db) == 0;
}

bool
store_begin(struct store *store, struct fault *why)
{
	if (!store->may_write)
		return refused(store->path, "was opened for reading only", why);
	if (store->failed)
		return refused(store->path,
			       "could not be written before; start shoal again",
			       why);
	return store_put(store, "BEGIN IMMEDIATE", NULL, 0, why);
}

bool
store_commit(struct store *store, struct fault *why)
{
	if (store_put(store, "COMMIT", NULL, 0, why))
		return true;
	store_undo(store);
	return false;
}

/* What cannot be rolled back now is rolled back by whoever opens it next. */
void
store_undo(struct store *store)
{
	if (store_is_begun(store))
		SQLITE(store, exec)(store->db, "ROLLBACK", NULL, NULL, NULL);
}

bool
store_can_write(const struct store *store)
{
	return SQLITE(store, db_readonly)(store->db, "main") == 0;
}

/* --- opening -------------------------------------------------------------- */

static bool
set_up(struct store *store, struct fault *why)
{
	static const struct {
		int option, value;
	} switches[5] = {
		{SQLITE_DBCONFIG_DEFENSIVE, 1},
		{SQLITE_DBCONFIG_DQS_DDL, 0},
		{SQLITE_DBCONFIG_DQS_DML, 0},
		{SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
		{SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
	};
	int code = SQLITE(store, busy_timeout)(store->db, STORE_WAIT_MS);

	for (int i = 0; i < 5 && code == SQLITE_OK; i++)
		code = SQLITE(store, db_config)(store->db, switches[i].option,
						switches[i].value, NULL);
	if (code != SQLITE_OK)
		return failure(store, code, why);
	/* Sorting on the disk would leave names outside of the register. */
	return store_run(store,
			 "PRAGMA journal_mode = DELETE;"
			 "PRAGMA synchronous = EXTRA;"
			 "PRAGMA secure_delete = ON;"
			 "PRAGMA foreign_keys = ON;"
			 "PRAGMA cell_size_check = ON;"
			 "PRAGMA mmap_size = 0;"
			 "PRAGMA temp_store = MEMORY;",
			 why);
}

/* Without SQLITE_OPEN_CREATE: nothing is ever made by opening. */
bool
store_open(struct store *store, const char *path, struct fault *why)
{
	const int how = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOFOLLOW |
			SQLITE_OPEN_EXRESCODE;
	int code;

	memset(store, 0, sizeof *store);
	text_copy(store->path, sizeof store->path, path);
	if (!look_up(store, why))
		return false;
	code = SQLITE(store, open_v2)(path, &store->db, how, NULL);
	return code == SQLITE_OK ? set_up(store, why)
				 : failure(store, code, why);
}

void
store_close(struct store *store)
{
	store_undo(store);
	for (int i = 0; i < store->kept_count; i++)
		SQLITE(store, finalize)(store->kept[i]);
	if (store->db != NULL)
		SQLITE(store, close)(store->db);
	memset(store, 0, sizeof *store);
}
