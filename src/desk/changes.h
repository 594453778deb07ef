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

/* How asking for the reason ended. */
enum changes_reason {
	CHANGES_REASON_GIVEN,
	CHANGES_REASON_BACK, /* "<": go back, and change nothing */
	CHANGES_REASON_NONE  /* with the fault */
};

/*
 * The reason given with --reason, or asked for until there is one; "?"
 * explains. A line that is empty or not sound is told and asked again, so that
 * a stray Enter loses nothing of what was typed before. `reason` holds
 * CHANGES_REASON_SIZE bytes. FAULT_INPUT at the end of input, and for a
 * --reason that is not sound.
 */
enum changes_reason changes_ask_reason(struct desk *desk,
				       const struct given *given, char *reason,
				       struct fault *why);

/* The same where there is nothing to go back to: "<" is FAULT_INPUT, "nothing
 * was changed". */
bool changes_take_reason(struct desk *desk, const struct given *given,
			 char *reason, struct fault *why);

/* Says on the desk's talk stream who is about to be changed: number, name, sex,
 * age, day and site, and what the entry answers. The name only to somebody at a
 * terminal: what is printed otherwise may be kept, and read by others. */
void changes_tell_person(const struct desk *desk, const struct visit *visit);

/* Prints each field that is different, before and after; true when there is
 * one. When it was entered, and its state, are no difference. */
bool changes_tell(const struct desk *desk, struct fields fields,
		  const void *before, const void *after);

#endif
