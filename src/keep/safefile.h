/* safefile.h: whole files, read and written so that nothing is half. */
#ifndef SHOAL_KEEP_SAFEFILE_H
#define SHOAL_KEEP_SAFEFILE_H

#include "base/fault.h"

#include <stddef.h>
#include <stdio.h>

/*
 * Files are written under a temporary name in the same folder (created with
 * O_EXCL and O_NOFOLLOW, mode 0600), synced, renamed over the old one, and the
 * folder synced: a reader sees the old file or the new one, never a part. Any
 * failure leaves the old file whole, removes the temporary one and is
 * FAULT_OUTPUT. What stands at the path and is no regular file (a link, a
 * folder, a device) is refused and stays. Folders are made with mode 0700.
 */
enum { SAFEFILE_PATH_SIZE = 4096 };

/* Stands in the name of a file that is being written. */
#define SAFEFILE_UNFINISHED ".tmp-"

/* Whether a name is that of a file which this very process has not finished. */
bool safefile_is_own(const char *name);

struct safefile {
	FILE *out; /* write here; owned by the safefile */
	char path[SAFEFILE_PATH_SIZE];
	char temporary[SAFEFILE_PATH_SIZE];
};

/* How far a file has to be on the disk before commit returns, and what may
 * stand at its path before. */
enum safefile_care {
	SAFEFILE_SYNCED,  /* survives a power cut once commit says true */
	SAFEFILE_RENAMED, /* never half to a reader; can be made again at will,
			   * for a power cut may lose or empty it */
	SAFEFILE_FIRST	  /* as synced, but never over a file that is there */
};

/* Begins a file at `path`. */
bool safefile_open(struct safefile *file, const char *path, struct fault *why);

/* Brings what was written so far to the disk, and lets the system forget it:
 * what is read next through the temporary name comes from the disk, where the
 * system can do that. On false the file is to be dropped. */
bool safefile_settle(struct safefile *file, struct fault *why);

/* The latter for a file in place, which is already on the disk. */
void safefile_forget(const char *path);

/* Finishes it: flush, sync, close, rename, sync folder. After true or false
 * the safefile is closed. False only because the folder could not be synced
 * leaves the new file, whole, at its path. */
bool safefile_commit(struct safefile *file, enum safefile_care care,
		     struct fault *why);

/* Drops it; nothing remains. Harmless after commit. */
void safefile_drop(struct safefile *file);

/*
 * Reads a whole regular file (not a directory, device or pipe, unless `path`
 * is "-" for standard input) of at most `size` - 1 bytes into `bytes`, adds a
 * NUL, sets `*length`. `kind` is the kind of the fault raised: FAULT_POLICY
 * or FAULT_INPUT.
 */
bool safefile_read(const char *path, char *bytes, size_t size, size_t *length,
		   enum fault_kind kind, struct fault *why);

/* Makes a folder and its missing parents, mode 0700; one that is there is
 * fine. What it made survives a power cut. */
bool safefile_make_folder(const char *path, struct fault *why);

/* Whether anything stands at `path`, be it a link that leads nowhere. */
bool safefile_exists(const char *path);

/* Whether both paths lead to one file that is there. */
bool safefile_is_same(const char *path, const char *other);

/* Reads up to `size` bytes from the beginning of a plain file; how many: 0 when
 * none is there, when it is empty, or when it is a link or no plain file. -1
 * when it cannot be read. */
long safefile_peek(const char *path, char *bytes, size_t size);

/* Joins folder and name with a '/', unless the folder is "" or ends in one.
 * False (FAULT_INPUT) and "" when too long. */
bool safefile_join(char *path, size_t size, const char *folder,
		   const char *name, struct fault *why);

#endif
