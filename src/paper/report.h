/* report.h: the page about a collation, for the programme's manager. */
#ifndef SHOAL_PAPER_REPORT_H
#define SHOAL_PAPER_REPORT_H

#include "base/fault.h"
#include "counts/summary.h"

#include <stdio.h>

/*
 * One HTML page, whole in itself: no script, nothing from outside, for a
 * screen of any width and for A4. The same summary gives the same bytes. The
 * summary is sorted on the way and otherwise as it was. FAULT_INTERNAL only
 * for a fault of the compiled-in page.
 */
bool report_write_html(struct summary *summary, FILE *out, struct fault *why);

#endif
