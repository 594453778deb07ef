/* confirm.c: what is not done by one key alone. */
#include "desk/confirm.h"

#include "base/text.h"
#include "desk/interview.h"

#include <stdio.h>
#include <string.h>

bool
confirm_by_word(const struct desk *desk, const struct given *given,
		const char *word, struct fault *why)
{
	struct asker asker = interview_asker(desk);
	char question[80], answer[ASK_ANSWER_SIZE];
	enum ask_result result;

	if (given_is(given, "yes"))
		return true;
	snprintf(question, sizeof question, "Type the word %s to go on", word);
	while ((result = ask(&asker, question, "", answer)) == ASK_HELP)
		text_write_wrapped(desk->talk,
				   "What stands above is done only when the "
				   "whole word is typed. < and anything else "
				   "change nothing.",
				   desk->columns, 0, 0);
	if (result == ASK_ANSWERED && strcmp(answer, word) == 0)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "nothing was changed: the word %s was not typed, and "
			 "--yes not given",
			 word);
}
