/* The page about a collation, for the programme's manager. */
#include "paper/report.h"

#include "clinic/visit.h"
#include "paper/reportwords.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* People of one station and day: so many of each urgency, all with one depth
 * but the first, who could not be graded. */
struct camp {
	int station;
	const char *date, *site;
	int same_day, urgent, routine, no_referral;
};

static void
count(struct summary *summary, const struct camp *camp, const char *policy)
{
	struct counted row = {.station = camp->station,
			      .programme = "Lantern & Valley",
			      .site = camp->site,
			      .policy = policy,
			      .sex = SEX_COUNT,
			      .age_band = "unknown",
			      .closed = camp->station != 7};
	struct ledger_line line = {.path = "in/t.csv",
				   .status = LEDGER_COUNTED,
				   .station = camp->station,
				   .reason = ""};
	struct fault why;

	cr_assert(day_read(camp->date, &row.date, &why));
	row.counts.same_day = camp->same_day;
	row.counts.urgent = camp->urgent;
	row.counts.routine = camp->routine;
	row.counts.no_referral = camp->no_referral;
	row.counts.screened = camp->same_day + camp->urgent + camp->routine +
			      camp->no_referral;
	row.counts.not_gradable = row.counts.screened > 0;
	row.counts.depth_40 = row.counts.screened - row.counts.not_gradable;
	line.date = row.date;
	cr_assert(summary_count(summary, &row, 1, &why));
	cr_assert(summary_account(summary, &line, &why));
}

/* Owned by the caller. */
static char *
page_of(struct summary *summary)
{
	static const char *const never[] = {"nan",     "inf ",	  "-0.0",
					    "-0 %",    "(null)",  "{{",
					    "http",    "src=",	  "<script",
					    "url(h",   "@import", "<link",
					    "onclick", "<i>bad",  "%%"};
	struct fault why;
	char *text;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	cr_assert(report_write_html(summary, out, &why), "%s", why.sentence);
	fclose(out);
	for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
		cr_expect_null(strstr(text, never[i]), "'%s' in %s", never[i],
			       text);
	return text;
}

static void
says(const char *page, const char *words)
{
	cr_expect_not_null(strstr(page, words), "'%s' not in %s", words, page);
}

Test(report, an_empty_input_a_lone_day_and_days_without_anybody_are_said)
{
	static const struct camp one = {14, "2026-03-10", "Mavi", 0, 1, 0, 0};
	static const struct camp nobody = {14, "2026-03-10", "Mavi", 0, 0, 0,
					   0};
	struct summary summary;
	char *page;

	summary_init(&summary);
	page = page_of(&summary);
	says(page, "Nothing was counted.");
	says(page, "No tally came.");
	says(page, "There are not two stations with people");
	says(page, "No station counted on any day.");
	free(page);

	count(&summary, &nobody, "ABCDEF");
	page = page_of(&summary);
	says(page, "0 people were screened</b> by 1 station on 1 station day");
	says(page, "Nobody was screened, so there are no shares.");
	says(page, "<td>0</td><td>-</td><td>-</td>");
	says(page, "Nobody was screened in any week.");
	free(page);

	count(&summary, &one, "ABCDEF");
	page = page_of(&summary);
	says(page, "1 person was screened</b> by 1 station on 1 station day, "
		   "Tuesday 10 March 2026.");
	/* 1 of 1 by Wilson: 1 / (1 + z^2) = 0.2065. */
	says(page, "1 was referred</b>: 100.0\302\240% of those screened (95 % "
		   "interval 20.7 to 100.0\302\240%)");
	says(page, "1 = 0 same day + 1 urgent + 0 routine + 0 not");
	free(page);
	summary_release(&summary);
}

Test(report, gaps_open_days_policies_and_what_was_left_out_come_first)
{
	static const struct camp camps[] = {
		{7, "2026-03-10", "<i>bad \"site\" & more", 1, 2, 3, 94},
		{7, "2026-03-13", "<i>bad \"site\" & more", 1, 2, 3, 94},
		{8, "2026-03-10", "Ridge", 20, 30, 40, 10}};
	struct ledger_line line = {.path = "<i>bad.csv",
				   .status = LEDGER_REFUSED,
				   .station = 8,
				   .reason = "'<i>bad' is no count",
				   .row = 3,
				   .column = "depth_25"};
	struct summary summary;
	struct fault why;
	char *page;

	summary_init(&summary);
	count(&summary, &camps[0], "ABCDEF");
	count(&summary, &camps[1], "GHIJKL");
	count(&summary, &camps[2], "ABCDEF");
	cr_assert(day_read("2026-03-11", &line.date, &why));
	cr_assert(summary_account(&summary, &line, &why));
	page = page_of(&summary);
	says(page, "300 people were screened</b> by 2 stations on 3 station "
		   "days, Tuesday 10 March 2026 to Friday 13 March 2026.");
	says(page, "102 were referred");
	says(page, "1 file that came is not in the total (1 refused, 0 in "
		   "conflict)");
	says(page, "2 station days were still open");
	says(page, "No tally is counted for 2 days between");
	says(page, "2 policies were in force");
	says(page, "<tr><td>GHIJKL</td><td class=\"date\">2026-03-13</td>"
		   "<td class=\"date\">2026-03-13</td><td>0007</td></tr>");
	says(page, "&lt;i&gt;bad &quot;site&quot; &amp; more</text>");
	says(page, "<b>&lt;i&gt;bad.csv</b>: row 3, depth_25: "
		   "&#39;&lt;i&gt;bad&#39; is no count");
	says(page, "<td>90 of 100</td><td>90.0\302\240%</td>"
		   "<td>high, beyond 99.8 %</td>");
	free(page);
	summary_release(&summary);
}

/* The space that breaks no line, as one that may. */
static void
plain_space(char *words)
{
	char *space = strstr(words, "\302\240");

	if (space == NULL)
		return;
	*space = ' ';
	memmove(space + 1, space + 2, strlen(space + 1));
}

Test(report, shares_are_never_rounded_to_nothing_or_to_all)
{
	static const struct {
		long long count, of;
		const char *share, *interval;
	} rows[] = {
		{0, 0, "-", "-"},
		{0, 5, "0.0 %", "0.0 to 43.4 %"},
		{5, 5, "100.0 %", "56.6 to 100.0 %"},
		/* Newcombe, Stat Med 1998;17:857-72, table I, method 3, as
		 * quoted by others. */
		{81, 263, "30.8 %", "25.5 to 36.6 %"},
		{15, 148, "10.1 %", "6.2 to 16.0 %"},
		{1, 29, "3.4 %", "0.6 to 17.2 %"},
		{1, 100000, "under 0.1 %", "0.000 to 0.006 %"},
		{99999, 100000, "over 99.9 %", "99.994 to 100.000 %"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char words[REPORT_WORDS_SIZE];

		report_share(rows[i].count, rows[i].of, words);
		plain_space(words);
		cr_expect_str_eq(words, rows[i].share, "row %zu: %s", i, words);
		report_interval(rows[i].count, rows[i].of, words);
		plain_space(words);
		cr_expect_str_eq(words, rows[i].interval, "row %zu: %s", i,
				 words);
	}
}
