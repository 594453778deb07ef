/* purge.c: names of camps that are over, removed for good. */
#include "keep/purge.h"

#include "keep/lookup.h"
#include "keep/replies.h"
#include "keep/rowmark.h"
#include "keep/safefile.h"
#include "keep/schema.h"
#include "keep/scrub.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>

/* --- who ------------------------------------------------------------------ */

/* Called per person chosen. */
typedef bool chosen_see(void *context, const struct visit *visit,
			struct fault *why);

struct choosing {
	struct book *book;
	const struct purge_choice *choice;
	chosen_see *chosen;
	void *context;
	purge_see *waiting; /* or NULL */
	void *waiting_context;
};

static bool
is_waiting(struct book *book, const struct visit *visit, bool *waiting,
	   struct fault *why)
{
	struct reply reply;
	long long entry;

	*waiting = false;
	if (visit->state == STATE_VOID || visit->urgency == FIELD_BLANK ||
	    visit->urgency == URGENCY_NO_REFERRAL)
		return true;
	if (!register_find_reply(book, visit->number, &reply, &entry, why))
		return false;
	*waiting = entry == 0 || reply.state == STATE_VOID;
	return true;
}

static bool
choose(void *context, const struct visit *visit, const char *reason,
       struct fault *why)
{
	const struct choosing *choosing = context;
	const struct purge_choice *choice = choosing->choice;
	bool waiting = false;

	(void)reason;
	if (day_is_none(visit->screened_on) ||
	    visit->screened_on.number >= choice->before.number)
		return true;
	if (!choice->waiting_too &&
	    !is_waiting(choosing->book, visit, &waiting, why))
		return false;
	if (!waiting)
		return choosing->chosen(choosing->context, visit, why);
	return choosing->waiting == NULL ||
	       choosing->waiting(choosing->waiting_context, visit->number, why);
}

/* --- the plan ------------------------------------------------------------- */

struct planning {
	struct book *book;
	struct purge_plan *plan;
	purge_see *see;
	void *context;
};

static const char removed[] = "(purged)";

/* Anything left to remove, in whatever entry of the number. */
static bool
has_words(struct book *book, struct refnum number, bool *has, struct fault *why)
{
	char written[REFNUM_SIZE], found[STORE_NUMBER_SIZE];
	const char *values[] = {written, removed};

	refnum_write(number, written);
	if (!store_ask_text(&book->store,
			    "SELECT 1 FROM visit WHERE number = ?1 AND (name "
			    "NOT NULL OR contact NOT NULL OR reason <> ?2) "
			    "LIMIT 1",
			    values, 2, found, sizeof found, why))
		return false;
	*has = found[0] != '\0';
	if (*has || book->form < 2)
		return true;
	if (!store_ask_text(&book->store,
			    "SELECT 1 FROM reply WHERE number = ?1 AND "
			    "(seen_where NOT NULL OR done_text NOT NULL OR "
			    "teach NOT NULL OR reason <> ?2) LIMIT 1",
			    values, 2, found, sizeof found, why))
		return false;
	*has = found[0] != '\0';
	return true;
}

static bool
plan_one(void *context, const struct visit *visit, struct fault *why)
{
	struct planning *planning = context;
	struct purge_plan *plan = planning->plan;
	struct day day = visit->screened_on;
	bool has;

	if (!has_words(planning->book, visit->number, &has, why))
		return false;
	if (!has)
		return true;
	plan->people++;
	if (day_is_none(plan->first) || day.number < plan->first.number)
		plan->first = day;
	if (day_is_none(plan->last) || day.number > plan->last.number)
		plan->last = day;
	return true;
}

static bool
plan_waiting(void *context, struct refnum number, struct fault *why)
{
	struct planning *planning = context;

	planning->plan->waiting++;
	return planning->see == NULL ||
	       planning->see(planning->context, number, why);
}

bool
purge_plan(struct book *book, const struct purge_choice *choice,
	   purge_see *see_waiting, void *context, struct purge_plan *plan,
	   struct fault *why)
{
	struct planning planning = {book, plan, see_waiting, context};
	struct choosing choosing = {book,      choice,	     plan_one,
				    &planning, plan_waiting, &planning};

	*plan = (struct purge_plan){0, 0, day_none(), day_none()};
	return register_visit_day(book, day_none(), choose, &choosing, why);
}

/* --- the register --------------------------------------------------------- */

