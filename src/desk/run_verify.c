/* run_verify.c: a station's tallies, recounted from its register. */
#include "desk/run.h"

#include "base/text.h"
#include "counts/gather.h"
#include "counts/recount.h"
#include "counts/tally.h"
#include "desk/accounts.h"
#include "desk/collating.h"
#include "keep/csv.h"
#include "keep/safefile.h"

#include <string.h>

enum { NOTE_SIZE = 200 };

struct verification {
	struct desk *desk;
	struct recount recount;
	struct tally tally; /* of the day looked at */
	long days, differ, left_out, missing;
};

/* A counted_see. */
static bool
see_row(void *context, const struct counted *row, int sign, struct fault *why)
{
	struct verification *verification = context;

	if (row->station != verification->desk->station.code)
		return true;
	return recount_report(&verification->recount, row, sign, why);
}

/* A register_see. */
static bool
see_person(void *context, const struct visit *visit, const char *reason,
	   struct fault *why)
{
	struct verification *verification = context;

	(void)reason;
	return tally_add(&verification->tally, visit, why);
}

/* The mark of the day as the register has it now, under the head that the last
 * tally written had. */
static bool
mark_now(struct verification *verification, struct day day, bool closed,
	 char *mark, struct fault *why)
{
	struct desk *desk = verification->desk;
	struct tally_head head = {.programme = desk->station.programme,
				  .site = desk->station.site,
				  .station = desk->station.code,
				  .device = desk->book.device,
				  .policy = desk->policy_mark,
				  .date = day,
				  .closed = closed};

	return tally_mark(&verification->tally, &head, mark, why);
}

/* Why a tally may differ, as far as the register knows. */
static bool
explain(struct verification *verification, const struct ledger_line *line,
	char *note, struct fault *why)
{
	struct tally_written last;
	char mark[TALLY_MARK_SIZE];

	if (!register_last_tally(&verification->desk->book, line->date, &last,
				 why) ||
	    !mark_now(verification, line->date, last.closed, mark, why))
		return false;
	if (last.revision == 0)
		snprintf(note, NOTE_SIZE,
			 "the register has written no tally of this day");
	else if (line->revision > last.revision)
		snprintf(note, NOTE_SIZE,
			 "the last revision that the register has written is "
			 "%d",
			 last.revision);
	else if (line->revision < last.revision || strcmp(mark, last.mark) != 0)
		snprintf(note, NOTE_SIZE,
			 "the register has changed since revision %d",
			 line->revision);
	else
		snprintf(note, NOTE_SIZE,
			 "the register wrote other counts as revision %d",
			 line->revision);
	return true;
}

/* The revision 0 is none. */
static void
write_day(struct verification *verification, struct day date, int revision,
	  const struct recounted *recounted, const char *note)
{
	FILE *out = verification->desk->out;
	char day[DAY_SIZE], number[12] = "", factor[RECOUNT_FACTOR_SIZE];
	char differs[RECOUNT_DIFFERS_SIZE];

	day_write(date, day);
	if (revision > 0)
		snprintf(number, sizeof number, "%d", revision);
	recounted_write_factor(recounted, factor, sizeof factor);
	recounted_write_differs(recounted, differs, sizeof differs);
	fprintf(out, "%s,%s,%lld,%lld,%s", day, number, recounted->reported,
		recounted->recounted, factor);
	csv_write_value(out, differs, false);
	csv_write_value(out, note, false);
	csv_end_row(out);
}

static bool
verify_day(struct verification *verification, const struct ledger_line *line,
	   struct fault *why)
{
	struct desk *desk = verification->desk;
	struct recounted recounted;
	char note[NOTE_SIZE] = "";

	tally_init(&verification->tally, &desk->policy.age_bands);
	if (!register_visit_day(&desk->book, line->date, see_person,
				verification, why) ||
	    !recount_compare(&verification->recount, line->date,
			     &verification->tally, &recounted, why))
		return false;
	verification->days++;
	if (!recounted_agrees(&recounted)) {
		verification->differ++;
		if (!explain(verification, line, note, why))
			return false;
	}
	write_day(verification, line->date, line->revision, &recounted, note);
	return true;
}

/* A ledger_see. What could not be read may be of this station, so it is
 * told. */
static bool
see_line(void *context, const struct ledger_line *line, struct fault *why)
{
	struct verification *verification = context;
	int code = verification->desk->station.code;

	if (line->status == LEDGER_REFUSED ||
	    (line->status == LEDGER_CONFLICT && line->station == code)) {
		verification->left_out++;
		accounts_say(verification->desk->talk, line,
			     collating_columns(verification->desk));
		return true;
	}
	if (line->status != LEDGER_COUNTED || line->station != code)
		return true;
	return verify_day(verification, line, why);
}

