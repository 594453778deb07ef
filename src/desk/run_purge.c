/* run_purge.c: names of camps that are over, removed for good. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/confirm.h"
#include "keep/purge.h"

enum { WAITING_SHOWN = 20 };

struct told {
	struct desk *desk;
	int count;
};

static bool
tell_waiting(void *context, struct refnum number, struct fault *why)
{
	struct told *told = context;
	char written[REFNUM_SIZE];

	(void)why;
	refnum_write(number, written);
	if (told->count++ == 0)
		fprintf(told->desk->talk, "Sent to the clinic, no reply yet: "
					  "these KEEP their "
					  "names\n(--waiting-too removes "
					  "them):\n");
	if (told->count <= WAITING_SHOWN)
		fprintf(told->desk->talk, " %s\n", written);
	return true;
}

static void
tell_file(void *context, const char *path)
{
	struct told *told = context;

	if (told->count++ == 0)
		fprintf(told->desk->talk, "These files may still hold names. "
					  "Remove them yourself when they are "
					  "not needed any more:\n");
	fprintf(told->desk->talk, " %s\n", path);
}

static void
say(const struct desk *desk, const char *words)
{
	text_write_wrapped(desk->talk, words, desk->columns, 0, 0);
}

static void
tell_plan(struct desk *desk, const struct purge_plan *plan)
{
	char first[DAY_SIZE], last[DAY_SIZE];
	struct told files = {desk, 0};

	day_write(plan->first, first);
	day_write(plan->last, last);
	fprintf(desk->talk, "People whose names are removed: %lld",
		plan->people);
	if (plan->people > 0)
		fprintf(desk->talk, ", screened %s to %s", first, last);
	fprintf(desk->talk, "\n");
	say(desk, "Removed for good: name, contact, written reasons, free "
		  "texts of the replies, their slips.");
	say(desk, "Kept: number, day, site, age, sex, grades, findings, "
		  "decision, answers of the clinic; tallies and yields count "
		  "as before.");
	say(desk, "Nothing of this can be taken back. Backup copies made "
		  "before still hold the names: destroy them.");
	purge_find_files(desk->folder, tell_file, &files);
}

static bool
read_choice(const struct desk *desk, const struct given *given,
	    struct purge_choice *choice, struct fault *why)
{
	const char *before = given_value(given, "before");
	char today[DAY_SIZE];

	choice->waiting_too = given_is(given, "waiting-too");
	if (before == NULL)
		return fault_set(why, FAULT_USAGE,
				 "--before YYYY-MM-DD is missing: the first "
				 "day that keeps its names");
	if (!day_read(before, &choice->before, why))
		return fault_at(why, "--before");
	if (choice->before.number <= desk->today.number)
		return true;
	day_write(desk->today, today);
	return fault_set(why, FAULT_INPUT,
			 "--before: '%s' is yet to come; the latest is today, "
			 "%s",
			 before, today);
}

static bool
purge(struct desk *desk, const struct given *given, struct book *book,
      const struct purge_choice *choice, struct fault *why)
{
	struct told waiting = {desk, 0};
	char slips[DESK_PATH_SIZE];
	struct purge_plan plan;

	if (!purge_plan(book, choice, tell_waiting, &waiting, &plan, why) ||
	    !desk_path(desk, "slips", slips, why))
		return false;
	if (waiting.count > WAITING_SHOWN)
		fprintf(desk->talk,
			" and %d more; 'shoal list --waiting' has "
			"all\n",
			waiting.count - WAITING_SHOWN);
	tell_plan(desk, &plan);
	if (!confirm_by_word(desk, given, "purge", why) ||
	    !purge_do(book, choice, slips, why))
		return false;
	fflush(desk->talk);
	fprintf(desk->out, "Purged, people %lld; %lld keep their names.\n",
		plan.people, plan.waiting);
	return true;
}

bool
run_purge(struct desk *desk, const struct given *given, struct fault *why)
{
	struct purge_choice choice;
	struct book book;
	bool done;

	if (!read_choice(desk, given, &choice, why) ||
	    !register_open(&book, desk->folder, BOOK_ALONE, why))
		return false;
	done = purge(desk, given, &book, &choice, why);
	register_close(&book);
	return done;
}
