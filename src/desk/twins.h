/* twins.h: somebody screened already who may be the same person. */
#ifndef SHOAL_DESK_TWINS_H
#define SHOAL_DESK_TWINS_H

#include "desk/desk.h"
#include "desk/form.h"

#include <stdio.h>

/* Whether the form can have a twin worth showing: it has a name, and is not
 * kept already, when the hint would come too late. */
bool twins_matter(const struct form *form);

/*
 * Writes `lead`, a line that says it, and who may be the same person; nothing
 * when there is nobody. `*count` is how many. A twin is a hint only: with a
 * register that cannot be searched it is false, and entering goes on, since
 * saving will say the rest.
 */
bool twins_write(struct desk *desk, const struct form *form, int columns,
		 const char *lead, FILE *out, int *count, struct fault *why);

/* Whether a paper number is nobody's yet: said at once, not after all answers.
 * FAULT_INPUT: whose it is. A register that cannot be searched says so when it
 * is saved to. */
bool twins_check_number(struct desk *desk, const struct form *form,
			struct fault *why);

#endif
