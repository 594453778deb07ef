/* policy.h: the referral rules that a supervisor may change. */
#ifndef SHOAL_CLINIC_POLICY_H
#define SHOAL_CLINIC_POLICY_H

#include "base/day.h"
#include "base/fault.h"
#include "base/field.h"
#include "clinic/agebands.h"
#include "clinic/depth.h"
#include "clinic/findings.h"
#include "clinic/visit.h"

#include <stdio.h>

/*
 * A policy is a list of rules. All conditions of a rule must hold for the same
 * eye; a condition that is not given always holds. Each rule has exactly one
 * outcome: refer within so many days (0 = today), or screen again within so
 * many months. Numbers stand in config/policy.ini with their sources; none
 * stands in the program.
 */
enum {
	POLICY_RULES_MOST = 64,
	POLICY_NAME_SIZE = 80 * 4 + 1,
	RULE_NAME_SIZE = 41,	     /* a-z, 0-9 and '-' */
	RULE_SAY_SIZE = 160 * 4 + 1, /* 160 characters */
	POLICY_WORDS_SIZE = 1 + POLICY_RULES_MOST * 2 * RULE_SAY_SIZE,
	POLICY_MARK_SIZE = 7 /* six letters and a NUL */
};

struct rule {
	char name[RULE_NAME_SIZE];
	/* This eye's grade. A missing eye never meets it, an eye that could
	 * not be graded only with not_gradable_counts. */
	enum depth depth_at_or_below_percent;
	enum depth depth_below_percent;
	int not_gradable_counts; /* ANSWER_YES, or blank or ANSWER_NO */
	int not_gradable;	 /* this eye was tried, could not be graded */
	int unequal_steps_at_or_above; /* both graded, so many steps apart */
	/* This eye's pressure, when measured. */
	int pressure_at_or_above_mmhg;
	int pressure_above_mmhg;
	/* An unknown age meets both. */
	int age_at_or_above_years;
	int age_below_years;
	finding_set all_of; /* of this person or this eye */
	finding_set any_of;
	finding_set two_of;
	finding_set none_of;
	finding_set other_eye_any_of; /* the same of the other eye */
	finding_set other_eye_none_of;
	int refer_within_days;
	int rescreen_within_months;
	/* Where its words begin in the policy's words; 0 = there are none. */
	int say, advise;
};

/* A rule with its words, as it is read from a file. */
struct rule_draft {
	struct rule rule;
	char say[RULE_SAY_SIZE];    /* the reason, for the slip */
	char advise[RULE_SAY_SIZE]; /* for the nurse, or "" */
};

struct policy {
	char name[POLICY_NAME_SIZE];
	char version[POLICY_NAME_SIZE];
	char approved_by[POLICY_NAME_SIZE]; /* "" = not yet approved */
	struct day approved_on;
	/* Findings that are not meant to change anything by themselves. */
	finding_set weighs_only_with_others;
	int urgent_within_days;
	int rescreen_months;
	struct age_bands age_bands;
	/* How a clinic's reply is classed (angle.h): so many quadrants hidden,
	 * 2 or 3; blank limits are not looked at. */
	int hidden_quadrants;
	int pressure_raised_at_or_above_mmhg;
	int cup_abnormal_at_or_above_percent; /* of the height of the disc */
	int verify_every; /* see policy_verifies; blank = nobody */
	int rule_count;
	struct rule rule[POLICY_RULES_MOST];
	/* What the rules say, one text behind the other; the first is "". Few
	 * rules say all that they may, and memory that is not touched costs
	 * nothing: a decision is made at every start. */
	int words_used;
	char words[POLICY_WORDS_SIZE];
};

/* A section of the policy file: its name and the keys it may hold. */
struct policy_section {
	const char *name;
	struct fields fields; /* offsets into struct policy */
};

/* The last two, [gonioscopy] and [verify], may be missing: policies written
 * before there were such sections keep their meaning and fingerprint. */
enum { POLICY_SECTIONS = 6 };
extern const struct policy_section policy_sections[POLICY_SECTIONS];

/* The keys of a section [rule NAME]; offsets into struct rule_draft, of which
 * the rule itself is the beginning. The name is not among them. */
extern const struct fields rule_fields;

/* A policy, a rule in which nothing is given. */
void policy_init(struct policy *policy);
void rule_init(struct rule *rule);
void rule_draft_init(struct rule_draft *draft);

/* Puts a rule with its words behind the others; there must be fewer than
 * POLICY_RULES_MOST. */
void policy_add(struct policy *policy, const struct rule_draft *draft);

/* A rule of the policy with its words. */
void policy_draft(const struct policy *policy, const struct rule *rule,
		  struct rule_draft *draft);

/* The reason for the slip; for the nurse, or "". The rule is one of the
 * policy's or a copy of one. */
const char *policy_say(const struct policy *policy, const struct rule *rule);
const char *policy_advise(const struct policy *policy, const struct rule *rule);

/* a-z, 0-9 and '-', a letter first, at most 40. */
bool rule_name_is_sound(const char *name);

/*
 * The fingerprint of a policy's meaning: six letters over every section, key
 * and value in canonical form, rules in their order. Comments, spacing, quotes
 * and the order of keys do not change it; any other change does, but for one
 * chance in 300 million. A section of which nothing is given is the same as
 * none. `text` holds POLICY_MARK_SIZE bytes.
 */
void policy_fingerprint(const struct policy *policy, char *text);

/* An eye doctor's name stands in the file. */
bool policy_is_approved(const struct policy *policy);

/*
 * Whether somebody whom nothing refers is asked to the clinic all the same, so
 * that the screening itself can be checked: everyone whose serial is divisible
 * by verify_every. The choice is fixed beforehand, by number and not by
 * suspicion; without that, what was missed cannot be estimated (Begg and
 * Greenes, Biometrics 1983;39:207-15).
 */
bool policy_verifies(const struct policy *policy, const struct visit *visit);

/* The rule of that name, or NULL. */
const struct rule *policy_rule(const struct policy *policy, const char *name);

#endif
