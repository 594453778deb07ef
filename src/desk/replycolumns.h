/* replycolumns.h: how a reply is given by name: columns and --set. */
#ifndef SHOAL_DESK_REPLYCOLUMNS_H
#define SHOAL_DESK_REPLYCOLUMNS_H

#include "clinic/reply.h"

#include <stdio.h>

enum { REPLY_COLUMNS_MOST = 80, REPLY_FOURS_MOST = 12 };

/* The fields of a reply, and after them one name more for each thing asked of
 * the quadrants of an eye, "deepest_right", which gives all four the answer. A
 * word may be given by its number, as on the printed sheet. Not to be copied:
 * the fields point into it. */
struct reply_columns {
	struct field field[REPLY_COLUMNS_MOST];
	char name[REPLY_FOURS_MOST][24]; /* of those added */
	/* As field_choice and field_set, and reads numbers, too. */
	struct field_kind choice, set;
	struct fields fields;
};

void reply_columns_init(struct reply_columns *columns);

/* Every name with what is allowed, a few to a line. */
void reply_columns_write(const struct reply_columns *columns, int width,
			 FILE *out);

#endif
