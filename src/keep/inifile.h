/* inifile.h: INI files, read so that nothing is guessed. */
#ifndef SHOAL_KEEP_INIFILE_H
#define SHOAL_KEEP_INIFILE_H

#include "base/fault.h"
#include "base/field.h"
#include "keep/iniscan.h"

#include <stddef.h>

/*
 * iniparser reads leniently, so it is trusted with strings only and held to
 * the program's own scan of the same bytes (iniscan.h, iniline.h). A file that
 * the scan accepts goes to iniparser, less its byte-order mark; where what it
 * reads differs in any way, the file is refused as well (inicheck.h).
 */

/*
 * Reads the file at `path`, or `length` bytes given. Every fault is told to
 * `hear`, one by one, as "name:line: what is wrong, what is allowed"; then
 * false with a closing sentence in `why` ("'policy.ini' has 3 faults and was
 * not read"). A file that cannot be opened, is no plain file or is too large
 * has that one sentence in `why`, and nothing is told. FAULT_POLICY.
 *
 * After false the lines that could be made out are in `ini` all the same
 * (none when ini->count is 0), so that a caller may go on to tell what else is
 * wrong before it refuses the file by ini_conclude.
 */
bool ini_read_file(struct ini *ini, const char *path, fault_hear *hear,
		   void *context, struct fault *why);
bool ini_read_bytes(struct ini *ini, const char *name, const char *bytes,
		    size_t length, fault_hear *hear, void *context,
		    struct fault *why);

/* The line of a section's header, or 0. */
int ini_section_line(const struct ini *ini, const char *section);

/* No line of the section was refused. */
bool ini_section_is_sound(const struct ini *ini, const char *section);

/*
 * Tells every section that is not in the list, with what was perhaps meant. A
 * name such as "rule NAME" stands for all sections that begin with its first
 * word. A file without any section is told as such. Returns how many faults.
 */
int ini_check_sections(const struct ini *ini, const char *const *names,
		       size_t count, fault_hear *hear, void *context);

/*
 * Whether a section that is missing may be one that stands there misspelt or
 * refused; then its absence need not be told too. Only ever ask about a file
 * that is refused already.
 */
bool ini_section_is_meant(const struct ini *ini, const char *section);

/*
 * Fills the fields of `record` from one section; a field whose key is not
 * given stays as it is. Tells every unknown key ("unknown key 'x' in [s]; did
 * you mean 'y'?"), every value that its kind refuses, every needed key that is
 * missing (at the section's line). A missing section with a needed key is told
 * too. "" in quotes makes a text or a day that is not needed blank; any other
 * empty value is a fault. Lines refused before are passed over, and their keys
 * not told as missing. Returns how many faults were told.
 */
int ini_fill(const struct ini *ini, const char *section, struct fields fields,
	     void *record, fault_hear *hear, void *context);

/* True when there were no faults, else false with the closing sentence. */
bool ini_conclude(const struct ini *ini, int faults, struct fault *why);

#endif
