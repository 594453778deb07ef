/* replies.c: the clinic's replies in the register. */
#include "keep/replies.h"

#include "keep/entry.h"

#include <stdio.h>
#include <stdlib.h>

/* --- saving --------------------------------------------------------------- */

/* By the person as known now. */
static bool
check(struct book *book, const struct reply *reply, struct day today,
      struct fault *why)
{
	char written[REFNUM_SIZE];
	struct visit visit;

	if (refnum_is_none(reply->number))
		return reply_check(reply, day_none(), today, why);
	if (!register_find(book, reply->number, &visit, NULL, why))
		return false;
	refnum_write(reply->number, written);
	if (visit.state == STATE_VOID && reply->state != STATE_VOID)
		return fault_set(why, FAULT_INPUT,
				 "'%s' was taken back as made by mistake, so "
				 "there is nobody to reply about",
				 written);
	return reply_check(reply, visit.screened_on, today, why);
}

static bool
check_first(struct book *book, const struct reply *reply, struct fault *why)
{
	char written[REFNUM_SIZE], last[STORE_NUMBER_SIZE];

	if (!entry_find_last(&book->store, &entry_replies, reply->number, last,
			     why))
		return false;
	refnum_write(reply->number, written);
	return last[0] == '\0' ||
	       fault_set(why, FAULT_INPUT,
			 "'%s' has a reply already; correct that one", written);
}

/* Begins unless begun, and then also commits or undoes. */
static bool
save_entry(struct book *book, const struct reply *reply,
	   const struct entry_place *place, struct day today, struct fault *why)
{
	struct store *store = &book->store;
	bool own = !store_is_begun(store);

	if (own && !store_begin(store, why))
		return false;
	if (check(book, reply, today, why) &&
	    (place->revises[0] == '\0'
		     ? check_first(book, reply, why)
		     : entry_check_revision(store, &entry_replies,
					    reply->number, reply->state, place,
					    why)) &&
	    entry_insert(store, &entry_replies, reply, place, "", why) &&
	    (!own || store_commit(store, why)))
		return true;
	if (own)
		store_undo(store);
	return false;
}

bool
register_save_reply(struct book *book, struct reply *reply, struct day today,
		    struct fault *why)
{
	const struct entry_place first = {"", ""};
	bool own = !store_is_begun(&book->store);
	struct reply saved = *reply;

	saved.state = STATE_CURRENT;
	if (!save_entry(book, &saved, &first, today, why))
		return entry_not_saved(own, "this reply", why);
	*reply = saved;
	return true;
}

bool
register_revise_reply(struct book *book, const struct reply *reply,
		      long long entry, const char *reason, struct day today,
		      struct fault *why)
{
	bool own = !store_is_begun(&book->store);
	struct entry_place place = {"", reason};

	snprintf(place.revises, sizeof place.revises, "%lld", entry);
	return save_entry(book, reply, &place, today, why) ||
	       entry_not_saved(own, "this change", why);
}

/* --- finding and visiting ------------------------------------------------- */

bool
register_find_reply(struct book *book, struct refnum number,
		    struct reply *reply, long long *entry, struct fault *why)
{
	char sql[ENTRY_SQL_SIZE], written[REFNUM_SIZE];
	const char *values[] = {written};
	struct store_row row;
	struct entry read = {"0", ""};
	bool done = true;

	reply_init(reply);
	/* The table came with the second form. */
	if (book->form >= 2) {
		refnum_write(number, written);
		entry_write_select(&entry_replies, book->form,
				   "number = ?1 AND " ENTRY_IS_LAST("reply"),
				   sql, sizeof sql);
		if (!store_ask(&book->store, sql, values, 1, &row, why))
			return false;
		done = !row.found ||
		       entry_read(&row, &entry_replies, reply, &read, why);
		store_end(&row);
	}
	if (done && entry != NULL)
		*entry = strtoll(read.number, NULL, 10);
	return done;
}

struct joined {
	struct book *book;
	replies_see *see;
	void *context;
};

static bool
see_person(void *context, const struct visit *visit, const char *reason,
	   struct fault *why)
{
	const struct joined *joined = context;
	struct reply reply;
	long long entry;
	bool none;

	(void)reason;
	if (visit->state == STATE_VOID)
		return true;
	if (!register_find_reply(joined->book, visit->number, &reply, &entry,
				 why))
		return false;
	none = entry == 0 || reply.state == STATE_VOID;
	return joined->see(joined->context, visit, none ? NULL : &reply, why);
}

bool
register_visit_replies(struct book *book, replies_see *see, void *context,
		       struct fault *why)
{
	struct joined joined = {book, see, context};

	return register_visit_day(book, day_none(), see_person, &joined, why);
}
