/* agreepage.c: how far graders agree, as a page. */
#include "desk/agreepage.h"

#include "base/maths.h"
#include "base/text.h"
#include "clinic/cutoffs.h"
#include "desk/agreetable.h"
#include "paper/chart.h"

#include <math.h>
#include <stdarg.h>

enum { LINE_SIZE = 700, CELL_SIZE = 160, PERCENT_SIZE = 16 };

struct writing {
	const struct agreepage *page;
	const struct gradings *gradings;
	FILE *out;
};

/* --- words -------------------------------------------------------------- */

/* A paragraph, behind so many spaces. */
__attribute__((format(printf, 3, 4))) static void
say(const struct writing *to, int indent, const char *format, ...)
{
	char line[LINE_SIZE];
	va_list values;

	va_start(values, format);
	vsnprintf(line, sizeof line, format, values);
	va_end(values);
	if (to->page->html) {
		fprintf(to->out, "<p%s>", indent > 0 ? " class=\"in\"" : "");
		text_write_html(to->out, line);
		fputs("</p>\n", to->out);
		return;
	}
	fprintf(to->out, "%*s", indent, "");
	text_write_wrapped(to->out, line, to->page->columns, indent,
			   2 * indent);
}

static void
head(const struct writing *to, const char *line)
{
	fprintf(to->out, to->page->html ? "<h2>%s</h2>\n" : "\n%s\n", line);
}

static const char *
eyes(long count)
{
	return count == 1 ? "eye" : "eyes";
}

/* With one decimal, but nothing becomes 0.0 that is some or 100.0 that is not
 * all. */
static void
write_percent(double share, char *cell)
{
	if (share > 0 && share < 0.0005)
		snprintf(cell, PERCENT_SIZE, "<0.1");
	else if (share < 1 && share >= 0.9995)
		snprintf(cell, PERCENT_SIZE, ">99.9");
	else
		snprintf(cell, PERCENT_SIZE, "%.1f", 100 * share);
}

/* "5 of 40, 12.5 % (5.5 to 26.1)". */
static const char *
show_share(long long count, long long of, char *cell)
{
	char middle[PERCENT_SIZE], low[PERCENT_SIZE], high[PERCENT_SIZE];
	struct accuracy_share share;
	struct fault none;

	if (!accuracy_share(count, of, &share, &none)) {
		snprintf(cell, CELL_SIZE, "- (0 of 0)");
		return cell;
	}
	write_percent(share.share, middle);
	write_percent(share.interval.low, low);
	write_percent(share.interval.high, high);
	snprintf(cell, CELL_SIZE, "%lld of %lld, %s %% (%s to %s)", count, of,
		 middle, low, high);
	return cell;
}

static const char *
show_bias(const struct agreement_summary *sum, char *cell)
{
	double size = fabs(sum->mean_steps);

	snprintf(cell, CELL_SIZE, "too deep %ld, too shallow %ld", sum->deeper,
		 sum->shallower);
	if (size > 0)
		snprintf(cell, CELL_SIZE,
			 "too deep %ld, too shallow %ld, on average %s%.2f "
			 "steps too %s",
			 sum->deeper, sum->shallower,
			 size < 0.01 ? "less than " : "",
			 maths_larger(size, 0.01),
			 sum->mean_steps > 0 ? "deep" : "shallow");
	return cell;
}

static void
say_kappa(const struct writing *to, const char *name,
	  const struct agreement_table *table, enum agreement_weights weights)
{
	struct accuracy_estimate kappa;
	struct fault why;

	if (!agreement_kappa(table, weights, &kappa, &why))
		say(to, 2, "%s: %s.", name, why.sentence);
	else if (kappa.error == 0)
		say(to, 2, "%s: %.3f, for which the formula gives no interval.",
		    name, kappa.value);
	else
		say(to, 2, "%s: %.3f (%.3f to %.3f), standard error %.3f.",
		    name, kappa.value, kappa.interval.low, kappa.interval.high,
		    kappa.error);
}

static void
say_crossed(const struct writing *to, const struct agreement_table *table,
	    enum depth cutoff)
{
	struct accuracy_table at;
	char cell[CELL_SIZE];
	int percent = depth_percent(cutoff);

	agreement_at_cutoff(table, (int)cutoff, &at);
	say(to, 2, "Missed at %d %%: %s.", percent,
	    show_share(at.false_negative, at.false_negative + at.true_positive,
		       cell));
	say(to, 2, "Over-called at %d %%: %s.", percent,
	    show_share(at.false_positive, at.false_positive + at.true_negative,
		       cell));
}

