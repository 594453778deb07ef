/* entry.h: one row of the register about a person, read and written. */
#ifndef SHOAL_KEEP_ENTRY_H
#define SHOAL_KEEP_ENTRY_H

#include "base/fault.h"
#include "clinic/visit.h"
#include "keep/store.h"

#include <stddef.h>

/*
 * The table visit has the columns entry, revises, reason, folded_name and then
 * those of visit_fields, which are looped over here. Blank fields are NULL.
 */
enum {
	ENTRY_REASON_MOST = 120, /* characters */
	ENTRY_REASON_SIZE = ENTRY_REASON_MOST * 4 + 1,
	ENTRY_FOLDED_SIZE = VISIT_NAME_SIZE * 3,
	ENTRY_SQL_SIZE = 2048
};

/* What a row holds besides the person. */
struct entry {
	char number[STORE_NUMBER_SIZE]; /* of the entry, from 1, as text */
	char reason[ENTRY_REASON_SIZE]; /* "" for a first entry */
};

/* Writes the SELECT of the first row for which `where` holds ("number = ?1"),
 * in the shape that entry_read takes. */
void entry_write_select(char *sql, size_t size, const char *where);

/* Reads a row found, each value by its field's own kind. FAULT_REGISTER for
 * one that is refused. */
bool entry_read(const struct store_row *row, struct visit *visit,
		struct entry *entry, struct fault *why);

/* Adds a row. `revises` is the entry that it follows, as text, "" for a first
 * one. Each value is read again before: what could not be read back is refused
 * (FAULT_INPUT). */
bool entry_insert(struct store *store, const struct visit *visit,
		  const char *revises, const char *reason, struct fault *why);

/* The key by which twins are found, "" without a name or with one too long to
 * fold; `folded` holds ENTRY_FOLDED_SIZE bytes. */
void entry_fold_name(const struct visit *visit, char *folded);

#endif
