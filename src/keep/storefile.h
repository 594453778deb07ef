/* storefile.h: a store's file, looked at before SQLite sees it. */
#ifndef SHOAL_KEEP_STOREFILE_H
#define SHOAL_KEEP_STOREFILE_H

#include "base/fault.h"
#include "keep/safefile.h"

#include <stdbool.h>

enum {
	STOREFILE_PATH_SIZE = 4096,
	STOREFILE_SHOWN = 300 /* bytes of a path in a sentence */
};

/* What to do with a damaged one, to end a sentence. */
#define STOREFILE_KEEP_IT \
	"; keep it as it is, and go on with the last backup copy"

/* When its journal would have to be played back where nothing can be
 * written. */
#define STOREFILE_HALF_SAVED                                         \
	"was left in the middle of a save, and it cannot be mended " \
	"where it is; copy it together with its -journal file to a " \
	"disk that can be written, and open it there"

/* When a commit stands, but the disk could not make it last. */
#define STOREFILE_FOR_NOW                                                  \
	"holds it for now, but the disk reports an error and may take it " \
	"back; look with 'shoal list' before it is typed in again"

/* Two numbers in the header of an SQLite file: whose it is, and which version
 * of that program's tables it holds, from 1. As what a program knows: the
 * newest version, and all before it. */
struct storefile_form {
	long application_id, version;
};

/* The path of the file. Links on the way to the folder are followed here, so
 * that SQLite can be told to follow none. `path` holds STOREFILE_PATH_SIZE. */
bool storefile_path(const char *folder, const char *name, char *path,
		    struct fault *why);

/* The same of a file's whole path, whatever its name. */
bool storefile_resolve(const char *file, char *path, struct fault *why);

/*
 * Checks what can be told from outside. Refused, each by its own sentence
 * (FAULT_REGISTER): not there, a link, no plain file, empty, beginning with
 * zeros, no SQLite file, shorter than a header, write-ahead logging, another
 * program, a newer version. While a journal stands beside the file only the
 * first four are looked at: the journal has the truth then.
 *
 * Reads the file, which drops the locks that this same process may hold on it
 * (https://www.sqlite.org/howtocorrupt.html 2.2): only while SQLite does not
 * have it open.
 */
bool storefile_check(const char *path, const struct storefile_form *form,
		     struct fault *why);

/* Checks that the file is as long as its header says. Only for a file already
 * known to be damaged, to say how: a sound one is shorter for a moment while
 * another program saves. Reads the file, as above. */
bool storefile_check_length(const char *path, struct fault *why);

/* The last two of storefile_check, for numbers that SQLite read. */
bool storefile_check_form(const char *path, const struct storefile_form *form,
			  const struct storefile_form *found,
			  struct fault *why);

/* Checks that nothing is there, nor a journal of that name. */
bool storefile_check_absent(const char *path, struct fault *why);

/* safefile_drop for a store that was being made, with the journal that SQLite
 * leaves where it could not roll back. After SQLite has closed it. */
void storefile_drop(struct safefile *file);

#endif
