/* unfinished.c: a person who was begun and is in no count. */
#include "desk/unfinished.h"

#include "base/text.h"
#include "desk/draft.h"
#include "desk/session.h"
#include "desk/verdict.h"

static void
say(const struct desk *desk, const char *words)
{
	text_write_wrapped(desk->talk, words, desk->columns, 0, 0);
}

/* Without the lock on the folder, which a program that screens holds. */
static bool
find(const struct desk *desk, struct form *form, struct refnum *before,
     bool *found, struct fault *why)
{
	struct draft draft;

	draft_none(&draft);
	*found = false;
	draft.keeps = safefile_join(draft.aside.path, sizeof draft.aside.path,
				    desk->folder, "draft.txt", why);
	return draft.keeps && draft_find(&draft, form, before, found, why);
}

static void
describe(struct desk *desk, const struct form *form, struct refnum before)
{
	struct session session = {.desk = desk};
	char words[SESSION_WORDS_SIZE];
	struct refnum saved = {0, 0};
	struct fault why;

	if (!session_describe_draft(&session, form, before, words, &saved,
				    &why)) {
		say(desk, "An unfinished person is here, who cannot be "
			  "compared with the register:");
		say(desk, why.sentence);
		return;
	}
	say(desk, words);
	if (!refnum_is_none(saved))
		return;
	if ((desk->opened & NEED_POLICY) != 0)
		verdict_write_alarm(desk, form, desk->columns, desk->talk);
	say(desk, "NOT saved, and in no tally and no copy: 'shoal screen' goes "
		  "on with this person.");
}

void
unfinished_tell(struct desk *desk)
{
	struct refnum before;
	struct form form;
	struct fault why;
	bool found;

	if (!find(desk, &form, &before, &found, &why)) {
		say(desk, "There may be an unfinished person who is in no "
			  "tally and no copy:");
		say(desk, why.sentence);
	} else if (found) {
		describe(desk, &form, before);
	}
}
