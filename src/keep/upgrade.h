/* upgrade.h: a register of an older form brought up to date. */
#ifndef SHOAL_KEEP_UPGRADE_H
#define SHOAL_KEEP_UPGRADE_H

#include "base/fault.h"
#include "keep/store.h"

/*
 * Adds to an open store of the form `from` (1 to SCHEMA_VERSION - 1), which
 * may be written, what the newest form has besides. Before that the file as it
 * was is copied beside it, complete and synced, under its name with ".v1" for
 * form 1 (".v1-2" and so on where that name is taken); nothing is ever written
 * over. Both happen under one write lock, and what is added is one
 * transaction: killed at any moment, the register is of the old form or of the
 * new one, and whole. Where another program was quicker nothing is done.
 * FAULT_REGISTER, with the register as it was.
 */
bool upgrade_store(struct store *store, int from, struct fault *why);

/* What the newest form has besides, in the caller's transaction and without a
 * copy: for a file that is a copy itself. */
bool upgrade_in_place(struct store *store, int from, struct fault *why);

#endif
