/* rowmark.h: a mark over the values of each row of the register. */
#ifndef SHOAL_KEEP_ROWMARK_H
#define SHOAL_KEEP_ROWMARK_H

#include "base/fault.h"
#include "base/mark.h"
#include "keep/store.h"

/*
 * SQLite keeps no sums over what it stores: a bit that turns on the disk can
 * make of a 58 a 59, which every other check would believe. So, from form 3 of
 * the register on (schema.h), each row of every table but policy_text, whose
 * fingerprint serves for that, ends with a mark (base/mark.h) over the values
 * before it in the order of the columns, as text, "" for NULL. A row of an
 * older form has none and is taken as it is.
 */
enum { ROWMARK_SIZE = MARK_ROW_LETTERS + 1, ROWMARK_VALUES_MOST = 95 };

#define ROWMARK_COLUMN "row_mark"

/* What to select as a row's mark from a register of that form. */
const char *rowmark_column(int form);

/* The mark of the `count` values; NULL as "". `mark` holds ROWMARK_SIZE. */
void rowmark_write(const char *const *values, int count, char *mark);

/* Adds a row: all values of the table in the order of its columns, at most
 * ROWMARK_VALUES_MOST, and their mark. To a register of the newest form. */
bool rowmark_add(struct store *store, const char *table,
		 const char *const *values, int count, struct fault *why);

/* Whether the columns 0 to count - 1 of a row, all that its table has, fit the
 * mark in column `count`. FAULT_REGISTER, as store_misread says it. */
bool rowmark_check(const struct store_row *row, int count, struct fault *why);

/* The same for every row of a table of form 3. */
bool rowmark_check_table(struct store *store, const char *table,
			 struct fault *why);

/* Gives every row of a table its mark, in the caller's transaction. */
bool rowmark_renew(struct store *store, const char *table, struct fault *why);

#endif
