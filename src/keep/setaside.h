/* setaside.h: another register put in the place of the one there. */
#ifndef SHOAL_KEEP_SETASIDE_H
#define SHOAL_KEEP_SETASIDE_H

#include "base/day.h"
#include "base/fault.h"
#include "keep/safefile.h"

/*
 * Commits `file`, whose path is the register's, and keeps what stood there
 * under its name with ".aside-YYYY-MM-DD-1" (-2 and so on where that is
 * taken), with its -journal if it has one: whatever moment the power fails, a
 * register stands at the path, and the old one is never lost. Others are kept
 * away meanwhile (hold.h). FAULT_REGISTER; `is_there` then says that the new
 * one stands there all the same, only that a power cut may take it away.
 */
struct setaside {
	char aside[SAFEFILE_PATH_SIZE]; /* "" when nothing stood there */
	bool is_there;
};

bool setaside_commit(struct safefile *file, struct day today,
		     struct setaside *done, struct fault *why);

#endif
