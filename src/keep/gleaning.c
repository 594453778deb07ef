/* gleaning.c: which of the rows of a damaged register may be taken. */
#include "keep/gleaning.h"

#include "base/number.h"
#include "base/text.h"
#include "clinic/reply.h"
#include "keep/entry.h"
#include "keep/policyfile.h"
#include "keep/rowmark.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

/* What stands before the fields of a record: entry, revises, reason, and of a
 * visit the folded name. */
enum { BEFORE_REPLY = 3, BEFORE_VISIT = 4, REVISION_MOST = 1000000 };

static const char capitals[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/* --- marks ---------------------------------------------------------------- */

/* Whether a row may be one of `count` values: with the mark of just these
 * behind them, or, from a register of an older form, without any. */
static bool
holds(const struct salvage_row *row, int count, bool has_rowid)
{
	const char *values[SALVAGE_VALUES_MOST];
	char rowid[STORE_NUMBER_SIZE], mark[ROWMARK_SIZE];

	if (row->is_index || (row->count != count && row->count != count + 1))
		return false;
	if (row->count == count)
		return true;
	memcpy(values, row->value, (size_t)count * sizeof *values);
	snprintf(rowid, sizeof rowid, "%lld", row->rowid);
	if (has_rowid)
		values[0] = rowid;
	rowmark_write(values, count, mark);
	return strcmp(mark, row->value[count]) == 0;
}

/* --- looking -------------------------------------------------------------- */

static void
see_number(struct gleaning *gleaning, const char *text)
{
	struct refnum number;
	struct fault ignored;

	if (strlen(text) == REFNUM_SIZE - 1 &&
	    refnum_read(text, &number, &ignored) &&
	    number.station == gleaning->station && !refnum_is_paper(number) &&
	    number.serial > gleaning->last)
		gleaning->last = number.serial;
}

/* Numbers stand in rows and in the keys of indexes. */
bool
gleaning_look(void *context, const struct salvage_row *row, struct fault *why)
{
	struct gleaning *gleaning = context;
	struct fault ignored;
	long serial;

	(void)why;
	for (int i = 0; i < row->count; i++)
		if (row->is_text[i])
			see_number(gleaning, row->value[i]);
	if (!holds(row, 2, false))
		return true;
	if (strcmp(row->value[0], "device") == 0 &&
	    strlen(row->value[1]) == BOOK_DEVICE_LETTERS &&
	    strspn(row->value[1], capitals) == BOOK_DEVICE_LETTERS)
		text_copy(gleaning->device, sizeof gleaning->device,
			  row->value[1]);
	if (strncmp(row->value[0], "serials_from_", 13) == 0 &&
	    number_read(row->value[1], 1, REFNUM_PAPER_FIRST, "", &serial,
			&ignored) &&
	    serial - 1 > gleaning->last)
		gleaning->last = (int)serial - 1;
	return true;
}

/* --- checking ------------------------------------------------------------- */

union record {
	struct visit visit;
	struct reply reply;
};

static bool
check_fields(const struct gleaning *gleaning, const struct fields *fields,
	     const char *const *value, union record *record)
{
	char written[FIELD_TEXT_SIZE];
	struct fault ignored;
	struct refnum number;

	for (size_t i = 0; i < fields->count; i++) {
		const struct field *field = &fields->field[i];

		if (!field_read(field, value[i], record, &ignored))
			return false;
		field_write(field, record, written, sizeof written);
		if (strcmp(written, value[i]) != 0)
			return false;
		if (strcmp(field->name, "number") == 0 &&
		    (!refnum_read(value[i], &number, &ignored) ||
		     number.station != gleaning->station))
			return false;
		if (strcmp(field->name, "state") == 0 && value[i][0] == '\0')
			return false;
	}
	return true;
}

/* An entry that revises another has a reason, and no other has one. */
static bool
check_place(const struct salvage_row *row)
{
	const char *revises = row->value[1], *reason = row->value[2];
	struct fault ignored;
	long earlier;

	if (row->rowid < 1 || row->value[0][0] != '\0')
		return false;
	if (revises[0] == '\0')
		return reason[0] == '\0';
	return number_read(revises, 1, 2000000000, "", &earlier, &ignored) &&
	       earlier < row->rowid && reason[0] != '\0' &&
	       text_check(reason, ENTRY_REASON_MOST, &ignored);
}

static bool
check_visit(struct gleaning *gleaning, const struct salvage_row *row)
{
	char folded[ENTRY_FOLDED_SIZE];
	union record record;

	if (!check_place(row) ||
	    !check_fields(gleaning, &visit_fields, row->value + BEFORE_VISIT,
			  &record))
		return false;
	entry_fold_name(&record.visit, folded);
	return strcmp(folded, row->value[3]) == 0;
}

static bool
check_reply(struct gleaning *gleaning, const struct salvage_row *row)
{
	union record record;

	return check_place(row) &&
	       check_fields(gleaning, &reply_fields, row->value + BEFORE_REPLY,
			    &record);
}

static void
hear_nothing(void *context, const struct fault *one)
{
	(void)context;
	(void)one;
}

/* Its fingerprint is a check of its text. The reader does not tell a text that
 * is no policy from one for which there is no memory; errno does. */
static bool
check_policy(struct gleaning *gleaning, const struct salvage_row *row)
{
	char mark[POLICY_MARK_SIZE];
	struct policy policy;
	struct fault ignored;

	if (!row->is_text[1] || !row->is_text[2] || row->rowid < 1)
		return false;
	errno = 0;
	if (policyfile_read_bytes("a policy", row->value[2],
				  strlen(row->value[2]), &policy, hear_nothing,
				  NULL, &ignored)) {
		policy_fingerprint(&policy, mark);
		if (strcmp(mark, row->value[1]) == 0)
			return true;
	}
	gleaning->starved |= errno == ENOMEM;
	return false;
}

/* The day of a tally, or the month of a yield. */
static bool
is_written_of(const char *text)
{
	char day_text[DAY_SIZE];
	struct fault ignored;
	struct day day;

	snprintf(day_text, sizeof day_text, "%s%s", text,
		 strlen(text) == 7 ? "-01" : "");
	return strlen(text) < sizeof day_text &&
	       day_read(day_text, &day, &ignored);
}

static bool
check_tally(struct gleaning *gleaning, const struct salvage_row *row)
{
	struct fault ignored;
	long number;

	(void)gleaning;
	return is_written_of(row->value[0]) &&
	       number_read(row->value[1], 1, REVISION_MOST, "", &number,
			   &ignored) &&
	       number_read(row->value[2], 0, 1, "", &number, &ignored) &&
	       strlen(row->value[3]) == 7 &&
	       strspn(row->value[3], capitals) == 7;
}

/* --- taking --------------------------------------------------------------- */

bool
gleaning_begin(struct gleaning *gleaning, struct fault *why)
{
	gleaning->store.may_write = true;
	return store_begin(&gleaning->store, why) &&
	       store_run(&gleaning->store,
			 "CREATE TEMP TABLE found_visit AS SELECT * FROM "
			 "visit;CREATE TEMP TABLE found_reply AS SELECT * FROM "
			 "reply;CREATE TEMP TABLE found_policy AS SELECT * "
			 "FROM policy_text;CREATE TEMP TABLE found_tally AS "
			 "SELECT * FROM tally_written;",
			 why);
}

/* A table of what was found, and the rows that go there. */
struct kind {
	const char *table;
	int count; /* values before the mark */
	bool has_rowid, marked;
	bool (*check)(struct gleaning *, const struct salvage_row *);
};

/* Whether a row that was not taken is of that kind, and so is missed: one of
 * a policy by its fingerprint, others by the number of their values. */
static bool
is_missed(const struct kind *kind, const struct salvage_row *row)
{
	if (row->is_index)
		return false;
	if (kind->check == check_policy)
		return row->count == kind->count && row->value[0][0] == '\0' &&
		       strlen(row->value[1]) == POLICY_MARK_SIZE - 1 &&
		       strspn(row->value[1], capitals) == POLICY_MARK_SIZE - 1;
	return kind->check != check_tally &&
	       (row->count == kind->count || row->count == kind->count + 1);
}

/* Without their marks: what is put in place gets new ones, and a row of an
 * older form may be there once more. */
static bool
put(struct store *store, const struct kind *kind, const struct salvage_row *row,
    struct fault *why)
{
	char sql[ENTRY_SQL_SIZE], rowid[STORE_NUMBER_SIZE];
	const char *values[SALVAGE_VALUES_MOST];
	size_t length;

	snprintf(rowid, sizeof rowid, "%lld", row->rowid);
	length = (size_t)snprintf(sql, sizeof sql, "INSERT INTO %s VALUES (?",
				  kind->table);
	for (int i = 0; i < kind->count; i++) {
		values[i] = i == 0 && kind->has_rowid ? rowid : row->value[i];
		if (i > 0)
			length += (size_t)snprintf(sql + length,
						   sizeof sql - length, ", ?");
	}
	snprintf(sql + length, sizeof sql - length, "%s)",
		 kind->marked ? ", NULL" : "");
	return store_put(store, sql, values, kind->count, why);
}

bool
gleaning_take(void *context, const struct salvage_row *row, struct fault *why)
{
	struct gleaning *gleaning = context;
	const struct kind kinds[] = {
		{"found_visit", BEFORE_VISIT + (int)visit_fields.count, true,
		 true, check_visit},
		{"found_reply", BEFORE_REPLY + (int)reply_fields.count, true,
		 true, check_reply},
		{"found_policy", 3, true, false, check_policy},
		{"found_tally", 4, false, true, check_tally},
	};

	for (int i = 0; i < (int)(sizeof kinds / sizeof kinds[0]); i++) {
		const struct kind *kind = &kinds[i];

		if (holds(row, kind->count, kind->has_rowid) &&
		    kind->check(gleaning, row)) {
			gleaning->people += kind->check == check_visit;
			return put(&gleaning->store, kind, row, why);
		}
		if (gleaning->starved)
			return fault_set(why, FAULT_REGISTER,
					 "there is not enough memory to read "
					 "a policy in it");
		gleaning->refused += is_missed(kind, row);
	}
	return true;
}

/* --- putting in place ----------------------------------------------------- */

/* Of each number every entry that is left revises the one before it. */
static bool
place_entries(struct gleaning *gleaning, const struct entry_table *table,
	      struct fault *why)
{
	char sql[ENTRY_SQL_SIZE], columns[ENTRY_SQL_SIZE / 2] = "";
	size_t length = 0;

	for (size_t i = 0; i < table->fields->count; i++)
		length += (size_t)snprintf(columns + length,
					   sizeof columns - length, ", %s",
					   table->fields->field[i].name);
	snprintf(sql, sizeof sql,
		 "INSERT INTO %s SELECT entry, lag(entry) OVER w, iif(lag("
		 "entry) OVER w IS NULL, NULL, ifnull(reason, '(mended)'))%s%s"
		 "%s, NULL FROM (SELECT DISTINCT * FROM found_%s) WHERE entry "
		 "NOT IN "
		 "(SELECT entry FROM (SELECT DISTINCT * FROM found_%s) GROUP "
		 "BY entry HAVING count(*) > 1) WINDOW w AS (PARTITION BY "
		 "number ORDER BY entry) ORDER BY entry",
		 table->name, table->key[0] == '\0' ? "" : ", ", table->key,
		 columns, table->name, table->name);
	return store_put(&gleaning->store, sql, NULL, 0, why);
}

bool
gleaning_end(struct gleaning *gleaning, long long *lost, struct fault *why)
{
	return place_entries(gleaning, &entry_visits, why) &&
	       place_entries(gleaning, &entry_replies, why) &&
	       store_run(&gleaning->store,
			 "INSERT INTO policy_text SELECT * FROM found_policy "
			 "GROUP BY id HAVING count(DISTINCT text) = 1;"
			 "INSERT INTO tally_written SELECT * FROM found_tally "
			 "GROUP BY day, revision HAVING count(DISTINCT mark) = "
			 "1;",
			 why) &&
	       rowmark_renew(&gleaning->store, "visit", why) &&
	       rowmark_renew(&gleaning->store, "reply", why) &&
	       rowmark_renew(&gleaning->store, "tally_written", why) &&
	       store_ask_number(&gleaning->store,
				"SELECT (SELECT ifnull(max(entry), 0) - "
				"count(*) FROM visit) + (SELECT ifnull("
				"max(entry), 0) - count(*) FROM reply)",
				lost, why);
}
