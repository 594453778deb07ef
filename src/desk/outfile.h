/* outfile.h: the file that a person named for what is printed. */
#ifndef SHOAL_DESK_OUTFILE_H
#define SHOAL_DESK_OUTFILE_H

#include "desk/desk.h"
#include "desk/given.h"
#include "keep/safefile.h"

/* How every page begins that the program writes. */
#define OUTFILE_PAGE "<!DOCTYPE html>"

/*
 * Begins the file named behind --`option` (one of the command's, which was
 * given). Whatever stands there and is more than an earlier print of the same
 * kind stays: behind an option whose file was forgotten stands the first of the
 * files to be read. So nothing is written over what the command reads, a
 * station's own files, a register or copy of one, a key, a tally or a yield;
 * nor over any file that does not begin with `begins`, or, when that is NULL
 * for a text without a beginning of its own, any whose name says table or
 * settings. FAULT_USAGE says which it is and what to do; "-" is one as well,
 * for the options that stand beside standard output. Else as safefile_open.
 */
bool outfile_open(struct safefile *file, const struct desk *desk,
		  const struct given *given, const char *option,
		  const char *begins, struct fault *why);

#endif
