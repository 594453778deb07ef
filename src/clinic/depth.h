/* depth.h: how deep the chamber is at the limbus, as a grade. */
#ifndef SHOAL_CLINIC_DEPTH_H
#define SHOAL_CLINIC_DEPTH_H

#include "base/fault.h"
#include "base/field.h"

/*
 * The depth of the anterior chamber at the temporal limbus, judged at the slit
 * lamp as per cent of the thickness of the cornea beside it, in the seven
 * categories of Foster et al., Br J Ophthalmol 2000;84:186-92: 0, 5, 15, 25,
 * 40, 75 and 100 (100 = as deep as the cornea is thick, or deeper; the two
 * deepest names are from memory). Two more values are facts of their own and
 * never 0: could not be graded, and no eye to grade.
 *
 * A test is positive at a cut-off when the grade is that depth OR SHALLOWER.
 * (The source's online tables print the sign the other way round, which cannot
 * be: sensitivity has to rise with depth.)
 */
enum depth {
	DEPTH_BLANK = -1, /* not recorded (yet) */
	DEPTH_0,
	DEPTH_5,
	DEPTH_15,
	DEPTH_25,
	DEPTH_40,
	DEPTH_75,
	DEPTH_100,
	DEPTH_NOT_GRADABLE, /* "x": tried, could not be graded */
	DEPTH_NO_EYE	    /* "-": no eye to grade */
};

enum { DEPTH_GRADES = 7 };

/*
 * Reads what a nurse may type: 25, 25%, 1/4, 0.25, x or -. Refused with
 * FAULT_INPUT: a bare 1 (1 % or 1/1?), a value off the scale (the nearest
 * grades are named), a comma, a space, anything else.
 */
bool depth_read(const char *text, enum depth *depth, struct fault *why);

/* Writes "0" to "100", "x", "-", or "" when blank; `text` holds 4 bytes. */
void depth_write(enum depth depth, char *text);

bool depth_is_graded(enum depth depth);

/* Graded, and at the cut-off or shallower. */
bool depth_is_at_or_below(enum depth depth, enum depth cutoff);

/* Per cent of a graded depth. */
int depth_percent(enum depth depth);

/* The grade of exactly so many per cent, or DEPTH_BLANK. */
enum depth depth_of_percent(long percent);

/* Steps on the scale between two graded depths. */
int depth_steps_apart(enum depth one, enum depth other);

/* enum depth, as a nurse types it; blank DEPTH_BLANK. */
extern const struct field_kind field_depth;

/* enum depth as a cut-off in a policy: a plain whole number on the scale that
 * is at least field->least per cent. */
extern const struct field_kind field_cutoff;

#endif
