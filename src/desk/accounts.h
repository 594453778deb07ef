/* accounts.h: what became of each tally and each file, in sentences. */
#ifndef SHOAL_DESK_ACCOUNTS_H
#define SHOAL_DESK_ACCOUNTS_H

#include "counts/batch.h"
#include "counts/collate.h"
#include "counts/counted.h"
#include "keep/spool.h"

#include <stdio.h>

/* A path in the ledger is as harmless as a sentence (base/fault.h), and not
 * much longer than it was. */
enum { ACCOUNTS_PATH_SIZE = SPOOL_PATH_SIZE + FAULT_SENTENCE_SIZE };

/* Tells every line of the ledger, by path, of files of that kind. `collate` is
 * settled, and its places are needed no more. */
bool accounts_visit(struct collate *collate, struct spool *spool,
		    const struct batch_kind *kind, ledger_see *see,
		    void *context, struct fault *why);

/* How a ledger begins. */
#define ACCOUNTS_BEGIN "file,status,"

/* The ledger as CSV: its header, and one line. No cell begins like a formula.
 */
void accounts_write_header(FILE *out);
void accounts_write_line(FILE *out, const struct ledger_line *line);

/* "path: row 3, column depth_25: reason", fit for a terminal, with a line feed;
 * wrapped to `columns`, or on one line when 0. */
enum { ACCOUNTS_INDENT = 4 };
void accounts_say(FILE *out, const struct ledger_line *line, int columns);

#endif
