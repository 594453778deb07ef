/* walkname.c: what a file is not, by its name. */
#include "keep/walkname.h"

#include <string.h>
#include <strings.h>

static bool
ends_in(const char *name, const char *end)
{
	size_t length = strlen(name), size = strlen(end);

	return length >= size && strcasecmp(name + length - size, end) == 0;
}

static bool
ends_in_one_of(const char *name, const char *const end[])
{
	for (; *end != NULL; end++)
		if (ends_in(name, *end))
			return true;
	return false;
}

const char *
walkname_leftover(const char *name)
{
	static const char *const desktop[] = {"desktop.ini", "thumbs.db", NULL};
	static const char *const page[] = {".html", ".htm", ".pdf", NULL};

	if (name[0] == '.')
		return "it is hidden";
	if (strncmp(name, "~$", 2) == 0)
		return "another program left it while a file was open";
	if (ends_in(name, ".csv"))
		return NULL;
	if (ends_in(name, "~"))
		return "another program left it while a file was open";
	if (strstr(name, ".tmp-") != NULL)
		return "a program is writing it, or was stopped while it did";
	if (ends_in_one_of(name, desktop))
		return "it belongs to the desktop";
	if (ends_in_one_of(name, page))
		return "it is a page to be read";
	return NULL;
}

const char *
walkname_no_table(const char *name, bool was_given)
{
	static const char *const workbook[] = {".xlsx", ".xls",	    ".xlsm",
					       ".ods",	".numbers", NULL};
	static const char *const archive[] = {".zip", ".7z",  ".rar",
					      ".gz",  ".tar", NULL};

	if (ends_in(name, ".csv"))
		return NULL;
	if (ends_in_one_of(name, workbook))
		return "it is a workbook; give the CSV file that the program "
		       "wrote, or save the sheet as CSV";
	if (ends_in_one_of(name, archive))
		return "it is an archive; unpack it first";
	if (!was_given)
		return "its name does not end in .csv; rename it if it is a "
		       "tally, else move it away";
	return NULL;
}
