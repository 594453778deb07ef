/* desk.c: what a command works with: files opened, day, streams. */
#include "desk/desk.h"

#include "base/embedded.h"
#include "base/text.h"
#include "base/unicode.h"
#include "keep/policyfile.h"
#include "keep/safefile.h"
#include "paper/slip.h"

#include <string.h>

void
desk_hear(void *desk, const struct fault *one)
{
	fprintf(((struct desk *)desk)->talk, "%s\n", one->sentence);
}

bool
desk_path(const struct desk *desk, const char *name, char *path,
	  struct fault *why)
{
	return safefile_join(path, DESK_PATH_SIZE, desk->folder, name, why);
}

/* The file named on the command line, else policy.ini in the station's folder;
 * "" when neither is there and the built-in policy holds. */
static bool
find_policy(const struct desk *desk, char *path, struct fault *why)
{
	if (desk->policy_path != NULL)
		return text_copy(path, DESK_PATH_SIZE, desk->policy_path) ||
		       fault_set(why, FAULT_USAGE,
				 "the name after --policy is too long");
	if (!desk_path(desk, "policy.ini", path, why))
		return false;
	if (!safefile_exists(path))
		path[0] = '\0';
	return true;
}

/* The text is read apart only to be kept. */
static bool
open_policy(struct desk *desk, bool is_kept, struct fault *why)
{
	char path[DESK_PATH_SIZE];

	if (!find_policy(desk, path, why))
		return false;
	desk->policy_is_built_in = path[0] == '\0';
	desk->policy_text[0] = '\0';
	if (desk->policy_is_built_in) {
		if (is_kept)
			memcpy(desk->policy_text, embedded_policy,
			       embedded_policy_size + 1);
		if (!policyfile_read_bytes("policy.ini (built in)",
					   (const char *)embedded_policy,
					   embedded_policy_size, &desk->policy,
					   desk_hear, desk, why))
			return false;
	} else if (!policyfile_read(path, &desk->policy,
				    is_kept ? desk->policy_text : NULL,
				    sizeof desk->policy_text, desk_hear, desk,
				    why)) {
		return false;
	}
	policy_fingerprint(&desk->policy, desk->policy_mark);
	return true;
}

bool
desk_notice_policy(struct desk *desk, bool *changed, struct fault *why)
{
	char path[DESK_PATH_SIZE], text[DESK_POLICY_TEXT_SIZE];
	char mark[POLICY_MARK_SIZE];
	struct policy policy;
	size_t length;

	*changed = false;
	if (!find_policy(desk, path, why))
		return false;
	if (path[0] == '\0' ||
	    !safefile_read(path, text, sizeof text, &length, FAULT_POLICY, why))
		return path[0] == '\0';
	if (strcmp(text, desk->policy_text) == 0)
		return true;
	if (!policyfile_read(path, &policy, text, sizeof text, desk_hear, desk,
			     why))
		return false;
	policy_fingerprint(&policy, mark);
	*changed = strcmp(mark, desk->policy_mark) != 0;
	desk->policy = policy;
	memcpy(desk->policy_text, text, sizeof text);
	memcpy(desk->policy_mark, mark, sizeof mark);
	return true;
}

static bool
open_station(struct desk *desk, struct fault *why)
{
	char path[DESK_PATH_SIZE];
	const char *chosen = desk->station_path;

	if (chosen == NULL) {
		if (!desk_path(desk, "station.ini", path, why))
			return false;
		if (!safefile_exists(path))
			return fault_set(why, FAULT_POLICY,
					 "there is no station in '%.300s'; set "
					 "one up with 'shoal start', or name "
					 "its folder with --book",
					 desk->folder);
		chosen = path;
	}
	return stationfile_read(chosen, &desk->station, desk_hear, desk, why);
}

static bool
open_book(struct desk *desk, enum book_use use, struct fault *why)
{
	if (!register_open(&desk->book, desk->folder, use, why))
		return false;
	if ((desk->opened & NEED_STATION) != 0 &&
	    desk->book.station != desk->station.code) {
		fault_set(why, FAULT_REGISTER,
			  "the register belongs to station %04d, but "
			  "station.ini says %04d; one of the two comes from "
			  "another laptop",
			  desk->book.station, desk->station.code);
		register_close(&desk->book);
		return false;
	}
	return true;
}

