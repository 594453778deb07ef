/* lookup.c: what the register knows about people, days and policies. */
#include "keep/lookup.h"

#include "base/text.h"
#include "keep/entry.h"

#include <stdlib.h>
#include <string.h>

enum { TWIN_YEARS = 2 };

/* clang-format off */
#define IS_LAST ENTRY_IS_LAST("visit")

static const char of_number[] = "number = ?1 AND " IS_LAST;

/* The same with a cursor ?1 and a key ?2, in the order of the cursor. */
static const char every_number[] =
	"number > ?1 AND " IS_LAST " ORDER BY number";
static const char of_day[] =
	"screened_on = ?2 AND number > ?1 AND " IS_LAST " ORDER BY number";
static const char history[] =
	"number = ?2 AND entry > ?1 ORDER BY entry";
static const char of_name[] =
	"folded_name = ?2 AND entry > ?1 AND state <> 'void' AND " IS_LAST
	" ORDER BY entry";

static const char last_day[] =
	"SELECT screened_on FROM visit WHERE late IS NOT 1 AND "
	"state <> 'void' AND screened_on NOT NULL AND " IS_LAST
	" ORDER BY screened_on DESC LIMIT 1";
static const char policy_of_mark[] =
	"SELECT text FROM policy_text WHERE fingerprint = ?1 "
	"ORDER BY id LIMIT 1";
/* clang-format on */

/* --- visiting ------------------------------------------------------------- */

/* An order that does not rise comes from a damaged index, and would never
 * end. */
static bool
advance(char *cursor, const struct visit *visit, const struct entry *entry,
	bool by_number)
{
	char next[STORE_NUMBER_SIZE];
	bool rises;

	if (by_number) {
		refnum_write(visit->number, next);
		rises = strcmp(next, cursor) > 0;
	} else {
		text_copy(next, sizeof next, entry->number);
		rises = strtoll(next, NULL, 10) > strtoll(cursor, NULL, 10);
	}
	text_copy(cursor, STORE_NUMBER_SIZE, next);
	return rises;
}

/* One row at a time, each by an ask of its own that begins after the last one
 * seen: so no lock is held while `see` runs. A cursor of digits compares with
 * entry as the number it is. */
static bool
visit_each(struct book *book, const char *where, const char *key,
	   register_see *see, void *context, struct fault *why)
{
	char sql[ENTRY_SQL_SIZE], cursor[STORE_NUMBER_SIZE] = "0";
	const char *values[] = {cursor, key};
	bool by_number = where == every_number || where == of_day;
	struct store_row row;
	struct visit visit;
	struct entry entry;

	visit_init(&visit);
	entry_write_select(&entry_visits, book->form, where, sql, sizeof sql);
	for (;;) {
		bool done;

		if (!store_ask(&book->store, sql, values, key == NULL ? 1 : 2,
			       &row, why))
			return false;
		done = !row.found ||
		       entry_read(&row, &entry_visits, &visit, &entry, why);
		store_end(&row);
		if (!row.found || !done)
			return done;
		if (!advance(cursor, &visit, &entry, by_number))
			return store_found_damaged(&book->store, why);
		if (!see(context, &visit, entry.reason, why))
			return false;
	}
}

bool
register_visit_day(struct book *book, struct day day, register_see *see,
		   void *context, struct fault *why)
{
	char written[DAY_SIZE];

	if (day_is_none(day))
		return visit_each(book, every_number, NULL, see, context, why);
	day_write(day, written);
	return visit_each(book, of_day, written, see, context, why);
}

bool
register_visit_history(struct book *book, struct refnum number,
		       register_see *see, void *context, struct fault *why)
{
	char written[REFNUM_SIZE];

	refnum_write(number, written);
	return visit_each(book, history, written, see, context, why);
}

/* --- twins ---------------------------------------------------------------- */

struct twins {
	const struct visit *visit;
	register_see *see;
	void *context;
};

static bool
see_twin(void *context, const struct visit *other, const char *reason,
	 struct fault *why)
{
	const struct twins *twins = context;
	const struct visit *visit = twins->visit;
	bool same_number = !refnum_is_none(visit->number) &&
			   visit->number.serial == other->number.serial;
	bool other_sex = visit->sex != FIELD_BLANK &&
			 other->sex != FIELD_BLANK && visit->sex != other->sex;
	bool other_age = visit->age_years != FIELD_BLANK &&
			 other->age_years != FIELD_BLANK &&
			 abs(visit->age_years - other->age_years) > TWIN_YEARS;

	if (same_number || other_sex || other_age)
		return true;
	return twins->see(twins->context, other, reason, why);
}

bool
register_visit_twins(struct book *book, const struct visit *visit,
		     register_see *see, void *context, struct fault *why)
{
	struct twins twins = {visit, see, context};
	char folded[ENTRY_FOLDED_SIZE];

	entry_fold_name(visit, folded);
	if (folded[0] == '\0')
		return true;
	return visit_each(book, of_name, folded, see_twin, &twins, why);
}

/* --- finding -------------------------------------------------------------- */

bool
register_find(struct book *book, struct refnum number, struct visit *visit,
	      long long *entry, struct fault *why)
{
	char sql[ENTRY_SQL_SIZE], written[REFNUM_SIZE];
	const char *values[] = {written};
	struct store_row row;
	struct entry read;
	bool done;

	refnum_write(number, written);
	entry_write_select(&entry_visits, book->form, of_number, sql,
			   sizeof sql);
	if (!store_ask(&book->store, sql, values, 1, &row, why))
		return false;
	if (row.found)
		done = entry_read(&row, &entry_visits, visit, &read, why);
	else
		done = fault_set(why, FAULT_INPUT,
				 "'%s' is not in this register", written);
	store_end(&row);
	if (done && entry != NULL)
		*entry = strtoll(read.number, NULL, 10);
	return done;
}

/* --- policies and days ---------------------------------------------------- */

bool
register_last_day(struct book *book, struct day *day, struct fault *why)
{
	char found[DAY_SIZE];

	if (!store_ask_text(&book->store, last_day, NULL, 0, found,
			    sizeof found, why))
		return false;
	*day = day_none();
	return found[0] == '\0' || day_read(found, day, why) ||
	       store_misread(why);
}

bool
register_last_entry(struct book *book, long long *entry, struct fault *why)
{
	return store_ask_number(&book->store,
				"SELECT ifnull(max(entry), 0) FROM visit",
				entry, why);
}

bool
register_last_policy(struct book *book, char *mark, size_t size,
		     struct fault *why)
{
	return store_ask_text(&book->store,
			      "SELECT policy FROM visit ORDER BY entry DESC "
			      "LIMIT 1",
			      NULL, 0, mark, size, why);
}

bool
register_policy_text(struct book *book, const char *fingerprint, char *text,
		     size_t size, struct fault *why)
{
	const char *values[] = {fingerprint};

	if (!store_ask_text(&book->store, policy_of_mark, values, 1, text, size,
			    why))
		return false;
	if (text[0] == '\0')
		return fault_set(why, FAULT_REGISTER,
				 "the register does not have the policy '%s'",
				 fingerprint);
	return true;
}
