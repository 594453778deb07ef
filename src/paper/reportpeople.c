/* reportpeople.c: how many came when, where, and how deep their chambers. */
#include "paper/reportparts.h"

#include "paper/chart.h"
#include "paper/reportwords.h"

#include <stdlib.h>
#include <string.h>

enum {
	BARS = 26, /* rows of one drawing, so that a page can hold it */
	TALL_BARS = 14,
	CELL_ROWS = 16,
	GAP_MOST = 3, /* weeks in a row without anybody, each with its row */
	WEEK_LETTERS = 9
};

/* --- weeks -------------------------------------------------------------- */

/* Rows of a drawing until it is full. */
struct weeks {
	FILE *out;
	double most;
	int next; /* the week that should come, 0 = any */
	size_t count, full;
	struct chart_bar bar[BARS];
	char label[BARS][24], words[BARS][48];
};

static bool
find_most(void *context, const char *key, const struct sums *sums,
	  struct fault *why)
{
	double *most = context;

	(void)key;
	(void)why;
	if ((double)sums->count[REPORT_screened] > *most)
		*most = (double)sums->count[REPORT_screened];
	return true;
}

static void
draw_weeks(struct weeks *weeks)
{
	chart_bars(weeks->out, "People screened and referred by week",
		   WEEK_LETTERS, weeks->most, weeks->bar, weeks->count);
	weeks->count = 0;
}

static struct chart_bar *
add_week(struct weeks *weeks, const char *label, const char *words)
{
	struct chart_bar *bar;

	if (weeks->count == weeks->full)
		draw_weeks(weeks);
	bar = &weeks->bar[weeks->count];
	memset(bar, 0, sizeof *bar);
	snprintf(weeks->label[weeks->count], sizeof weeks->label[0], "%s",
		 label);
	snprintf(weeks->words[weeks->count], sizeof weeks->words[0], "%s",
		 words);
	bar->label = weeks->label[weeks->count];
	bar->words = weeks->words[weeks->count];
	weeks->count++;
	return bar;
}

/* Weeks from weeks->next up to `week` in which nobody came. */
static void
add_gap(struct weeks *weeks, int week)
{
	char label[24], words[48];
	int gap = weeks->next == 0 ? 0 : week - weeks->next;

	if (gap > GAP_MOST) {
		snprintf(words, sizeof words, "%d weeks with nobody", gap);
		add_week(weeks, "", words);
		return;
	}
	for (; gap > 0; gap--) {
		day_write_week(calendar_monday(week - gap), label);
		add_week(weeks, label, "nobody");
	}
}

static bool
see_week(void *context, const char *key, const struct sums *sums,
	 struct fault *why)
{
	struct weeks *weeks = context;
	long long screened = sums->count[REPORT_screened];
	int week = (int)strtol(key, NULL, 10);
	char label[24], words[48];
	struct chart_bar *bar;

	(void)why;
	if (screened == 0)
		return true;
	add_gap(weeks, week);
	weeks->next = week + 1;
	day_write_week(calendar_monday(week), label);
	snprintf(words, sizeof words, "%lld, %lld ref.", screened,
		 report_referred(sums));
	bar = add_week(weeks, label, words);
	bar->parts = CHART_PARTS_MOST;
	bar->part[0] = (double)report_referred(sums);
	bar->part[CHART_PARTS_MOST - 1] =
		(double)(screened - report_referred(sums));
	return true;
}

void
report_weeks(struct summary *summary, FILE *out)
{
	static const char *const names[] = {"referred", NULL, NULL,
					    "not referred"};
	struct weeks weeks = {.out = out, .full = BARS};
	size_t half; /* two columns of the same height, or full ones */
	struct fault why;

	groups_visit(&summary->weeks, find_most, &weeks.most, &why);
	if (weeks.most <= 0) {
		fputs("<p>Nobody was screened in any week.</p>\n", out);
		return;
	}
	half = (summary->weeks.count + 1) / 2;
	if (half > BARS / 4 && half < BARS)
		weeks.full = half;
	chart_legend(out, names, CHART_PARTS_MOST);
	fputs("<div class=\"two\">\n", out);
	groups_visit(&summary->weeks, see_week, &weeks, &why);
	draw_weeks(&weeks);
	fputs("</div>\n", out);
}

