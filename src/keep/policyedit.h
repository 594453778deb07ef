/* policyedit.h: one value of a policy's text changed, all else kept. */
#ifndef SHOAL_KEEP_POLICYEDIT_H
#define SHOAL_KEEP_POLICYEDIT_H

#include "base/fault.h"
#include "keep/iniscan.h"

#include <stddef.h>

/* The text of a policy file. */
struct policyedit {
	char text[INI_FILE_MOST + 1]; /* and a NUL */
	size_t length;
};

/* What one change did to the text. */
struct policyedit_change {
	int line;			  /* in the new text */
	bool added;			  /* the key was not there; old is "" */
	char old_line[INI_LINE_MOST + 1]; /* without the line's end */
	char new_line[INI_LINE_MOST + 1];
};

/* Takes the bytes of a file; FAULT_POLICY when there are too many. */
bool policyedit_init(struct policyedit *edit, const char *bytes, size_t length,
		     struct fault *why);

/*
 * Changes one value. `key` is "SECTION.KEY": "urgency.urgent_within_days",
 * "rule shallow.depth_at_or_below_percent", or for a rule its name alone,
 * "shallow.depth_at_or_below_percent". Every byte but the value's stays.
 * A text or a day is put into double quotes; a value that stands in quotes
 * keeps them. A key that the section may hold but does not is put on a line
 * of its own behind the section's last key.
 *
 * Whether the value is a good one is for policyfile_read_bytes to say of the
 * whole new text: this only sees to it that nothing but one value is changed.
 * FAULT_USAGE when `key` has another form, FAULT_INPUT when there is no such
 * section or key (with what was perhaps meant) or the value holds a control
 * character, FAULT_POLICY when the line is at fault already or the text would
 * be too long. After false the text is as it was.
 */
bool policyedit_set(struct policyedit *edit, const char *key, const char *value,
		    struct policyedit_change *change, struct fault *why);

/* Whether the change left the line as it was. */
bool policyedit_is_same(const struct policyedit_change *change);

#endif
