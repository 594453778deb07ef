/* visit.c: one person screened, as a record. */
#include "clinic/visit.h"

#include <stddef.h>
#include <stdio.h>

/* clang-format off */
#define VISIT_ROW(type, name, dimension, kind, least, most, need, origin, \
		  words, about)                                           \
	{#name, &field_##kind, FIELD_AT(visit, name), least, most, need,  \
	 origin, words, about},
/* clang-format on */

static const struct field rows[] = {VISIT_FIELDS(VISIT_ROW)};

const struct fields visit_fields = {rows, sizeof rows / sizeof rows[0]};

void
visit_init(struct visit *visit)
{
	fields_blank(visit_fields, visit);
}

enum depth
visit_depth(const struct visit *visit, enum eye eye)
{
	return eye == EYE_RIGHT ? visit->depth_right : visit->depth_left;
}

int
visit_pressure(const struct visit *visit, enum eye eye)
{
	return eye == EYE_RIGHT ? visit->pressure_right : visit->pressure_left;
}

int
visit_not_gradable_why(const struct visit *visit, enum eye eye)
{
	return eye == EYE_RIGHT ? visit->not_gradable_why_right
				: visit->not_gradable_why_left;
}

enum depth
visit_worse_depth(const struct visit *visit)
{
	enum depth worse = DEPTH_BLANK;

	for (int eye = 0; eye < EYE_COUNT; eye++) {
		enum depth depth = visit_depth(visit, (enum eye)eye);

		if (depth_is_graded(depth) &&
		    (worse == DEPTH_BLANK || depth < worse))
			worse = depth;
	}
	return worse;
}

static bool
check_depth(const struct visit *visit, enum eye eye, struct fault *why)
{
	enum depth depth = visit_depth(visit, eye);
	finding_set signs = visit->findings.eye[eye] &
			    findings_of_group(GROUP_SIGNS);

	if (depth == DEPTH_BLANK)
		return fault_set(why, FAULT_INPUT,
				 "depth_%s: it is empty; write a grade, x for "
				 "could not be graded, or - for no eye",
				 eye_name(eye));
	/* No rule is tried on a missing eye, so a mistyped - would hide a
	 * red, painful one, or a hard one. */
	if (depth == DEPTH_NO_EYE && signs != 0)
		return fault_set(why, FAULT_INPUT,
				 "depth_%s: - says that there is no eye, but "
				 "signs are recorded for it; write x when it "
				 "could not be graded, or take the signs away",
				 eye_name(eye));
	if (depth == DEPTH_NO_EYE && visit_pressure(visit, eye) != FIELD_BLANK)
		return fault_set(why, FAULT_INPUT,
				 "depth_%s: - says that there is no eye, but "
				 "a pressure is recorded for it; write x when "
				 "it could not be graded, or take the pressure "
				 "away",
				 eye_name(eye));
	return true;
}

static bool
check_reason(const struct visit *visit, enum eye eye, struct fault *why)
{
	bool reasoned = visit_not_gradable_why(visit, eye) != FIELD_BLANK;
	bool tried = visit_depth(visit, eye) == DEPTH_NOT_GRADABLE;
	const char *name = eye_name(eye);

	if (tried && !reasoned)
		return fault_set(why, FAULT_INPUT,
				 "not_gradable_why_%s: it is empty; say why: "
				 "scar, pterygium, could_not_keep_still or "
				 "other",
				 name);
	if (!tried && reasoned)
		return fault_set(why, FAULT_INPUT,
				 "not_gradable_why_%s: a reason is given, but "
				 "depth_%s is not x",
				 name, name);
	return true;
}

bool
visit_check(const struct visit *visit, struct fault *why)
{
	if (!check_depth(visit, EYE_RIGHT, why) ||
	    !check_depth(visit, EYE_LEFT, why))
		return false;
	if (visit->depth_right == DEPTH_NO_EYE &&
	    visit->depth_left == DEPTH_NO_EYE)
		return fault_set(why, FAULT_INPUT,
				 "depth_left: both eyes are marked -, so there "
				 "is nothing to judge");
	if (visit->age_estimated == ANSWER_YES &&
	    visit->age_years == FIELD_BLANK)
		return fault_set(why, FAULT_INPUT,
				 "age_estimated: it says yes, but no age is "
				 "given");
	return true;
}

bool
visit_check_kept(const struct visit *visit, struct day today, struct fault *why)
{
	char written[DAY_SIZE], limit[DAY_SIZE];

	day_write(visit->screened_on, written);
	day_write(today, limit);
	if (day_is_none(visit->screened_on))
		return fault_set(why, FAULT_INPUT,
				 "screened_on: the day of screening is "
				 "missing");
	if (visit->screened_on.number > today.number)
		return fault_set(why, FAULT_INPUT,
				 "screened_on: %s is after today, %s", written,
				 limit);
	if (visit->grader[0] == '\0')
		return fault_set(why, FAULT_INPUT,
				 "grader: the initials of who graded are "
				 "missing");
	if (visit->reply_consent == FIELD_BLANK)
		return fault_set(why, FAULT_INPUT,
				 "reply_consent: it is empty; ask, and write "
				 "yes or no");
	return check_reason(visit, EYE_RIGHT, why) &&
	       check_reason(visit, EYE_LEFT, why);
}

/* The time of entry, 2026-11-25T07:04:09Z, is not that of the camp: a day typed
 * in later is over, whatever the hour there. */
bool
visit_is_overdue(const struct visit *visit)
{
	char text[DAY_SIZE];
	struct day entered;
	struct fault ignored;

	if (visit->late != 1 || day_is_none(visit->see_by))
		return false;
	if (visit->see_by.number <= visit->screened_on.number)
		return true;
	snprintf(text, sizeof text, "%.10s", visit->entered_at);
	return day_read(text, &entered, &ignored) &&
	       visit->see_by.number < entered.number;
}

int
visit_write_oddities(const struct visit *visit, FILE *out)
{
	int count = 0;

	for (int i = 0; i < EYE_COUNT; i++) {
		enum eye eye = (enum eye)i;
		const char *name = eye_name(eye);

		if (visit_depth(visit, eye) != DEPTH_NO_EYE)
			continue;
		if (!(visit->findings.eye[eye] & finding_bit(NOT_SEEING))) {
			fprintf(out,
				"no %s eye to grade, but it is not marked as "
				"not seeing: mark it, so that the %s eye "
				"counts as the only seeing eye\n",
				name, eye_name(eye_other(eye)));
			count++;
		}
	}
	return count;
}