/* --- sites -------------------------------------------------------------- */

static bool
pick_site(void *context, const char *key, const struct sums *sums,
	  struct fault *why)
{
	(void)why;
	if (sums->count[REPORT_screened] > 0)
		report_pick(context, key, sums,
			    (double)sums->count[REPORT_screened]);
	return true;
}

static void
draw_sites(const struct report_pick *pick, int count, FILE *out)
{
	struct chart_bar bar[TALL_BARS];
	char words[TALL_BARS][160], share[REPORT_WORDS_SIZE];

	for (int i = 0; i < count; i++) {
		const long long *people = pick[i].sums->count;

		report_share(report_referred(pick[i].sums),
			     people[REPORT_screened], share);
		snprintf(words[i], sizeof words[i],
			 "%lld = %lld same day + %lld urgent + %lld routine "
			 "+ %lld not",
			 people[REPORT_screened], people[REPORT_same_day],
			 people[REPORT_urgent], people[REPORT_routine],
			 people[REPORT_no_referral]);
		bar[i] = (struct chart_bar){.label = pick[i].key,
					    .words = words[i],
					    .parts = CHART_PARTS_MOST};
		for (int j = 0; j < CHART_PARTS_MOST; j++)
			bar[i].part[j] = (double)people[REPORT_same_day + j];
	}
	chart_bars(out, "Urgency by site, each bar all people of the site", 0,
		   0, bar, (size_t)count);
}

void
report_sites(struct summary *summary, FILE *out)
{
	static const char *const names[] = {"same day", "urgent", "routine",
					    "not referred"};
	struct report_picks picks = {0};
	int half; /* two columns of the same height, or full ones */
	struct fault why;

	groups_visit(&summary->sites, pick_site, &picks, &why);
	if (picks.count == 0) {
		fputs("<p>Nobody was screened at any site.</p>\n", out);
		return;
	}
	chart_legend(out, names, CHART_PARTS_MOST);
	fputs("<div class=\"two\">\n", out);
	half = picks.count > TALL_BARS * 2 ? TALL_BARS : (picks.count + 1) / 2;
	for (int i = 0; i < picks.count; i += half)
		draw_sites(picks.pick + i,
			   picks.count - i < half ? picks.count - i : half,
			   out);
	fputs("</div>\n", out);
	report_more(&picks, "smaller site", out);
}

/* --- depths ------------------------------------------------------------- */

struct depths {
	FILE *out;
	char sex;
	size_t count;
	struct chart_row row[CELL_ROWS];
	char label[CELL_ROWS][SUMMARY_ORDERED_SIZE];
};

static void
draw_depths(struct depths *depths)
{
	static const char *const names[CHART_CELLS_MOST] = {
		"0 %", "5 %", "15 %", "25 %", "40 %", "75 %", "100 %", "none"};

	chart_cells(depths->out, "People by sex, age and depth", names,
		    CHART_CELLS_MOST, depths->row, depths->count);
	depths->count = 0;
}

static bool
see_person(void *context, const char *key, const struct sums *sums,
	   struct fault *why)
{
	struct depths *depths = context;

	(void)why;
	if (sums->count[REPORT_screened] == 0)
		return true;
	/* Each sex by itself, to stand side by side. */
	if (depths->count == CELL_ROWS || depths->sex != key[0])
		draw_depths(depths);
	depths->sex = key[0];
	summary_person_words(key, depths->label[depths->count]);
	depths->row[depths->count].label = depths->label[depths->count];
	memcpy(depths->row[depths->count].count, sums->count + REPORT_depth_0,
	       sizeof depths->row[0].count);
	depths->count++;
	return true;
}

void
report_depths(struct summary *summary, FILE *out)
{
	struct depths depths = {.out = out};
	struct sums total = summary_total(summary);
	struct fault why;

	if (total.count[REPORT_screened] == 0) {
		fputs("<p>Nobody's depth was counted.</p>\n", out);
		return;
	}
	fputs("<div class=\"two\">\n", out);
	groups_visit(&summary->people, see_person, &depths, &why);
	draw_depths(&depths);
	fputs("</div>\n", out);
}
