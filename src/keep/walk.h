/* walk.h: every file in the folders given, in one order. */
#ifndef SHOAL_KEEP_WALK_H
#define SHOAL_KEEP_WALK_H

#include "base/fault.h"

#include <dirent.h>
#include <stddef.h>
#include <sys/stat.h>

/*
 * Files and folders are visited sorted by the bytes of their paths, whatever
 * order they were given in or stand in on the disk. No link is followed, but
 * for those in the folders that lead to what was given. Nothing blocks: pipes
 * and devices are refused. Everything met is told of. Memory holds the names of
 * the folders that are open, one below the other; per level one file handle is
 * in use.
 */
enum { WALK_PATH_SIZE = 4096, WALK_LEVELS = 32 };

enum walk_kind {
	WALK_FILE,	  /* open for reading: `handle`, to be closed */
	WALK_INPUT,	  /* "-" was given */
	WALK_REFUSED,	  /* see `reason` */
	WALK_PASSED_OVER, /* the same; no fault */
	WALK_END
};

struct walk_level {
	int handle;	    /* the folder's; -1 for what was given */
	DIR *folder;	    /* owned, with the handle; NULL = none */
	char *text;	    /* owned; the names, folders with a '/' behind */
	size_t used, size;  /* bytes of it */
	const char **name;  /* owned; sorted */
	size_t count, next; /* names, and the one to come */
	size_t prefix;	    /* bytes of the path before them */
};

struct walk {
	struct walk_level level[WALK_LEVELS];
	int levels;
	/* Of what was met last. */
	char path[WALK_PATH_SIZE];
	int handle;
	struct stat status;
	struct fault reason;
};

/* Begins with what was given. FAULT_INTERNAL when memory is short. */
bool walk_begin(struct walk *walk, const char *const path[], size_t count,
		struct fault *why);
void walk_release(struct walk *walk);

/* Goes on to the next. False only with a fault that ends all. */
bool walk_next(struct walk *walk, enum walk_kind *kind, struct fault *why);

/* Opens a file met before for reading, not through a link; its handle, or -1.
 */
int walk_open_again(const char *path, struct stat *status);

#endif
