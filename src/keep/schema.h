/* schema.h: the tables of the register, in each form that there was. */
#ifndef SHOAL_KEEP_SCHEMA_H
#define SHOAL_KEEP_SCHEMA_H

#include "base/fault.h"
#include "keep/store.h"

#include <stddef.h>

/*
 * A form (schema version) is never used again for other tables. Form 1 had
 * station, policy_text, visit and tally_written; form 2 added reply, and
 * form 3 the column row_mark (rowmark.h). A file of an older form is read as
 * it is, and brought up to date before it is written (upgrade.h).
 * tests/fixtures/registers keeps a register of each older form.
 */
enum {
	SCHEMA_VERSION = 3,
	SCHEMA_MARKED = 3, /* the first form with marks */
	SCHEMA_SIZE = 16384
};

/* This program's own: the application id and the newest form. */
extern const struct storefile_form schema_form;

/* SQL text that grows; what does not fit is cut, and cut SQL is refused. */
struct schema {
	size_t length;
	char text[SCHEMA_SIZE];
};

/* The statements that lead from one form to a later one; from 0, all of them.
 * Tables come before indexes and those before triggers, each by name. */
void schema_make(struct schema *schema, int from, int to);

/* The trigger that keeps the rows of a table as they are, taken away for a
 * change that the program itself makes; put_back brings it back as it was. Both
 * in the caller's transaction. */
enum { SCHEMA_TRIGGER_SIZE = 400 };

struct schema_lifted {
	char trigger[SCHEMA_TRIGGER_SIZE];
};

bool schema_lift(struct store *store, const char *table,
		 struct schema_lifted *lifted, struct fault *why);
bool schema_put_back(struct store *store, const struct schema_lifted *lifted,
		     struct fault *why);

/* Whether the file holds exactly the tables of that form. FAULT_REGISTER. */
bool schema_check(struct store *store, int version, struct fault *why);

#endif
