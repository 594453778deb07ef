/* slipreasons.c: the clinic's part of a slip: why, and with what care. */
#include "paper/slipreasons.h"

#include "base/text.h"

#include "paper/slipcase.h"

#include <string.h>

static const struct rule *
fired_rule(const struct slip *slip, int index)
{
	return &slip->policy->rule[slip->decision->fired[index].rule];
}

static int
shown(const struct slip *slip)
{
	return decision_shown(slip->policy, slip->decision);
}

static const char *
reason_key(const struct slip *slip, int index)
{
	const bool *eye = slip->decision->fired[index].eye;

	if (rule_is_of_person(fired_rule(slip, index)))
		return "reason.person";
	if (eye[EYE_RIGHT] && eye[EYE_LEFT])
		return "reason.both";
	return eye[EYE_RIGHT] ? "reason.right" : "reason.left";
}

static void
tell_reasons(const struct telling *to, bool deciding)
{
	const struct slip *slip = to->slip;

	for (int i = 0; i < shown(slip); i++)
		if (decision_is_deciding(slip->policy, slip->decision, i) ==
		    deciding)
			tell_typed(to, reason_key(slip, i), "reason",
				   policy_say(slip->policy,
					      fired_rule(slip, i)));
}

void
tell_deciding(const struct telling *to)
{
	tell_reasons(to, true);
	if (shown(to->slip) == 0)
		tell(to, "reason.none");
}

void
tell_others(const struct telling *to)
{
	tell_reasons(to, false);
}

/* Who goes now needs no advice of a rule that can wait: "repeat the reading".
 */
static bool
is_advised(const struct slip *slip, int index)
{
	return !slip_is_same_day(slip) ||
	       decision_is_deciding(slip->policy, slip->decision, index);
}

void
tell_advice(const struct telling *to)
{
	const struct slip *slip = to->slip;

	for (int i = 0; i < shown(slip); i++) {
		const char *advise =
			decision_advice(slip->policy, slip->decision, i);

		if (advise[0] != '\0' && is_advised(slip, i))
			tell_typed(to, "reason.advice", "advice", advise);
	}
}

static bool
age_was_unknown(const struct slip *slip)
{
	for (int i = 0; i < shown(slip); i++)
		if (slip->decision->fired[i].age_was_unknown)
			return true;
	return false;
}

/* Whether another age could bring a rule in or take one out. */
static bool
age_matters(const struct slip *slip)
{
	struct visit visit = *slip->visit;

	visit.age_years = FIELD_BLANK;
	for (int i = 0; i < slip->policy->rule_count; i++)
		for (int eye = 0; eye < EYE_COUNT; eye++)
			if (rule_holds_by_unknown_age(&slip->policy->rule[i],
						      &visit, (enum eye)eye))
				return true;
	return false;
}

void
tell_not_done(const struct telling *to)
{
	const struct slip *slip = to->slip;

	if (slip_lacks_pressures(slip))
		tell(to, "not_done.pressure_both");
	else if (slip_lacks_pressure(slip, EYE_RIGHT))
		tell(to, "not_done.pressure_right");
	else if (slip_lacks_pressure(slip, EYE_LEFT))
		tell(to, "not_done.pressure_left");
	tell(to, "not_done.at_the_camp");
	if (age_was_unknown(slip))
		tell(to, "not_done.age_unknown");
	if (slip->visit->age_estimated == ANSWER_YES && age_matters(slip))
		tell(to, "not_done.age_estimated");
}

static bool
must_not_be_dilated(const struct slip *slip)
{
	const struct findings *findings = &slip->visit->findings;

	return slip_has_shallow_eye(slip) || slip_has_eye_not_graded(slip) ||
	       (findings->person & findings_symptoms()) != 0;
}

void
tell_cautions(const struct telling *to)
{
	const struct slip *slip = to->slip;

	tell(to, "caution.screening");
	if (slip_is_same_day(slip)) {
		tell(to, "caution.send_now");
		tell(to, "caution.no_patch");
		tell(to, "caution.standing_order");
	}
	if (slip_has_eye_with(slip, INJURY) ||
	    slip_has_eye_with(slip, EYE_OPERATION))
		tell(to, "caution.shield");
	if (must_not_be_dilated(slip))
		tell(to, "caution.no_dilating");
	if (!slip_is_same_day(slip) && slip_has_normal_eye(slip))
		tell(to, "caution.normal_depth");
}

void
tell_policy(const struct telling *to)
{
	const struct policy *policy = to->slip->policy;
	char fingerprint[POLICY_MARK_SIZE], date[TELL_DATE_SIZE];
	struct phrase named = {"approval.policy",
			       {{"name", policy->name, true},
				{"version", policy->version, true},
				{"fingerprint", fingerprint, false}}};
	struct phrase approved = {"approval.approved",
				  {{"person", policy->approved_by, true},
				   {"date", date, false}}};

	/* slip_check has found that they are the same. */
	if (to->slip->visit->policy[0] == '\0')
		policy_fingerprint(policy, fingerprint);
	else
		text_copy(fingerprint, sizeof fingerprint,
			  to->slip->visit->policy);
	to->see(to->context, &named);
	tell_date(to, policy->approved_on, "date.full", date);
	if (policy_is_approved(policy))
		to->see(to->context, &approved);
	else
		tell(to, "approval.not_approved");
	if (!wording_is_reviewed(to->slip->wording))
		tell(to, "approval.wording_not_reviewed");
}

void
tell_consent(const struct telling *to)
{
	static const char *const keys[] = {
		[ANSWER_NO] = "consent.no", [ANSWER_YES] = "consent.yes"};
	int consent = to->slip->visit->reply_consent;

	if (!slip_is_sent(to->slip))
		return;
	tell(to,
	     consent == FIELD_BLANK ? "consent.not_recorded" : keys[consent]);
}

void
tell_reply_consent(const struct telling *to)
{
	static const char *const keys[] = {
		[ANSWER_NO] = "consent.keep", [ANSWER_YES] = "consent.send"};
	int consent = to->slip->visit->reply_consent;

	tell_consent(to);
	tell(to, consent == FIELD_BLANK ? "consent.ask_first" : keys[consent]);
}