static bool
remove_words(void *context, const struct visit *visit, struct fault *why)
{
	struct book *book = context;
	char written[REFNUM_SIZE];
	const char *values[] = {written, removed};

	refnum_write(visit->number, written);
	return store_put(&book->store,
			 "UPDATE visit SET name = NULL, contact = NULL, "
			 "folded_name = NULL, reason = iif(reason IS NULL, "
			 "NULL, ?2) WHERE number = ?1",
			 values, 2, why) &&
	       store_put(&book->store,
			 "UPDATE reply SET seen_where = NULL, done_text = "
			 "NULL, teach = NULL, reason = iif(reason IS NULL, "
			 "NULL, ?2) WHERE number = ?1",
			 values, 2, why);
}

static bool
change_rows(struct book *book, const struct purge_choice *choice,
	    struct fault *why)
{
	struct choosing choosing = {book, choice, remove_words,
				    book, NULL,	  NULL};
	struct store *store = &book->store;
	struct schema_lifted visits, replies;

	return schema_lift(store, "visit", &visits, why) &&
	       schema_lift(store, "reply", &replies, why) &&
	       register_visit_day(book, day_none(), choose, &choosing, why) &&
	       schema_put_back(store, &visits, why) &&
	       schema_put_back(store, &replies, why) &&
	       rowmark_renew(store, "visit", why) &&
	       rowmark_renew(store, "reply", why);
}

/* A journal that is kept can be overwritten: one that SQLite removes by itself
 * leaves the old rows in the free blocks of the disk. */
static bool
purge_register(struct book *book, const struct purge_choice *choice,
	       struct fault *why)
{
	char journal[STOREFILE_PATH_SIZE + sizeof "-journal"];
	struct store *store = &book->store;

	if (!store_run(store, "PRAGMA journal_mode = PERSIST", why) ||
	    !store_begin(store, why))
		return false;
	if (!change_rows(book, choice, why) || !store_commit(store, why)) {
		store_undo(store);
		return false;
	}
	snprintf(journal, sizeof journal, "%s-journal", store->path);
	return store_run(store, "VACUUM", why) && scrub_file(journal, why);
}

/* --- slips ---------------------------------------------------------------- */

static bool
scrub_slip(const char *slips, struct refnum number, const char *ending,
	   struct fault *why)
{
	char path[SAFEFILE_PATH_SIZE], name[REFNUM_SIZE + 8];
	char written[REFNUM_SIZE];

	refnum_write(number, written);
	snprintf(name, sizeof name, "%s.%s", written, ending);
	return safefile_join(path, sizeof path, slips, name, why) &&
	       scrub_file(path, why);
}

struct slips {
	const char *folder;
};

static bool
scrub_slips(void *context, const struct visit *visit, struct fault *why)
{
	const struct slips *slips = context;

	return scrub_slip(slips->folder, visit->number, "txt", why) &&
	       scrub_slip(slips->folder, visit->number, "html", why);
}

/* What programs left that were killed while they wrote a slip. The register is
 * held alone, so nobody is writing one now. */
static bool
scrub_unfinished(const char *slips, struct fault *why)
{
	char path[SAFEFILE_PATH_SIZE];
	DIR *listing = opendir(slips);
	const struct dirent *one;
	bool done = true;

	if (listing == NULL)
		return true;
	/* cppcheck-suppress readdirCalled */
	while (done && (one = readdir(listing)) != NULL)
		if (strstr(one->d_name, SAFEFILE_UNFINISHED) != NULL)
			done = safefile_join(path, sizeof path, slips,
					     one->d_name, why) &&
			       scrub_file(path, why);
	closedir(listing);
	return done;
}

bool
purge_do(struct book *book, const struct purge_choice *choice,
	 const char *slips, struct fault *why)
{
	struct slips folder = {slips};
	struct choosing choosing = {book,    choice, scrub_slips,
				    &folder, NULL,   NULL};

	if (!purge_register(book, choice, why))
		return fault_at(why, "not purged");
	return (register_visit_day(book, day_none(), choose, &choosing, why) &&
		scrub_unfinished(slips, why)) ||
	       fault_at(why, "the register is purged, but not all slips; purge "
			     "again");
}

/* --- other files ---------------------------------------------------------- */

void
purge_find_files(const char *folder, purge_hear *hear, void *context)
{
	static const char *const begins[] = {"register.db.", "draft.txt"};
	char path[SAFEFILE_PATH_SIZE];
	DIR *listing = opendir(folder);
	const struct dirent *one;
	struct fault ignored;

	if (listing == NULL)
		return;
	/* cppcheck-suppress readdirCalled */
	while ((one = readdir(listing)) != NULL)
		for (size_t i = 0; i < sizeof begins / sizeof begins[0]; i++)
			if (strncmp(one->d_name, begins[i],
				    strlen(begins[i])) == 0 &&
			    safefile_join(path, sizeof path, folder,
					  one->d_name, &ignored))
				hear(context, path);
	closedir(listing);
}
