/* guard.h: what the system is told to keep from this process. */
#ifndef SHOAL_BASE_GUARD_H
#define SHOAL_BASE_GUARD_H

/*
 * Names of people are in memory. From here on no core file of this process is
 * written, not even where the system hands cores to a program of its own, which
 * takes them whatever the limit on their size is (core(5)); other processes of
 * the same user cannot read its memory (PR_SET_DUMPABLE, prctl(2)); and nothing
 * that it might start gets rights that it does not have itself
 * (PR_SET_NO_NEW_PRIVS). Where the system knows nothing of this, nothing
 * happens. To be called once, before anything is read.
 */
void guard_memory(void);

#endif
