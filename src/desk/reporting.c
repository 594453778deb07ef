/* reporting.c: the page about a collation, while it is made. */
#include "desk/reporting.h"

#include "paper/report.h"

#include <string.h>

bool
reporting_begin(struct reporting *reporting, const char *path,
		struct fault *why)
{
	summary_init(&reporting->summary);
	memset(&reporting->file, 0, sizeof reporting->file);
	if (strcmp(path, "-") == 0)
		return fault_set(why, FAULT_USAGE,
				 "'--report -' cannot be: the sums go to "
				 "standard output; give a file name");
	return safefile_open(&reporting->file, path, why);
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
