/* yieldpage.c: what became of the people sent, as sentences and tables. */
#include "paper/yieldpage.h"

#include "base/text.h"
#include "paper/chart.h"
#include "paper/yieldaccuracy.h"
#include "paper/yieldgroups.h"
#include "paper/yieldwords.h"

#include <string.h>

enum { WORDS_SIZE = 300 };

static void
write_head(const struct yieldpage *page, struct leaf *leaf)
{
	const struct policy *policy = page->policy;
	char from[DAY_SIZE], to[DAY_SIZE], today[DAY_SIZE], limits[120] = "";

	day_write(page->from, from);
	day_write(page->to, to);
	day_write(page->today, today);
	leaf_begin(leaf, "What became of the people sent to the clinic");
	leaf_say(leaf, "%s, station %04d. Screened %s%s%s, as known on %s.",
		 page->programme, page->station,
		 from[0] == '\0' ? "up to " : from,
		 from[0] == '\0' ? "" : " to ", to, today);
	leaf_say(leaf, "For the programme only: small numbers can point to a "
		       "person.");
	if (policy->pressure_raised_at_or_above_mmhg != FIELD_BLANK)
		snprintf(limits, sizeof limits,
			 "; pressure raised at %d mmHg or more",
			 policy->pressure_raised_at_or_above_mmhg);
	if (policy->hidden_quadrants == FIELD_BLANK)
		leaf_say(leaf, "The policy has no section [gonioscopy], so no "
			       "angle can be classed.");
	else
		leaf_say(leaf,
			 "Narrow: posterior meshwork hidden in %d or "
			 "more quadrants, that is suspect, closure or "
			 "closure glaucoma (Foster 2002)%s.",
			 policy->hidden_quadrants, limits);
}

static const struct leaf_column outcome_columns[] = {
	{"", 38},
	{"people", 10},
	{"% of sent (95 %)", 18},
	{"least-most %", 14},
};

/* At most so many had any of the others without a reply this outcome. */
static void
write_outcome(const struct leaf *leaf, const char *label, int count,
	      const struct yield_counts *counts)
{
	char number[YIELDWORDS_SIZE], words[YIELDWORDS_SIZE],
		bounds[YIELDWORDS_SIZE];
	struct yield_share share;

	yield_share_of(count, counts->people, &share);
	yieldwords_share(&share, words);
	yield_share_of(count + counts->unknown, counts->people, &share);
	share.low = (double)count / counts->people;
	share.high = share.value;
	leaf_row(leaf,
		 (const char *[]){label, yieldwords_count(count, number), words,
				  yieldwords_bounds(&share, bounds)});
}

static void
write_reasons(const struct yield_counts *counts, const struct leaf *leaf)
{
	static const char *const words[] = {"cost",
					    "sees well enough",
					    "too far",
					    "nobody to come along",
					    "another illness",
					    "did not understand",
					    "died",
					    "other",
					    "not known"};
	const int *reason = &counts->cost;
	char line[WORDS_SIZE] = "";

	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
		size_t used = strlen(line);

		if (reason[i] > 0)
			snprintf(line + used, sizeof line - used, "%s%s %d",
				 used > 0 ? ", " : "", words[i], reason[i]);
	}
	if (line[0] != '\0')
		leaf_say(leaf, "Why they did not come: %s.", line);
}

static const char *
show_day(int day, char *text)
{
	if (day == ATTENDANCE_NOT_REACHED)
		return "not reached";
	return yieldwords_count(day, text);
}

static void
write_time(const struct yield_figures *figures, const struct leaf *leaf)
{
	const struct attendance_median *median = &figures->median;
	char share[YIELDWORDS_SIZE], low[YIELDWORDS_SIZE],
		high[YIELDWORDS_SIZE];

	if (figures->by_day.has)
		leaf_say(leaf,
			 "Come by day %d after the screening, %% (95 %%): %s. "
			 "Kaplan and Meier, log-log interval; Wilson for "
			 "nobody or everybody.",
			 YIELD_DAY, yieldwords_share(&figures->by_day, share));
	else
		leaf_say(leaf,
			 "How many come by day %d cannot be told: nobody was "
			 "awaited that long.",
			 YIELD_DAY);
	if (figures->has_median && median->day == ATTENDANCE_NOT_REACHED)
		leaf_say(leaf, "Half have not come so far.");
	else if (!figures->has_median)
		return;
	else if (median->low == median->high)
		leaf_say(leaf, "Half had come by day %d.", median->day);
	else
		leaf_say(leaf, "Half had come by day %d (95 %%: %s to %s).",
			 median->day, show_day(median->low, low),
			 show_day(median->high, high));
	leaf_say(leaf, "Here, who has no reply is taken to be still "
		       "awaited today, so the truth may be earlier; those "
		       "seen elsewhere or dead are left out.");
}

static void
write_outcomes(const struct yield_counts *counts,
	       const struct yield_figures *figures, struct leaf *leaf)
{
	char number[YIELDWORDS_SIZE];

	leaf_heading(leaf, "All who were sent");
	leaf_say(leaf, "%d %s sent (referred by the screening).",
		 counts->people,
		 counts->people == 1 ? "person was" : "people were");
	if (counts->unknown == counts->people) {
		leaf_say(leaf, "No reply has come yet, so nothing is known of "
			       "who came and who did not.");
		return;
	}
	leaf_table(leaf, outcome_columns, 4);
	write_outcome(leaf, "came to the clinic", counts->attended, counts);
	write_outcome(leaf, "seen elsewhere", counts->elsewhere, counts);
	write_outcome(leaf, "did not come", counts->not_attended, counts);
	leaf_row(leaf,
		 (const char *[]){"unknown: no reply",
				  yieldwords_count(counts->unknown, number),
				  "-", "-"});
	leaf_table_end(leaf);
	leaf_say(leaf, "Least: none of the unknown did; most: all of them "
		       "did.");
	if (counts->in_time > 0)
		leaf_say(leaf,
			 "Of the unknown %d still %s time until the day to be "
			 "seen by.",
			 counts->in_time,
			 counts->in_time == 1 ? "has" : "have");
	write_reasons(counts, leaf);
	write_time(figures, leaf);
}

