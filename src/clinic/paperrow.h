/* paperrow.h: one person as a line of the paper register. */
#ifndef SHOAL_CLINIC_PAPERROW_H
#define SHOAL_CLINIC_PAPERROW_H

#include "clinic/findings.h"
#include "clinic/visit.h"

/*
 * On paper a person is asked in the same order as on the screen. Findings are
 * numbers to be circled, the same as the number keys of the screen, in six
 * columns: two of the person, two of each eye. A sheet typed from paper may
 * hold those columns in place of `findings`.
 */
enum { PAPER_GROUPS = 6 };

struct paper_row {
	struct visit visit;
	finding_set circled[PAPER_GROUPS];
};

/* All that is typed from paper: the fields of a person (the record begins with
 * them), then the six columns. A column reads "13", "1 3" or "1;3"; 0 alone,
 * or nothing, is none. Why an eye could not be graded may be its number too. */
extern const struct fields paper_row_fields;

/* A column of the paper register, in its order. */
struct paper_column {
	const char *name;	  /* of paper_row_fields */
	enum finding_group group; /* GROUP_COUNT for a field of the person */
	enum eye eye;		  /* of findings of an eye */
};

enum { PAPER_COLUMNS = 22, PAPER_HEAD_FIRST = 1, PAPER_HEAD_LAST = 3 };

/* Columns PAPER_HEAD_FIRST to PAPER_HEAD_LAST (day, site, grader) stand once
 * at the head of a page. */
extern const struct paper_column paper_columns[PAPER_COLUMNS];

/* The finding with that number in its group, from 1; FINDING_COUNT past the
 * last one. */
enum finding paper_finding(enum finding_group group, int number);

/* A record in which nothing is recorded. */
void paper_row_init(struct paper_row *row);

/* Adds what was circled to the findings of the person. */
void paper_row_gather(struct paper_row *row);

#endif
