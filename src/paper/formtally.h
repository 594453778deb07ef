/* formtally.h: the day, counted by hand. */
#ifndef SHOAL_PAPER_FORMTALLY_H
#define SHOAL_PAPER_FORMTALLY_H

#include "paper/formparts.h"

/* The head (programme, site, station, day) and the table: a row for each sex
 * and age band, a column for each count of the tally but the late entries,
 * which are a matter of typing. */
void form_write_tally_head(const struct form_facts *facts, FILE *out);
void form_write_tally(const struct form_facts *facts, FILE *out);

#endif
