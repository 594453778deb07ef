/* gradings.h: eyes graded twice, as typed for 'agree'. */
#ifndef SHOAL_DESK_GRADINGS_H
#define SHOAL_DESK_GRADINGS_H

#include "base/fault.h"
#include "clinic/depth.h"
#include "counts/agreement.h"
#include "desk/desk.h"

enum {
	GRADINGS_NAME_SIZE = 40 * 4 + 1,
	GRADINGS_GROUPS_MOST = 60,
	GRADINGS_CROSSED_MOST = 40,
	GRADINGS_ROWS_MOST = 50000
};

/* Eyes that have no place in the table. */
enum gradings_apart {
	GRADINGS_BOTH_X,      /* neither could grade */
	GRADINGS_GRADER_X,    /* the grader could not, the reference could */
	GRADINGS_REFERENCE_X, /* the other way round */
	GRADINGS_NO_EYE,      /* one of the two says that there is none */
	GRADINGS_APART
};

/* Eyes of one grader, or of one month or week. */
struct gradings_group {
	char name[GRADINGS_NAME_SIZE];
	struct agreement_table table;
};

/* Sorted by name, which for periods is by time. */
struct gradings_groups {
	int count;
	struct gradings_group group[GRADINGS_GROUPS_MOST];
};

/* An eye that the grader put on the other side of the cut-off. */
struct gradings_crossed {
	char name[GRADINGS_NAME_SIZE], grader_name[GRADINGS_NAME_SIZE];
	enum depth grader, reference;
};

struct gradings {
	enum depth cutoff; /* the policy's deepest, or DEPTH_BLANK */
	bool by_week;	   /* else by month */
	struct agreement_table all;
	long apart[GRADINGS_APART];
	struct gradings_groups graders, periods; /* empty without the column */
	long crossings; /* of which the first are kept */
	struct gradings_crossed crossed[GRADINGS_CROSSED_MOST];
	long rows, bad;
};

/*
 * Reads the file at `path` ("-" is the desk's input): a header naming case,
 * grader and reference, perhaps grader_name and date, in any order. `cutoff`
 * and `by_week` are set by the caller. A bad row is told on the desk's talk
 * stream and counted in `bad`; the others are counted. A case is counted once
 * per grader_name and date: the same again is a bad row. False when the file is
 * refused: no such columns, not CSV, more than GRADINGS_GROUPS_MOST graders or
 * periods or GRADINGS_ROWS_MOST rows, or nothing to count.
 */
bool gradings_read(struct desk *desk, const char *path,
		   struct gradings *gradings, struct fault *why);

#endif
