/* spool.h: what became of each file, put aside in a file without a name. */
#ifndef SHOAL_KEEP_SPOOL_H
#define SHOAL_KEEP_SPOOL_H

#include "base/fault.h"

#include <stdio.h>
#include <sys/stat.h>

/*
 * Hundreds of thousands of paths would fill the memory, so they are written to
 * a temporary file that nobody else can open and that is gone with the
 * program. A record is found again by its number; numbers rise, and the next
 * one is told with each record.
 */
enum spool_kind {
	SPOOL_READ, /* its tallies are accounted for one by one */
	SPOOL_REFUSED,
	SPOOL_PASSED_OVER
};

enum { SPOOL_PATH_SIZE = 4096, SPOOL_COLUMN_SIZE = 64 };

struct spool_record {
	enum spool_kind kind;
	struct stat status; /* of a file read: only what tells a change */
	long row;
	char path[SPOOL_PATH_SIZE];
	char column[SPOOL_COLUMN_SIZE];
	char reason[FAULT_SENTENCE_SIZE];
};

/* Large: what is written is gathered in `bytes`, and records read one behind
 * the other come from there. */
enum { SPOOL_BUFFER = 64 * 1024 };

struct spool {
	FILE *file; /* owned */
	unsigned end;
	bool writing;
	unsigned next; /* the record behind the one read last */
	long long at;  /* of bytes[0] in the file */
	size_t filled; /* of `bytes` */
	char bytes[SPOOL_BUFFER];
};

bool spool_begin(struct spool *spool, struct fault *why);
void spool_release(struct spool *spool);

/* Adds a record; `*number` finds it again. FAULT_OUTPUT when the disk is full.
 */
bool spool_add(struct spool *spool, const struct spool_record *record,
	       unsigned *number, struct fault *why);

/* Reads record `number`, 0 for the first, and sets `*next`, which is
 * spool->end behind the last. */
bool spool_read(struct spool *spool, unsigned number,
		struct spool_record *record, unsigned *next, struct fault *why);

/* Whether a file has changed since its record was made. */
bool spool_is_same(const struct spool_record *record,
		   const struct stat *status);

#endif