/* --- days that no tally reports ------------------------------------------- */

/* A register_see. */
static bool
see_held(void *context, const struct visit *visit, const char *reason,
	 struct fault *why)
{
	struct verification *verification = context;

	(void)reason;
	return visit->state == STATE_VOID ||
	       recount_hold(&verification->recount, visit->screened_on, why);
}

/* A recount_see. */
static bool
see_missing(void *context, struct day day, const struct recounted *recounted,
	    struct fault *why)
{
	struct verification *verification = context;

	(void)why;
	verification->missing++;
	write_day(verification, day, 0, recounted,
		  "no tally of this day could be counted");
	return true;
}

static bool
look_for_missing(struct verification *verification, struct fault *why)
{
	if (verification->days == 0)
		return true;
	return register_visit_day(&verification->desk->book, day_none(),
				  see_held, verification, why) &&
	       recount_visit_missing(&verification->recount, see_missing,
				     verification, why);
}

/* --- all of it ------------------------------------------------------------ */

static bool
judge_days(const struct verification *verification, struct fault *why)
{
	char missing[120];

	if (verification->missing == 0)
		return fault_set(why, FAULT_INPUT,
				 "days that differ from the register: %ld of "
				 "%ld",
				 verification->differ, verification->days);
	snprintf(missing, sizeof missing,
		 "days with people in the register of which no tally could be "
		 "counted: %ld (the rows without a revision)",
		 verification->missing);
	if (verification->differ == 0)
		return fault_set(why, FAULT_INPUT,
				 "every day that was counted agrees with the "
				 "register: %ld; %s",
				 verification->days, missing);
	return fault_set(why, FAULT_INPUT,
			 "days that differ from the register: %ld of %ld; %s",
			 verification->differ, verification->days, missing);
}

static bool
judge(const struct verification *verification, struct fault *why)
{
	if (verification->days == 0)
		return fault_set(why, FAULT_INPUT,
				 "in what was given there is no tally of "
				 "station %04d to verify",
				 verification->desk->station.code);
	if (verification->differ + verification->missing > 0)
		return judge_days(verification, why);
	if (verification->left_out > 0)
		return fault_set(why, FAULT_INPUT,
				 "every day that could be read agrees with "
				 "the register; what is named above is left "
				 "out");
	fprintf(verification->desk->talk,
		"%ld day%s: every count agrees with the register, and it "
		"holds nobody of another day.\n",
		verification->days, verification->days == 1 ? "" : "s");
	return true;
}

/* Every other option of collate is about the sums. */
static bool
stands_alone(const struct given *given, struct fault *why)
{
	static const char *const others[] = {"by", "per", "ledger", "report",
					     "public"};

	for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
		if (given_is(given, others[i]))
			return fault_set(why, FAULT_USAGE,
					 "--verify prints no sums, so --%s "
					 "cannot be given with it",
					 others[i]);
	return true;
}

static bool
go_there(struct desk *desk, const char *folder, struct fault *why)
{
	char path[DESK_PATH_SIZE];

	if (!text_copy(desk->folder, sizeof desk->folder, folder))
		return fault_set(why, FAULT_USAGE,
				 "the name after --verify is too long");
	if (!desk_path(desk, "station.ini", path, why))
		return false;
	if (desk->station_path != NULL || safefile_exists(path))
		return true;
	return fault_set(why, FAULT_POLICY,
			 "there is no station.ini in '%.300s', so it is no "
			 "station's folder",
			 folder);
}

bool
run_verify(struct desk *desk, const struct given *given, struct fault *why)
{
	struct verification verification = {.desk = desk};
	struct onlooker onlooker = {
		.row = see_row, .line = see_line, .context = &verification};
	struct collating_totals totals;
	bool done;

	if (!stands_alone(given, why))
		return false;
	if (!go_there(desk, given_value(given, "verify"), why) ||
	    !desk_open(desk, NEED_POLICY | NEED_STATION | NEED_BOOK_READ, why))
		return false;
	fprintf(desk->out, "date,revision,reported,recounted,factor,differs,"
			   "note\n");
	recount_init(&verification.recount);
	done = collating_run(desk, &gather_kind, given->argument,
			     (size_t)given->arguments, &onlooker, 1, &totals,
			     why) &&
	       look_for_missing(&verification, why) &&
	       judge(&verification, why);
	recount_release(&verification.recount);
	return done;
}
