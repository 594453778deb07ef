/* formregister.h: the pages of the paper register. */
#ifndef SHOAL_PAPER_FORMREGISTER_H
#define SHOAL_PAPER_FORMREGISTER_H

#include "paper/formparts.h"

/* People on one page. */
enum { REGISTER_LINES = 10 };

/* Pages of REGISTER_LINES numbered lines, the columns in the order of
 * paper_columns, each with the name under which it is typed in. */
void form_write_register(const struct form_facts *facts, FILE *out);

/* The header of the sheet that is typed from it, as one line of CSV. */
void form_write_header(FILE *out);

#endif