static const struct leaf_column found_columns[] = {
	{"", 34},
	{"of those told", 14},
	{"% (95 %)", 18},
	{"% of all sent", 14},
};

static const char *const finding_words[YIELD_FINDINGS] = {
	"narrow, any kind",
	"narrow: suspect",
	"narrow: closure",
	"narrow: closure glaucoma",
	"open",
	"cannot be told",
};

/* The shares of those who came, with their intervals. */
static void
draw_found(const struct yield_figures *figures, const struct leaf *leaf)
{
	struct chart_bar bar[YIELD_FINDINGS];
	char words[YIELD_FINDINGS][YIELDWORDS_SIZE];

	for (int i = 0; i < YIELD_FINDINGS; i++) {
		const struct yield_share *share = &figures->found[i].share;

		yieldwords_share(share, words[i]);
		bar[i] = (struct chart_bar){.label = finding_words[i],
					    .words = words[i],
					    .part = {share->value},
					    .parts = 1,
					    .low = share->low,
					    .high = share->high};
	}
	fputs("<figure>\n", leaf->out);
	chart_bars(leaf->out, "Share of those told, % (95 %)", 24, 1, bar,
		   YIELD_FINDINGS);
	fputs("</figure>\n", leaf->out);
}

/* What an interval does not hold: in some it cannot be told. */
static void
write_untold(const struct yield_counts *counts,
	     const struct yield_figures *figures, const struct leaf *leaf)
{
	char bounds[YIELD_FINDINGS][YIELDWORDS_SIZE];

	for (int i = 0; i < YIELD_FINDINGS; i++)
		yieldwords_bounds(&figures->found[i].came, bounds[i]);
	if (counts->closed > 0)
		leaf_say(leaf, "%d of the narrow cannot be told more closely.",
			 counts->closed);
	if (counts->closed > 0 || counts->not_derivable > 0)
		leaf_say(leaf,
			 "Least and most %% of all who came, whatever those "
			 "not told have: narrow %s, suspect %s, closure %s, "
			 "closure glaucoma %s, open %s.",
			 bounds[YIELD_CLOSED], bounds[YIELD_SUSPECT],
			 bounds[YIELD_CLOSURE], bounds[YIELD_GLAUCOMA],
			 bounds[YIELD_OPEN]);
}

static void
write_found(const struct yield *yield, const struct yield_figures *figures,
	    struct leaf *leaf)
{
	const struct yield_counts *counts = &yield->cell[0].counts;

	leaf_heading(leaf, "What the clinic found");
	if (counts->attended == 0) {
		leaf_say(leaf, "No reply tells of anybody who came, so nothing "
			       "is known of what there was to be found.");
		return;
	}
	leaf_say(leaf,
		 "%d came. Each share is of those in whom it can be told:",
		 counts->attended);
	leaf_table(leaf, found_columns, 4);
	for (int i = 0; i < YIELD_FINDINGS; i++) {
		const struct yield_found *found = &figures->found[i];
		char number[YIELDWORDS_SIZE], share[YIELDWORDS_SIZE],
			bounds[YIELDWORDS_SIZE];

		snprintf(number, sizeof number, "%d of %d", found->count,
			 found->of);
		leaf_row(leaf,
			 (const char *[]){
				 finding_words[i], number,
				 yieldwords_share(&found->share, share),
				 yieldwords_bounds(&found->bounds, bounds)});
	}
	leaf_table_end(leaf);
	if (leaf->html)
		draw_found(figures, leaf);
	write_untold(counts, figures, leaf);
	leaf_say(leaf, "%% of all sent: the least if nobody, the most if "
		       "everybody, of those about whom it is not known has "
		       "it. Who comes may differ from who does not.");
	leaf_say(leaf,
		 "Two examiners agree on the exact structure in about half of "
		 "the quadrants: were each structure one place further "
		 "forward, %d of those who came would be narrow; as seen %d; "
		 "one further back %d.",
		 yield->closed[0], yield->closed[1], yield->closed[2]);
}

void
yieldpage_write(const struct yieldpage *page, const struct yield *yield,
		struct leaf *leaf)
{
	const struct yield_cell *all = &yield->cell[0];
	struct yield_figures figures;

	write_head(page, leaf);
	if (yield->misdated > 0)
		leaf_say(leaf, "%d %s an impossible day and %s not counted.",
			 yield->misdated,
			 yield->misdated == 1 ? "reply has" : "replies have",
			 yield->misdated == 1 ? "is" : "are");
	yield_figure(all, &figures);
	if (all->counts.people == 0)
		leaf_say(leaf, "Nobody was referred, so there is no uptake and "
			       "no yield.");
	else {
		write_outcomes(&all->counts, &figures, leaf);
		write_found(yield, &figures, leaf);
	}
	yieldaccuracy_write(&all->counts, &yield->cleared, yield->chosen, leaf);
	if (yield->aside > 0)
		leaf_say(leaf,
			 "%d %s not referred and not chosen %s a reply, which "
			 "is left out here: examined by suspicion, they would "
			 "mislead.",
			 yield->aside, yieldwords_people(yield->aside),
			 yield->aside == 1 ? "has" : "have");
	yieldgroups_write(yield, page->per, leaf);
	leaf_end(leaf);
}
