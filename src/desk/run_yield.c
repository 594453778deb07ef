/* run_yield.c: what became of the people sent to the clinic. */
#include "desk/run.h"

#include "counts/yield.h"
#include "desk/followup.h"
#include "desk/outfile.h"
#include "desk/yieldcsv.h"
#include "desk/yieldsend.h"
#include "keep/entries.h"
#include "paper/yieldpage.h"

#include <string.h>

/* What is asked for. */
struct asked {
	struct desk *desk;
	struct yieldpage page;
	bool csv, html;
	struct yield yield;
};

static bool
see(void *context, const struct yield_person *person, struct fault *why)
{
	struct asked *asked = context;

	return yield_add(&asked->yield, person, desk_hear, asked->desk, why);
}

static void
write_out(const struct asked *asked, FILE *out)
{
	struct leaf leaf = {.out = out, .html = asked->html, .columns = 80};

	if (asked->csv)
		yieldcsv_write(&asked->yield, asked->page.per, out);
	else
		yieldpage_write(&asked->page, &asked->yield, &leaf);
}

static bool
write_to(const struct asked *asked, const struct given *given,
	 struct fault *why)
{
	const char *path = given_value(given, "out");
	struct safefile file;

	if (path == NULL || strcmp(path, "-") == 0) {
		write_out(asked, asked->desk->out);
		return true;
	}
	if (!outfile_open(&file, asked->desk, given, "out",
			  asked->html  ? OUTFILE_PAGE
			  : asked->csv ? "per,group,"
				       : NULL,
			  why))
		return false;
	write_out(asked, file.out);
	return safefile_commit(&file, SAFEFILE_SYNCED, why);
}

static bool
read_day(const struct given *given, const char *name, struct day *day,
	 struct fault *why)
{
	const char *value = given_value(given, name);

	return value == NULL || day_read(value, day, why) ||
	       fault_at(why, "--%s", name);
}

static bool
read_per(const struct given *given, enum yield_per *per, struct fault *why)
{
	const char *value = given_value(given, "per");

	*per = YIELD_ALL;
	if (value == NULL)
		return true;
	for (int i = YIELD_ALL + 1; i < YIELD_PERS; i++)
		if (strcmp(value, yield_per_word((enum yield_per)i)) == 0)
			*per = (enum yield_per)i;
	return *per != YIELD_ALL || fault_set(why, FAULT_USAGE,
					      "--per: '%.20s' is not known; "
					      "allowed are rule, "
					      "grade, site, grader",
					      value);
}

static bool
read_asked(const struct given *given, struct asked *asked, struct fault *why)
{
	struct yieldpage *page = &asked->page;

	if (!read_per(given, &page->per, why) ||
	    !read_day(given, "from", &page->from, why) ||
	    !read_day(given, "to", &page->to, why))
		return false;
	if (asked->csv && asked->html)
		return fault_set(why, FAULT_USAGE,
				 "--csv and --html exclude each other");
	if (page->to.number > page->today.number)
		return fault_set(why, FAULT_USAGE,
				 "--to: the day is after today; allowed is a "
				 "day up to today");
	if (page->from.number > page->to.number)
		return fault_set(why, FAULT_USAGE,
				 "--from: the day is after --to");
	return true;
}

/* Whether somebody was entered for these days, though nobody of them remains:
 * what was sent of them has to be taken back. */
static bool
had_people(const struct asked *asked, bool *had, struct fault *why)
{
	struct day day;

	if (!register_first_day_from(&asked->desk->book, asked->page.from, &day,
				     why))
		return false;
	*had = !day_is_none(day) && day.number <= asked->page.to.number;
	return true;
}

static bool
send_files(struct asked *asked, const char *folder, bool to_is_given,
	   struct fault *why)
{
	char path[DESK_PATH_SIZE];

	if (folder[0] == '\0') {
		if (!desk_path(asked->desk, "tallies", path, why))
			return false;
		folder = path;
	}
	return yieldsend_write(asked->desk, asked->page.from,
			       to_is_given ? asked->page.to : day_none(),
			       folder, why);
}

/* On the screen and in the file of --out, if there is anybody. */
static bool
show(const struct asked *asked, const struct given *given, struct fault *why)
{
	const struct yield *yield = &asked->yield;
	bool had = false;

	if (yield->cleared.people + yield->cell[0].counts.people > 0)
		return write_to(asked, given, why);
	if (given_is(given, "send") && !had_people(asked, &had, why))
		return false;
	return had || fault_set(why, FAULT_INPUT,
				"nobody was screened in these days, so there "
				"is no yield; --from and --to name others");
}

bool
run_yield(struct desk *desk, const struct given *given, struct fault *why)
{
	struct asked asked = {.desk = desk,
			      .page = {.programme = desk->station.programme,
				       .station = desk->station.code,
				       .from = day_none(),
				       .to = desk->today,
				       .today = desk->today,
				       .policy = &desk->policy},
			      .csv = given_is(given, "csv"),
			      .html = given_is(given, "html")};
	const char *folder = given_value(given, "send");

	yield_init(&asked.yield);
	if (!read_asked(given, &asked, why) ||
	    !desk_open(desk, folder == NULL ? NEED_BOOK_READ : NEED_BOOK_WRITE,
		       why) ||
	    !followup_visit(desk, asked.page.from, asked.page.to, desk->today,
			    see, &asked, why))
		return false;
	return show(&asked, given, why) &&
	       (folder == NULL ||
		send_files(&asked, folder, given_is(given, "to"), why));
}
