/* replycolumns.h: how a reply is given by name: columns and --set. */
#ifndef SHOAL_DESK_REPLYCOLUMNS_H
#define SHOAL_DESK_REPLYCOLUMNS_H

#include "clinic/reply.h"

#include <stdio.h>

enum { REPLY_COLUMNS_MOST = 80, REPLY_FOURS_MOST = 12 };

/* The fields of a reply, and after them one name more for each thing asked of
 * the quadrants of an eye, "deepest_right", which gives all four the answer. */
struct reply_columns {
	struct field field[REPLY_COLUMNS_MOST];
	char name[REPLY_FOURS_MOST][24]; /* of those added */
	struct fields fields;
};

void reply_columns_init(struct reply_columns *columns);

/* Every name with what is allowed, a few to a line. */
void reply_columns_write(const struct reply_columns *columns, int width,
			 FILE *out);

#endif