/* --- all eyes ------------------------------------------------------------- */

static void
write_counts(const struct writing *to, const struct agreement_summary *all)
{
	const long *apart = to->gradings->apart;
	char cell[CELL_SIZE];

	say(to, 0,
	    "%ld %s graded twice, on the scale of 7 grades: 0 5 15 25 "
	    "40 75 100.",
	    all->cases, eyes(all->cases));
	for (int i = 0; i < GRADINGS_APART; i++) {
		if (apart[i] == 0)
			continue;
		say(to, 0,
		    "Counted apart: could not be graded by the grader %ld, by "
		    "the reference %ld, by both %ld; no eye %ld.",
		    apart[GRADINGS_GRADER_X], apart[GRADINGS_REFERENCE_X],
		    apart[GRADINGS_BOTH_X], apart[GRADINGS_NO_EYE]);
		break;
	}
	if (to->gradings->bad > 0)
		say(to, 0, "Refused, so not counted: %ld of %ld rows.",
		    to->gradings->bad, to->gradings->rows);
	head(to, "Agreement");
	say(to, 2, "Equal: %s.", show_share(all->equal, all->cases, cell));
	say(to, 2, "Within one step: %s.",
	    show_share(all->within_one, all->cases, cell));
	say(to, 2, "Direction: %s.", show_bias(all, cell));
}

static void
write_cutoffs(const struct writing *to)
{
	const struct rule *at[DEPTH_GRADES];

	head(to, "At the policy's cut-offs");
	if (to->gradings->cutoff == DEPTH_BLANK) {
		say(to, 0, "No rule of policy %s refers by depth alone.",
		    to->page->mark);
		return;
	}
	say(to, 0,
	    "Policy %s. At a cut-off or shallower a rule refers by depth "
	    "alone. Missed: of the eyes that are there by the reference, those "
	    "graded deeper. Over-called: of the other eyes, those graded "
	    "there.",
	    to->page->mark);
	cutoffs_by_depth(to->page->policy, at);
	for (int i = DEPTH_GRADES - 1; i >= 0; i--) {
		if (at[i] == NULL)
			continue;
		say(to, 0, "%d %% or shallower: rule '%s', within %d days.",
		    depth_percent((enum depth)i), at[i]->name,
		    at[i]->refer_within_days);
		say_crossed(to, &to->gradings->all, (enum depth)i);
	}
}

/* The training: optometrists in the UK on photographs in seven steps, doi
 * 10.1038/s41433-024-03492-5; kappa rose from 0.42 to 0.47 while the share
 * found below 25 % fell from 86.0 to 78.2 %. */
static void
write_kappas(const struct writing *to)
{
	const struct agreement_table *all = &to->gradings->all;

	head(to, "Kappa, on 7 grades");
	say_kappa(to, "Linear weights", all, AGREEMENT_LINEAR);
	say_kappa(to, "Quadratic weights", all, AGREEMENT_QUADRATIC);
	say_kappa(to, "No weights", all, AGREEMENT_UNWEIGHTED);
	say(to, 0,
	    "Kappa alone misleads: it can rise while more are missed, as in a "
	    "published training (Eye 2024). Other weights or fewer grades give "
	    "other values for the same eyes.");
}

static void
write_table(const struct writing *to)
{
	head(to, "Table of grades");
	(to->page->html ? agreetable_draw : agreetable_write)(
		&to->gradings->all, to->gradings->cutoff, to->out);
	say(to, 0, "Rows: the grader; columns: the reference; %s: equal.%s",
	    to->page->html ? "thick frames" : "[ ]",
	    to->gradings->cutoff == DEPTH_BLANK ? ""
						: " The lines are the cut-off: "
						  "missed are below and left, "
						  "over-called above and "
						  "right.");
}

/* --- eyes, graders, periods ----------------------------------------------- */

static void
write_crossings(const struct writing *to)
{
	const struct gradings *gradings = to->gradings;

	if (gradings->crossings == 0)
		return;
	head(to, "To be looked at again, across the deepest cut-off");
	for (long i = 0; i < gradings->crossings; i++) {
		const struct gradings_crossed *crossed = &gradings->crossed[i];

		if (i == GRADINGS_CROSSED_MOST) {
			say(to, 2, "and %ld more", gradings->crossings - i);
			return;
		}
		say(to, 2, "%s: %s %d, reference %d (%s)", crossed->name,
		    crossed->grader_name[0] == '\0' ? "grader"
						    : crossed->grader_name,
		    depth_percent(crossed->grader),
		    depth_percent(crossed->reference),
		    crossed->grader > crossed->reference ? "missed"
							 : "over-called");
	}
}

