/* copyfacts.h: what a copy of the register holds, in lines. */
#ifndef SHOAL_DESK_COPYFACTS_H
#define SHOAL_DESK_COPYFACTS_H

#include "keep/copies.h"

#include <stdio.h>

/* Station, people, entries, last number, last day, by which a copy of the wrong
 * laptop or of long ago is noticed. Each line begins with a space. */
void copyfacts_write(const struct copy_facts *facts, FILE *out);

#endif
