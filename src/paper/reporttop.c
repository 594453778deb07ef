/* reporttop.c: what the manager reads first, and the totals. */
#include "paper/reportparts.h"

#include "paper/reportwords.h"

#include <string.h>

enum { SPANS_MOST = 32, STATIONS_SHOWN = 12 };

/* --- names -------------------------------------------------------------- */

/* Keys of groups with people or days, separated by commas. */
struct naming {
	FILE *out;
	int count, most;
};

static bool
name_group(void *context, const char *key, const struct sums *sums,
	   struct fault *why)
{
	struct naming *naming = context;

	(void)sums;
	(void)why;
	if (naming->count++ < naming->most)
		report_put(naming->out, naming->count > 1 ? ", " : "", key, "");
	return true;
}

static void
write_names(struct groups *groups, int most, FILE *out)
{
	struct naming naming = {out, 0, most};
	struct fault why;

	groups_visit(groups, name_group, &naming, &why);
	if (naming.count == 0)
		fputs("none", out);
	if (naming.count > most)
		fprintf(out, " and %d more", naming.count - most);
}

void
report_programme(struct summary *summary, FILE *out)
{
	if (summary->programmes.count > 0)
		write_names(&summary->programmes, 3, out);
	else
		fputs("No tally was counted", out);
}

/* --- what must be known first ------------------------------------------- */

static void
write_people(const struct sums *total, const struct calendar_facts *facts,
	     FILE *out)
{
	long long screened = total->count[REPORT_screened];
	char people[REPORT_WORDS_SIZE], stations[REPORT_WORDS_SIZE],
		days[REPORT_WORDS_SIZE], first[REPORT_WORDS_SIZE],
		last[REPORT_WORDS_SIZE];

	report_number(screened, "people", people);
	report_number(facts->stations, "station", stations);
	report_number(facts->days, "station day", days);
	report_day(facts->first, first);
	report_day(facts->last, last);
	fprintf(out,
		"<li><b class=\"large\">%s %s screened</b> by %s on %s, %s%s"
		"%s.</li>\n",
		people, screened == 1 ? "was" : "were", stations, days, first,
		facts->first.number == facts->last.number ? "" : " to ",
		facts->first.number == facts->last.number ? "" : last);
}

static void
write_referred(const struct sums *total, FILE *out)
{
	long long screened = total->count[REPORT_screened];
	long long referred = report_referred(total);
	char share[REPORT_WORDS_SIZE], interval[REPORT_WORDS_SIZE];

	if (screened == 0) {
		fputs("<li>Nobody was screened, so there are no shares.</li>\n",
		      out);
		return;
	}
	report_share(referred, screened, share);
	report_interval(referred, screened, interval);
	fprintf(out,
		"<li><b class=\"large\">%lld %s referred</b>: %s of those "
		"screened (95 %% interval %s); %lld the same day, %lld "
		"urgently, %lld as routine.</li>\n",
		referred, referred == 1 ? "was" : "were", share, interval,
		total->count[REPORT_same_day], total->count[REPORT_urgent],
		total->count[REPORT_routine]);
}

static void
write_left_out(const struct summary *summary, FILE *out)
{
	long long conflict = summary->of[LEDGER_CONFLICT];
	long long refused = summary->of[LEDGER_REFUSED];
	char files[REPORT_WORDS_SIZE];

	report_number(conflict + refused, "file", files);
	if (conflict + refused == 0) {
		fputs(summary->of[LEDGER_COUNTED] == 0 ? "<li>No tally "
							 "came.</li>\n"
						       : "<li>Every tally that "
							 "came is in the "
							 "total, once.</li>\n",
		      out);
		return;
	}
	fprintf(out,
		"<li class=\"look\"><b>Look:</b> %s that came %s not in the "
		"total (%lld refused, %lld in conflict), so the total may be "
		"too small. <a href=\"#left-out\">Which, and why</a>.</li>\n",
		files, conflict + refused == 1 ? "is" : "are", refused,
		conflict);
}