static void
write_group(const struct writing *to, const struct gradings_group *group)
{
	struct agreement_summary sum;
	char cell[CELL_SIZE];

	agreement_summarise(&group->table, &sum);
	say(to, 0, "%s: %ld %s, equal %ld, within one step %ld; %s.",
	    group->name, sum.cases, eyes(sum.cases), sum.equal, sum.within_one,
	    show_bias(&sum, cell));
	if (to->gradings->cutoff != DEPTH_BLANK)
		say_crossed(to, &group->table, to->gradings->cutoff);
	say_kappa(to, "Kappa, linear weights", &group->table, AGREEMENT_LINEAR);
}

/* Bars of the share missed, with its interval. */
static void
draw_groups(const struct writing *to, const struct gradings_groups *groups)
{
	struct chart_bar bars[GRADINGS_GROUPS_MOST];
	char words[GRADINGS_GROUPS_MOST][CELL_SIZE];
	struct accuracy_share share;
	struct accuracy_table at;
	struct fault none;

	for (int i = 0; i < groups->count; i++) {
		const struct gradings_group *group = &groups->group[i];
		long long of;

		agreement_at_cutoff(&group->table, (int)to->gradings->cutoff,
				    &at);
		of = at.false_negative + at.true_positive;
		snprintf(words[i], CELL_SIZE, "%lld of %lld", at.false_negative,
			 of);
		bars[i] = (struct chart_bar){
			.label = group->name, .words = words[i], .parts = 1};
		if (!accuracy_share(at.false_negative, of, &share, &none))
			continue;
		bars[i].part[0] = share.share;
		bars[i].low = share.interval.low;
		bars[i].high = share.interval.high;
	}
	chart_bars(to->out, "Share missed", 12, 1, bars, (size_t)groups->count);
	say(to, 0, "Bars: the share missed, with its interval.");
}

static void
write_groups(const struct writing *to, const char *heading,
	     const struct gradings_groups *groups)
{
	if (groups->count == 0)
		return;
	head(to, heading);
	if (to->page->html && to->gradings->cutoff != DEPTH_BLANK)
		draw_groups(to, groups);
	for (int i = 0; i < groups->count; i++)
		write_group(to, &groups->group[i]);
}

/* --- the page ------------------------------------------------------------ */

static void
begin(const struct writing *to)
{
	static const char title[] = "Agreement with the reference";

	if (!to->page->html) {
		fprintf(to->out, "%s\n", title);
		return;
	}
	fprintf(to->out,
		"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n"
		"<meta charset=\"utf-8\">\n<title>%s</title>\n<style>\n"
		"@page{size:A4;margin:12mm}\n"
		"body{font:10.5pt/1.3 sans-serif;color:#000;background:#fff;"
		"max-width:186mm;margin:0 auto}\n"
		"h2{font-size:1.15em;margin:4mm 0 1mm;"
		"border-bottom:.4mm solid;break-after:avoid}\n"
		"p{margin:0 0 .7mm;break-inside:avoid}\n"
		".in{padding-left:5mm}\n"
		"</style>\n</head>\n<body>\n<h1>%s</h1>\n",
		title, title);
}

void
agreepage_write(const struct agreepage *page, FILE *out)
{
	const struct gradings *gradings = page->gradings;
	const struct writing to = {page, gradings, out};
	struct agreement_summary all;

	agreement_summarise(&gradings->all, &all);
	begin(&to);
	write_counts(&to, &all);
	write_cutoffs(&to);
	write_kappas(&to);
	write_table(&to);
	write_crossings(&to);
	write_groups(&to, "By grader", &gradings->graders);
	write_groups(&to, gradings->by_week ? "By week" : "By month",
		     &gradings->periods);
	head(&to, "How to read this");
	say(&to, 0,
	    "Intervals are of 95 %%: of shares by Wilson's method, of kappa "
	    "from its standard error where kappa is not 0 (Fleiss, Cohen and "
	    "Everitt 1969). With few eyes they are wide. The reference is a "
	    "grading too, not the truth.");
	if (page->html)
		fputs("</body>\n</html>\n", out);
}
