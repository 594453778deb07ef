/* inicheck.h: the scan of an INI file, held against a second reader. */
#ifndef SHOAL_KEEP_INICHECK_H
#define SHOAL_KEEP_INICHECK_H

#include "base/fault.h"
#include "keep/iniscan.h"

#include <stddef.h>

/*
 * Hands `length` bytes (without a byte-order mark) to iniparser and compares:
 * the sections and their order, the number of keys in each, the string of each
 * key. iniparser is lenient, so it is asked for strings only, and only about
 * bytes whose scan found no fault. Tells every difference as a fault of the
 * program; returns how many were told.
 */
int ini_compare(const struct ini *ini, const char *bytes, size_t length,
		fault_hear *hear, void *context);

#endif
