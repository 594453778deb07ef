/* angle.c: the class of an angle, derived from a reply's quadrants. */
#include "clinic/angle.h"

static enum known
is_hidden(int deepest, enum angle_shift shift)
{
	if (deepest == FIELD_BLANK || deepest > STRUCTURE_CILIARY_BODY_BAND)
		return KNOWN_NOT;
	/* Further than none or the ciliary body band changes no answer. */
	return deepest + (int)shift < STRUCTURE_POSTERIOR_MESHWORK ? KNOWN_YES
								   : KNOWN_NO;
}

static enum known
either(enum known one, enum known other)
{
	if (one == KNOWN_YES || other == KNOWN_YES)
		return KNOWN_YES;
	return one == KNOWN_NO && other == KNOWN_NO ? KNOWN_NO : KNOWN_NOT;
}

static enum known
has_synechiae(const struct reply *reply, enum eye eye)
{
	enum known so = KNOWN_NO;

	for (int i = 0; i < QUADRANT_COUNT; i++) {
		int answer = reply->synechiae[eye][i];

		so = either(so, answer == ANSWER_YES  ? KNOWN_YES
				: answer == ANSWER_NO ? KNOWN_NO
						      : KNOWN_NOT);
	}
	return so;
}

static enum known
is_at_or_above(int value, int limit)
{
	if (value == FIELD_BLANK)
		return KNOWN_NOT;
	return value >= limit ? KNOWN_YES : KNOWN_NO;
}

static enum known
has_glaucoma(const struct reply *reply, enum eye eye,
	     const struct policy *policy)
{
	int disc = reply->disc[eye];
	int limit = policy->cup_abnormal_at_or_above_percent;
	enum known by_cup = limit == FIELD_BLANK
				    ? KNOWN_NOT
				    : is_at_or_above(reply->cup[eye], limit);

	if (disc == HEALTH_GLAUCOMA || by_cup == KNOWN_YES ||
	    reply->field[eye] == HEALTH_GLAUCOMA)
		return KNOWN_YES;
	return disc == HEALTH_NORMAL || by_cup == KNOWN_NO ? KNOWN_NO
							   : KNOWN_NOT;
}

/* The class of so many hidden quadrants, taking what is not known as `doubt`:
 * each answer only ever makes it worse. */
static enum angle_class
class_of(const struct angle *angle, int hidden, const struct policy *policy,
	 enum known doubt)
{
	enum known closed = either(angle->synechiae, angle->raised);
	enum known glaucoma = angle->glaucoma;

	if (hidden < policy->hidden_quadrants)
		return ANGLE_OPEN;
	if ((closed == KNOWN_NOT ? doubt : closed) != KNOWN_YES)
		return ANGLE_SUSPECT;
	return (glaucoma == KNOWN_NOT ? doubt : glaucoma) == KNOWN_YES
		       ? ANGLE_CLOSURE_GLAUCOMA
		       : ANGLE_CLOSURE;
}

struct angle
angle_of_eye(const struct reply *reply, enum eye eye,
	     const struct policy *policy, enum angle_shift shift)
{
	int limit = policy->pressure_raised_at_or_above_mmhg;
	struct angle angle = {ANGLE_NOT_DERIVABLE,
			      ANGLE_NOT_DERIVABLE,
			      0,
			      0,
			      has_synechiae(reply, eye),
			      limit == FIELD_BLANK
				      ? KNOWN_NO
				      : is_at_or_above(reply->pressure[eye],
						       limit),
			      has_glaucoma(reply, eye, policy)};

	for (int i = 0; i < QUADRANT_COUNT; i++) {
		enum known hidden = is_hidden(reply->deepest[eye][i], shift);

		angle.hidden += hidden == KNOWN_YES;
		angle.unknown += hidden == KNOWN_NOT;
	}
	if (policy->hidden_quadrants == FIELD_BLANK)
		return angle;
	angle.least = class_of(&angle, angle.hidden, policy, KNOWN_NO);
	angle.most = class_of(&angle, angle.hidden + angle.unknown, policy,
			      KNOWN_YES);
	return angle;
}

struct angle
angle_of_person(const struct reply *reply, const struct policy *policy,
		enum angle_shift shift)
{
	struct angle right = angle_of_eye(reply, EYE_RIGHT, policy, shift);
	struct angle left = angle_of_eye(reply, EYE_LEFT, policy, shift);
	struct angle worse = left.least > right.least ? left : right;

