/* copies.c: what a copy of the register holds, and whether it holds all. */
#include "keep/copies.h"

#include "base/text.h"
#include "clinic/reply.h"
#include "keep/entry.h"
#include "keep/rowmark.h"
#include "keep/schema.h"

#include <stdio.h>
#include <string.h>

/* `since`: the first form that has it. */
static const struct {
	const char *name;
	int since;
} tables[COPY_TABLES] = {
	{"policy_text", 1},   {"reply", 2}, {"station", 1},
	{"tally_written", 1}, {"visit", 1},
};

/* --- facts ---------------------------------------------------------------- */

/* The highest serial below the paper pads'. */
static bool
read_last(struct book *book, struct refnum *last, struct fault *why)
{
	char sql[160], found[REFNUM_SIZE];

	snprintf(sql, sizeof sql,
		 "SELECT number FROM visit WHERE number < '%04d-%05d' "
		 "ORDER BY number DESC LIMIT 1",
		 book->station, REFNUM_PAPER_FIRST);
	if (!store_ask_text(&book->store, sql, NULL, 0, found, sizeof found,
			    why))
		return false;
	*last = (struct refnum){0, 0};
	return found[0] == '\0' || refnum_read(found, last, why) ||
	       store_misread(why);
}

static bool
read_last_day(struct book *book, struct day *day, struct fault *why)
{
	char found[DAY_SIZE];

	if (!store_ask_text(&book->store, "SELECT max(screened_on) FROM visit",
			    NULL, 0, found, sizeof found, why))
		return false;
	*day = day_none();
	return found[0] == '\0' || day_read(found, day, why) ||
	       store_misread(why);
}

/* The table of replies came with the second form. */
static bool
count_entries(struct book *book, long long *entries, struct fault *why)
{
	return store_ask_number(&book->store,
				book->form >= 2 ? "SELECT (SELECT count(*) "
						  "FROM visit) + (SELECT "
						  "count(*) FROM reply)"
						: "SELECT count(*) FROM visit",
				entries, why);
}

bool
copies_read_facts(struct book *book, struct copy_facts *facts,
		  struct fault *why)
{
	facts->station = book->station;
	facts->form = book->form;
	text_copy(facts->device, sizeof facts->device, book->device);
	return store_ask_number(&book->store,
				"SELECT count(DISTINCT number) FROM visit",
				&facts->people, why) &&
	       count_entries(book, &facts->entries, why) &&
	       read_last(book, &facts->last, why) &&
	       read_last_day(book, &facts->last_day, why);
}

/* --- soundness ------------------------------------------------------------ */

static bool
check_entries(struct book *book, const struct entry_table *table, void *record,
	      struct fault *why)
{
	char sql[ENTRY_SQL_SIZE];
	struct entry entry = {"0", ""};
	const char *values[] = {entry.number};
	struct store_row row;
	bool found = true;

	entry_write_select(table, book->form, "entry > ?1 ORDER BY entry", sql,
			   sizeof sql);
	while (found) {
		bool done;

		if (!store_ask(&book->store, sql, values, 1, &row, why))
			return false;
		found = row.found;
		done = !found || entry_read(&row, table, record, &entry, why);
		store_end(&row);
		if (!done)
			return false;
	}
	return true;
}

bool
copies_check(struct book *book, struct fault *why)
{
	char answer[200];
	struct visit visit;
	struct reply reply;

	if (!store_ask_text(&book->store, "PRAGMA integrity_check(1)", NULL, 0,
			    answer, sizeof answer, why))
		return false;
	if (strcmp(answer, "ok") != 0)
		return store_found_damaged(&book->store, why);
	return check_entries(book, &entry_visits, &visit, why) &&
	       (book->form < 2 ||
		check_entries(book, &entry_replies, &reply, why)) &&
	       (book->form < SCHEMA_MARKED ||
		(rowmark_check_table(&book->store, "station", why) &&
		 rowmark_check_table(&book->store, "tally_written", why)));
}

/* --- comparing ------------------------------------------------------------ */

static bool
attach(struct book *book, const char *copy, struct fault *why)
{
	const char *values[] = {copy};

	return store_put(&book->store, "ATTACH ?1 AS copy", values, 1, why);
}

/* The statements that were asked of the copy hold it no more. */
static bool
detach(struct book *book, struct fault *why)
{
	return store_put(&book->store, "DETACH copy", NULL, 0, why);
}

