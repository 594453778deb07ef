/* decide.h: what the rules say about one person. */
#ifndef SHOAL_CLINIC_DECIDE_H
#define SHOAL_CLINIC_DECIDE_H

#include "base/day.h"
#include "clinic/policy.h"
#include "clinic/visit.h"

/*
 * Every rule is tried on both eyes; an eye that is not there is skipped. The
 * smallest refer_within_days of all rules that hold decides; if none refers,
 * the smallest rescreen_within_months; else the policy's own re-screen
 * interval. So a further finding or a higher pressure can make the answer less
 * urgent only through none_of, a shallower grade only through
 * unequal_steps_at_or_above.
 *
 * A pressure that was not measured never meets a condition and never cancels
 * another rule. An unknown age meets every age condition.
 */
struct fired {
	int rule;	      /* index into policy->rule */
	bool eye[EYE_COUNT];  /* for which eye it held */
	bool age_was_unknown; /* it has an age condition that an unknown age met
			       */
};

struct decision {
	enum visit_urgency urgency;
	int within_days;     /* FIELD_BLANK when nothing refers */
	int rescreen_months; /* FIELD_BLANK when something refers */
	bool by_default;     /* no rule held: the policy's own interval */
	int count;
	/* All rules that held, those that decide first: by days, then by
	 * months, each in the order of the file. */
	struct fired fired[POLICY_RULES_MOST];
};

void decide(const struct policy *policy, const struct visit *visit,
	    struct decision *decision);

/* Whether one rule holds for one eye. */
bool rule_holds(const struct rule *rule, const struct visit *visit,
		enum eye eye);

/* The urgency in words that so many days to a referral have under a policy;
 * FIELD_BLANK days are no referral. */
enum visit_urgency urgency_of_days(const struct policy *policy, int days);

/* How many of the fired rules belong on a slip: all that refer, or, when none
 * does, all that ask for a new screening. They stand first. */
int decision_shown(const struct policy *policy,
		   const struct decision *decision);

/* Whether the fired rule at `index` is one of those that decided. */
bool decision_is_deciding(const struct policy *policy,
			  const struct decision *decision, int index);

/* What the fired rule at `index` advises the nurse to do; "" when that is
 * nothing, or what a rule before it has advised: the same advice often stands
 * in several rules. */
const char *decision_advice(const struct policy *policy,
			    const struct decision *decision, int index);

/*
 * Looks ahead while a person is still being asked: whether a rule already
 * holds for certain that sends the person today, whatever the answers still
 * to come. `unasked` holds the findings whose question was not put yet; a
 * depth or pressure not asked yet is blank in the record. The rule's index,
 * or -1.
 */
int decide_certain_today(const struct policy *policy, const struct visit *visit,
			 const struct findings *unasked, bool age_unasked);

/* All such rules, in the order of the file, each with the eyes for which it is
 * certain, as a decision for today; false when there is none. */
bool decide_all_certain_today(const struct policy *policy,
			      const struct visit *visit,
			      const struct findings *unasked, bool age_unasked,
			      struct decision *certain);

/*
 * Whether the rule, which does not hold for this eye now, could still hold if
 * one missing item were known: this eye's pressure (not measured). A known
 * item cannot add a rule through age: an unknown age meets every condition.
 */
bool rule_could_hold_with_pressure(const struct rule *rule,
				   const struct visit *visit, enum eye eye);

/* Whether the rule holds for this eye only because the age is not known. */
bool rule_holds_by_unknown_age(const struct rule *rule,
			       const struct visit *visit, enum eye eye);

/* All conditions of the rule look at the person, none at one eye. */
bool rule_is_of_person(const struct rule *rule);

/* Writes the decision into the record: urgency, within_days, see_by,
 * rescreen_months, rules, policy. `screened_on` may be blank; see_by then is
 * too. `mark` is the policy's fingerprint. */
void decision_record(const struct policy *policy, const char *mark,
		     const struct decision *decision, struct visit *visit);

#endif
