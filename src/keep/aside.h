/* aside.h: a small text put aside in the station's folder. */
#ifndef SHOAL_KEEP_ASIDE_H
#define SHOAL_KEEP_ASIDE_H

#include "base/fault.h"
#include "keep/safefile.h"

#include <stddef.h>

/*
 * What is unfinished is put aside, so that it is there after a power cut. One
 * program at a time may do so in a folder: the first holds a lock on the folder
 * until it closes or ends, however it ends. Faults are FAULT_OUTPUT.
 */
struct aside {
	int folder; /* locked; -1 when closed */
	char path[SAFEFILE_PATH_SIZE];
};

enum { ASIDE_TEXT_SIZE = 16384 };

/* False too when another program holds the folder. What a power cut has left
 * half written is removed. */
bool aside_open(struct aside *aside, const char *folder, const char *name,
		struct fault *why);
/* Harmless when it is closed. The text stays. */
void aside_close(struct aside *aside);

/* Reads it into `text` of ASIDE_TEXT_SIZE bytes; "" when there is none. */
bool aside_read(const struct aside *aside, char *text, struct fault *why);

/* Puts it aside in place of the one before; once true, it survives a power
 * cut. */
bool aside_write(const struct aside *aside, const char *text,
		 struct fault *why);

/* Moves it to a name of its own beside, which goes to `kept` of
 * SAFEFILE_PATH_SIZE bytes. False, and it is where it was, when it cannot. */
bool aside_set_by(const struct aside *aside, char *kept, struct fault *why);

/* Removes it; there may be none. */
bool aside_remove(const struct aside *aside, struct fault *why);

#endif
