/* changes.h: changing what is kept: new values, and why. */
#ifndef SHOAL_DESK_CHANGES_H
#define SHOAL_DESK_CHANGES_H

#include "base/fault.h"
#include "base/field.h"
#include "desk/desk.h"
#include "desk/given.h"

enum { CHANGES_REASON_SIZE = REGISTER_REASON_MOST * 4 + 1 };

/*
 * Reads every --set FIELD=VALUE into the record; `*count` is how many there
 * are. Only fields that are typed, and not the number; `lister` is the
 * command that lists them. Others on the machine
 * can read a command line, so a name or contact is refused there.
 */
bool changes_set(const struct given *given, struct fields fields,
		 const char *lister, void *record, int *count,
		 struct fault *why);

/* The reason given with --reason, or asked for; FAULT_INPUT without one.
 * `reason` holds CHANGES_REASON_SIZE bytes. */
bool changes_take_reason(struct desk *desk, const struct given *given,
			 char *reason, struct fault *why);

/* Prints each field that is different, before and after; true when there is
 * one. When it was entered, and its state, are no difference. */
bool changes_tell(const struct desk *desk, struct fields fields,
		  const void *before, const void *after);

#endif
