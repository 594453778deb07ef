/* people.h: people given as CSV, to be judged and not kept. */
#ifndef SHOAL_DESK_PEOPLE_H
#define SHOAL_DESK_PEOPLE_H

#include "base/fault.h"
#include "clinic/visit.h"
#include "desk/desk.h"

/* What may be given of a person: the column, and the option by which
 * 'assess' takes the same. */
struct people_item {
	const char *option;
	const char *field;
};

enum { PEOPLE_ITEMS = 7 };
extern const struct people_item people_items[PEOPLE_ITEMS];

/* A row. With row 0 the header was sound and the rest is blank. */
struct people_row {
	long row;
	const char *id;		    /* "" = none; sound for printing */
	const struct visit *person; /* blank when refused */
	const char *refused;	    /* the fault's sentence, or NULL */
};

/* False stops the reading; its fault is handed up. */
typedef bool people_see(void *context, const struct people_row *row,
			struct fault *why);

/*
 * Reads people from the file at `path`, or from the desk's input for "-" or
 * "". The header names any of the columns of people_items and `id`; both depths
 * are needed. A bad row is told on the desk's talk stream, seen as refused, and
 * the others go on; then false, FAULT_INPUT, with how many were refused.
 */
bool people_read(struct desk *desk, const char *path, people_see *see,
		 void *context, struct fault *why);

#endif