	worse.most = left.most > right.most ? left.most : right.most;
	return worse;
}

enum angle_class
angle_class(const struct angle *angle)
{
	return angle->least == angle->most ? angle->least : ANGLE_NOT_DERIVABLE;
}

enum known
angle_is_closed(const struct angle *angle)
{
	if (angle->least == ANGLE_NOT_DERIVABLE)
		return KNOWN_NOT;
	if (angle->least > ANGLE_OPEN)
		return KNOWN_YES;
	return angle->most == ANGLE_OPEN ? KNOWN_NO : KNOWN_NOT;
}

const char *angle_code(enum angle_class class)
{
	static const char *const codes[ANGLE_CLASSES] = {"open", "suspect",
							 "closure",
							 "closure_glaucoma",
							 "not_derivable"};

	return codes[class];
}

const char *angle_words(enum angle_class class)
{
	static const char *const words[ANGLE_CLASSES] = {
		"open", "suspect of angle closure", "angle closure",
		"angle-closure glaucoma", "not derivable"};

	return words[class];
}

/* --- in a line ------------------------------------------------------------ */

static void
write_class(const struct angle *angle, FILE *out)
{
	if (angle->least == angle->most)
		fprintf(out, "%s", angle_words(angle->least));
	else
		fprintf(out, "not derivable, at least %s, at most %s",
			angle_words(angle->least), angle_words(angle->most));
}

static void
write_quadrants(const struct angle *angle, FILE *out)
{
	if (angle->unknown < QUADRANT_COUNT)
		fprintf(out, "posterior meshwork hidden in %d of %d quadrants",
			angle->hidden, QUADRANT_COUNT - angle->unknown);
	if (angle->unknown > 0)
		fprintf(out, "%s%d quadrant%s not known",
			angle->unknown < QUADRANT_COUNT ? ", " : "",
			angle->unknown, angle->unknown == 1 ? "" : "s");
}

static void
write_known(enum known known, const char *yes, const char *no,
	    const char *not_known, FILE *out)
{
	fprintf(out, ", %s",
		known == KNOWN_YES  ? yes
		: known == KNOWN_NO ? no
				    : not_known);
}

/* What makes a suspect worse; of an open angle it would only distract. */
static void
write_others(const struct reply *reply, enum eye eye,
	     const struct policy *policy, const struct angle *angle, FILE *out)
{
	write_known(angle->synechiae, "synechiae", "no synechiae",
		    "synechiae not known", out);
	if (policy->pressure_raised_at_or_above_mmhg == FIELD_BLANK)
		fprintf(out, ", no limit for the pressure");
	else if (reply->pressure[eye] == FIELD_BLANK)
		fprintf(out, ", pressure not known");
	else
		fprintf(out, ", pressure %d mmHg%s", reply->pressure[eye],
			angle->raised == KNOWN_YES ? ", raised" : "");
	write_known(angle->glaucoma, "glaucoma of disc or field",
		    "disc without glaucoma", "disc not known", out);
}

static void
write_rule(const struct policy *policy, FILE *out)
{
	int pressure = policy->pressure_raised_at_or_above_mmhg;
	int cup = policy->cup_abnormal_at_or_above_percent;

	fprintf(out, "; rule: hidden in %d or more", policy->hidden_quadrants);
	if (pressure != FIELD_BLANK)
		fprintf(out, ", pressure raised from %d mmHg", pressure);
	if (cup != FIELD_BLANK)
		fprintf(out, ", cup abnormal from %d %%", cup);
}

void
angle_write(const struct reply *reply, enum eye eye,
	    const struct policy *policy, FILE *out)
{
	struct angle angle = angle_of_eye(reply, eye, policy, ANGLE_AS_SEEN);

	fprintf(out, "%s eye: ", eye_name(eye));
	if (policy->hidden_quadrants == FIELD_BLANK) {
		fprintf(out, "not derivable: the policy has no [gonioscopy] "
			     "hidden_quadrants");
		return;
	}
	write_class(&angle, out);
	fprintf(out, ": ");
	write_quadrants(&angle, out);
	if (angle.most > ANGLE_OPEN || angle.glaucoma == KNOWN_YES)
		write_others(reply, eye, policy, &angle, out);
	write_rule(policy, out);
}
