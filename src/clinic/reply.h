/* reply.h: what the eye clinic saw in a person sent to it, as a record. */
#ifndef SHOAL_CLINIC_REPLY_H
#define SHOAL_CLINIC_REPLY_H

#include "base/day.h"
#include "base/fault.h"
#include "base/field.h"
#include "base/refnum.h"
#include "clinic/findings.h"
#include "clinic/visit.h"

enum reply_outcome {
	OUTCOME_ATTENDED,
	OUTCOME_NOT_ATTENDED,
	OUTCOME_ELSEWHERE, /* seen at another clinic */
	OUTCOME_COUNT
};

/* The quadrants of an angle, in the order of the paper form. */
enum quadrant {
	QUADRANT_SUPERIOR,
	QUADRANT_INFERIOR,
	QUADRANT_NASAL,
	QUADRANT_TEMPORAL,
	QUADRANT_COUNT
};

/* "superior" and so on. */
const char *quadrant_name(enum quadrant quadrant);

/*
 * The deepest structure seen in a quadrant without indentation, from front to
 * back, and two answers that are no structure. "None" is an angle looked into
 * that shows no structure at all.
 */
enum structure {
	STRUCTURE_NONE,
	STRUCTURE_SCHWALBES_LINE,
	STRUCTURE_ANTERIOR_MESHWORK,
	STRUCTURE_POSTERIOR_MESHWORK,
	STRUCTURE_SCLERAL_SPUR,
	STRUCTURE_CILIARY_BODY_BAND,
	STRUCTURE_COULD_NOT_SEE, /* a hazy cornea, an eye not kept still */
	STRUCTURE_NOT_EXAMINED
};

/* Where the iris is attached, from front to back. */
enum insertion {
	INSERTS_BEFORE_SCHWALBES_LINE,
	INSERTS_AT_MESHWORK,
	INSERTS_AT_SPUR,
	INSERTS_AT_CILIARY_BODY_BAND,
	INSERTS_FAR_BACK, /* a wide ciliary body band in front of it */
	INSERTS_NOT_EXAMINED
};

/* Disc and field of sight. */
enum reply_health {
	HEALTH_NORMAL,
	HEALTH_GLAUCOMA,
	HEALTH_COULD_NOT_SEE,
	HEALTH_NOT_EXAMINED
};

/* The first word of `also_seen` and of `done` stands alone. */
enum { REPLY_NOTHING = 1 };

enum {
	REPLY_WHERE_SIZE = 60 * 4 + 1,
	REPLY_EXAMINER_SIZE = 40 * 4 + 1,
	REPLY_DONE_SIZE = 80 * 4 + 1,
	REPLY_TEACH_SIZE = 160 * 4 + 1
};

/*
 * The table of a reply, one line per field, in the order of the paper form.
 * Only the number, the outcome and its day are needed: all else may be left
 * blank, and blank is "not recorded", never normal.
 *
 * The day of the outcome (seen_on) is the day seen, or, for somebody who did
 * not come, the day on which that was learnt. Ranges are what a keyboard may
 * enter: pressure 1 to 99 mmHg; the cup in per cent of the height of the disc
 * (60 is a ratio of 0.6). No threshold stands here.
 *
 *   FIELD(type, name, dimension, kind, least, most, need, origin, words, about)
 */
/* clang-format off */
#define REPLY_BEFORE_EYES(FIELD) \
FIELD(struct refnum, number, , refnum, 0, 0, FIELD_NEEDED, FIELD_TYPED, "", \
	"referral number") \
FIELD(char, recorded_at, [VISIT_TIME_SIZE], text, 0, 20, FIELD_OPTIONAL, \
	FIELD_MADE, "", "time of entry (UTC)") \
FIELD(int, outcome, , choice, 0, 0, FIELD_NEEDED, FIELD_TYPED, \
	"attended|not_attended|elsewhere", "whether the person was seen") \
FIELD(struct day, seen_on, , day, 0, 0, FIELD_NEEDED, FIELD_TYPED, "", \
	"day seen, or day it was learnt that the person did not come") \
FIELD(int, why_not, , choice, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, \
	"cost|sees_well|too_far|no_companion|other_illness|not_understood|" \
	"died|other|not_known", "why the person did not come") \
FIELD(char, seen_where, [REPLY_WHERE_SIZE], text, 0, 60, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "where, when seen elsewhere") \
FIELD(char, examiner, [REPLY_EXAMINER_SIZE], text, 0, 40, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "who examined")

/* Of each quadrant of each eye; a member is name[EYE_COUNT][QUADRANT_COUNT], a
 * field is called name_EYE_QUADRANT, such as deepest_right_superior.
 *   FIELD(eye, EYE, quadrant, QUADRANT, name, words, about) */
