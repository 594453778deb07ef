/* reportwords.h: the figures of the report, in words. */
#ifndef SHOAL_PAPER_REPORTWORDS_H
#define SHOAL_PAPER_REPORTWORDS_H

#include "base/day.h"
#include "counts/groups.h"

#include <stdio.h>

enum {
	REPORT_WORDS_SIZE = 64,
	REPORT_PICKS_MOST = 40 /* rows of a list */
};

/* Places in struct sums. */
#define REPORT_PLACE(type, name, ...) REPORT_##name,
enum { TALLY_COUNTS(REPORT_PLACE) };
#undef REPORT_PLACE

/* Of the people of these sums, those referred in any way. */
long long report_referred(const struct sums *sums);

/* "12.3 %", never 0 or 100 % by rounding; "-" of nobody. The space is one at
 * which no line is broken. All `words` here hold REPORT_WORDS_SIZE bytes. */
void report_share(long long count, long long of, char *words);

/* Wilson's interval of 95 % as "10.9 to 13.8 %"; "-" of nobody. */
void report_interval(long long count, long long of, char *words);

/* "1 station", "5 stations", "1 person", "5 people". */
void report_number(long long count, const char *noun, char *words);

/* "Tuesday 24 November 2026". */
void report_day(struct day day, char *words);

/* Text, escaped, between two pieces of HTML. */
void report_put(FILE *out, const char *before, const char *text,
		const char *after);

/* The keys with the highest scores, the first of equal ones first. Keys and
 * sums stay where they are until something is added to their table. */
struct report_pick {
	const char *key;
	const struct sums *sums;
	double score;
};

struct report_picks {
	int count;
	long long seen, people; /* all that were offered */
	struct report_pick pick[REPORT_PICKS_MOST];
};

void report_pick(struct report_picks *picks, const char *key,
		 const struct sums *sums, double score);

/* "<p>Not listed: 12 sites more, with 340 people.</p>" when more were offered
 * than picked. */
void report_more(const struct report_picks *picks, const char *noun, FILE *out);

#endif
