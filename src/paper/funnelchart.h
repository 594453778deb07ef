/* funnelchart.h: shares by size, with the limits chance keeps to. */
#ifndef SHOAL_PAPER_FUNNELCHART_H
#define SHOAL_PAPER_FUNNELCHART_H

#include <stdio.h>

/*
 * A drawing as in chart.h: begun, given its points, ended. Across: how many
 * people; upwards: which share of them. The line is the share of all, above 0
 * and below 1; dashed the limits of 95 %, drawn through those of 99.8 %, both
 * as funnel_limit gives them.
 */
struct funnelchart {
	FILE *out;
	double share;
	long long across; /* people at the right end */
	double top;	  /* share at the upper end */
};

/* `most` people at the largest station; `highest` share of any. */
void funnelchart_begin(struct funnelchart *chart, FILE *out, const char *title,
		       double share, long long most, double highest);

/* A ring for `count` of `of` people, `of` at least 1; with a label, which may
 * be NULL, a filled one. */
void funnelchart_point(const struct funnelchart *chart, const char *label,
		       long long count, long long of);
void funnelchart_end(const struct funnelchart *chart);

#endif
