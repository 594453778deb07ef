/* copies.h: what a copy of the register holds, and whether it holds all. */
#ifndef SHOAL_KEEP_COPIES_H
#define SHOAL_KEEP_COPIES_H

#include "base/day.h"
#include "base/fault.h"
#include "base/refnum.h"
#include "keep/book.h"

#include <stdbool.h>

/* Of an open register, be it the station's or a copy. */
struct copy_facts {
	int station, form;
	char device[BOOK_DEVICE_LETTERS + 1];
	long long people;    /* numbers, void ones too */
	long long entries;   /* about people and of replies */
	struct refnum last;  /* the highest the program gave out, or none */
	struct day last_day; /* the last day of screening, or none */
};

bool copies_read_facts(struct book *book, struct copy_facts *facts,
		       struct fault *why);

/* Looks at everything: SQLite's integrity_check, and every entry read by its
 * fields. FAULT_REGISTER says what is damaged. */
bool copies_check(struct book *book, struct fault *why);

/* Entries that one of two registers has and the other has not. An entry is
 * known by its place, its number, its days and its state, so that one whose
 * names were purged since is still the same. */
struct copy_difference {
	long long only_here, only_there;
	long long names_there; /* of entries whose names are purged here */
};

bool copies_compare(struct book *here, const struct book *there,
		    struct copy_difference *difference, struct fault *why);

/* The rows of every table, to be taken before a copy is made. */
enum { COPY_TABLES = 5 };

struct copy_counts {
	long long rows[COPY_TABLES];
};

bool copies_count(struct book *book, struct copy_counts *counts,
		  struct fault *why);

/* Copies the register at `from` into the empty file `to`, by SQLite and while
 * others may save. */
bool copies_make(const char *from, const char *to, struct fault *why);

/* Whether every row of the copy is a row of the register, value by value, and
 * no table has fewer than before it was made: what was saved meanwhile may be
 * in it or not. FAULT_OUTPUT when not. */
bool copies_match(struct book *book, const struct copy_counts *before,
		  const char *copy, struct fault *why);

#endif
