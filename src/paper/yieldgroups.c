/* yieldgroups.c: a yield by rule, grade, site and grader. */
#include "paper/yieldgroups.h"

#include "paper/chart.h"
#include "paper/yieldwords.h"

#include <stdio.h>

enum { LABEL_SIZE = YIELD_LABEL_SIZE + 20, WORDS_SIZE = 100 };

static const struct leaf_column sent_columns[] = {
	{"", 18},
	{"sent", 5},
	{"came", 5},
	{"elsewhere", 10},
	{"not come", 9},
	{"unknown", 8},
	{"came % (95 %)", 17},
	{"most", 7},
};

static const struct leaf_column group_columns[] = {
	{"", 20},	   {"narrow of told", 14},   {"% (95 %)", 17},
	{"% of sent", 11}, {"by day 30 (95 %)", 18},
};

static const char *
cell_label(const struct yield_cell *cell, char *label)
{
	const char *mark = "";

	if (cell->per == YIELD_PER_GRADE && cell->order != YIELD_OTHERS)
		mark = cell->order == DEPTH_NOT_GRADABLE ? ": not gradable"
							 : " %";
	snprintf(label, LABEL_SIZE, "%s%s",
		 cell->label[0] == '\0' ? "not recorded" : cell->label, mark);
	return label;
}

static void
write_sent(const struct yield_cell *cell, const struct leaf *leaf)
{
	const struct yield_counts *counts = &cell->counts;
	char label[LABEL_SIZE], number[5][YIELDWORDS_SIZE];
	char share[YIELDWORDS_SIZE], most[YIELDWORDS_SIZE];
	int possible = counts->attended + counts->unknown;
	struct yield_figures figures;

	yield_figure(cell, &figures);
	leaf_row(leaf,
		 (const char *[]){
			 cell_label(cell, label),
			 yieldwords_count(counts->people, number[0]),
			 yieldwords_count(counts->attended, number[1]),
			 yieldwords_count(counts->elsewhere, number[2]),
			 yieldwords_count(counts->not_attended, number[3]),
			 yieldwords_count(counts->unknown, number[4]),
			 yieldwords_share(&figures.uptake, share),
			 yieldwords_percent((double)possible / counts->people,
					    most)});
}

static void
write_group(const struct yield_cell *cell, const struct leaf *leaf)
{
	char label[LABEL_SIZE], number[YIELDWORDS_SIZE];
	char share[3][YIELDWORDS_SIZE];
	struct yield_figures figures;
	const struct yield_found *closed = &figures.found[YIELD_CLOSED];

	yield_figure(cell, &figures);
	snprintf(number, sizeof number, "%d of %d", closed->count, closed->of);
	leaf_row(leaf,
		 (const char *[]){cell_label(cell, label), number,
				  yieldwords_share(&closed->share, share[0]),
				  yieldwords_bounds(&closed->bounds, share[1]),
				  yieldwords_share(&figures.by_day, share[2])});
}

/* What the bars are made of. */
static const char *const parts[] = {"came", "elsewhere", "did not come",
				    "unknown"};

static void
draw_group(const struct yield_cell *cell, int count, const struct leaf *leaf)
{
	struct chart_bar bar[YIELD_CELLS_MOST];
	char label[YIELD_CELLS_MOST][LABEL_SIZE];
	char words[YIELD_CELLS_MOST][WORDS_SIZE];

	for (int i = 0; i < count; i++) {
		const struct yield_counts *counts = &cell[i].counts;

		snprintf(words[i], sizeof words[i], "%d of %d came",
			 counts->attended, counts->people);
		bar[i] = (struct chart_bar){
			.label = cell_label(&cell[i], label[i]),
			.words = words[i],
			.part = {counts->attended, counts->elsewhere,
				 counts->not_attended, counts->unknown},
			.parts = 4};
	}
	fputs("<figure>\n", leaf->out);
	chart_bars(leaf->out, "What became of those sent", 20, 0, bar,
		   (size_t)count);
	fputs("</figure>\n", leaf->out);
}

static void
write_table(const struct yield_cell *cell, int count, enum yield_per per,
	    struct leaf *leaf)
{
	static const char *const headings[YIELD_PERS] = {
		"", "By the rule that decided (the first, when several did)",
		"By the depth of the shallower eye", "By site", "By grader"};

	leaf_heading(leaf, headings[per]);
	leaf_table(leaf, sent_columns, 8);
	for (int i = 0; i < count; i++)
		write_sent(&cell[i], leaf);
	leaf_table_end(leaf);
	if (leaf->html)
		draw_group(cell, count, leaf);
	else
		fputc('\n', leaf->out);
	leaf_table(leaf, group_columns, 5);
	for (int i = 0; i < count; i++)
		write_group(&cell[i], leaf);
	leaf_table_end(leaf);
}

void
yieldgroups_write(const struct yield *yield, enum yield_per per,
		  struct leaf *leaf)
{
	if (yield->count > 1) {
		leaf_heading(leaf, "In parts");
		leaf_say(leaf, "Most: the %% that came if all of the unknown "
			       "did. %% of sent: the least and the most with a "
			       "narrow angle of all sent. Told: came, and it "
			       "can be "
			       "told. -: nothing to take a share of.");
		if (leaf->html)
			chart_legend(leaf->out, parts, 4);
	}
	for (int i = 0, said = 0; i < yield->count && said == 0; i++) {
		said = yield->cell[i].order == YIELD_OTHERS;
		if (said)
			leaf_say(leaf,
				 "(others): beyond the first %d, together; "
				 "--from and --to show fewer days.",
				 YIELD_LABELS_MOST);
	}
	for (int first = 1, past; first < yield->count; first = past) {
		enum yield_per its = yield->cell[first].per;

		past = first;
		while (past < yield->count && yield->cell[past].per == its)
			past++;
		if (per == YIELD_ALL || per == its)
			write_table(&yield->cell[first], past - first, its,
				    leaf);
	}
}
