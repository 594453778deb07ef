/* visit.h: one person screened, as a record. */
#ifndef SHOAL_CLINIC_VISIT_H
#define SHOAL_CLINIC_VISIT_H

#include "base/day.h"
#include "base/fault.h"
#include "base/field.h"
#include "base/refnum.h"
#include "clinic/depth.h"
#include "clinic/findings.h"

#include <stdio.h>

enum visit_urgency {
	URGENCY_SAME_DAY,
	URGENCY_URGENT,
	URGENCY_ROUTINE,
	URGENCY_NO_REFERRAL,
	URGENCY_COUNT
};

enum visit_state { STATE_CURRENT, STATE_CORRECTED, STATE_VOID };

enum visit_sex { SEX_F, SEX_M, SEX_X, SEX_COUNT };

/* Bytes of texts: characters allowed times four, and a NUL. */
enum {
	VISIT_NAME_SIZE = 80 * 4 + 1,
	VISIT_CONTACT_SIZE = 60 * 4 + 1,
	VISIT_SITE_SIZE = 60 * 4 + 1,
	VISIT_GRADER_SIZE = 12 * 4 + 1,
	VISIT_TIME_SIZE = 21,	 /* 2026-11-25T07:04:09Z */
	VISIT_RULES_SIZE = 2700, /* 64 names of 40 letters, joined by ';' */
	VISIT_POLICY_SIZE = 7
};

/*
 * The table of a person's record, one line per field, in the order of every
 * header, schema and form:
 *   FIELD(type, name, dimension, kind, least, most, need, origin, words, about)
 * Ranges are what a keyboard may enter, not what is healthy: age 0 to 120
 * years, pressure 1 to 99 mmHg. No threshold stands here.
 */
/* clang-format off */
#define VISIT_FIELDS(FIELD) \
FIELD(struct refnum, number, , refnum, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, "", \
	"referral number") \
FIELD(struct day, screened_on, , day, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, "", \
	"day of screening") \
FIELD(char, entered_at, [VISIT_TIME_SIZE], text, 0, 20, FIELD_OPTIONAL, \
	FIELD_MADE, "", "time of entry (UTC)") \
FIELD(int, late, , count, 0, 1, FIELD_OPTIONAL, FIELD_MADE, "", \
	"entered on a later day") \
FIELD(char, site, [VISIT_SITE_SIZE], text, 0, 60, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "site") \
FIELD(char, grader, [VISIT_GRADER_SIZE], text, 0, 12, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "initials of who graded") \
FIELD(char, name, [VISIT_NAME_SIZE], text, 0, 80, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "name") \
FIELD(char, contact, [VISIT_CONTACT_SIZE], text, 0, 60, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "phone or village") \
FIELD(int, age_years, , count, 0, 120, FIELD_OPTIONAL, FIELD_TYPED, \
	"years", "age") \
FIELD(int, age_estimated, , choice, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, \
	"yes|no", "age is an estimate") \
FIELD(int, sex, , choice, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, "F|M|X", "sex") \
FIELD(enum depth, depth_right, , depth, 0, 0, FIELD_NEEDED, FIELD_TYPED, "", \
	"right depth") \
FIELD(enum depth, depth_left, , depth, 0, 0, FIELD_NEEDED, FIELD_TYPED, "", \
	"left depth") \
FIELD(int, not_gradable_why_right, , choice, 0, 0, FIELD_OPTIONAL, \
	FIELD_TYPED, "scar|pterygium|could_not_keep_still|other", \
	"why the right eye could not be graded") \
FIELD(int, not_gradable_why_left, , choice, 0, 0, FIELD_OPTIONAL, \
	FIELD_TYPED, "scar|pterygium|could_not_keep_still|other", \
	"why the left eye could not be graded") \
FIELD(int, pressure_right, , count, 1, 99, FIELD_OPTIONAL, FIELD_TYPED, \
	"mmHg", "right pressure") \
FIELD(int, pressure_left, , count, 1, 99, FIELD_OPTIONAL, FIELD_TYPED, \
	"mmHg", "left pressure") \
FIELD(struct findings, findings, , findings, 0, 0, FIELD_OPTIONAL, \
	FIELD_TYPED, "", "findings") \
FIELD(int, reply_consent, , choice, 0, 0, FIELD_OPTIONAL, FIELD_TYPED, \
	"yes|no", "agrees that the clinic writes back") \
FIELD(int, urgency, , choice, 0, 0, FIELD_OPTIONAL, FIELD_MADE, \
	"same_day|urgent|routine|no_referral", "urgency") \
FIELD(int, within_days, , count, 0, 365, FIELD_OPTIONAL, FIELD_MADE, \
	"days", "to be seen within") \
FIELD(struct day, see_by, , day, 0, 0, FIELD_OPTIONAL, FIELD_MADE, "", \
	"to be seen by") \
FIELD(int, rescreen_months, , count, 1, 120, FIELD_OPTIONAL, FIELD_MADE, \
	"months", "screen again after") \
FIELD(char, rules, [VISIT_RULES_SIZE], text, 0, 2699, FIELD_OPTIONAL, \
	FIELD_MADE, "", "rules that held") \
FIELD(char, policy, [VISIT_POLICY_SIZE], text, 0, 6, FIELD_OPTIONAL, \
	FIELD_MADE, "", "fingerprint of the policy") \
FIELD(int, state, , choice, 0, 0, FIELD_OPTIONAL, FIELD_MADE, \
	"current|corrected|void", "state")
/* clang-format on */

struct visit {
#define VISIT_MEMBER(type, name, dimension, ...) type name dimension;
	VISIT_FIELDS(VISIT_MEMBER)
#undef VISIT_MEMBER
};

extern const struct fields visit_fields;

/* A record in which nothing is recorded. */
void visit_init(struct visit *visit);

enum depth visit_depth(const struct visit *visit, enum eye eye);
int visit_pressure(const struct visit *visit, enum eye eye);
int visit_not_gradable_why(const struct visit *visit, enum eye eye);

/* The shallower graded depth of both eyes, or DEPTH_BLANK when neither was
 * graded. */
enum depth visit_worse_depth(const struct visit *visit);

/*
 * What must hold between the fields of a person who is to be judged: both
 * depths recorded and not both "no eye"; no signs and no pressure of an eye
 * that is not there; an age mark only with an age.
 * FAULT_INPUT otherwise.
 */
bool visit_check(const struct visit *visit, struct fault *why);

/* What must hold besides before it is kept: the day recorded, not after
 * `today`; the grader's initials given; consent asked; a reason exactly for
 * each eye that could not be graded. */
bool visit_check_kept(const struct visit *visit, struct day today,
		      struct fault *why);

/* Whether the day by which somebody is to be seen was over when a paper day was
 * typed in later. */
bool visit_is_overdue(const struct visit *visit);

/*
 * Writes what looks odd but is allowed, one line each, for the nurse to look
 * at once more: an eye that is not there but not marked as not seeing. Returns
 * how many lines.
 */
int visit_write_oddities(const struct visit *visit, FILE *out);

#endif
