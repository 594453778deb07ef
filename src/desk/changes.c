/* changes.c: changing what is kept: new values, and why. */
#include "desk/changes.h"

#include "base/text.h"
#include "desk/ask.h"
#include "desk/interview.h"

#include <string.h>

/* "depth_left=25" */
static bool
set_one(struct fields fields, const char *lister, const char *text,
	void *record, struct fault *why)
{
	size_t length = strcspn(text, "=");
	const struct field *field;
	char name[40];

	snprintf(name, sizeof name, "%.*s", (int)length, text);
	field = fields_find(fields, name);
	if (text[length] == '\0' || field == NULL ||
	    field->origin != FIELD_TYPED || strcmp(name, "number") == 0)
		return fault_set(why, FAULT_USAGE,
				 "'--set %.60s' is not FIELD=VALUE with a "
				 "field that is typed; '%s' lists them",
				 text, lister);
	if (strcmp(name, "name") == 0 || strcmp(name, "contact") == 0)
		return fault_set(why, FAULT_USAGE,
				 "a %s is not given on the command line, where "
				 "others can read it; leave --set out and "
				 "correct the line in the summary",
				 name);
	return field_read(field, text + length + 1, record, why);
}

bool
changes_set(const struct given *given, struct fields fields, const char *lister,
	    void *record, int *count, struct fault *why)
{
	*count = 0;
	for (int i = 0; i < given->options; i++) {
		if (strcmp(given->option[i].name, "set") != 0)
			continue;
		++*count;
		if (!set_one(fields, lister, given->option[i].value, record,
			     why))
			return false;
	}
	return true;
}

bool
changes_take_reason(struct desk *desk, const struct given *given, char *reason,
		    struct fault *why)
{
	struct asker asker = interview_asker(desk);
	const char *typed = given_value(given, "reason");
	char answer[ASK_ANSWER_SIZE] = "";

	if (typed == NULL) {
		if (ask(&asker, "Reason", "", answer) == ASK_ENDED)
			answer[0] = '\0';
		typed = answer;
	}
	if (typed[0] == '\0')
		return fault_set(why, FAULT_INPUT,
				 "a reason is needed; nothing was changed");
	if (!text_check(typed, REGISTER_REASON_MOST, why))
		return fault_at(why, "reason");
	text_copy(reason, CHANGES_REASON_SIZE, typed);
	return true;
}

bool
changes_tell(const struct desk *desk, struct fields fields, const void *before,
	     const void *after)
{
	char old[FIELD_TEXT_SIZE], new[FIELD_TEXT_SIZE];
	bool changed = false;

	for (size_t i = 0; i < fields.count; i++) {
		const struct field *field = &fields.field[i];

		field_write(field, before, old, sizeof old);
		field_write(field, after, new, sizeof new);
		if (strcmp(old, new) == 0 ||
		    strcmp(field->name, "entered_at") == 0 ||
		    strcmp(field->name, "recorded_at") == 0 ||
		    strcmp(field->name, "state") == 0)
			continue;
		fprintf(desk->out, "%s: %s -> %s\n", field->about,
			old[0] == '\0' ? "(nothing)" : old,
			new[0] == '\0' ? "(nothing)" : new);
		changed = true;
	}
	return changed;
}
