/* card.h: the rules of a policy in plain words, as text. */
#ifndef SHOAL_PAPER_CARD_H
#define SHOAL_PAPER_CARD_H

#include "paper/cardwords.h"

#include <stdio.h>

enum { CARD_COLUMNS = 78 };

/* All rules, most urgent first, grouped by outcome, with the fingerprint, the
 * approval, what the words mean and the cautions. */
void card_write_text(const struct card *card, FILE *out);

/* The grid alone, with the same head and the cautions; card->grid is given. */
void card_write_grid(const struct card *card, FILE *out);

#endif
