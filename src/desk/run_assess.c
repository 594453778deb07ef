/* run_assess.c: a decision without saving anything. */
#include "desk/run.h"

#include "desk/people.h"
#include "keep/csv.h"

static bool
read_options(const struct given *given, struct visit *visit, struct fault *why)
{
	visit_init(visit);
	for (int i = 0; i < PEOPLE_ITEMS; i++) {
		const struct people_item *item = &people_items[i];
		const char *value = given_value(given, item->option);

		if (value != NULL &&
		    !field_read(fields_find(visit_fields, item->field), value,
				visit, why))
			return fault_at(why, "--%s", item->option);
	}
	return visit_check(visit, why);
}

static const char *
which_eyes(const bool eye[EYE_COUNT])
{
	if (eye[EYE_RIGHT] && eye[EYE_LEFT])
		return "right, left";
	return eye_name(eye[EYE_RIGHT] ? EYE_RIGHT : EYE_LEFT);
}

static void
explain_fired(const struct policy *policy, const struct decision *decision,
	      FILE *out)
{
	fprintf(out, "\nRules that hold:\n");
	for (int i = 0; i < decision->count; i++) {
		const struct fired *fired = &decision->fired[i];
		const struct rule *rule = &policy->rule[fired->rule];

		fprintf(out, " %s (%s): ", rule->name, which_eyes(fired->eye));
		if (rule->refer_within_days != FIELD_BLANK)
			fprintf(out, "refer within %d days",
				rule->refer_within_days);
		else
			fprintf(out, "screen again within %d months",
				rule->rescreen_within_months);
		fprintf(out, "%s%s\n",
			fired->age_was_unknown ? ", age not known" : "",
			decision_is_deciding(policy, decision, i) ? ", decides"
								  : "");
	}
	if (decision->count == 0)
		fprintf(out, " none; the policy's own interval counts\n");
}

/* What a reading could still change. */
static void
explain_missing(const struct policy *policy, const struct visit *visit,
		FILE *out)
{
	int count = 0;

	fprintf(out, "\nRules that a missing item could still bring in:\n");
	for (int i = 0; i < policy->rule_count; i++) {
		const struct rule *rule = &policy->rule[i];
		bool eye[EYE_COUNT];

		for (int j = 0; j < EYE_COUNT; j++)
			eye[j] = rule_could_hold_with_pressure(rule, visit,
							       (enum eye)j);
		if (!eye[EYE_RIGHT] && !eye[EYE_LEFT])
			continue;
		fprintf(out, " %s (%s): pressure not measured\n", rule->name,
			which_eyes(eye));
		count++;
	}
	if (count == 0)
		fprintf(out, " none\n");
	if (visit->age_years == FIELD_BLANK)
		fprintf(out, "Age is not known: every age limit counts as "
			     "met, so an age could only take rules away.\n");
}

static bool
assess_one(struct desk *desk, const struct given *given, struct fault *why)
{
	struct decision decision;
	struct visit visit;

	if (!read_options(given, &visit, why))
		return false;
	desk_judge(desk, &visit, &decision);
	desk_write_urgency(&desk->policy, &visit, desk->columns, desk->out);
	desk_write_reasons(&desk->policy, &decision, desk->columns, desk->out);
	fprintf(desk->out, "Policy %s. Screening is not a diagnosis.\n",
		desk->policy_mark);
	if (given_is(given, "explain")) {
		explain_fired(&desk->policy, &decision, desk->out);
		explain_missing(&desk->policy, &visit, desk->out);
	}
	return true;
}

static void
write_answer(FILE *out, const char *id, const struct visit *visit,
	     const char *problem)
{
	static const char *const shown[] = {"urgency", "within_days",
					    "rescreen_months", "rules"};
	char value[FIELD_TEXT_SIZE];

	csv_write_value(out, id, true);
	for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++) {
		field_write(fields_find(visit_fields, shown[i]), visit, value,
			    sizeof value);
		csv_write_value(out, value, false);
	}
	csv_write_value(out, problem, false);
	csv_end_row(out);
}

static bool
see_person(void *context, const struct people_row *row, struct fault *why)
{
	struct desk *desk = context;
	struct visit person = *row->person;
	struct decision decision;

	(void)why;
	if (row->row == 0) {
		fprintf(desk->out, "id,urgency,within_days,rescreen_months,"
				   "rules,problem\n");
		return true;
	}
	if (row->refused == NULL)
		desk_judge(desk, &person, &decision);
	write_answer(desk->out, row->id, &person,
		     row->refused == NULL ? "" : row->refused);
	return true;
}

bool
run_assess(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *csv = given_value(given, "csv");

	return csv == NULL ? assess_one(desk, given, why)
			   : people_read(desk, csv, see_person, desk, why);
}
