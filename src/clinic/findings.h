/* findings.h: symptoms, signs and history, by code. */
#ifndef SHOAL_CLINIC_FINDINGS_H
#define SHOAL_CLINIC_FINDINGS_H

#include "base/fault.h"
#include "base/field.h"

#include <stdint.h>
#include <stdio.h>

enum eye { EYE_RIGHT, EYE_LEFT, EYE_COUNT };

/* "right" or "left". */
const char *eye_name(enum eye eye);
enum eye eye_other(enum eye eye);

/*
 * The codes. Some belong to the person, some to one eye, one is derived and
 * never typed: an eye is the only seeing eye when the other has `not_seeing`,
 * whatever this one has, so that a further finding never lowers urgency.
 * `severe_eye_pain` records `eye_pain` too.
 */
enum finding {
	EYE_PAIN,
	SEVERE_EYE_PAIN,
	NAUSEA,
	HALOES,
	BLURRED_SIGHT,
	PAST_SPELLS,
	SUDDEN_SIGHT_LOSS,
	HEADACHE,
	FAMILY_CLOSURE,
	LONG_SIGHTED,
	NEEDS_DILATING,
	RISK_MEDICINE,
	NEW_MEDICINE,
	RED_EYE,
	HAZY_CORNEA,
	FIXED_PUPIL,
	ODD_PUPIL,
	BLOOD_IN_CHAMBER,
	REDUCED_SIGHT,
	INJURY,
	EYE_OPERATION,
	ARTIFICIAL_LENS,
	IRIDOTOMY,
	PAST_ATTACK,
	NOT_SEEING,
	ONLY_SEEING_EYE,
	FINDING_COUNT
};

/* Which question asks for a finding; also its side. */
enum finding_group {
	GROUP_COMPLAINTS, /* of the person, today or lately */
	GROUP_RISKS,	  /* of the person, standing */
	GROUP_SIGNS,	  /* of an eye, seen or noticed now */
	GROUP_EYE_PAST,	  /* of an eye, history and state */
	GROUP_DERIVED,	  /* never typed */
	GROUP_COUNT
};

/* A set of findings: bit `1 << code`. */
typedef uint32_t finding_set;

/* What was found in one person. Person bits only in `person`, eye bits only
 * in `eye`. */
struct findings {
	finding_set person;
	finding_set eye[EYE_COUNT];
};

const char *finding_code(enum finding finding);
/* A short plain phrase, such as "pain in or around the eye or brow, today". */
const char *finding_about(enum finding finding);
enum finding_group finding_group(enum finding finding);
bool finding_is_of_eye(enum finding finding);

finding_set finding_bit(enum finding finding);
/* All findings that a group's question offers. */
finding_set findings_of_group(enum finding_group group);
/* Findings that a daily tally counts as "with symptoms". */
finding_set findings_symptoms(void);

/* Adds a finding and what it implies; `eye` is unused for one of the person. */
void findings_add(struct findings *findings, enum finding finding,
		  enum eye eye);

/* All that a rule tried on `eye` can see: the person's findings, this eye's,
 * and the derived one. */
finding_set findings_at_eye(const struct findings *findings, enum eye eye);

/*
 * Reads codes joined by ';' or ',', eye codes as right:CODE or left:CODE.
 * Spaces round a code are ignored. FAULT_INPUT names an unknown code with
 * what was perhaps meant, a side missing or too much, an empty item.
 */
bool findings_read(const char *text, struct findings *findings,
		   struct fault *why);

/* Writes the codes joined by ';' in the order of the table. */
void findings_write(const struct findings *findings, char *text, size_t size);

/* Reads a policy's list: codes joined by ',', no sides, derived ones too. */
bool finding_set_read(const char *text, finding_set *set, struct fault *why);
void finding_set_write(finding_set set, char *text, size_t size);

/* struct findings; blank = none found. */
extern const struct field_kind field_findings;
/* finding_set; blank = empty. */
extern const struct field_kind field_finding_set;

#endif
