/* walkname.h: what a file is not, by its name. */
#ifndef SHOAL_KEEP_WALKNAME_H
#define SHOAL_KEEP_WALKNAME_H

#include <stdbool.h>

/* Why a name met in a folder is passed over without a word of blame (hidden,
 * the leftover of another program, the desktop's own), or NULL. */
const char *walkname_leftover(const char *name);

/* Why a file cannot be a tally, or NULL. One that was given by name may be
 * called anything but a workbook or an archive; in a folder it has to end in
 * .csv, in capitals or not. */
const char *walkname_no_table(const char *name, bool was_given);

#endif
