/* cardwords.h: what the card of a policy says, as text and as a page alike. */
#ifndef SHOAL_PAPER_CARDWORDS_H
#define SHOAL_PAPER_CARDWORDS_H

#include "base/day.h"
#include "clinic/grid.h"
#include "clinic/policy.h"
#include "paper/wording.h"

#include <stddef.h>

/* A policy to be put on a card; all pointers belong to the caller. */
struct card {
	const struct policy *policy;
	const char *mark;	       /* its fingerprint */
	struct day printed_on;	       /* none = not said */
	const struct wording *wording; /* of the cautions */
	const struct grid *grid;       /* NULL = without */
};

/* Bytes that hold any line below. */
enum { CARD_LINE_SIZE = 2048 };

/* "Programme default policy, version 1"; its fingerprint and the day of print;
 * who approved it, or that nobody did. `text` holds CARD_LINE_SIZE bytes. */
void card_name(const struct card *card, char *text);
void card_mark(const struct card *card, char *text);
void card_approval(const struct card *card, char *text);

/* Over the rules of one outcome: "Within 7 days (urgent)". */
void card_heading(const struct card *card, const struct rule *rule, char *text);

/* For who meets no rule. */
void card_default(const struct card *card, char *text);

/* How the rules are to be read. */
const char *card_how_to_read(void);

/* The cautions as one paragraph. */
void card_cautions(const struct card *card, char *text);

/* Over a column, beside a row, and in a cell of the grid: "today", "7 days",
 * or "no, 12 months". */
void card_column(const struct card *card, enum grid_column column, char *text);
void card_row(int row, char *text);
void card_cell(const struct card *card, int row, enum grid_column column,
	       char *text);

/* For whom the grid was decided. */
void card_grid_note(const struct card *card, char *text);

/* What the doctor puts a name to. */
const char *card_signature(void);

#endif
