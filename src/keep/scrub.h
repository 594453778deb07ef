/* scrub.h: files that held names, removed for good. */
#ifndef SHOAL_KEEP_SCRUB_H
#define SHOAL_KEEP_SCRUB_H

#include "base/fault.h"

/*
 * Writes zeros over a regular file, syncs them, and removes it; a file that is
 * not there is fine, and one with a second name is only removed under this
 * one. On a disk of turning plates nothing is left; flash memory and some file
 * systems write elsewhere and keep the old bytes for a while, against which
 * only an encrypted disk helps. FAULT_OUTPUT.
 */
bool scrub_file(const char *path, struct fault *why);

#endif
