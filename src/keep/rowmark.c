/* rowmark.c: a mark over the values of each row of the register. */
#include "keep/rowmark.h"

#include "base/text.h"
#include "keep/schema.h"

#include <stdio.h>
#include <string.h>

/* In place of a mark, where a form has none; no mark looks so. */
static const char unmarked[] = "-";

const char *
rowmark_column(int form)
{
	return form < SCHEMA_MARKED ? "'-'" : ROWMARK_COLUMN;
}

void
rowmark_write(const char *const *values, int count, char *mark)
{
	struct mark sum;

	mark_init(&sum);
	for (int i = 0; i < count; i++)
		mark_add(&sum, values[i] == NULL ? "" : values[i]);
	mark_write(&sum, MARK_ROW_LETTERS, mark);
}

bool
rowmark_add(struct store *store, const char *table, const char *const *values,
	    int count, struct fault *why)
{
	char sql[80 + 3 * ROWMARK_VALUES_MOST], mark[ROWMARK_SIZE];
	const char *all[ROWMARK_VALUES_MOST + 1];
	size_t length;

	if (count > ROWMARK_VALUES_MOST)
		return fault_set(why, FAULT_INTERNAL,
				 "a row is too long to be kept");
	rowmark_write(values, count, mark);
	length = (size_t)snprintf(sql, sizeof sql, "INSERT INTO %s VALUES (",
				  table);
	for (int i = 0; i < count; i++) {
		all[i] = values[i];
		memcpy(sql + length, "?, ", 4);
		length += 3;
	}
	all[count] = mark;
	memcpy(sql + length, "?)", 3);
	return store_put(store, sql, all, count + 1, why);
}

/* The mark of the columns from `from` up to `to`; false when one is no text. */
static bool
sum_up(const struct store_row *row, int from, int to, char *mark)
{
	struct mark sum;

	mark_init(&sum);
	for (int i = from; i < to; i++) {
		const char *text = store_text(row, i);

		if (text == NULL)
			return false;
		mark_add(&sum, text);
	}
	mark_write(&sum, MARK_ROW_LETTERS, mark);
	return true;
}

static bool
check(const struct store_row *row, int from, int to, struct fault *why)
{
	const char *kept = store_text(row, to);
	char mark[ROWMARK_SIZE];

	if (kept != NULL &&
	    (strcmp(kept, unmarked) == 0 ||
	     (sum_up(row, from, to, mark) && strcmp(kept, mark) == 0)))
		return true;
	return fault_set(why, FAULT_REGISTER,
			 "what it holds is not what was written; keep the "
			 "file, and see 'shoal help mend'");
}

bool
rowmark_check(const struct store_row *row, int count, struct fault *why)
{
	return check(row, 0, count, why) || store_misread(why);
}

/* --- whole tables --------------------------------------------------------- */

/* Finds the first row after `rowid`, and puts its own there. */
static bool
ask_next(struct store *store, const char *table, char *rowid,
	 struct store_row *row, struct fault *why)
{
	const char *values[] = {rowid}, *text;
	char sql[120];

	snprintf(sql, sizeof sql,
		 "SELECT rowid, * FROM %s WHERE rowid > CAST(?1 AS INTEGER) "
		 "ORDER BY rowid LIMIT 1",
		 table);
	if (!store_ask(store, sql, values, 1, row, why))
		return false;
	text = row->found ? store_text(row, 0) : "";
	if (text != NULL && text_copy(rowid, STORE_NUMBER_SIZE, text))
		return true;
	store_end(row);
	return store_found_damaged(store, why);
}

bool
rowmark_check_table(struct store *store, const char *table, struct fault *why)
{
	char rowid[STORE_NUMBER_SIZE] = "0";
	struct store_row row;
	bool done = true, found = true;

	while (done && found) {
		if (!ask_next(store, table, rowid, &row, why))
			return false;
		found = row.found;
		done = !found || check(&row, 1, store_columns(&row) - 1, why);
		store_end(&row);
	}
	if (done)
		return true;
	fault_at(why, "row %s of table '%s'", rowid, table);
	return store_misread(why);
}

static bool
put_mark(struct store *store, const char *table, const char *rowid,
	 const char *mark, struct fault *why)
{
	const char *values[] = {mark, rowid};
	char sql[120];

	snprintf(sql, sizeof sql,
		 "UPDATE %s SET " ROWMARK_COLUMN " = ?1 WHERE rowid = CAST(?2 "
		 "AS INTEGER)",
		 table);
	return store_put(store, sql, values, 2, why);
}

static bool
renew_rows(struct store *store, const char *table, struct fault *why)
{
	char rowid[STORE_NUMBER_SIZE] = "0", mark[ROWMARK_SIZE];
	struct store_row row;

	for (;;) {
		bool summed, found;

		if (!ask_next(store, table, rowid, &row, why))
			return false;
		found = row.found;
		summed = !found ||
			 sum_up(&row, 1, store_columns(&row) - 1, mark);
		store_end(&row);
		if (!summed)
			return store_found_damaged(store, why);
		if (!found)
			return true;
		if (!put_mark(store, table, rowid, mark, why))
			return false;
	}
}

bool
rowmark_renew(struct store *store, const char *table, struct fault *why)
{
	struct schema_lifted lifted;

	return schema_lift(store, table, &lifted, why) &&
	       renew_rows(store, table, why) &&
	       schema_put_back(store, &lifted, why);
}
