/* report.c: the page about a collation, for the programme's manager. */
#include "paper/report.h"

#include "base/embedded.h"
#include "paper/reportparts.h"
#include "paper/template.h"

#include <string.h>

static const struct part {
	const char *name;
	report_part *write;
} parts[] = {{"programme", report_programme}, {"first", report_first},
	     {"source", report_source},	      {"totals", report_totals},
	     {"weeks", report_weeks},	      {"sites", report_sites},
	     {"depths", report_depths},	      {"grid", report_grid},
	     {"funnel", report_funnel},	      {"drift", report_drift},
	     {"late", report_late},	      {"ledger", report_ledger}};

/* Sorting a table of sums changes it, which a template may not. */
struct filling {
	struct summary *summary;
};

static bool
fill(const void *context, const char *name, FILE *out)
{
	const struct filling *filling = context;

	for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
		if (strcmp(parts[i].name, name) != 0)
			continue;
		if (out != NULL)
			parts[i].write(filling->summary, out);
		return true;
	}
	return false;
}

bool
report_write_html(struct summary *summary, FILE *out, struct fault *why)
{
	const struct filling filling = {summary};

	return template_write((const char *)embedded_report_html, fill,
			      &filling, out, why);
}
