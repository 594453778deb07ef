/* formreply.h: the reply with a drawing of the angle. */
#ifndef SHOAL_PAPER_FORMREPLY_H
#define SHOAL_PAPER_FORMREPLY_H

#include "paper/formparts.h"

/* The four parts of the sheet, in the order of reply_fields: before the eyes;
 * both eyes with their drawing and quadrants; the numbers of the answers; after
 * the eyes. Each place to fill in is named by its field. */
void form_write_reply_sender(const struct form_facts *facts, FILE *out);
void form_write_reply_before(const struct form_facts *facts, FILE *out);
void form_write_reply_eyes(const struct form_facts *facts, FILE *out);
void form_write_reply_key(const struct form_facts *facts, FILE *out);
void form_write_reply_after(const struct form_facts *facts, FILE *out);

#endif
