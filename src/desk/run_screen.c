/* run_screen.c: screening a camp day, person after person. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/daytally.h"
#include "desk/interview.h"
#include "desk/onescreen.h"
#include "desk/prompts.h"
#include "desk/setup.h"

#include <signal.h>
#include <string.h>

static bool
set_day(struct session *session, const struct given *given, struct fault *why)
{
	const char *date = given_value(given, "date");

	session->day = session->desk->today;
	if (date == NULL)
		return true;
	if (!day_read(date, &session->day, why))
		return false;
	session->paper = session->day.number < session->desk->today.number;
	if (session->day.number > session->desk->today.number)
		return fault_set(why, FAULT_INPUT,
				 "--date %s is after today; people are entered "
				 "on their day or later",
				 date);
	return true;
}

static bool
set_site(struct session *session, const struct given *given, struct fault *why)
{
	const char *site = given_value(given, "site");

	session->site = site == NULL ? session->desk->station.site : site;
	return text_check(session->site, 60, why) || fault_at(why, "--site");
}

/* A file that was cut short on its way here may have no fault and yet miss a
 * dozen rules. */
static void
tell_other_policy(const struct session *session, const struct asker *asker)
{
	const struct desk *desk = session->desk;
	char words[SESSION_WORDS_SIZE], before[40] = "";
	struct policy policy;
	struct visit last;
	struct fault ignored;

	visit_init(&last);
	if (!register_last_policy(&session->desk->book, last.policy,
				  sizeof last.policy, &ignored) ||
	    last.policy[0] == '\0' ||
	    strcmp(last.policy, desk->policy_mark) == 0)
		return;
	if (desk_policy_of(session->desk, &last, &policy, &ignored))
		snprintf(before, sizeof before, ", that one %d",
			 policy.rule_count);
	snprintf(words, sizeof words,
		 "THE POLICY IS ANOTHER ONE than for the last person here "
		 "(%s). This one has %d rules%s. If nobody told you of a "
		 "change, ask the supervisor first.",
		 last.policy, desk->policy.rule_count, before);
	text_write_wrapped(asker->talk, words, asker->columns, 0, 0);
}

static void
tell_policy(const struct session *session, const struct asker *asker)
{
	char words[SESSION_WORDS_SIZE];

	session_write_policy(session, words);
	text_write_wrapped(asker->talk, words, asker->columns, 0, 0);
	tell_other_policy(session, asker);
}

static void
tell_counts(const struct session *session, const struct asker *asker)
{
	char line[120];

	session_write_counts(session, line, sizeof line);
	text_write_wrapped(asker->talk, line, asker->columns, 0, 0);
}

/* Where the terminal can be drawn on, or could be if something was different,
 * the nurse is told why questions come in lines. */
static void
tell_lines(const struct session *session, const struct asker *asker,
	   const struct fault *why)
{
	char text[FAULT_SENTENCE_SIZE + 40];

	if (!session->desk->talk_can_rewrite)
		return;
	snprintf(text, sizeof text, "Questions come line by line: %s.",
		 why->sentence);
	text_write_wrapped(asker->talk, text, asker->columns, 0, 0);
}

/* The terminal is as before; what ended the program otherwise ends it now. */
static void
end_by_signal(const struct session *session, const struct asker *asker,
	      const struct form *form, int asked)
{
	fprintf(asker->talk, "\n");
	asking_tell_left(asker, session, form);
	fflush(asker->talk);
	signal(asked, SIG_DFL);
	raise(asked);
}

static bool
screen_people(struct session *session, const struct asker *asker,
	      const struct given *given, struct form *form, bool found,
	      struct fault *why)
{
	bool plain = given_is(given, "plain") ||
		     !session->desk->talk_can_rewrite ||
		     !session->desk->in_is_terminal;
	struct fault lack;
	int asked = 0;

	switch (plain ? STAGE_LINES
		      : onescreen(session, asker, form, &found, &asked,
				  &lack)) {
	case STAGE_LINES:
		if (!plain)
			tell_lines(session, asker, &lack);
		return prompts_screen(session, asker, found ? form : NULL, why);
	case STAGE_ASKED:
		end_by_signal(session, asker, form, asked);
		return true;
	case STAGE_FAILED:
		*why = lack;
		return false;
	default:
		asking_tell_left(asker, session, form);
		return true;
	}
}

/* --- before the first person ---------------------------------------------- */

enum step { STEP_DAY, STEP_DRAFT, STEP_GRADER, STEP_READY };

/* What is settled before the first person, question by question. */
struct opening {
	struct session *session;
	const struct asker *asker;
	const struct given *given;
	bool doubtful; /* the day, which is asked then */
	struct day last;
	bool found; /* an unfinished person, in the draft */
	struct form draft;
};

static bool
set_up(struct session *session, const struct asker *asker,
       const struct given *given, struct fault *why)
{
	if (!set_day(session, given, why) || !set_site(session, given, why))
		return false;
	tell_policy(session, asker);
	return true;
}

/* ASK_HELP when there is a fault. */
static enum ask_result
take_step(struct opening *opening, enum step step, struct fault *why)
{
	struct session *session = opening->session;
	const struct asker *asker = opening->asker;

	switch (step) {
	case STEP_DAY:
		return opening->doubtful
			       ? asking_day(asker, session->desk, opening->last)
			       : ASK_ANSWERED;
	case STEP_DRAFT:
		return asking_draft(asker, session, &opening->draft,
				    &opening->found);
	default:
		return set_up(session, asker, opening->given, why)
			       ? asking_grader(asker, session)
			       : ASK_HELP;
	}
}

/* The question asked before this one, itself when there is none. */
static enum step
step_before(const struct opening *opening, enum step step)
{
	if (step == STEP_GRADER && opening->found)
		return STEP_DRAFT;
	if (step != STEP_DAY && opening->doubtful)
		return STEP_DAY;
	fprintf(opening->asker->talk, "This is the first question.\n");
	return step;
}

/* `*ended` at the end of input. */
static bool
open_session(struct opening *opening, bool *ended, struct fault *why)
{
	enum step step = STEP_DAY;

	*ended = false;
	while (step != STEP_READY && !*ended)
		switch (take_step(opening, step, why)) {
		case ASK_HELP:
			return false;
		case ASK_BACK:
			step = step_before(opening, step);
			break;
		case ASK_ENDED:
			*ended = true;
			break;
		default:
			step++;
		}
	return true;
}

static bool
screen(struct session *session, const struct given *given, struct fault *why)
{
	struct asker asker = interview_asker(session->desk);
	struct opening opening = {session, &asker, given, .found = false};
	bool ended;

	form_init(&opening.draft, false);
	if (!session_day_is_doubtful(session->desk, &opening.last,
				     &opening.doubtful, why) ||
	    !open_session(&opening, &ended, why))
		return false;
	if (ended)
		return true;
	if (!session_count(session, why) ||
	    !screen_people(session, &asker, given, &opening.draft,
			   opening.found, why) ||
	    !session_count(session, why))
		return false;
	tell_counts(session, &asker);
	daytally_tell(session->desk, session->day);
	return true;
}

bool
run_screen(struct desk *desk, const struct given *given, struct fault *why)
{
	struct session session = {.desk = desk};
	bool done;

	setup_tell_clinic(desk, &desk->station);
	if (given_is(given, "csv"))
		return run_sheet(desk, given, why);
	if (given_is(given, "again"))
		return fault_set(why, FAULT_USAGE,
				 "--again is for a sheet: give it with --csv "
				 "FILE");
	draft_open(&session.draft, desk);
	done = screen(&session, given, why);
	draft_close(&session.draft);
	return done;
}