bool
desk_open(struct desk *desk, unsigned needs, struct fault *why)
{
	if ((needs & NEED_STATION) != 0 && !open_station(desk, why))
		return false;
	desk->opened |= needs & NEED_STATION;
	if ((needs & NEED_POLICY) != 0 &&
	    !open_policy(desk, (needs & NEED_BOOK_WRITE) != 0, why))
		return false;
	if ((needs & NEED_WORDING) != 0 &&
	    !wording_read(&desk->wording, desk->folder, desk->station.language,
			  desk_hear, desk, why))
		return false;
	if ((needs & (NEED_BOOK_WRITE | NEED_BOOK_READ)) != 0 &&
	    !unicode_is_there(why))
		return false;
	if ((needs & NEED_BOOK_WRITE) != 0 && !open_book(desk, BOOK_WRITE, why))
		return false;
	if ((needs & NEED_BOOK_READ) != 0 && !open_book(desk, BOOK_READ, why))
		return false;
	desk->opened |= needs;
	return true;
}

void
desk_close(struct desk *desk)
{
	if ((desk->opened & (NEED_BOOK_READ | NEED_BOOK_WRITE)) != 0)
		register_close(&desk->book);
	desk->opened = 0;
}

void
desk_day_words(struct day day, char *text)
{
	int year, month, of_month;

	day_parts(day, &year, &month, &of_month);
	snprintf(text, DESK_DAY_WORDS_SIZE, "%s %d %s %d",
		 day_weekday_name(day), of_month, day_month_name(month), year);
}

void
desk_judge(const struct desk *desk, struct visit *visit,
	   struct decision *decision)
{
	decide(&desk->policy, visit, decision);
	decision_record(&desk->policy, desk->policy_mark, decision, visit);
}

/* A day given by hand keeps the clock's time of day: only the day was said to
 * be wrong. */
void
desk_stamp(const struct desk *desk, struct visit *visit)
{
	struct day day = desk->today_given ? desk->today
					   : day_of_seconds(desk->seconds);
	unsigned of_day = (unsigned)(((desk->seconds % 86400) + 86400) % 86400);
	char written[DAY_SIZE];

	day_write(day, written);
	snprintf(visit->entered_at, sizeof visit->entered_at,
		 "%.10sT%02u:%02u:%02uZ", written, of_day / 3600 % 24,
		 of_day / 60 % 60, of_day % 60);
	visit->late = visit->screened_on.number < desk->today.number;
}

bool
desk_kept_policy(struct desk *desk, const char *fingerprint, char *text,
		 struct policy *policy, struct fault *why)
{
	char found[POLICY_MARK_SIZE];

	if (!register_policy_text(&desk->book, fingerprint, text,
				  DESK_POLICY_TEXT_SIZE, why) ||
	    !policyfile_read_bytes("policy kept in the register", text,
				   strlen(text), policy, desk_hear, desk, why))
		return false;
	policy_fingerprint(policy, found);
	return strcmp(found, fingerprint) == 0 ||
	       fault_set(why, FAULT_REGISTER,
			 "the register is damaged: what it keeps as the policy "
			 "'%s' is '%s'; keep the file, and see 'shoal help "
			 "mend'",
			 fingerprint, found);
}

bool
desk_policy_of(struct desk *desk, const struct visit *visit,
	       struct policy *policy, struct fault *why)
{
	char text[DESK_POLICY_TEXT_SIZE];

	if (strcmp(visit->policy, desk->policy_mark) == 0) {
		*policy = desk->policy;
		return true;
	}
	return desk_kept_policy(desk, visit->policy, text, policy, why);
}

static bool
write_slip(const struct desk *desk, const struct slip *slip, bool html,
	   struct fault *why)
{
	char path[DESK_PATH_SIZE], name[40], number[REFNUM_SIZE];
	struct safefile file;
	bool written;

	refnum_write(slip->visit->number, number);
	snprintf(name, sizeof name, "slips/%s.%s", number,
		 html ? "html" : "txt");
	if (!desk_path(desk, name, path, why) ||
	    !safefile_open(&file, path, why))
		return false;
	written = html ? slip_write_html(slip, file.out, why)
		       : slip_write_text(slip, SLIP_COLUMNS, file.out, why);
	if (!written) {
		safefile_drop(&file);
		return false;
	}
	/* A slip can be made again from the register at any time. */
	return safefile_commit(&file, SAFEFILE_RENAMED, why);
}

