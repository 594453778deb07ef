/* lookfor.c: what else an angle asks the examiner to look for. */
#include "clinic/lookfor.h"

/* What the quadrants of one eye are. */
struct quadrants {
	int narrow, wide;
	bool stuck; /* synechiae in a wide one */
	bool open; /* the ciliary body band is in sight, or the iris far back */
};

static struct quadrants
count(const struct reply *reply, enum eye eye)
{
	struct quadrants sum = {0, 0, false, false};

	for (int i = 0; i < QUADRANT_COUNT; i++) {
		int deepest = reply->deepest[eye][i];
		bool known = deepest != FIELD_BLANK &&
			     deepest <= STRUCTURE_CILIARY_BODY_BAND;
		bool wide = known && deepest >= STRUCTURE_POSTERIOR_MESHWORK;

		sum.wide += wide;
		sum.narrow += known && !wide;
		sum.stuck = sum.stuck ||
			    (wide && reply->synechiae[eye][i] == ANSWER_YES);
		sum.open = sum.open || deepest == STRUCTURE_CILIARY_BODY_BAND ||
			   reply->inserts[eye][i] == INSERTS_FAR_BACK;
	}
	return sum;
}

unsigned
look_for(const struct reply *reply, const struct visit *visit, enum eye eye)
{
	struct quadrants its = count(reply, eye);
	struct quadrants other = count(reply, eye_other(eye));
	unsigned set = 0;

	if (its.narrow == 1 && its.wide == QUADRANT_COUNT - 1)
		set |= 1U << LOOK_FOR_MASS;
	if (its.stuck)
		set |= 1U << LOOK_FOR_VESSELS;
	if (its.open && (visit->findings.eye[eye] & finding_bit(INJURY)) != 0)
		set |= 1U << LOOK_FOR_INJURY;
	if (its.narrow > 0 && other.narrow > 0 &&
	    (visit->findings.person & finding_bit(NEW_MEDICINE)) != 0)
		set |= 1U << LOOK_FOR_SWELLING;
	return set;
}

const char *
look_for_words(enum look_for what)
{
	static const char *const words[LOOK_FOR_COUNT] = {
		"narrow in one quadrant only: look for a mass or a cyst behind "
		"the iris",
		"synechiae in a wide angle: look for vessels crossing it (new "
		"vessels) and for nodules (uveitis)",
		"wide after an injury: look for a recession or a cleft",
		"narrow in both eyes and a new medicine: look for a swollen "
		"choroid"};

	return words[what];
}
