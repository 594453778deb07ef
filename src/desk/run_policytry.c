/* run_policytry.c: what another policy would say of the same people. */
#include "desk/run.h"

#include "base/field.h"
#include "base/number.h"
#include "base/refnum.h"
#include "base/text.h"
#include "counts/compare.h"
#include "counts/rates.h"
#include "desk/missed.h"
#include "desk/people.h"
#include "keep/policyfile.h"

#include <string.h>

enum { PER_DAY_MOST = 10000, LINE_SIZE = 900, ANSWER_SIZE = 60 };

struct trial {
	struct desk *desk;
	struct policy other; /* the one that is tried */
	char other_mark[POLICY_MARK_SIZE];
	struct compare compare;
};

static const char *const urgency_words[URGENCY_COUNT] = {
	"same day", "urgent", "routine", "no referral"};

static void
answer_words(const struct decision *decision, char *text)
{
	const char *word = urgency_words[decision->urgency];

	if (decision->urgency == URGENCY_SAME_DAY)
		snprintf(text, ANSWER_SIZE, "%s", word);
	else if (decision->within_days != FIELD_BLANK)
		snprintf(text, ANSWER_SIZE, "%s (%d days)", word,
			 decision->within_days);
	else
		snprintf(text, ANSWER_SIZE, "%s (%d months)", word,
			 decision->rescreen_months);
}

static void
try_person(struct trial *trial, const char *who, const struct visit *person)
{
	FILE *out = trial->desk->out;
	char was[ANSWER_SIZE], is[ANSWER_SIZE];
	struct decision before, after;

	decide(&trial->desk->policy, person, &before);
	decide(&trial->other, person, &after);
	if (compare_add(&trial->compare, &before, &after) == COMPARE_SAME)
		return;
	answer_words(&before, was);
	answer_words(&after, is);
	fprintf(out, "%s: %s -> %s\n", who, was, is);
	missed_write_rules(trial->desk, "in force: ", &trial->desk->policy,
			   &before);
	missed_write_rules(trial->desk, "new:      ", &trial->other, &after);
}

static bool
see_kept(void *context, const struct visit *visit, const char *reason,
	 struct fault *why)
{
	char number[REFNUM_SIZE];

	(void)reason, (void)why;
	if (visit->state == STATE_VOID)
		return true;
	refnum_write(visit->number, number);
	try_person(context, number, visit);
	return true;
}

static bool
see_given(void *context, const struct people_row *row, struct fault *why)
{
	char who[30];

	(void)why;
	if (row->row == 0 || row->refused != NULL)
		return true;
	snprintf(who, sizeof who, "row %ld", row->row);
	try_person(context, row->id[0] == '\0' ? who : row->id, row->person);
	return true;
}

static void
write_policy(const struct trial *trial, const char *label,
	     const struct policy *policy, const char *mark)
{
	char line[LINE_SIZE];

	snprintf(line, sizeof line, "%s, version %s, fingerprint %s%s",
		 policy->name, policy->version, mark,
		 policy_is_approved(policy) ? ""
					    : ", not yet approved by an eye "
					      "doctor");
	fprintf(trial->desk->out, "%s", label);
	text_write_wrapped(trial->desk->out, line, trial->desk->columns,
			   (int)strlen(label), 2);
}

static void
write_count(FILE *out, const char *label, long before, long after)
{
	char change[24] = "";

	if (before != after)
		snprintf(change, sizeof change, "  %+6ld", after - before);
	fprintf(out, "%-12s %8ld %8ld%s\n", label, before, after, change);
}

static void
write_counts(const struct trial *trial, long per_day)
{
	const struct compare *compare = &trial->compare;
	long before = compare_referred(compare->before);
	long after = compare_referred(compare->after);
	FILE *out = trial->desk->out;

	if (compare_changed(compare) > 0)
		fputc('\n', out);
	fprintf(out, "%-12s %8s %8s %8s\n", "", "in force", "new", "change");
	for (int i = 0; i < URGENCY_COUNT; i++)
		write_count(out, urgency_words[i], compare->before[i],
			    compare->after[i]);
	write_count(out, "all referred", before, after);
	if (per_day > 0)
		write_count(out, "clinic days",
			    rates_days((double)before, per_day),
			    rates_days((double)after, per_day));
}

static void
write_summary(const struct trial *trial, long per_day, bool whole)
{
	const struct compare *compare = &trial->compare;
	char line[LINE_SIZE];

	snprintf(line, sizeof line,
		 "%ld %s judged by both policies; %ld %s: %ld sooner, %ld "
		 "later, %ld only in name.",
		 compare->people, compare->people == 1 ? "person" : "people",
		 compare_changed(compare),
		 compare_changed(compare) == 1 ? "answer changes"
					       : "answers change",
		 compare->changed[COMPARE_SOONER],
		 compare->changed[COMPARE_LATER],
		 compare->changed[COMPARE_RENAMED]);
	fputc('\n', trial->desk->out);
	text_write_wrapped(trial->desk->out, line, trial->desk->columns, 0, 0);
	if (!whole)
		text_write_wrapped(trial->desk->out,
				   "Not everybody could be read; only those "
				   "who could are counted.",
				   trial->desk->columns, 0, 0);
	if (per_day > 0) {
		snprintf(line, sizeof line,
			 "Clinic days: for all referred, at %ld people a day.",
			 per_day);
		text_write_wrapped(trial->desk->out, line, trial->desk->columns,
				   0, 0);
	}
	text_write_wrapped(trial->desk->out,
			   "Nothing was saved. Screening is not a diagnosis.",
			   trial->desk->columns, 0, 0);
}

static bool
open_other(struct trial *trial, const char *path, struct fault *why)
{
	struct desk *desk = trial->desk;

	if (!policyfile_read(path, &trial->other, NULL, 0, desk_hear, desk,
			     why))
		return false;
	policy_fingerprint(&trial->other, trial->other_mark);
	write_policy(trial, "In force: ", &desk->policy, desk->policy_mark);
	write_policy(trial, "New:      ", &trial->other, trial->other_mark);
	if (strcmp(desk->policy_mark, trial->other_mark) == 0)
		fprintf(desk->out, "Both mean the same.\n");
	fputc('\n', desk->out);
	return true;
}

/* Only people from the register need a station; rows refused do not keep the
 * others from being counted. */
bool
run_policy_try(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *csv = given_value(given, "csv");
	const char *days = given_value(given, "per-clinic-day");
	struct trial trial = {.desk = desk};
	long per_day = 0;
	bool done;

	compare_init(&trial.compare);
	if (days != NULL &&
	    !number_read(days, 1, PER_DAY_MOST, "people", &per_day, why))
		return fault_at(why, "--per-clinic-day");
	if (csv == NULL && !desk_open(desk, NEED_STATION | NEED_BOOK_READ, why))
		return false;
	if (!open_other(&trial, given->argument[0], why))
		return false;
	done = csv != NULL ? people_read(desk, csv, see_given, &trial, why)
			   : register_visit_day(&desk->book, day_none(),
						see_kept, &trial, why);
	if (!done && (csv == NULL || trial.compare.people == 0))
		return false;
	write_counts(&trial, per_day);
	if (csv == NULL && !missed_write(desk, &trial.other, why))
		return false;
	write_summary(&trial, per_day, done);
	return done;
}
