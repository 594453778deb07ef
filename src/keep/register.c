/* register.c: the station's register of everybody screened. */
#include "keep/register.h"

#include "base/number.h"
#include "base/text.h"
#include "keep/entry.h"
#include "keep/rowmark.h"
#include "keep/serials.h"

#include <stdio.h>
#include <string.h>

enum { TALLY_REVISION_MOST = 1000000 };

/* The values of a row of tally_written. */
enum { TALLY_DAY, TALLY_REVISION, TALLY_CLOSED, TALLY_MARK, TALLY_VALUES };

/* --- saving --------------------------------------------------------------- */

static bool
insert_policy(struct book *book, const char *fingerprint, const char *text,
	      struct fault *why)
{
	const char *values[] = {fingerprint, text};

	if (fingerprint[0] == '\0' || text == NULL || text[0] == '\0')
		return true;
	return store_put(&book->store,
			 "INSERT INTO policy_text(fingerprint, text) "
			 "SELECT ?1, ?2 WHERE NOT EXISTS (SELECT 1 FROM "
			 "policy_text WHERE fingerprint = ?1 AND text = ?2)",
			 values, 2, why);
}

static bool
next_serial(struct book *book, int *serial, struct fault *why)
{
	char least[REFNUM_SIZE], most[REFNUM_SIZE], found[REFNUM_SIZE];
	const char *values[] = {least, most};
	struct refnum last = {0, 0};
	int from;

	snprintf(least, sizeof least, "%04d-", book->station);
	snprintf(most, sizeof most, "%04d-%05d", book->station,
		 REFNUM_PAPER_FIRST);
	if (!store_ask_text(&book->store,
			    "SELECT number FROM visit WHERE number > ?1 AND "
			    "number < ?2 ORDER BY number DESC LIMIT 1",
			    values, 2, found, sizeof found, why))
		return false;
	if (found[0] != '\0' && !refnum_read(found, &last, why))
		return store_misread(why);
	if (!serials_read_from(&book->store, book->form, &from, why))
		return false;
	if (from > last.serial)
		last.serial = from - 1;
	if (last.serial >= REGISTER_SERIAL_MOST)
		return fault_set(why, FAULT_REGISTER,
				 "station %04d has given out all its numbers "
				 "(1 to %d); set up a station with a new code",
				 book->station, REGISTER_SERIAL_MOST);
	*serial = last.serial + 1;
	return true;
}

static bool
check_paper_number(struct book *book, struct refnum number, struct fault *why)
{
	char written[REFNUM_SIZE], entry[STORE_NUMBER_SIZE];

	refnum_write(number, written);
	if (number.station != book->station)
		return fault_set(why, FAULT_INPUT,
				 "'%s' is a number of another station; this "
				 "one is %04d",
				 written, book->station);
	if (!refnum_is_paper(number))
		return fault_set(why, FAULT_INPUT,
				 "'%s' is no number of a paper pad (serials "
				 "%d to %d); leave it empty and one is given "
				 "out",
				 written, REFNUM_PAPER_FIRST,
				 REFNUM_SERIAL_MOST);
	if (!entry_find_last(&book->store, &entry_visits, number, entry, why))
		return false;
	return entry[0] == '\0' ||
	       fault_set(why, FAULT_INPUT, "'%s' is in the register already",
			 written);
}

static bool
give_number(struct book *book, struct visit *visit, struct fault *why)
{
	if (!refnum_is_none(visit->number))
		return check_paper_number(book, visit->number, why);
	visit->number.station = book->station;
	return next_serial(book, &visit->number.serial, why);
}

/* Begins unless begun, and then also commits or undoes. */
static bool
save_entry(struct book *book, struct visit *visit,
	   const struct entry_place *place, const char *policy_text,
	   struct fault *why)
{
	struct store *store = &book->store;
	bool own = !store_is_begun(store);
	char folded[ENTRY_FOLDED_SIZE];

	entry_fold_name(visit, folded);
	if (own && !store_begin(store, why))
		return false;
	if ((place->revises[0] == '\0'
		     ? give_number(book, visit, why)
		     : entry_check_revision(store, &entry_visits, visit->number,
					    visit->state, place, why)) &&
	    insert_policy(book, visit->policy, policy_text, why) &&
	    entry_insert(store, &entry_visits, visit, place, folded, why) &&
	    (!own || store_commit(store, why)))
		return true;
	if (own)
		store_undo(store);
	return false;
}

