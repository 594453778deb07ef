/* template.h: a page with {{names}} to be filled in. */
#ifndef SHOAL_PAPER_TEMPLATE_H
#define SHOAL_PAPER_TEMPLATE_H

#include "base/fault.h"

#include <stdio.h>

enum { TEMPLATE_NAME_MOST = 47 }; /* bytes of a name */

/*
 * Puts the content of `name`, already escaped, in its place. With `out` NULL
 * it writes nothing and only says whether the name is known.
 */
typedef bool template_fill(const void *context, const char *name, FILE *out);

/*
 * A template is text with {{name}} in it; `fill` is asked for each. A name
 * that it does not know, one that is longer than TEMPLATE_NAME_MOST, or an
 * open {{ is FAULT_INTERNAL before anything is written. What `fill` writes is
 * not looked at again, so it may hold {{ itself.
 */
bool template_write(const char *text, template_fill *fill, const void *context,
		    FILE *out, struct fault *why);

#endif
