/* run_agree.c: how far graders agree with a reference. */
#include "desk/run.h"

#include "clinic/cutoffs.h"
#include "desk/agreepage.h"
#include "desk/outfile.h"
#include "paper/forms.h"

#include <string.h>

/* The page, or the sheet for a training when there is none. */
static bool
write_what(const struct desk *desk, const struct agreepage *page, FILE *out,
	   struct fault *why)
{
	struct form_facts facts = {.wording = &desk->wording};

	if (page == NULL)
		return form_write(FORM_TRAINING, &facts, out, why);
	agreepage_write(page, out);
	return true;
}

static bool
write_to(const struct desk *desk, const struct agreepage *page,
	 const struct given *given, struct fault *why)
{
	const char *path = given_value(given, "out");
	bool html = page == NULL || page->html;
	struct safefile file;

	if (path == NULL || strcmp(path, "-") == 0)
		return write_what(desk, page, desk->out, why);
	if (!outfile_open(&file, desk, given, "out", html ? OUTFILE_PAGE : NULL,
			  why))
		return false;
	if (!write_what(desk, page, file.out, why)) {
		safefile_drop(&file);
		return false;
	}
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

static enum depth
deepest_cutoff(const struct policy *policy)
{
	const struct rule *at[DEPTH_GRADES];

	cutoffs_by_depth(policy, at);
	for (int i = DEPTH_GRADES - 1; i >= 0; i--)
		if (at[i] != NULL)
			return (enum depth)i;
	return DEPTH_BLANK;
}

static bool
agree(struct desk *desk, const struct given *given, struct fault *why)
{
	struct gradings gradings = {.by_week = given_is(given, "by-week")};
	struct agreepage page = {&gradings, &desk->policy, desk->policy_mark,
				 given_is(given, "html"), desk->columns};

	if (page.columns > AGREEPAGE_COLUMNS)
		page.columns = AGREEPAGE_COLUMNS;
	if (!desk_open(desk, NEED_POLICY, why))
		return false;
	gradings.cutoff = deepest_cutoff(&desk->policy);
	if (!gradings_read(desk, given->argument[0], &gradings, why) ||
	    !write_to(desk, &page, given, why))
		return false;
	if (gradings.bad > 0)
		return fault_set(why, FAULT_INPUT,
				 "%ld of %ld rows were refused; the others are "
				 "counted",
				 gradings.bad, gradings.rows);
	return true;
}

/* The sheet needs no station: English unless told otherwise. */
static bool
sheet(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *language = given_value(given, "language");

	return wording_read(&desk->wording, desk->folder,
			    language == NULL ? "en" : language, desk_hear, desk,
			    why) &&
	       write_to(desk, NULL, given, why);
}

bool
run_agree(struct desk *desk, const struct given *given, struct fault *why)
{
	bool empty = given_is(given, "sheet");

	if (empty == (given->arguments == 1))
		return fault_set(why, FAULT_USAGE,
				 "give either the FILE with the gradings or "
				 "--sheet for a sheet to print");
	return empty ? sheet(desk, given, why) : agree(desk, given, why);
}
