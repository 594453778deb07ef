/* intake.h: standard input put aside, so that it can be read twice. */
#ifndef SHOAL_KEEP_INTAKE_H
#define SHOAL_KEEP_INTAKE_H

#include "base/fault.h"

#include <sys/stat.h>

/* More than this is to be given as a file. */
#define INTAKE_MOST (4LL * 1024 * 1024 * 1024)

/*
 * A handle from which all of `input` can be read at any place: of a file, the
 * file itself; of a pipe, a copy in a file without a name. Copying ends early
 * at bytes that no table holds (a NUL, a line over 64 KiB, no column `schema`
 * in the first 64 KiB), so that a pipe without an end is refused by whoever
 * reads the copy. -1 with FAULT_INPUT or
 * FAULT_OUTPUT.
 */
int intake_open(int input, struct stat *status, struct fault *why);

#endif
