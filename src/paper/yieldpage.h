/* yieldpage.h: what became of the people sent, as sentences and tables. */
#ifndef SHOAL_PAPER_YIELDPAGE_H
#define SHOAL_PAPER_YIELDPAGE_H

#include "clinic/policy.h"
#include "counts/yieldfigures.h"
#include "paper/leaf.h"

/* What stands at the head; texts of any length. */
struct yieldpage {
	const char *programme;
	int station;
	struct day from, to; /* of screening; `from` none = from the first */
	struct day today;
	const struct policy *policy; /* by which classes are derived */
	enum yield_per per;	     /* YIELD_ALL: all four tables */
};

/* The page of a yield with anybody in it, as text or HTML as `leaf` says. */
void yieldpage_write(const struct yieldpage *page, const struct yield *yield,
		     struct leaf *leaf);

#endif
