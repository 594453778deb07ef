/* asking.c: what both fronts of screening ask in lines. */
#include "desk/asking.h"

#include "base/text.h"

/* Asks for a field of the record until it is sound. */
static bool
ask_field(const struct asker *asker, const char *question, const char *shown,
	  const char *field, struct visit *visit)
{
	char answer[ASK_ANSWER_SIZE];
	struct fault why;

	for (;;) {
		enum ask_result result = ask(asker, question, shown, answer);

		if (result == ASK_ENDED)
			return false;
		if (result == ASK_ANSWERED && answer[0] == '\0' &&
		    shown[0] != '\0')
			return true;
		if (result == ASK_ANSWERED && answer[0] != '\0' &&
		    field_read(fields_find(visit_fields, field), answer, visit,
			       &why))
			return true;
		fprintf(asker->talk, "Not taken: %s\n",
			result != ASK_ANSWERED || answer[0] == '\0'
				? "an answer is needed here"
				: why.sentence);
	}
}

bool
asking_grader(const struct asker *asker, struct session *session)
{
	struct visit scratch;

	visit_init(&scratch);
	text_copy(scratch.grader, sizeof scratch.grader, session->grader);
	if (!ask_field(asker, "Your initials", session->grader, "grader",
		       &scratch))
		return false;
	text_copy(session->grader, sizeof session->grader, scratch.grader);
	return true;
}

bool
asking_day(const struct asker *asker, struct desk *desk)
{
	char words[DESK_DAY_WORDS_SIZE], question[80];
	struct visit scratch;
	bool right;

	desk_day_words(desk->today, words);
	snprintf(question, sizeof question, "Today is %s. Is that right?",
		 words);
	if (!ask_yes(asker, question, true, &right))
		return false;
	if (right)
		return true;
	visit_init(&scratch);
	if (!ask_field(asker, "Today's date, as YYYY-MM-DD", "", "screened_on",
		       &scratch))
		return false;
	desk->today = scratch.screened_on;
	desk->today_given = true;
	return true;
}

static void
say(const struct asker *asker, const char *words)
{
	text_write_wrapped(asker->talk, words, asker->columns, 0, 0);
}

/* A draft that cannot be understood or compared is told and left behind. */
bool
asking_draft(const struct asker *asker, struct session *session,
	     struct form *form, bool *found)
{
	char words[SESSION_WORDS_SIZE];
	struct refnum before, saved = {0, 0};
	struct fault why;
	bool wanted;

	if (!draft_find(&session->draft, form, &before, found, &why) ||
	    (*found && !session_describe_draft(session, form, before, words,
					       &saved, &why))) {
		*found = false;
		say(asker, "The unfinished person of before is lost:");
		say(asker, why.sentence);
		return true;
	}
	if (!*found)
		return true;
	say(asker, words);
	if (!ask_yes(asker, "Go on with this person?", refnum_is_none(saved),
		     &wanted))
		return false;
	*found = wanted;
	if (!wanted)
		draft_remove(&session->draft);
	return true;
}
