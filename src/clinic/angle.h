/* angle.h: the class of an angle, derived from a reply's quadrants. */
#ifndef SHOAL_CLINIC_ANGLE_H
#define SHOAL_CLINIC_ANGLE_H

#include "clinic/policy.h"
#include "clinic/reply.h"

#include <stdio.h>

/*
 * The scheme of Foster, Buhrmann, Quigley and Johnson (Br J Ophthalmol 2002;
 * 86:238-42), under the limits of the policy's section [gonioscopy]. It is
 * derived each time it is asked for and never typed or kept, so that other
 * limits can be tried on the same replies.
 *
 *   open              fewer quadrants hidden than the policy asks for
 *   suspect           as many or more hidden
 *   closure           suspect, and synechiae or raised pressure
 *   closure_glaucoma  closure, and glaucoma of the disc or field
 *
 * A quadrant is hidden when the deepest structure seen lies before the
 * posterior (usually pigmented) meshwork. A policy without a pressure limit or
 * a cup limit derives without pressure or cup.
 *
 * What is not recorded, not examined or could not be seen may be either. So an
 * eye has two classes: the least, were all that is unknown harmless, and the
 * most, were none of it. Where they agree the class is certain; else it is not
 * derivable, and what is missing is named. A disc that is normal (or a cup
 * below the limit) rules glaucoma out, unless field or cup say otherwise; a
 * normal field alone does not.
 */
enum angle_class {
	ANGLE_OPEN,
	ANGLE_SUSPECT,
	ANGLE_CLOSURE,
	ANGLE_CLOSURE_GLAUCOMA,
	ANGLE_NOT_DERIVABLE,
	ANGLE_CLASSES
};

/* What is known of something that may be so or not. */
enum known { KNOWN_NO, KNOWN_YES, KNOWN_NOT };

struct angle {
	enum angle_class least, most; /* both ANGLE_NOT_DERIVABLE when the
					 policy has no hidden_quadrants */
	int hidden;		      /* quadrants, 0 to 4 */
	int unknown; /* quadrants whose structure is not known, 0 to 4 */
	enum known synechiae, raised, glaucoma;
};

/* Every structure taken as one further forward or back than was written. */
enum angle_shift { ANGLE_SHALLOWER = -1, ANGLE_AS_SEEN, ANGLE_DEEPER };

/*
 * The angle of one eye. `shift` moves each structure seen by one place, within
 * none and the ciliary body band: two examiners agree on the exact structure
 * in only about half of the quadrants, so a yield should be shown to stand when
 * all are one off.
 */
struct angle angle_of_eye(const struct reply *reply, enum eye eye,
			  const struct policy *policy, enum angle_shift shift);

/* The person's: the worse class of both eyes, at least and at most. The other
 * members are those of the eye with the worse least class, the right one if
 * alike. */
struct angle angle_of_person(const struct reply *reply,
			     const struct policy *policy,
			     enum angle_shift shift);

/* The class, or ANGLE_NOT_DERIVABLE where least and most differ. */
enum angle_class angle_class(const struct angle *angle);

/* Whether the angle is closed in any way (suspect or worse): a split that may
 * be known where the class is not. */
enum known angle_is_closed(const struct angle *angle);

/* "open", "suspect", "closure", "closure_glaucoma", "not_derivable": codes for
 * files; and in plain words for screens. */
const char *angle_code(enum angle_class class);
const char *angle_words(enum angle_class class);

/*
 * Writes one line for an eye, without line end: the class, from what, by which
 * rule, such as "right eye: suspect: posterior meshwork hidden in 3 of 4
 * quadrants, no synechiae, pressure 18 mmHg; rule: hidden in 2 or more,
 * pressure raised at 22 mmHg or more". Not derivable: "at least suspect, at
 * most closure: ... is not known".
 */
void angle_write(const struct reply *reply, enum eye eye,
		 const struct policy *policy, FILE *out);

#endif
