/* run_screen.c: screening a camp day, person after person. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/interview.h"
#include "desk/onescreen.h"
#include "desk/prompts.h"

#include <signal.h>

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

/* What is settled before the first person; `*ended` at the end of input. */
static bool
set_up(struct session *session, const struct asker *asker,
       const struct given *given, bool *ended, struct fault *why)
{
	bool doubtful;

	*ended = false;
	if (!session_day_is_doubtful(session->desk, &doubtful, why))
		return false;
	*ended = doubtful && !asking_day(asker, session->desk);
	return *ended ||
	       (set_day(session, given, why) && set_site(session, given, why));
}

static void
tell_policy(const struct session *session, const struct asker *asker)
{
	char words[SESSION_WORDS_SIZE];

	session_write_policy(session, words);
	text_write_wrapped(asker->talk, words, asker->columns, 0, 0);
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
	      int asked)
{
	if (draft_holds(&session->draft))
		fprintf(asker->talk, "\nThe unfinished person is kept, and "
				     "offered at the next start.\n");
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
		end_by_signal(session, asker, asked);
		return true;
	case STAGE_FAILED:
		*why = lack;
		return false;
	default:
		if (draft_holds(&session->draft))
			fprintf(asker->talk, "The unfinished person is kept, "
					     "and offered at the next "
					     "start.\n");
		return true;
	}
}

static bool
screen(struct session *session, const struct given *given, struct fault *why)
{
	struct asker asker = interview_asker(session->desk);
	struct form draft;
	bool found, ended;

	if (!asking_draft(&asker, session, &draft, &found))
		return true;
	if (!set_up(session, &asker, given, &ended, why) || ended)
		return ended;
	tell_policy(session, &asker);
	if (!asking_grader(&asker, session))
		return true;
	if (!session_count(session, why) ||
	    !screen_people(session, &asker, given, &draft, found, why) ||
	    !session_count(session, why))
		return false;
	tell_counts(session, &asker);
	return true;
}

bool
run_screen(struct desk *desk, const struct given *given, struct fault *why)
{
	struct session session = {.desk = desk};
	bool done;

	if (given_is(given, "csv"))
		return run_sheet(desk, given, why);
	draft_open(&session.draft, desk);
	done = screen(&session, given, why);
	draft_close(&session.draft);
	return done;
}
