/* run_screen.c: screening a camp day, person after person. */
#include "desk/run.h"

#include "base/text.h"
#include "desk/asking.h"
#include "desk/interview.h"
#include "desk/prompts.h"

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
	    !prompts_screen(session, &asker, found ? &draft : NULL, why) ||
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
