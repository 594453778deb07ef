/* schema.h: the tables of the register, in each form that there was. */
#ifndef SHOAL_KEEP_SCHEMA_H
#define SHOAL_KEEP_SCHEMA_H

#include "base/fault.h"
#include "keep/store.h"

#include <stddef.h>

/*
 * A form (schema version) is never used again for other tables. Form 1 had
 * station, policy_text, visit and tally_written; form 2 added reply. A file
 * of an older form is read as it is, and brought up to date before it is
 * written (upgrade.h). tests/fixtures/registers keeps a register of each
 * older form.
 */
enum { SCHEMA_VERSION = 2, SCHEMA_SIZE = 16384 };

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

/* Whether the file holds exactly the tables of that form. FAULT_REGISTER. */
bool schema_check(struct store *store, int version, struct fault *why);

#endif
