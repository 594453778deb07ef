/* safekeeping.h: rows of the table of commands: copies, keys, mending. */
#ifndef SHOAL_DESK_SAFEKEEPING_H
#define SHOAL_DESK_SAFEKEEPING_H

/* Used once, in commands.c, which includes what is named here. */
/* clang-format off */
#define SAFEKEEPING_ROWS \
{ \
"backup", "FILE", "copy the register to a stick, and read it back", \
"FILE is a file on a stick or another disk, or a folder there, in which the " \
"copy is named backup-SSSS-YYYY-MM-DD.db. Others may go on saving meanwhile. " \
"The copy is written beside, synced, read back from the stick, compared with " \
"the register value by value, and only then put in its place; then it is said " \
"that the stick may be pulled out. Before that it may not.\n" \
"\n" \
"A file that is there is replaced only when it is an older copy of the same " \
"register, which has nothing that this one has not. The copy holds names: " \
"keep it as safe as the laptop.", \
{{NULL, NULL, NULL}}, \
1, 1, NEED_STATION | NEED_BOOK_READ, run_backup \
},
/* clang-format on */

#endif
