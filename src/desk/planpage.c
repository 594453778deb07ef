/* planpage.c: what to expect of a screening, as a page. */
#include "desk/planpage.h"

#include "base/maths.h"
#include "base/text.h"

#include <string.h>

enum { LINE_SIZE = 900, CELL_SIZE = 40 };

struct page {
	const struct plan_question *question;
	int columns;
	FILE *out;
	struct plan_rows rows;
};

/* Hundredths of a per cent as "6.8". */
static const char *
percent(int hundredths, char *cell)
{
	snprintf(cell, CELL_SIZE, "%d.%02d", hundredths / 100,
		 hundredths % 100);
	for (size_t end = strlen(cell); cell[end - 1] == '0'; end--)
		cell[end - 1] = '\0';
	if (cell[strlen(cell) - 1] == '.')
		cell[strlen(cell) - 1] = '\0';
	return cell;
}

/* One decimal, but nothing becomes "0.0" that is some, and nothing "100.0"
 * that is not all. */
static const char *
show(double value, bool is_share, char *cell)
{
	if (value > 0 && value < 0.05)
		snprintf(cell, CELL_SIZE, "<0.1");
	else if (is_share && value < 100 && value >= 99.95)
		snprintf(cell, CELL_SIZE, ">99.9");
	else
		snprintf(cell, CELL_SIZE, "%.1f", value);
	return cell;
}

static const char *
show_share(bool known, double value, char *cell)
{
	if (known)
		return show(100 * value, true, cell);
	snprintf(cell, CELL_SIZE, "-");
	return cell;
}

static long
days(const struct page *page, const struct plan_row *row)
{
	return rates_days(row->expected.flagged, page->question->per_day);
}

static void
say(const struct page *page, const char *line)
{
	text_write_wrapped(page->out, line, page->columns, 0, 0);
}

static void
write_head(const struct page *page)
{
	const struct plan_question *question = page->question;
	const struct plan_preset *preset = question->preset;
	char line[LINE_SIZE], one[CELL_SIZE], other[CELL_SIZE];

	snprintf(line, sizeof line,
		 "Of %ld people, with a prevalence of %s %%: numbers to "
		 "expect on average.",
		 question->people, percent(question->prevalence, one));
	say(page, line);
	if (preset->name[0] == '\0') {
		snprintf(line, sizeof line,
			 "Sensitivity %s %% and specificity %s %%, as given.",
			 percent(preset->sensitivity[0], one),
			 percent(preset->specificity[0], other));
		say(page, line);
		return;
	}
	snprintf(line, sizeof line, "Looked for: %s.", preset->condition);
	say(page, line);
	snprintf(line, sizeof line, "Source: %s.", preset->source);
	say(page, line);
	say(page, "Flagged: that depth or shallower.");
}

static void
write_table(const struct page *page)
{
	bool asked = page->question->per_day > 0;

	fprintf(page->out, "\n%-8s %9s %9s %9s %12s %6s %6s%s\n", "cut-off",
		"flagged", "found", "missed", "false alarms", "PPV %", "NPV %",
		asked ? "    days" : "");
	for (int i = 0; i < page->rows.count; i++) {
		const struct plan_row *row = &page->rows.row[i];
		char cell[6][CELL_SIZE];

		fprintf(page->out, "%-8s %9s %9s %9s %12s %6s %6s", row->label,
			show(row->expected.flagged, false, cell[0]),
			show(row->expected.found, false, cell[1]),
			show(row->expected.missed, false, cell[2]),
			show(row->expected.false_alarms, false, cell[3]),
			show_share(row->has_ppv, row->ppv, cell[4]),
			show_share(row->has_npv, row->npv, cell[5]));
		if (asked)
			fprintf(page->out, " %7ld", days(page, row));
		fputc('\n', page->out);
	}
}

static void
write_lines(const struct page *page)
{
	for (int i = 0; i < page->rows.count; i++) {
		const struct plan_row *row = &page->rows.row[i];
		char cell[6][CELL_SIZE];

		fprintf(page->out,
			"\n%s\n  flagged %s\n  found %s, missed %s\n"
			"  false alarms %s\n  PPV %s %%, NPV %s %%\n",
			row->label, show(row->expected.flagged, false, cell[0]),
			show(row->expected.found, false, cell[1]),
			show(row->expected.missed, false, cell[2]),
			show(row->expected.false_alarms, false, cell[3]),
			show_share(row->has_ppv, row->ppv, cell[4]),
			show_share(row->has_npv, row->npv, cell[5]));
		if (page->question->per_day > 0)
			fprintf(page->out, "  clinic days %ld\n",
				days(page, row));
	}
}

