/* formslip.h: slips to be filled in by hand. */
#ifndef SHOAL_PAPER_FORMSLIP_H
#define SHOAL_PAPER_FORMSLIP_H

#include "paper/formparts.h"

/* One slip for each person: a sheet of two halves, the patient's and the
 * clinic's, and a second one with the reply, to be printed on its back. */
void form_write_slips(const struct form_facts *facts, FILE *out);

#endif
