/* reportstations.c: stations that refer more or less, or type in late. */
#include "paper/reportparts.h"

#include "base/maths.h"
#include "counts/funnel.h"
#include "paper/funnelchart.h"
#include "paper/reportwords.h"

/* --- referral shares ---------------------------------------------------- */

struct funnel {
	struct funnelchart chart;
	double share; /* of all */
	long long most;
	double highest;
	long long stations, outside[FUNNEL_VERY_HIGH + 1];
	struct report_picks picks;
};

static bool
measure(void *context, const char *key, const struct sums *sums,
	struct fault *why)
{
	struct funnel *funnel = context;
	long long screened = sums->count[REPORT_screened];

	(void)key;
	(void)why;
	if (screened == 0)
		return true;
	funnel->stations++;
	if (screened > funnel->most)
		funnel->most = screened;
	funnel->highest =
		maths_larger(funnel->highest,
			     (double)report_referred(sums) / (double)screened);
	return true;
}

static bool
place(void *context, const char *key, const struct sums *sums,
      struct fault *why)
{
	struct funnel *funnel = context;
	long long screened = sums->count[REPORT_screened];
	long long referred = report_referred(sums);
	enum funnel_flag flag;
	struct funnel_tails tails;

	(void)why;
	if (screened == 0)
		return true;
	flag = funnel_flag(referred, screened, funnel->share);
	tails = funnel_tails(referred, screened, funnel->share);
	funnel->outside[flag]++;
	if (flag != FUNNEL_INSIDE)
		report_pick(&funnel->picks, key, sums,
			    -maths_smaller(tails.few, tails.many));
	funnelchart_point(&funnel->chart, flag == FUNNEL_INSIDE ? NULL : key,
			  referred, screened);
	return true;
}

static void
write_flagged(const struct funnel *funnel, FILE *out)
{
	static const char *const words[] = {"", "low, beyond 95 %",
					    "high, beyond 95 %",
					    "low, beyond 99.8 %",
					    "high, beyond 99.8 %"};
	char share[REPORT_WORDS_SIZE];

	fputs("<table class=\"figures\"><thead><tr><th>station</th><th>"
	      "referred of screened</th><th>share</th><th>look</th></tr>"
	      "</thead>\n",
	      out);
	for (int i = 0; i < funnel->picks.count; i++) {
		const struct report_pick *pick = &funnel->picks.pick[i];
		long long screened = pick->sums->count[REPORT_screened];
		long long referred = report_referred(pick->sums);

		report_share(referred, screened, share);
		report_put(out, "<tr><th>", pick->key, "</th>");
		fprintf(out,
			"<td>%lld of %lld</td><td>%s</td><td>%s</td></tr>\n",
			referred, screened, share,
			words[funnel_flag(referred, screened, funnel->share)]);
	}
	fputs("</table>\n", out);
	report_more(&funnel->picks, "station", out);
}

static void
write_funnel(struct summary *summary, struct funnel *funnel, FILE *out)
{
	char stations[REPORT_WORDS_SIZE];
	struct fault why;
	const long long *outside = funnel->outside;

	fputs("<div class=\"two\">\n", out);
	funnelchart_begin(&funnel->chart, out,
			  "Share referred by station and number screened",
			  funnel->share, funnel->most, funnel->highest);
	groups_visit(&summary->stations, place, funnel, &why);
	funnelchart_end(&funnel->chart);
	report_number(funnel->stations, "station", stations);
	fprintf(out,
		"<p>Of %s, %lld %s outside the limits of 95 %% and of these "
		"%lld outside those of 99.8 %%. Chance alone puts up to "
		"%.0f of %lld outside the limits of 95 %%.</p>\n",
		stations, funnel->picks.seen,
		funnel->picks.seen == 1 ? "is" : "are",
		outside[FUNNEL_VERY_LOW] + outside[FUNNEL_VERY_HIGH],
		maths_ceiling((double)funnel->stations * 0.05),
		funnel->stations);
	if (funnel->picks.count > 0)
		write_flagged(funnel, out);
	fputs("</div>\n", out);
}

void
report_funnel(struct summary *summary, FILE *out)
{
	struct sums total = summary_total(summary);
	long long screened = total.count[REPORT_screened];
	long long referred = report_referred(&total);
	struct funnel funnel = {.stations = 0};
	struct fault why;

	groups_visit(&summary->stations, measure, &funnel, &why);
	if (funnel.stations < 2) {
		fputs("<p>There are not two stations with people, so there is "
		      "nothing to compare.</p>\n",
		      out);
		return;
	}
	if (referred == 0 || referred == screened) {
		fprintf(out,
			"<p>%s was referred at any station, so there is "
			"nothing to compare.</p>\n",
			referred == 0 ? "Nobody" : "Everybody");
		return;
	}
	funnel.share = (double)referred / (double)screened;
	write_funnel(summary, &funnel, out);
}

/* --- late entries ------------------------------------------------------- */

static bool
pick_late(void *context, const char *key, const struct sums *sums,
	  struct fault *why)
{
	(void)why;
	if (sums->count[REPORT_late_entries] > 0)
		report_pick(context, key, sums,
			    (double)sums->count[REPORT_late_entries]);
	return true;
}

void
report_late(struct summary *summary, FILE *out)
{
	struct sums total = summary_total(summary);
	struct report_picks picks = {0};
	char share[REPORT_WORDS_SIZE], people[REPORT_WORDS_SIZE];
	struct fault why;

	groups_visit(&summary->stations, pick_late, &picks, &why);
	if (picks.count == 0) {
		fputs("<p>Nobody who was counted was typed in on a later day "
		      "than that of the screening.</p>\n",
		      out);
		return;
	}
	report_number(total.count[REPORT_late_entries], "people", people);
	report_share(total.count[REPORT_late_entries],
		     total.count[REPORT_screened], share);
	fprintf(out,
		"<p>%s (%s) typed in on a later day than that of the "
		"screening.</p>\n<table class=\"figures\"><thead><tr>"
		"<th>station</th><th>late of screened</th><th>share</th></tr>"
		"</thead>\n",
		people, share);
	for (int i = 0; i < picks.count; i++) {
		const struct sums *sums = picks.pick[i].sums;

		report_share(sums->count[REPORT_late_entries],
			     sums->count[REPORT_screened], share);
		report_put(out, "<tr><th>", picks.pick[i].key, "</th>");
		fprintf(out, "<td>%lld of %lld</td><td>%s</td></tr>\n",
			sums->count[REPORT_late_entries],
			sums->count[REPORT_screened], share);
	}
	fputs("</table>\n", out);
	report_more(&picks, "station", out);
}