#define VISIT_IS "entry, revises, number, screened_on, entered_at, state"
#define REPLY_IS "entry, revises, number, recorded_at, seen_on, state"

/* How many entries of `from` the other one does not have, into `*count`. */
static bool
count_missing(struct book *here, const char *from, const char *to,
	      bool from_has_replies, bool to_has_replies, long long *count,
	      struct fault *why)
{
	char sql[400];
	long long replies = 0;

	snprintf(sql, sizeof sql,
		 "SELECT count(*) FROM (SELECT " VISIT_IS " FROM %s.visit "
		 "EXCEPT SELECT " VISIT_IS " FROM %s.visit)",
		 from, to);
	if (!store_ask_number(&here->store, sql, count, why))
		return false;
	if (!from_has_replies)
		return true;
	if (to_has_replies)
		snprintf(sql, sizeof sql,
			 "SELECT count(*) FROM (SELECT " REPLY_IS
			 " FROM %s.reply EXCEPT SELECT " REPLY_IS " FROM "
			 "%s.reply)",
			 from, to);
	else
		snprintf(sql, sizeof sql, "SELECT count(*) FROM %s.reply",
			 from);
	if (!store_ask_number(&here->store, sql, &replies, why))
		return false;
	*count += replies;
	return true;
}

bool
copies_compare(struct book *here, const struct book *there,
	       struct copy_difference *difference, struct fault *why)
{
	bool replies_here = here->form >= 2, replies_there = there->form >= 2;
	bool done;

	if (!attach(here, there->store.path, why))
		return false;
	done = count_missing(here, "main", "copy", replies_here, replies_there,
			     &difference->only_here, why) &&
	       count_missing(here, "copy", "main", replies_there, replies_here,
			     &difference->only_there, why) &&
	       store_ask_number(&here->store,
				"SELECT count(*) FROM copy.visit AS c JOIN "
				"main.visit AS m USING (entry) WHERE c.name "
				"NOT NULL AND m.name IS NULL AND c.number = "
				"m.number",
				&difference->names_there, why);
	return detach(here, done ? why : &(struct fault){0}) && done;
}

/* --- copies just made ----------------------------------------------------- */

static bool
count_rows(struct book *book, const char *in, int table, long long *rows,
	   struct fault *why)
{
	char sql[80];

	*rows = 0;
	if (tables[table].since > book->form)
		return true;
	snprintf(sql, sizeof sql, "SELECT count(*) FROM %s.%s", in,
		 tables[table].name);
	return store_ask_number(&book->store, sql, rows, why);
}

bool
copies_count(struct book *book, struct copy_counts *counts, struct fault *why)
{
	for (int i = 0; i < COPY_TABLES; i++)
		if (!count_rows(book, "main", i, &counts->rows[i], why))
			return false;
	return true;
}

/* By a connection of its own, which writes nothing but the copy: what fails is
 * the copy. */
bool
copies_make(const char *from, const char *to, struct fault *why)
{
	const char *values[] = {to};
	struct store store;
	bool done = store_open(&store, from, why);

	if (done) {
		text_copy(store.path, sizeof store.path, to);
		done = store_put(&store, "VACUUM INTO ?1", values, 1, why);
	}
	store_close(&store);
	return done;
}

static bool
match_table(struct book *book, int table, long long before, struct fault *why)
{
	const char *name = tables[table].name;
	long long rows, foreign = 0;
	char sql[160];

	if (!count_rows(book, "copy", table, &rows, why))
		return false;
	snprintf(sql, sizeof sql,
		 "SELECT count(*) FROM (SELECT * FROM copy.%s EXCEPT SELECT * "
		 "FROM main.%s)",
		 name, name);
	if (tables[table].since <= book->form &&
	    !store_ask_number(&book->store, sql, &foreign, why))
		return false;
	return (rows >= before && foreign == 0) ||
	       fault_set(why, FAULT_OUTPUT,
			 "what was read back is not what was written: of "
			 "table '%s' %lld rows instead of %lld, %lld of them "
			 "altered",
			 name, rows, before, foreign);
}

bool
copies_match(struct book *book, const struct copy_counts *before,
	     const char *copy, struct fault *why)
{
	bool done = attach(book, copy, why);

	if (!done)
		return false;
	for (int i = 0; i < COPY_TABLES && done; i++)
		done = match_table(book, i, before->rows[i], why);
	return detach(book, done ? why : &(struct fault){0}) && done;
}
