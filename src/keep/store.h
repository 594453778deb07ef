/* store.h: one SQLite file that a power cut leaves whole. */
#ifndef SHOAL_KEEP_STORE_H
#define SHOAL_KEEP_STORE_H

#include "base/fault.h"
#include "keep/storefile.h"

#include <stdbool.h>
#include <stddef.h>

/*
 * The only room that sees SQLite. Everything goes in and comes out as text,
 * which the fields of a record read and write; NULL is the blank. DELETE
 * journal, synchronous EXTRA, foreign keys on, strict about everything SQLite
 * can be strict about. Faults are FAULT_REGISTER and name the file.
 *
 * After a fault other than a busy file or a refused value the store takes no
 * more writes until it is opened again: what a failed sync left behind is not
 * known (https://wiki.postgresql.org/wiki/Fsync_Errors).
 */
struct sqlite3;
struct sqlite3_stmt;

enum {
	STORE_FUNCTIONS = 21,  /* of SQLite that are used */
	STORE_KEPT = 32,       /* prepared statements kept */
	STORE_WAIT_MS = 5000,  /* for another program's save */
	STORE_NUMBER_SIZE = 24 /* a number written as text */
};

struct store {
	void (*function[STORE_FUNCTIONS])(void); /* see store.c */
	struct sqlite3 *db;
	struct sqlite3_stmt *kept[STORE_KEPT];
	int kept_count, next_out;
	bool may_write; /* set by who opened it; store_begin asks for it */
	bool failed;	/* something did, so no more writes are taken */
	bool damaged;	/* SQLite found it so */
	char path[STOREFILE_PATH_SIZE];
};

/*
 * Opens a file that is there; it may still have no tables in it. Call
 * storefile_check before. What a killed program left half saved is undone by
 * the first ask. On false, too, store_close must follow; `damaged` is then
 * still to be asked for.
 */
bool store_open(struct store *store, const char *path, struct fault *why);
void store_close(struct store *store);

/* Whether the system lets this file be written. */
bool store_can_write(const struct store *store);

/* For who finds the store damaged in a way that SQLite does not: always
 * false. */
bool store_found_damaged(struct store *store, struct fault *why);

/* For a value found that its own reader refused, which set `why`: makes it a
 * fault of the register. Always false. */
bool store_misread(struct fault *why);

/* A transaction that takes the write lock at once. Undo outside of one does
 * nothing; a commit that fails has undone it. */
bool store_begin(struct store *store, struct fault *why);
bool store_commit(struct store *store, struct fault *why);
void store_undo(struct store *store);
bool store_is_begun(const struct store *store);

/* The row an ask found, if any. No lock and no row outlives store_end. */
struct store_row {
	const struct store *store;
	struct sqlite3_stmt *statement;
	bool found;
};

/*
 * Runs one statement up to its first row, with `values` for its parameters ?1
 * to ?count ("" and NULL as NULL). store_end must follow a true, before the
 * next ask of the same statement.
 */
bool store_ask(struct store *store, const char *sql, const char *const *values,
	       int count, struct store_row *row, struct fault *why);

/* The column as text, "" for NULL; NULL when it holds a NUL byte or there is no
 * memory for it. Lives until store_end. */
const char *store_text(const struct store_row *row, int column);
int store_columns(const struct store_row *row);
void store_end(struct store_row *row);

/* An ask whose rows do not matter. */
bool store_put(struct store *store, const char *sql, const char *const *values,
	       int count, struct fault *why);

/* The first column of the first row into `text`, "" or 0 when there is none; a
 * text that does not fit is damage. */
bool store_ask_text(struct store *store, const char *sql,
		    const char *const *values, int count, char *text,
		    size_t size, struct fault *why);
bool store_ask_number(struct store *store, const char *sql, long long *number,
		      struct fault *why);

/* Runs several statements without parameters. */
bool store_run(struct store *store, const char *script, struct fault *why);

#endif