void
report_first(struct summary *summary, FILE *out)
{
	struct calendar_facts facts = calendar_facts(&summary->calendar);
	struct sums total = summary_total(summary);
	char days[REPORT_WORDS_SIZE];

	if (facts.days == 0) {
		fputs("<li><b class=\"large\">Nothing was counted.</b> There "
		      "is no total, and no share of anything.</li>\n",
		      out);
	} else {
		write_people(&total, &facts, out);
		write_referred(&total, out);
	}
	write_left_out(summary, out);
	report_number(facts.open, "station day", days);
	if (facts.open > 0)
		fprintf(out,
			"<li class=\"look\"><b>Look:</b> %s %s still open when "
			"counted there; more people may follow.</li>\n",
			days, facts.open == 1 ? "was" : "were");
	report_number(facts.between, "day", days);
	if (facts.between > 0)
		fprintf(out,
			"<li>No tally is counted for %s between a station's "
			"first day and its last. A day without a camp and a "
			"tally that was lost look the same: "
			"<a href=\"#days\">see the days</a>.</li>\n",
			days);
	if (summary->policies.count > 1)
		fprintf(out,
			"<li>%zu policies were in force, so shares before and "
			"after a change do not compare: <a href=\"#source\">"
			"see from when to when</a>.</li>\n",
			summary->policies.count);
}

/* --- policies ----------------------------------------------------------- */

/* From when to when stations used a policy; stations with the same days are
 * one group, whose key is "POLICY FIRST LAST". */
struct span {
	char policy[13];
	struct day first, last;
};

struct spanning {
	struct groups *groups; /* to add to, or NULL: */
	const char *wanted;    /* to write the stations of */
	FILE *out;
	int written;
	int station, count;
	struct span span[SPANS_MOST];
};

static void
end_span(struct spanning *spanning, const struct span *span)
{
	struct tally_counts one = {.screened = 1};
	char key[40], first[DAY_SIZE], last[DAY_SIZE];
	struct fault why;

	day_write(span->first, first);
	day_write(span->last, last);
	snprintf(key, sizeof key, "%s %s %s", span->policy, first, last);
	if (spanning->groups != NULL)
		groups_add(spanning->groups, key, &one, 1, &why);
	else if (strcmp(key, spanning->wanted) == 0 &&
		 spanning->written++ < STATIONS_SHOWN)
		fprintf(spanning->out, "%s%04d",
			spanning->written > 1 ? ", " : "", spanning->station);
}

static void
end_station(struct spanning *spanning)
{
	for (int i = 0; i < spanning->count; i++)
		end_span(spanning, &spanning->span[i]);
	spanning->count = 0;
}

static void
see_policy(void *context, int station, struct day day, const char *policy,
	   unsigned marks)
{
	struct spanning *spanning = context;
	struct span *span = spanning->span;
	int i = 0;

	(void)marks;
	if (station != spanning->station)
		end_station(spanning);
	spanning->station = station;
	while (i < spanning->count && strcmp(span[i].policy, policy) != 0)
		i++;
	if (i == SPANS_MOST)
		return;
	if (i == spanning->count) {
		snprintf(span[i].policy, sizeof span[i].policy, "%.12s",
			 policy);
		span[i].first = day;
		spanning->count++;
	}
	span[i].last = day;
}

/* What a row of the table needs. */
struct policy_row {
	struct summary *summary;
	FILE *out;
};

static bool
write_span(void *context, const char *key, const struct sums *sums,
	   struct fault *why)
{
	const struct policy_row *row = context;
	struct spanning spanning = {NULL, key, row->out,	0,
				    0,	  0,   {{"", {0}, {0}}}};
	long long more;
	char policy[16];
	size_t key_end;

