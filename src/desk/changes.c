/* changes.c: changing what is kept: new values, and why. */
#include "desk/changes.h"

#include "base/text.h"
#include "desk/ask.h"
#include "desk/interview.h"

#include <string.h>

enum { PERSON_SIZE = VISIT_NAME_SIZE + VISIT_SITE_SIZE + 120 };

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

/* The keys that mean back and help everywhere are no reason. */
static bool
read_reason(const char *text, char *reason, struct fault *why)
{
	if (text[0] == '\0')
		return fault_set(why, FAULT_INPUT,
				 "a reason is needed; nothing was changed");
	if (strcmp(text, "<") == 0 || strcmp(text, "?") == 0)
		return fault_set(why, FAULT_INPUT,
				 "reason: '%s' is a key and no reason; nothing "
				 "was changed",
				 text);
	if (!text_check(text, REGISTER_REASON_MOST, why))
		return fault_at(why, "reason");
	text_copy(reason, CHANGES_REASON_SIZE, text);
	return true;
}

static void
say(const struct desk *desk, const char *words)
{
	text_write_wrapped(desk->talk, words, desk->columns, 0, 0);
}

static const char reason_help[] = "In a few words, why this is changed, such "
				  "as: entered twice. It stays "
				  "in the register beside the entry, and "
				  "'shoal list' shows it. < goes "
				  "back and changes nothing.";

enum changes_reason
changes_ask_reason(struct desk *desk, const struct given *given, char *reason,
		   struct fault *why)
{
	struct asker asker = interview_asker(desk);
	const char *typed = given_value(given, "reason");
	char answer[ASK_ANSWER_SIZE];

	if (typed != NULL)
		return read_reason(typed, reason, why) ? CHANGES_REASON_GIVEN
						       : CHANGES_REASON_NONE;
	for (;;) {
		switch (ask(&asker, "Reason", "", answer)) {
		case ASK_ENDED:
			read_reason("", reason, why);
			return CHANGES_REASON_NONE;
		case ASK_BACK:
			return CHANGES_REASON_BACK;
		case ASK_HELP:
			say(desk, reason_help);
			continue;
		default:
			break;
		}
		if (answer[0] == '\0')
			say(desk, "A reason is needed; < goes back and changes "
				  "nothing.");
		else if (read_reason(answer, reason, why))
			return CHANGES_REASON_GIVEN;
		else
			say(desk, why->sentence);
	}
}

bool
changes_take_reason(struct desk *desk, const struct given *given, char *reason,
		    struct fault *why)
{
	switch (changes_ask_reason(desk, given, reason, why)) {
	case CHANGES_REASON_GIVEN:
		return true;
	case CHANGES_REASON_BACK:
		return fault_set(why, FAULT_INPUT, "nothing was changed");
	default:
		return false;
	}
}

/* What the entry says, on whatever day it is looked at again. */
static void
write_answer(const struct visit *visit, char *text, size_t size)
{
	static const char *const urgency[URGENCY_COUNT] = {"same-day referral",
							   "urgent referral",
							   "routine referral",
							   "no referral"};
	char day[DAY_SIZE];

	day_write(visit->see_by, day);
	if (visit->urgency == FIELD_BLANK)
		snprintf(text, size, "not recorded");
	else if (visit->urgency == URGENCY_NO_REFERRAL)
		snprintf(text, size, "no referral, screen again in %d months",
			 visit->rescreen_months);
	else
		snprintf(text, size, "%s, to be seen by %s",
			 urgency[visit->urgency], day);
}

void
changes_tell_person(const struct desk *desk, const struct visit *visit)
{
	static const char *const sex[SEX_COUNT] = {"F", "M", "X"};
	char number[REFNUM_SIZE], day[DAY_SIZE], age[16] = "not known";
	char line[PERSON_SIZE], answer[80];

	refnum_write(visit->number, number);
	day_write(visit->screened_on, day);
	if (visit->age_years != FIELD_BLANK)
		snprintf(age, sizeof age, "%d", visit->age_years);
	snprintf(line, sizeof line,
		 "%s: %s, sex %s, age %s, screened on %s, %s", number,
		 visit->name[0] == '\0' ? "no name"
		 : desk->in_is_terminal ? visit->name
					: "with a name",
		 visit->sex == FIELD_BLANK ? "not recorded" : sex[visit->sex],
		 age, day, visit->site);
	text_write_wrapped(desk->talk, line, desk->columns, 0, 2);
	write_answer(visit, answer, sizeof answer);
	snprintf(line, sizeof line, "Answer: %s", answer);
	text_write_wrapped(desk->talk, line, desk->columns, 0, 2);
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
