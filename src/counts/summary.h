/* summary.h: everything the page about a collation needs, added up. */
#ifndef SHOAL_COUNTS_SUMMARY_H
#define SHOAL_COUNTS_SUMMARY_H

#include "counts/calendar.h"
#include "counts/counted.h"
#include "counts/groups.h"

/*
 * Fed row by row, then line by line; takes memory by the number of groups:
 * weeks, sites, sexes and age bands, stations, programmes, policies, station
 * weeks. Of the lines at most SUMMARY_LINES per status are kept, and their
 * number is counted.
 */
enum { SUMMARY_LINES = 200, SUMMARY_ORDERED_SIZE = 48 };

struct summary_line; /* of the ledger, as kept */

struct summary {
	struct groups total; /* one key, "" */
	struct groups weeks; /* calendar_week with five digits */
	struct groups sites, stations, programmes, policies;
	struct groups people; /* summary_person_key */
	struct groups calendar;
	long long of[LEDGER_STATUSES];
	struct summary_line *line; /* owned */
	size_t lines, room;
	char *text; /* owned; what the lines say */
	size_t used, size;
};

void summary_init(struct summary *summary);
void summary_release(struct summary *summary);

/* A counted_see and a ledger_see; the context is the summary. */
bool summary_count(void *summary, const struct counted *row, int sign,
		   struct fault *why);
bool summary_account(void *summary, const struct ledger_line *line,
		     struct fault *why);

/* All people together; all 0 when nothing was counted. */
struct sums summary_total(const struct summary *summary);

/* The kept lines of one status, in the order they came. */
typedef void summary_see(void *context, const struct ledger_line *line);
void summary_lines(const struct summary *summary, enum ledger_status status,
		   summary_see *see, void *context);

/* Of the key of a kind of people, as "F 40-49" or "? age ?";
 * `words` holds SUMMARY_ORDERED_SIZE bytes. */
void summary_person_words(const char *key, char *words);

#endif
