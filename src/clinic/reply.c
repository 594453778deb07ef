/* reply.c: what the eye clinic saw in a person sent to it, as a record. */
#include "clinic/reply.h"

#include <stddef.h>
#include <string.h>

/* clang-format off */
#define ONE(type, name, dimension, kind, least, most, need, origin, words, \
	    about) \
	{#name, &field_##kind, FIELD_AT(reply, name), \
	 least, most, need, origin, words, about},
#define FOURTH(eye, EYE, quadrant, QUADRANT, name, words, about) \
	{#name "_" #eye "_" #quadrant, &field_choice, \
	 offsetof(struct reply, name) + sizeof(int) * ((EYE) * QUADRANT_COUNT + (QUADRANT)), sizeof(int), 0, 0, \
	 FIELD_OPTIONAL, FIELD_TYPED, words, about ", " #eye " " #quadrant},
#define HALF(eye, EYE, name, kind, least, most, words, about) \
	{#name "_" #eye, &field_##kind, offsetof(struct reply, name) + sizeof(int) * (EYE), \
	 sizeof(int), least, most, FIELD_OPTIONAL, FIELD_TYPED, words, \
	 about ", " #eye " eye"},
#define EYE_ROWS(eye, EYE) \
	REPLY_OF_QUADRANT(FOURTH, eye, EYE, superior, QUADRANT_SUPERIOR) \
	REPLY_OF_QUADRANT(FOURTH, eye, EYE, inferior, QUADRANT_INFERIOR) \
	REPLY_OF_QUADRANT(FOURTH, eye, EYE, nasal, QUADRANT_NASAL) \
	REPLY_OF_QUADRANT(FOURTH, eye, EYE, temporal, QUADRANT_TEMPORAL) \
	REPLY_OF_EYE(HALF, eye, EYE)

static const struct field rows[] = {
	REPLY_BEFORE_EYES(ONE)
	EYE_ROWS(right, EYE_RIGHT)
	EYE_ROWS(left, EYE_LEFT)
	REPLY_AFTER_EYES(ONE)
};
/* clang-format on */

const struct fields reply_fields = {rows, sizeof rows / sizeof rows[0]};

const char *
quadrant_name(enum quadrant quadrant)
{
	static const char *const names[QUADRANT_COUNT] = {
		"superior", "inferior", "nasal", "temporal"};

	return names[quadrant];
}

void
reply_init(struct reply *reply)
{
	fields_blank(reply_fields, reply);
}

static bool
refuse(const char *name, const char *sentence, struct fault *why)
{
	fault_set(why, FAULT_INPUT, "%s", sentence);
	return fault_at(why, "%s", name);
}

static bool
check_needed(const struct reply *reply, struct fault *why)
{
	for (size_t i = 0; i < reply_fields.count; i++)
		if (rows[i].need == FIELD_NEEDED &&
		    field_is_blank(&rows[i], reply))
			return refuse(rows[i].name,
				      "it is empty; a value is needed", why);
	return true;
}

static bool
check_days(const struct reply *reply, struct day screened_on, struct day today,
	   struct fault *why)
{
	char seen[DAY_SIZE], other[DAY_SIZE];

	day_write(reply->seen_on, seen);
	if (!day_is_none(screened_on) &&
	    reply->seen_on.number < screened_on.number) {
		day_write(screened_on, other);
		return fault_set(why, FAULT_INPUT,
				 "seen_on: %s is before the day of screening, "
				 "%s",
				 seen, other);
	}
	if (!day_is_none(today) && reply->seen_on.number > today.number) {
		day_write(today, other);
		return fault_set(why, FAULT_INPUT,
				 "seen_on: %s is after today, %s", seen, other);
	}
	if (day_is_none(reply->next_visit) ||
	    reply->next_visit.number >= reply->seen_on.number)
		return true;
	day_write(reply->next_visit, other);
	return fault_set(why, FAULT_INPUT,
			 "next_visit: %s is before the day of this one, %s",
			 other, seen);
}

/* From the first quadrant to what was done, and whether it was useful: what
 * only somebody who saw the person can say. */
static bool
is_of_examination(const struct field *field)
{
	return (field->offset >= offsetof(struct reply, deepest) &&
		field->offset <= offsetof(struct reply, done_text)) ||
	       field->offset == offsetof(struct reply, useful);
}

static bool
check_outcome(const struct reply *reply, struct fault *why)
{
	if (reply->outcome != OUTCOME_NOT_ATTENDED &&
	    reply->why_not != FIELD_BLANK)
		return refuse("why_not",
			      "a reason is given for not coming, but outcome "
			      "is not not_attended",
			      why);
	if (reply->outcome != OUTCOME_ELSEWHERE && reply->seen_where[0] != '\0')
		return refuse("seen_where",
			      "a place is given, but outcome is not elsewhere",
			      why);
	if (reply->outcome != OUTCOME_NOT_ATTENDED)
		return true;
	for (size_t i = 0; i < reply_fields.count; i++)
		if (is_of_examination(&rows[i]) &&
		    !field_is_blank(&rows[i], reply))
			return refuse(rows[i].name,
				      "it is given, but outcome says that the "
				      "person did not come",
				      why);
	return true;
}

/* The deepest structure that can be seen before an iris that inserts there. */
static enum structure
deepest_possible(int inserts)
{
	switch (inserts) {
	case INSERTS_BEFORE_SCHWALBES_LINE:
		return STRUCTURE_SCHWALBES_LINE;
	case INSERTS_AT_MESHWORK:
		return STRUCTURE_POSTERIOR_MESHWORK;
	case INSERTS_AT_SPUR:
		return STRUCTURE_SCLERAL_SPUR;
	default:
		return STRUCTURE_CILIARY_BODY_BAND;
	}
}

static bool
check_quadrant(const struct reply *reply, enum eye eye, enum quadrant quadrant,
	       struct fault *why)
{
	int deepest = reply->deepest[eye][quadrant];
	int inserts = reply->inserts[eye][quadrant];

	if (deepest > STRUCTURE_CILIARY_BODY_BAND ||
	    deepest <= (int)deepest_possible(inserts))
		return true;
	return fault_set(why, FAULT_INPUT,
			 "inserts_%s_%s: the iris cannot insert in front of "
			 "the deepest structure seen; look at both again",
			 eye_name(eye), quadrant_name(quadrant));
}

static bool
stands_alone(int set)
{
	return (set & REPLY_NOTHING) == 0 || set == REPLY_NOTHING;
}

bool
reply_check(const struct reply *reply, struct day screened_on, struct day today,
	    struct fault *why)
{
	if (!check_needed(reply, why) ||
	    !check_days(reply, screened_on, today, why) ||
	    !check_outcome(reply, why))
		return false;
	for (int eye = 0; eye < EYE_COUNT; eye++)
		for (int i = 0; i < QUADRANT_COUNT; i++)
			if (!check_quadrant(reply, (enum eye)eye,
					    (enum quadrant)i, why))
				return false;
	if (!stands_alone(reply->also_seen))
		return refuse("also_seen", "it says nothing, and something",
			      why);
	return stands_alone(reply->done) ||
	       refuse("done", "it says nothing, and something", why);
}
