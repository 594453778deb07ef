/* run_waiting.c: who has no reply yet, for the phone calls. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/outfile.h"
#include "desk/waiting.h"
#include "keep/csv.h"
#include "paper/callsheet.h"

#include <string.h>

struct waiting {
	struct desk *desk;
	FILE *out;
	bool csv, html, names;
	long people, overdue;
};

/* Names only where they are asked for. */
static const char *const columns[] = {"number",	     "urgency", "see_by",
				      "screened_on", "site",	"name",
				      "contact"};
enum { COLUMNS = 7, COLUMNS_WITHOUT_NAMES = 5 };

static void
value_of(const struct visit *visit, const char *name, char *value)
{
	field_write(fields_find(visit_fields, name), visit, value,
		    FIELD_TEXT_SIZE);
}

static void
write_csv(const struct waiting *waiting, const struct visit *visit,
	  int days_over)
{
	char value[FIELD_TEXT_SIZE];
	int count = waiting->names ? COLUMNS : COLUMNS_WITHOUT_NAMES;

	for (int i = 0; i < count; i++) {
		if (visit == NULL)
			text_copy(value, sizeof value, columns[i]);
		else
			value_of(visit, columns[i], value);
		csv_write_value(waiting->out, value, i == 0);
	}
	snprintf(value, sizeof value, "%d", days_over);
	csv_write_value(waiting->out, visit == NULL ? "days_overdue" : value,
			false);
	csv_end_row(waiting->out);
}

/* A line to find the person by, and one to call. */
static void
write_lines(const struct waiting *waiting, const struct visit *visit,
	    int days_over)
{
	char number[FIELD_TEXT_SIZE], urgency[FIELD_TEXT_SIZE], day[DAY_SIZE];
	char line[VISIT_NAME_SIZE + VISIT_CONTACT_SIZE + VISIT_SITE_SIZE + 20];

	value_of(visit, "number", number);
	value_of(visit, "urgency", urgency);
	day_write(visit->see_by, day);
	fprintf(waiting->out, "%s  ", number);
	if (visit->urgency == URGENCY_NO_REFERRAL)
		fprintf(waiting->out, "check only");
	else
		fprintf(waiting->out, "%-8s  by %s", urgency, day);
	if (days_over > 0)
		fprintf(waiting->out, "  overdue %d day%s", days_over,
			days_over == 1 ? "" : "s");
	fprintf(waiting->out, "\n   ");
	snprintf(line, sizeof line, "%s; %s; %s",
		 visit->name[0] == '\0' ? "no name" : visit->name,
		 visit->contact[0] == '\0' ? "no phone or village"
					   : visit->contact,
		 visit->site);
	text_write_wrapped(waiting->out, line, waiting->desk->columns, 3, 3);
}

static bool
see(void *context, const struct visit *visit, int days_over, struct fault *why)
{
	struct waiting *waiting = context;

	(void)why;
	waiting->people++;
	waiting->overdue += days_over > 0;
	if (waiting->html)
		callsheet_row(visit, days_over, waiting->out);
	else if (waiting->csv)
		write_csv(waiting, visit, days_over);
	else
		write_lines(waiting, visit, days_over);
	return true;
}

static bool
write_all(struct waiting *waiting, struct fault *why)
{
	struct desk *desk = waiting->desk;

	if (waiting->html)
		callsheet_begin(&desk->station, desk->today, waiting->out);
	else if (waiting->csv)
		write_csv(waiting, NULL, 0);
	if (!waiting_visit(desk, see, waiting, why))
		return false;
	if (waiting->html)
		callsheet_end(waiting->people, waiting->overdue, waiting->out);
	fprintf(desk->talk, "%ld %s for a reply, %ld overdue\n",
		waiting->people,
		waiting->people == 1 ? "person waits" : "people wait",
		waiting->overdue);
	return true;
}

static bool
check(const struct given *given, struct fault *why)
{
	if (given_is(given, "date"))
		return fault_set(why, FAULT_USAGE,
				 "--waiting lists all days; leave --date out");
	if (given_is(given, "html") && given_is(given, "csv"))
		return fault_set(why, FAULT_USAGE,
				 "--html and --csv exclude each other");
	return true;
}

bool
run_waiting(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *path = given_value(given, "out");
	struct waiting waiting = {desk,
				  desk->out,
				  given_is(given, "csv"),
				  given_is(given, "html"),
				  given_is(given, "names"),
				  0,
				  0};
	struct safefile file;

	if (!check(given, why) || !desk_open(desk, NEED_POLICY, why))
		return false;
	if (path == NULL || strcmp(path, "-") == 0)
		return write_all(&waiting, why);
	if (!outfile_open(&file, desk, given, "out",
			  waiting.html	? OUTFILE_PAGE
			  : waiting.csv ? "number,urgency,"
					: NULL,
			  why))
		return false;
	waiting.out = file.out;
	if (write_all(&waiting, why))
		return safefile_commit(&file, SAFEFILE_SYNCED, why);
	safefile_drop(&file);
	return false;
}
