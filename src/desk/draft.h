/* draft.h: the unfinished person, put aside after each answer. */
#ifndef SHOAL_DESK_DRAFT_H
#define SHOAL_DESK_DRAFT_H

#include "base/refnum.h"
#include "desk/desk.h"
#include "desk/form.h"
#include "keep/aside.h"

/*
 * A draft is no record: it is not counted, not listed, and gone once the person
 * is saved or dropped. It is a file of lines name=value in the station's
 * folder, in the words of visit_fields, so that it survives a power cut; who
 * goes on with it sees the summary before anything is saved.
 *
 * Kept only where answers come from a keyboard. Where it cannot be kept (the
 * disk is full, another program is at work in the folder) `trouble` says so,
 * and screening goes on without.
 */
struct draft {
	bool keeps; /* false: never asked to, or it failed */
	bool there; /* one stands in the folder, written by this program */
	struct aside aside;
	struct fault trouble; /* kind FAULT_NONE: none */
};

/* A draft that is never kept. */
void draft_none(struct draft *draft);

void draft_open(struct draft *draft, const struct desk *desk);
void draft_close(struct draft *draft);

/*
 * The unfinished person of an earlier day or program; `*found` false when there
 * is none. `*before` is the last number that was given out when the person was
 * begun, none if it was the first of the day. FAULT_INPUT when the file cannot
 * be understood.
 */
bool draft_find(struct draft *draft, struct form *form, struct refnum *before,
		bool *found, struct fault *why);

/* Puts the person aside as it stands, once anything was answered. */
void draft_keep(struct draft *draft, const struct form *form,
		struct refnum before);

/* Whether the person is put aside as it stands. */
bool draft_holds(const struct draft *draft);

/* Keeps one that cannot be understood under a name of its own, which goes to
 * `kept` of SAFEFILE_PATH_SIZE bytes. When it cannot be moved it stays, and
 * nobody is put aside over it. */
bool draft_set_by(struct draft *draft, char *kept, struct fault *why);

/* Takes away what was put aside. */
void draft_remove(struct draft *draft);

/* The trouble, if there is one that was not asked for yet. */
bool draft_trouble(struct draft *draft, struct fault *trouble);

#endif