#define REPLY_OF_QUADRANT(FIELD, eye, EYE, quadrant, QUADRANT) \
FIELD(eye, EYE, quadrant, QUADRANT, deepest, \
	"none|schwalbes_line|anterior_meshwork|posterior_meshwork|" \
	"scleral_spur|ciliary_body_band|could_not_see|not_examined", \
	"deepest structure seen") \
FIELD(eye, EYE, quadrant, QUADRANT, iris, \
	"flat|bowed_forward|bowed_backward|plateau|could_not_see|" \
	"not_examined", "contour of the iris") \
FIELD(eye, EYE, quadrant, QUADRANT, inserts, \
	"before_schwalbes_line|at_meshwork|at_spur|at_ciliary_body_band|" \
	"far_back|not_examined", "where the iris inserts") \
FIELD(eye, EYE, quadrant, QUADRANT, indentation, \
	"opens|partly|stays_closed|could_not_see|not_done", \
	"with indentation") \
FIELD(eye, EYE, quadrant, QUADRANT, synechiae, \
	"yes|no|could_not_see|not_examined", "anterior synechiae")

/* Of each eye; a member is name[EYE_COUNT], a field is called name_EYE.
 *   FIELD(eye, EYE, name, kind, least, most, words, about) */
#define REPLY_OF_EYE(FIELD, eye, EYE) \
FIELD(eye, EYE, pressure, count, 1, 99, "mmHg", "pressure") \
FIELD(eye, EYE, cup, count, 0, 100, "%", "cup, of the height of the disc") \
FIELD(eye, EYE, disc, choice, 0, 0, \
	"normal|glaucoma|could_not_see|not_examined", "optic disc") \
FIELD(eye, EYE, field, choice, 0, 0, \
	"normal|glaucoma|could_not_see|not_examined", "field of sight")

#define REPLY_AFTER_EYES(FIELD) \
FIELD(int, treated_before, , choice, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, \
	"yes|no", "dilated or treated before this examination") \
FIELD(int, also_seen, , set, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, \
	"nothing|mass_behind_iris|new_vessels|nodules_or_uveitis|" \
	"recession_or_cleft|choroidal_swelling|lens_pushes_forward|other", \
	"what else was seen") \
FIELD(int, done, , set, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, \
	"nothing|iridotomy|drops|lens_surgery|observed|referred_on|other", \
	"what was done") \
FIELD(char, done_text, [REPLY_DONE_SIZE], text, 0, 80, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "what was done, in words") \
FIELD(int, useful, , choice, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, "yes|no", \
	"sending this person was useful") \
FIELD(struct day, next_visit, , day, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, "", \
	"next visit") \
FIELD(char, teach, [REPLY_TEACH_SIZE], text, 0, 160, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "a word for the person who graded") \
FIELD(int, state, , choice, 0, 0, FIELD_OPTIONAL, FIELD_MADE, \
	"current|corrected|void", "state")
/* clang-format on */

struct reply {
#define REPLY_ONE(type, name, dimension, ...) type name dimension;
#define REPLY_FOURS(eye, EYE, quadrant, QUADRANT, name, ...) \
	int name[EYE_COUNT][QUADRANT_COUNT];
#define REPLY_PAIR(eye, EYE, name, ...) int name[EYE_COUNT];
	REPLY_BEFORE_EYES(REPLY_ONE)
	REPLY_OF_QUADRANT(REPLY_FOURS, , , , )
	REPLY_OF_EYE(REPLY_PAIR, , )
	REPLY_AFTER_EYES(REPLY_ONE)
#undef REPLY_ONE
#undef REPLY_FOURS
#undef REPLY_PAIR
};

/*
 * All columns: what comes before the eyes; then for the right eye the five
 * fields of each quadrant and the four of the eye; the same for the left; then
 * what comes after.
 */
extern const struct fields reply_fields;

/* A reply in which nothing is recorded. */
void reply_init(struct reply *reply);

/*
 * What must hold between the fields: number, outcome and its day recorded, the
 * day not before `screened_on` nor after `today` (either may be none, which
 * then is not looked at); why_not only for somebody who did not come, about
 * whom nothing that was seen or done may stand; seen_where only for somebody
 * seen elsewhere; no structure seen behind the place where the iris inserts;
 * "nothing" alone; the next visit not before the day seen. The sentence begins
 * with the name of the field. FAULT_INPUT.
 */
bool reply_check(const struct reply *reply, struct day screened_on,
		 struct day today, struct fault *why);

#endif
