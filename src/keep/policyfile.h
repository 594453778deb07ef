/* policyfile.h: the policy file, read whole or refused whole. */
#ifndef SHOAL_KEEP_POLICYFILE_H
#define SHOAL_KEEP_POLICYFILE_H

#include "base/fault.h"
#include "clinic/policy.h"

#include <stddef.h>

/*
 * A missing clinical key is a fault, never a default. Unknown sections and
 * keys are faults too, with what was perhaps meant. All faults are told to
 * `hear` at once, each with file:line; then false, FAULT_POLICY, with a
 * closing sentence in `why`. A file that cannot be read at all has that one
 * sentence in `why`. What `policy` and `text` hold after false is not for use.
 *
 * `text` (of `size` bytes, at least 65537) receives the exact bytes of the
 * file and a NUL, for keeping in the register; it may be NULL.
 */
bool policyfile_read(const char *path, struct policy *policy, char *text,
		     size_t size, fault_hear *hear, void *context,
		     struct fault *why);

/* The same from bytes, such as the compiled-in default or a text kept. */
bool policyfile_read_bytes(const char *name, const char *bytes, size_t length,
			   struct policy *policy, fault_hear *hear,
			   void *context, struct fault *why);

#endif
