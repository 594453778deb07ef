/* slipfacts.c: what a slip says, whatever it is printed on. */
#include "paper/slipfacts.h"

#include "base/text.h"

#include "paper/slipcase.h"
#include "paper/slipclinic.h"
#include "paper/slippatient.h"
#include "paper/slipreasons.h"

#include <string.h>

/* clang-format off */
static const struct part {
	void (*tell)(const struct telling *to);
	const char *heading;
	enum eye eye;
} parts[SLIP_PART_COUNT] = {
[SLIP_HEADLINE] =       {tell_headline, NULL, EYE_RIGHT},
[SLIP_WHEN] =           {tell_patient_when, NULL, EYE_RIGHT},
[SLIP_STATE] =          {tell_state, NULL, EYE_RIGHT},
[SLIP_NAME] =           {tell_name, NULL, EYE_RIGHT},
[SLIP_MESSAGE] =        {tell_message, "slip.part_patient", EYE_RIGHT},
[SLIP_WHERE] =          {tell_where, NULL, EYE_RIGHT},
[SLIP_AT_ONCE] =        {tell_at_once, "patient.at_once", EYE_RIGHT},
[SLIP_ENDING] =         {tell_ending, NULL, EYE_RIGHT},
[SLIP_URGENCY] =        {tell_urgency, NULL, EYE_RIGHT},
[SLIP_PERSON] =         {tell_person, NULL, EYE_RIGHT},
[SLIP_CAMP] =           {tell_camp, NULL, EYE_RIGHT},
[SLIP_DEPTH_RIGHT] =    {tell_depth, NULL, EYE_RIGHT},
[SLIP_DEPTH_LEFT] =     {tell_depth, NULL, EYE_LEFT},
[SLIP_PRESSURE_RIGHT] = {tell_pressure, NULL, EYE_RIGHT},
[SLIP_PRESSURE_LEFT] =  {tell_pressure, NULL, EYE_LEFT},
[SLIP_FINDINGS_RIGHT] = {tell_eye_findings, NULL, EYE_RIGHT},
[SLIP_FINDINGS_LEFT] =  {tell_eye_findings, NULL, EYE_LEFT},
[SLIP_REPORTS] =        {tell_reports, NULL, EYE_RIGHT},
[SLIP_DECIDING] =       {tell_deciding, "slip.deciding", EYE_RIGHT},
[SLIP_OTHERS] =         {tell_others, "slip.others", EYE_RIGHT},
[SLIP_ADVICE] =         {tell_advice, "slip.advice", EYE_RIGHT},
[SLIP_NOT_DONE] =       {tell_not_done, "slip.not_done", EYE_RIGHT},
[SLIP_CAUTIONS] =       {tell_cautions, "slip.cautions", EYE_RIGHT},
[SLIP_POLICY] =         {tell_policy, NULL, EYE_RIGHT},
[SLIP_CONSENT] =        {tell_consent, NULL, EYE_RIGHT},
[SLIP_SENDER] =         {tell_sender, NULL, EYE_RIGHT},
[SLIP_REPLY_CONSENT] =  {tell_reply_consent, NULL, EYE_RIGHT},
};
/* clang-format on */

/* A paper that is not valid does not say what was answered, and so does not
 * need the policy that answered, which may not be at hand. */
static bool
is_answer(enum slip_part part)
{
	return part == SLIP_URGENCY ||
	       (part >= SLIP_DECIDING && part <= SLIP_CONSENT);
}

void
slip_visit(const struct slip *slip, enum slip_part part, slip_see *see,
	   void *context)
{
	struct telling to = {slip, parts[part].eye, see, context};

	if (slip->visit->state != STATE_VOID || !is_answer(part))
		parts[part].tell(&to);
}

const char *
slip_heading(const struct slip *slip, enum slip_part part)
{
	if (part == SLIP_DECIDING && !slip_is_referred(slip))
		return "slip.again";
	return parts[part].heading;
}

bool
slip_has_reply(const struct slip *slip)
{
	return slip_is_sent(slip) && slip->visit->state != STATE_VOID;
}

bool
slip_check(const struct slip *slip, struct fault *why)
{
	char fingerprint[POLICY_MARK_SIZE];

	if (slip->policy_mark == NULL)
		policy_fingerprint(slip->policy, fingerprint);
	else
		text_copy(fingerprint, sizeof fingerprint, slip->policy_mark);
	if (slip->visit->policy[0] == '\0' ||
	    strcmp(slip->visit->policy, fingerprint) == 0)
		return true;
	return fault_set(why, FAULT_INTERNAL,
			 "the person was judged by policy '%s', the slip was "
			 "to be printed by policy '%s'",
			 slip->visit->policy, fingerprint);
}
