/* slippatient.c: the patient's part of a slip. */
#include "paper/slippatient.h"

#include "paper/slipcase.h"

enum { KEY_SIZE = 64 };

void
tell_state(const struct telling *to)
{
	if (to->slip->visit->state == STATE_CORRECTED)
		tell(to, "slip.corrected");
}

/* A void slip sends nobody anywhere. */
static bool
is_void(const struct telling *to)
{
	return to->slip->visit->state == STATE_VOID;
}

void
tell_headline(const struct telling *to)
{
	char key[KEY_SIZE];

	snprintf(key, sizeof key, "urgency.%s",
		 slip_is_check(to->slip) ? "check"
					 : tell_urgency_name(to->slip));
	tell(to, is_void(to) ? "slip.void" : key);
}

void
tell_patient_when(const struct telling *to)
{
	if (!is_void(to))
		tell_when(to, "when");
}

void
tell_name(const struct telling *to)
{
	tell_typed(to, "slip.name", "name", to->slip->visit->name);
}

/* patient.same_day_1 and so on, as many as the wording has. */
static void
tell_numbered(const struct telling *to, const char *name)
{
	char key[KEY_SIZE];

	for (int i = 1;; i++) {
		snprintf(key, sizeof key, "patient.%s_%d", name, i);
		if (wording_text(to->slip->wording, key) == NULL)
			return;
		tell(to, key);
	}
}

void
tell_message(const struct telling *to)
{
	const struct slip *slip = to->slip;
	bool referred = slip_is_referred(slip);

	if (is_void(to))
		return;
	tell_numbered(to, tell_urgency_name(slip));
	if (slip_is_check(slip))
		tell_numbered(to, "check");
	if (!referred && slip_has_eye_not_graded(slip))
		tell(to, "patient.not_every_eye");
	if (!referred && slip_has_eye_with(slip, NOT_SEEING))
		tell(to, "patient.not_seeing");
	if (!referred && slip_lacks_pressures(slip))
		tell(to, "patient.no_pressure");
	if (slip_has_eye_with(slip, IRIDOTOMY))
		tell(to, "patient.own_clinic");
	if (slip_is_sent(slip))
		tell(to, "patient.bring");
	if (!referred)
		return;
	if (slip_has_shallow_eye(slip) || slip_has_eye_not_graded(slip))
		tell(to, "patient.show_before_drops");
}

void
tell_where(const struct telling *to)
{
	const struct station *station = to->slip->station;

	tell_typed(to, "patient.clinic", "clinic", station->clinic_name);
	tell_typed(to, "patient.address", "address", station->clinic_address);
	tell_typed(to, "patient.door", "door", station->clinic_door);
	tell_typed(to, "patient.phone", "phone", station->clinic_phone);
	tell_typed(to, "patient.days", "days", station->clinic_days);
	tell_typed(to, "patient.cost", "cost", station->clinic_cost);
	if (slip_is_same_day(to->slip))
		tell(to, "patient.if_closed");
}

void
tell_at_once(const struct telling *to)
{
	tell(to, "patient.at_once_pain");
	tell(to, "patient.at_once_red");
	tell(to, "patient.at_once_haloes");
	tell(to, "patient.at_once_sight");
}

void
tell_ending(const struct telling *to)
{
	tell(to, "patient.not_a_diagnosis");
}
