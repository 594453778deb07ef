/* entries.c: how much the register holds. */
#include "keep/entries.h"

bool
register_entries(struct book *book, int *count, struct fault *why)
{
	long long people, replies = 0;

	if (!store_ask_number(&book->store,
			      "SELECT coalesce(max(entry), 0) FROM visit",
			      &people, why))
		return false;
	/* The table came with the second form. */
	if (book->form >= 2 && !store_ask_number(&book->store,
						 "SELECT coalesce(max(entry), "
						 "0) FROM reply",
						 &replies, why))
		return false;
	*count = (int)(people + replies);
	return true;
}

bool
register_revision(struct book *book, int *revision, struct fault *why)
{
	long long devices;

	if (!register_entries(book, revision, why) ||
	    !store_ask_number(&book->store,
			      "SELECT count(*) FROM station WHERE name GLOB "
			      "'device_*'",
			      &devices, why))
		return false;
	*revision += (int)devices;
	return true;
}

static bool
ask_day(struct book *book, const char *sql, struct day bound, struct day *day,
	struct fault *why)
{
	char written[DAY_SIZE], found[DAY_SIZE];
	const char *values[] = {written};

	day_write(bound, written);
	if (!store_ask_text(&book->store, sql, values, 1, found, sizeof found,
			    why))
		return false;
	*day = day_none();
	return found[0] == '\0' || day_read(found, day, why) ||
	       store_misread(why);
}

bool
register_first_day_from(struct book *book, struct day from, struct day *day,
			struct fault *why)
{
	return ask_day(book,
		       "SELECT min(screened_on) FROM visit WHERE screened_on "
		       ">= ifnull(?1, '')",
		       from, day, why);
}

bool
register_last_day_to(struct book *book, struct day to, struct day *day,
		     struct fault *why)
{
	return ask_day(book,
		       "SELECT max(screened_on) FROM visit WHERE screened_on "
		       "<= ?1",
		       to, day, why);
}