	(void)why;
	key_end = strlen(key) - DAY_SIZE - DAY_SIZE;
	snprintf(policy, sizeof policy, "%.*s", (int)key_end, key);
	report_put(row->out, "<tr><td>", policy, "</td>");
	fprintf(row->out,
		"<td class=\"date\">%.10s</td><td "
		"class=\"date\">%.10s</td><td>",
		key + key_end + 1, key + key_end + 1 + DAY_SIZE);
	calendar_visit_policies(&row->summary->calendar, see_policy, &spanning);
	end_station(&spanning);
	more = sums->count[REPORT_screened] - STATIONS_SHOWN;
	if (more > 0)
		fprintf(row->out, " and %lld more", more);
	fputs("</td></tr>\n", row->out);
	return true;
}

static void
write_spans(struct summary *summary, FILE *out)
{
	struct groups groups;
	struct spanning spanning = {&groups,	     NULL, out, 0, 0, 0,
				    {{"", {0}, {0}}}};
	struct policy_row row = {summary, out};
	struct fault why;

	groups_init(&groups);
	calendar_visit_policies(&summary->calendar, see_policy, &spanning);
	end_station(&spanning);
	fputs("<table><thead><tr><th>policy</th><th>first day</th><th>last day"
	      "</th><th>stations</th></tr></thead>\n",
	      out);
	groups_visit(&groups, write_span, &row, &why);
	fputs("</table>\n", out);
	groups_release(&groups);
}

/* --- what was counted, and totals --------------------------------------- */

void
report_source(struct summary *summary, FILE *out)
{
	struct calendar_facts facts = calendar_facts(&summary->calendar);
	char first[DAY_SIZE], last[DAY_SIZE];

	day_write(facts.first, first);
	day_write(facts.last, last);
	fputs("<table class=\"names\">\n<tr><th>days</th><td>", out);
	fprintf(out, "%s%s%s", facts.days == 0 ? "none" : first,
		facts.days == 0 ? "" : " to ", last);
	fputs("</td></tr>\n<tr><th>programmes</th><td>", out);
	write_names(&summary->programmes, 20, out);
	fprintf(out,
		"</td></tr>\n<tr><th>stations</th><td>%d</td></tr>\n"
		"<tr><th>sites</th><td>%zu</td></tr>\n"
		"<tr><th>tallies counted</th><td>%lld</td></tr>\n"
		"<tr><th>policies in force</th><td>",
		facts.stations, summary->sites.count,
		summary->of[LEDGER_COUNTED]);
	write_names(&summary->policies, 20, out);
	fputs("</td></tr>\n</table>\n", out);
	if (summary->policies.count > 1)
		write_spans(summary, out);
}

void
report_totals(struct summary *summary, FILE *out)
{
	static const struct {
		const char *words;
		int place; /* -1 = referred */
	} rows[] = {{"referred", -1},
		    {"same day", REPORT_same_day},
		    {"urgent", REPORT_urgent},
		    {"routine", REPORT_routine},
		    {"not referred", REPORT_no_referral},
		    {"neither eye could be graded", REPORT_not_gradable},
		    {"with symptoms", REPORT_with_symptoms}};
	struct sums total = summary_total(summary);
	long long screened = total.count[REPORT_screened];
	char share[REPORT_WORDS_SIZE], interval[REPORT_WORDS_SIZE];

	fprintf(out,
		"<table class=\"figures\"><thead><tr><th></th><th>people</th>"
		"<th>share</th><th>95 %% interval</th></tr></thead>\n"
		"<tr><th>screened</th><td>%lld</td><td></td><td></td></tr>\n",
		screened);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		long long count = rows[i].place < 0
					  ? report_referred(&total)
					  : total.count[rows[i].place];

		report_share(count, screened, share);
		report_interval(count, screened, interval);
		fprintf(out,
			"<tr><th%s>%s</th><td>%lld</td><td>%s</td>"
			"<td>%s</td></tr>\n",
			i >= 1 && i <= 3 ? " class=\"part\"" : "",
			rows[i].words, count, share, interval);
	}
	fputs("</table>\n", out);
	if (screened == 0)
		fputs("<p>Nobody was counted, so there are no shares.</p>\n",
		      out);
}
