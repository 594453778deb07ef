/* lookfor.h: what else an angle asks the examiner to look for. */
#ifndef SHOAL_CLINIC_LOOKFOR_H
#define SHOAL_CLINIC_LOOKFOR_H

#include "clinic/reply.h"
#include "clinic/visit.h"

/*
 * Prompts, not findings: a pattern in the reply, or a reply together with what
 * was noted at the camp, for which a second look is common practice. A quadrant
 * counts as narrow when the structure seen lies before the posterior meshwork,
 * as wide when not; one that is not known is neither.
 */
enum look_for {
	LOOK_FOR_MASS,	   /* one quadrant narrow, the three others wide */
	LOOK_FOR_VESSELS,  /* synechiae in a wide quadrant */
	LOOK_FOR_INJURY,   /* an injured eye with the ciliary body band in
			      sight, or an iris that inserts far back */
	LOOK_FOR_SWELLING, /* narrow in both eyes, and a new medicine */
	LOOK_FOR_COUNT
};

/* Those of one eye, as a set of bits 1 << LOOK_FOR_...; the swelling, which
 * needs both, stands with each. */
unsigned look_for(const struct reply *reply, const struct visit *visit,
		  enum eye eye);

/* "narrow in one quadrant only: look for a mass or a cyst behind the iris" */
const char *look_for_words(enum look_for what);

#endif