bool
register_save(struct book *book, struct visit *visit, const char *policy_text,
	      struct fault *why)
{
	const struct entry_place first = {"", ""};
	bool own = !store_is_begun(&book->store);
	struct visit saved = *visit;

	saved.state = STATE_CURRENT;
	if (!save_entry(book, &saved, &first, policy_text, why))
		return entry_not_saved(own, "this person", why);
	*visit = saved;
	return true;
}

bool
register_revise(struct book *book, const struct visit *visit, long long entry,
		const char *reason, const char *policy_text, struct fault *why)
{
	bool own = !store_is_begun(&book->store);
	struct visit saved = *visit;
	struct entry_place place = {"", reason};

	snprintf(place.revises, sizeof place.revises, "%lld", entry);
	return save_entry(book, &saved, &place, policy_text, why) ||
	       entry_not_saved(own, "this change", why);
}

/* --- tallies -------------------------------------------------------------- */

static bool
read_tally(const struct store_row *row, struct tally_written *last,
	   struct fault *why)
{
	const char *text[TALLY_VALUES];
	long revision, closed;

	for (int i = 0; i < TALLY_VALUES; i++) {
		text[i] = store_text(row, i);
		if (text[i] == NULL)
			text[i] = "";
	}
	if (!number_read(text[TALLY_REVISION], 1, TALLY_REVISION_MOST, "",
			 &revision, why) ||
	    !number_read(text[TALLY_CLOSED], 0, 1, "", &closed, why))
		return store_misread(why);
	if (!text_copy(last->mark, sizeof last->mark, text[TALLY_MARK])) {
		fault_set(why, FAULT_REGISTER, "a mark is too long");
		return store_misread(why);
	}
	if (!rowmark_check(row, TALLY_VALUES, why))
		return false;
	last->revision = (int)revision;
	last->closed = closed == 1;
	return true;
}

bool
register_last_written(struct book *book, const char *of,
		      struct tally_written *last, struct fault *why)
{
	const char *values[] = {of};
	struct store_row row;
	char sql[160];
	bool done;

	memset(last, 0, sizeof *last);
	snprintf(sql, sizeof sql,
		 "SELECT day, revision, closed, mark, %s FROM tally_written "
		 "WHERE day = ?1 ORDER BY revision DESC LIMIT 1",
		 rowmark_column(book->form));
	if (!store_ask(&book->store, sql, values, 1, &row, why))
		return false;
	done = !row.found || read_tally(&row, last, why);
	store_end(&row);
	return done;
}

bool
register_last_tally(struct book *book, struct day day,
		    struct tally_written *last, struct fault *why)
{
	char on[DAY_SIZE];

	day_write(day, on);
	return register_last_written(book, on, last, why);
}

static bool
insert_written(struct book *book, const char *of,
	       const struct tally_written *written, struct fault *why)
{
	char revision[STORE_NUMBER_SIZE];
	const char *values[] = {of, revision, written->closed ? "1" : "0",
				written->mark};
	struct tally_written last;

	if (!register_last_written(book, of, &last, why))
		return false;
	if (last.revision == written->revision &&
	    last.closed == written->closed &&
	    strcmp(last.mark, written->mark) == 0)
		return true;
	snprintf(revision, sizeof revision, "%d", written->revision);
	if (last.revision >= written->revision)
		return fault_set(why, FAULT_REGISTER,
				 "the tally of %s has revision %d already; "
				 "make it again",
				 of, last.revision);
	return rowmark_add(&book->store, "tally_written", values, TALLY_VALUES,
			   why);
}

bool
register_keep_written(struct book *book, const char *of,
		      const struct tally_written *written, struct fault *why)
{
	bool own = !store_is_begun(&book->store);

	if (own && !store_begin(&book->store, why))
		return false;
	if (insert_written(book, of, written, why) &&
	    (!own || store_commit(&book->store, why)))
		return true;
	if (own)
		store_undo(&book->store);
	return false;
}

bool
register_keep_tally(struct book *book, struct day day,
		    const struct tally_written *written, struct fault *why)
{
	char on[DAY_SIZE];

	day_write(day, on);
	return register_keep_written(book, on, written, why);
}
