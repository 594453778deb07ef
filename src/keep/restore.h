/* restore.h: a copy of the register brought back into a station's folder. */
#ifndef SHOAL_KEEP_RESTORE_H
#define SHOAL_KEEP_RESTORE_H

#include "base/day.h"
#include "base/fault.h"
#include "keep/copies.h"
#include "keep/safefile.h"
#include "keep/sealing.h"
#include "keep/setaside.h"

#include <stdbool.h>

/*
 * In two steps: the first looks at the copy and at what is in the folder, and
 * changes nothing; the second puts the copy in place and keeps what stood there
 * aside (setaside.h). In between the user is asked.
 *
 * A copy may be older than what the station did since. So the restored register
 * has a device of its own (renew.h), by which a total tells it from the one
 * before; and it goes on with a number that surely nobody has: the one after
 * the last where the register in the folder is sound and of the same laptop,
 * else the first of the next thousand after the highest found in the copy, the
 * register and the slips. The thousand is a guess of what no camp gives out
 * between two copies (common sense, no source).
 */
enum restore_here { HERE_IS_NONE, HERE_IS_SOUND, HERE_CANNOT_BE_READ };

struct restore {
	int hold; /* see hold.h */
	struct safefile file;
	enum restore_here here_is;
	struct copy_facts copy, here; /* `here` only of a sound one */
	struct fault here_fault;      /* of one that cannot be read */
	struct copy_difference difference;
	int serial_from;
	char tallies[SAFEFILE_PATH_SIZE]; /* the folder of tallies */
	struct setaside put;
};

/*
 * `name` is the copy; `pair` the keys to unseal it, NULL = none. Refused
 * (FAULT_INPUT): no copy of a register, cut, altered or damaged ones, another
 * key, one of another station. On false nothing is held any more.
 */
bool restore_look(struct restore *restore, const char *folder, int station,
		  const char *name, const struct key_pair *pair,
		  struct fault *why);

/* Whether the register in the folder has, or may have, what the copy has not,
 * or has purged names that the copy still has. */
bool restore_loses(const struct restore *restore);

/* Whether the register in the folder has everything that the copy has, and the
 * copy everything that it has. */
bool restore_is_needless(const struct restore *restore);

/* After it, true or false, nothing is held any more. */
bool restore_put(struct restore *restore, struct day today, struct fault *why);

/* Ends without changing anything. */
void restore_drop(struct restore *restore);

#endif
