/* reportwords.c: the figures of the report, in words. */
#include "paper/reportwords.h"

#include "base/text.h"
#include "counts/rates.h"

#include <stdbool.h>
#include <string.h>

/* A space at which no line is broken. */
#define NO_BREAK "\302\240"

long long
report_referred(const struct sums *sums)
{
	return sums->count[REPORT_screened] - sums->count[REPORT_no_referral];
}

void
report_share(long long count, long long of, char *words)
{
	double share = of > 0 ? 100 * (double)count / (double)of : 0;

	if (of <= 0)
		snprintf(words, REPORT_WORDS_SIZE, "-");
	else if (count > 0 && share < 0.05)
		snprintf(words, REPORT_WORDS_SIZE, "under 0.1" NO_BREAK "%%");
	else if (count < of && share >= 99.95)
		snprintf(words, REPORT_WORDS_SIZE, "over 99.9" NO_BREAK "%%");
	else
		snprintf(words, REPORT_WORDS_SIZE, "%.1f" NO_BREAK "%%", share);
}

/* With as many decimals as a narrow interval needs to have a width. */
void
report_interval(long long count, long long of, char *words)
{
	struct rates_interval interval;
	struct fault why;
	double width;
	int decimals = 1;

	if (!rates_wilson(count, of, rates_z_95, &interval, &why)) {
		snprintf(words, REPORT_WORDS_SIZE, "-");
		return;
	}
	width = 1000 * (interval.high - interval.low);
	while (width < 2 && decimals < 6) {
		width *= 10;
		decimals++;
	}
	snprintf(words, REPORT_WORDS_SIZE, "%.*f to %.*f" NO_BREAK "%%",
		 decimals, 100 * interval.low, decimals, 100 * interval.high);
}

void
report_number(long long count, const char *noun, char *words)
{
	bool people = strcmp(noun, "people") == 0;

	if (count == 1)
		snprintf(words, REPORT_WORDS_SIZE, "1 %s",
			 people ? "person" : noun);
	else
		snprintf(words, REPORT_WORDS_SIZE, "%lld %s%s", count, noun,
			 people ? "" : "s");
}

void
report_day(struct day day, char *words)
{
	int year, month, of_month;

	day_parts(day, &year, &month, &of_month);
	snprintf(words, REPORT_WORDS_SIZE, "%s %d %s %d", day_weekday_name(day),
		 of_month, day_month_name(month), year);
}

void
report_put(FILE *out, const char *before, const char *text, const char *after)
{
	fputs(before, out);
	text_write_html(out, text);
	fputs(after, out);
}

void
report_pick(struct report_picks *picks, const char *key,
	    const struct sums *sums, double score)
{
	int place = picks->count;

	picks->seen++;
	picks->people += sums->count[REPORT_screened];
	while (place > 0 && picks->pick[place - 1].score < score)
		place--;
	if (place == REPORT_PICKS_MOST)
		return;
	if (picks->count < REPORT_PICKS_MOST)
		picks->count++;
	memmove(&picks->pick[place + 1], &picks->pick[place],
		(size_t)(picks->count - place - 1) * sizeof picks->pick[0]);
	picks->pick[place] = (struct report_pick){key, sums, score};
}

void
report_more(const struct report_picks *picks, const char *noun, FILE *out)
{
	char words[REPORT_WORDS_SIZE], people[REPORT_WORDS_SIZE];
	long long others = picks->people;

	if (picks->seen == picks->count)
		return;
	for (int i = 0; i < picks->count; i++)
		others -= picks->pick[i].sums->count[REPORT_screened];
	report_number(picks->seen - picks->count, noun, words);
	report_number(others, "people", people);
	fprintf(out, "<p>Not listed: %s more, with %s.</p>\n", words, people);
}