static void
write_words(const struct page *page)
{
	char line[LINE_SIZE];

	fputc('\n', page->out);
	say(page, "PPV: share of those flagged who have it. NPV: share of "
		  "the others who do not.");
	if (page->question->per_day == 0)
		return;
	snprintf(line, sizeof line,
		 "Clinic days: for those flagged, at %ld people a day.",
		 page->question->per_day);
	say(page, line);
}

/* The smallest of 1, 2, 5, 10, 20 ... people a mark at which all bars fit. */
static double
find_scale(const struct page *page, int room)
{
	double most = 0, scale = 1;

	for (int i = 0; i < page->rows.count; i++) {
		most = maths_larger(most, page->rows.row[i].expected.found);
		most = maths_larger(most, page->rows.row[i].expected.missed);
		most = maths_larger(most,
				    page->rows.row[i].expected.false_alarms);
	}
	for (int step = 0; most / scale > room; step++)
		scale *= step % 3 == 1 ? 2.5 : 2;
	return scale;
}

static void
write_bar(const struct page *page, const char *label, const char *word,
	  double value, double scale, char mark)
{
	int word_width = page->columns >= PLANPAGE_WIDE ? 12 : 6;
	long marks = maths_round(value / scale);
	char cell[CELL_SIZE];

	fprintf(page->out, "%-5s %-*s %9s", label, word_width, word,
		show(value, false, cell));
	if (value > 0)
		fputc(' ', page->out);
	if (value > 0 && marks == 0)
		fputc('-', page->out);
	while (marks-- > 0)
		fputc(mark, page->out);
	fputc('\n', page->out);
}

static void
write_picture(const struct page *page)
{
	bool wide = page->columns >= PLANPAGE_WIDE;
	int room = wide ? PLANPAGE_WIDE - 29 : PLANPAGE_NARROW - 23;
	double scale = find_scale(page, room);
	char line[LINE_SIZE];

	fputc('\n', page->out);
	for (int i = 0; i < page->rows.count; i++) {
		const struct plan_row *row = &page->rows.row[i];

		write_bar(page, row->label, "found", row->expected.found, scale,
			  '#');
		write_bar(page, "", "missed", row->expected.missed, scale, 'o');
		write_bar(page, "", wide ? "false alarms" : "false",
			  row->expected.false_alarms, scale, '.');
	}
	snprintf(line, sizeof line,
		 "Each mark stands for %.0f %s; a single '-' for fewer than "
		 "half of that.",
		 scale, scale > 1 ? "people" : "person");
	say(page, line);
}

static void
write_sample(const struct page *page, const struct plan_row *row)
{
	const struct plan_question *question = page->question;
	struct rates_sample sample;
	char line[LINE_SIZE];
	struct fault why;

	if (rates_sample_size(&row->test, planrows_share(question->prevalence),
			      planrows_share(question->half_width), rates_z_95,
			      &sample, &why))
		snprintf(line, sizeof line,
			 "%s: %.0f people; it takes %.0f with the condition "
			 "and %.0f without",
			 row->label, sample.people, sample.diseased,
			 sample.healthy);
	else
		snprintf(line, sizeof line, "%s: %s", row->label, why.sentence);
	fprintf(page->out, "  ");
	text_write_wrapped(page->out, line, page->columns, 2, 4);
}

static void
write_samples(const struct page *page)
{
	int half_width = page->question->half_width;
	char line[LINE_SIZE], cell[CELL_SIZE];

	if (half_width == 0)
		return;
	fputc('\n', page->out);
	snprintf(line, sizeof line,
		 "To measure sensitivity and specificity within %s percentage "
		 "points either way (95 %% interval, Buderer 1996), examine so "
		 "many, each of them fully:",
		 percent(half_width, cell));
	say(page, line);
	for (int i = 0; i < page->rows.count; i++)
		write_sample(page, &page->rows.row[i]);
}

bool
planpage_write(const struct plan_question *question, int columns, FILE *out,
	       struct fault *why)
{
	struct page page = {
		.question = question, .columns = columns, .out = out};

	if (!planrows_fill(question, &page.rows, why))
		return false;
	if (columns > PLANPAGE_WIDE)
		page.columns = PLANPAGE_WIDE;
	write_head(&page);
	if (page.columns >= PLANPAGE_WIDE)
		write_table(&page);
	else
		write_lines(&page);
	write_words(&page);
	write_picture(&page);
	write_samples(&page);
	fputc('\n', out);
	say(&page, "For planning, not a diagnosis: figures where you work "
		   "differ, and local protocol and an eye doctor decide.");
	return true;
}
