/* reporting.c: the page about a collation, while it is made. */
#include "desk/reporting.h"

#include "desk/outfile.h"
#include "paper/report.h"

#include <string.h>

bool
reporting_begin(struct reporting *reporting, const struct desk *desk,
		const struct given *given, struct fault *why)
{
	summary_init(&reporting->summary);
	memset(&reporting->file, 0, sizeof reporting->file);
	return outfile_open(&reporting->file, desk, given, "report",
			    OUTFILE_PAGE, why);
}

bool
reporting_finish(struct reporting *reporting, struct fault *why)
{
	return report_write_html(&reporting->summary, reporting->file.out,
				 why) &&
	       safefile_commit(&reporting->file, SAFEFILE_SYNCED, why);
}

void
reporting_release(struct reporting *reporting)
{
	summary_release(&reporting->summary);
	safefile_drop(&reporting->file);
}
