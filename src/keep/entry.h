/* entry.h: one row of the register about a person or a reply. */
#ifndef SHOAL_KEEP_ENTRY_H
#define SHOAL_KEEP_ENTRY_H

#include "base/fault.h"
#include "base/refnum.h"
#include "clinic/visit.h"
#include "keep/store.h"

#include <stddef.h>

/*
 * The tables visit and reply have the columns entry, revises, reason, then (of
 * visit) folded_name, then those of the record's fields, which are looped over
 * here, and last the mark of the row (rowmark.h). Blank fields are NULL. Both
 * records have a number and a state; the last entry of a number is what is
 * known now.
 */
struct entry_table {
	const char *name;
	const struct fields *fields;
	const char *key;    /* a column before the fields, or "" */
	const char *word;   /* how a fault calls an entry */
	const char *absent; /* "'NUMBER' ..." when it has none */
};

extern const struct entry_table entry_visits, entry_replies;

enum {
	ENTRY_REASON_MOST = 120, /* characters */
	ENTRY_REASON_SIZE = ENTRY_REASON_MOST * 4 + 1,
	ENTRY_FOLDED_SIZE = VISIT_NAME_SIZE * 3,
	ENTRY_SQL_SIZE = 4096
};

/* What a row holds besides the record. */
struct entry {
	char number[STORE_NUMBER_SIZE]; /* of the entry, from 1, as text */
	char reason[ENTRY_REASON_SIZE]; /* "" for a first entry */
};

/* What a new row holds besides the record. */
struct entry_place {
	char revises[STORE_NUMBER_SIZE]; /* entry that it follows; "" = first */
	const char *reason;		 /* "" for a first entry */
};

/* SQL: no later entry revises this one of `table`. */
#define ENTRY_IS_LAST(table)                                                \
	"NOT EXISTS (SELECT 1 FROM " table " AS later WHERE later.revises " \
	"= " table ".entry)"

/* Writes the SELECT of the first row for which `where` holds ("number = ?1"),
 * in the shape that entry_read takes; `form` is the register's. */
void entry_write_select(const struct entry_table *table, int form,
			const char *where, char *sql, size_t size);

/* Reads a row found, each value by its field's own kind. FAULT_REGISTER for
 * one that is refused, or that does not fit its mark. */
bool entry_read(const struct store_row *row, const struct entry_table *table,
		void *record, struct entry *entry, struct fault *why);

/* Adds a row; `key` is for the column before the fields. Each value is read
 * again before: what could not be read back is refused (FAULT_INPUT). */
bool entry_insert(struct store *store, const struct entry_table *table,
		  const void *record, const struct entry_place *place,
		  const char *key, struct fault *why);

/* The entry that is the last of a number; "" when there is none. `entry` holds
 * STORE_NUMBER_SIZE bytes. */
bool entry_find_last(struct store *store, const struct entry_table *table,
		     struct refnum number, char *entry, struct fault *why);

/* Whether a later entry may be added: a state for it, a reason, and the entry
 * that it revises is the last one. FAULT_INPUT. */
bool entry_check_revision(struct store *store, const struct entry_table *table,
			  struct refnum number, int state,
			  const struct entry_place *place, struct fault *why);

/* Puts "NOT saved" in front of the fault, and behind it, where what was asked
 * for could have been done and `own` says that nothing else hangs on it, that
 * `what` is to be written on paper. Always false. */
bool entry_not_saved(bool own, const char *what, struct fault *why);

/* The key by which twins are found, "" without a name or with one too long to
 * fold; `folded` holds ENTRY_FOLDED_SIZE bytes. */
void entry_fold_name(const struct visit *visit, char *folded);

#endif
