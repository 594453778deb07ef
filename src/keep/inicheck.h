/* inicheck.h: the scan of an INI file, held against a second reader. */
#ifndef SHOAL_KEEP_INICHECK_H
#define SHOAL_KEEP_INICHECK_H

#include "base/fault.h"
#include "keep/iniscan.h"

#include <stddef.h>

/*
 * iniparser reads from a path only. A file in memory gives it the very bytes
 * that are scanned, whatever happens to the file on the disk meanwhile. Returns
 * the handle of one with `length` bytes, for the caller to close, or -1.
 */
int ini_copy(const char *bytes, size_t length);

/*
 * Hands the copy of the bytes (without a byte-order mark) to iniparser and
 * compares: the sections and their order, the string of each key, the number
 * of both. iniparser is lenient, so it is asked for strings only, and only
 * about bytes whose scan found no fault. Tells every difference as a fault of
 * the program; returns how many were told.
 */
int ini_compare(const struct ini *ini, int copy, fault_hear *hear,
		void *context);

#endif
