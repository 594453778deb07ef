/* forms.h: forms to be printed and filled in by hand. */
#ifndef SHOAL_PAPER_FORMS_H
#define SHOAL_PAPER_FORMS_H

#include "base/fault.h"
#include "paper/formparts.h"

/*
 * Each form is one self-contained HTML document, well-formed as XML too: black
 * on white, no script, nothing from outside. Its template stands in fieldforms/
 * and is compiled in; its words come from the wording; its places to write on
 * are loops over the tables of what is recorded.
 */
enum form {
	FORM_REGISTER,
	FORM_SLIPS,
	FORM_TALLY,
	FORM_REPLY,
	FORM_TRAINING,
	FORM_CARD,
	FORM_COUNT
};

/* The name of its file, such as "paper-register.html". */
const char *form_file(enum form form);

bool form_write(enum form form, const struct form_facts *facts, FILE *out,
		struct fault *why);

#endif
