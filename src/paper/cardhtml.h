/* cardhtml.h: the rules of a policy as a page for the camp's wall. */
#ifndef SHOAL_PAPER_CARDHTML_H
#define SHOAL_PAPER_CARDHTML_H

#include "paper/cardwords.h"

#include <stdio.h>

/* One HTML page for A4, to print from a browser: the rules in two columns and,
 * where card->grid is given, the grid below. No script, nothing from outside,
 * every text escaped. */
void card_write_html(const struct card *card, FILE *out);

#endif
