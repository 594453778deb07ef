/* backup.h: a copy of the register on a stick, read back before it counts. */
#ifndef SHOAL_KEEP_BACKUP_H
#define SHOAL_KEEP_BACKUP_H

#include "base/day.h"
#include "base/fault.h"
#include "keep/book.h"
#include "keep/copies.h"
#include "keep/keytext.h"
#include "keep/safefile.h"

#include <stdbool.h>

/*
 * A copy is one file, written under a temporary name beside its own (O_EXCL,
 * O_NOFOLLOW, mode 0600) by SQLite itself, while others may go on saving. Then
 * it is synced, the system forgets it, and it is read from the stick: SQLite's
 * integrity_check, every entry by its fields, and every row of every table
 * against the register. Only then it is renamed into place and the folder
 * synced, and read and compared once more under its name. So an older copy of
 * that name is there until the new one is known to be good.
 *
 * FAULT_OUTPUT is the stick's, FAULT_REGISTER the register's, FAULT_INPUT a
 * name that will not do.
 */
struct backup {
	char path[STOREFILE_PATH_SIZE];
	bool on_same_disk; /* as the register, so no help against its loss */
	bool is_sealed;	   /* its name ends so */
	enum safefile_care care;
	struct copy_facts facts; /* of the copy, as read back */
};

/*
 * Where a copy goes that is asked for as `name`: there, or in the folder of
 * that name, as backup-SSSS-YYYY-MM-DD.db (.sealed). Refused is the station's
 * own folder, since a copy there is lost together with the register, and
 * whatever stands there that is not a regular file.
 */
bool backup_place(struct backup *backup, const struct book *book,
		  const char *name, bool sealed, struct day today,
		  struct fault *why);

/* Writes it. A file that is there is replaced only when it is an older copy of
 * the same register, which has nothing that this one has not. */
bool backup_write(struct backup *backup, const struct book *book,
		  struct fault *why);

/* The same, sealed to a public key (sealing.h). What is sealed is made first in
 * the station's own folder, so that no name reaches the stick unsealed. A
 * sealed file that is there is replaced when its first line tells of the same
 * register with no more entries. */
bool backup_write_sealed(struct backup *backup, const struct book *book,
			 const struct key *key, struct fault *why);

#endif