bool
desk_write_slips(const struct desk *desk, const struct visit *visit,
		 const struct policy *policy, const struct decision *decision,
		 struct fault *why)
{
	struct slip slip = {visit,
			    policy,
			    decision,
			    &desk->station,
			    &desk->wording,
			    policy == &desk->policy ? desk->policy_mark : NULL};

	return write_slip(desk, &slip, true, why) &&
	       write_slip(desk, &slip, false, why);
}

void
desk_write_urgency(const struct policy *policy, const struct visit *visit,
		   int columns, FILE *out)
{
	char words[DESK_DAY_WORDS_SIZE] = "", line[120];

	if (!day_is_none(visit->see_by))
		desk_day_words(visit->see_by, words);
	switch (visit->urgency) {
	case URGENCY_SAME_DAY:
		snprintf(line, sizeof line,
			 "*** SEND TODAY: same-day referral ***");
		break;
	case URGENCY_URGENT:
	case URGENCY_ROUTINE:
		snprintf(line, sizeof line, "%s: refer within %d days%s%s",
			 visit->urgency == URGENCY_URGENT ? "URGENT"
							  : "ROUTINE",
			 visit->within_days, words[0] == '\0' ? "" : ", by ",
			 words);
		break;
	default:
		snprintf(line, sizeof line,
			 "NO REFERRAL: screen again in %d months",
			 visit->rescreen_months);
	}
	text_write_wrapped(out, line, columns, 0, 0);
	if (visit_is_overdue(visit)) {
		snprintf(line, sizeof line,
			 "*** OVERDUE: was to be seen by %s. Call or fetch the "
			 "person today. ***",
			 words);
		text_write_wrapped(out, line, columns, 0, 0);
	}
	if (policy_verifies(policy, visit))
		text_write_wrapped(out,
				   "CHOSEN BY NUMBER to check the screening: "
				   "the slip asks for one visit to the clinic. "
				   "Say that the number decided, not what was "
				   "seen.",
				   columns, 0, 0);
	if (!policy_is_approved(policy))
		text_write_wrapped(out,
				   "Policy not yet approved by an eye doctor.",
				   columns, 0, 0);
}

const char *
desk_fired_place(const struct policy *policy, const struct fired *fired)
{
	if (rule_is_of_person(&policy->rule[fired->rule]))
		return "";
	if (fired->eye[EYE_RIGHT] && fired->eye[EYE_LEFT])
		return "Both eyes: ";
	return fired->eye[EYE_RIGHT] ? "Right eye: " : "Left eye: ";
}

/* Fired rules that decide stand first. */
static int
deciding_count(const struct policy *policy, const struct decision *decision)
{
	int count = 0;

	while (count < decision->count &&
	       decision_is_deciding(policy, decision, count))
		count++;
	return count;
}

static void
write_reason(const struct policy *policy, const struct fired *fired,
	     int columns, FILE *out)
{
	const char *place = desk_fired_place(policy, fired);

	fprintf(out, " - %s", place);
	text_write_wrapped(out, policy_say(policy, &policy->rule[fired->rule]),
			   columns, 3 + (int)strlen(place), 3);
	if (!fired->age_was_unknown)
		return;
	fprintf(out, "   ");
	text_write_wrapped(out,
			   "(age not known: counted as meeting the age limit)",
			   columns, 3, 3);
}

/* Those that did not decide are counted only: on a small screen they would
 * push the answer out of sight, and the slip has them all. */
void
desk_write_causes(const struct policy *policy, const struct decision *decision,
		  int columns, FILE *out)
{
	int deciding = deciding_count(policy, decision);
	int others = decision_shown(policy, decision) - deciding;

	for (int i = 0; i < deciding; i++)
		write_reason(policy, &decision->fired[i], columns, out);
	if (others > 0)
		fprintf(out, " - and %d less urgent reason%s\n", others,
			others == 1 ? "" : "s");
}

void
desk_write_reasons(const struct policy *policy, const struct decision *decision,
		   int columns, FILE *out)
{
	int deciding = deciding_count(policy, decision);

	desk_write_causes(policy, decision, columns, out);
	for (int i = 0; i < deciding; i++) {
		const char *advice = decision_advice(policy, decision, i);

		if (advice[0] == '\0')
			continue;
		fprintf(out, " > ");
		text_write_wrapped(out, advice, columns, 3, 3);
	}
}
