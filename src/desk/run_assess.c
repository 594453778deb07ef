/* run_assess.c: a decision without saving anything. */
#include "desk/run.h"

#include "base/text.h"
#include "keep/csv.h"

#include <string.h>

/* Options and columns by which a person is given. */
struct assess_item {
	const char *option; /* NULL: only a column */
	const char *field;
};

static const struct assess_item items[] = {
	{"age", "age_years"},
	{"sex", "sex"},
	{"right", "depth_right"},
	{"left", "depth_left"},
	{"pressure-right", "pressure_right"},
	{"pressure-left", "pressure_left"},
	{"findings", "findings"},
};

enum { ITEMS = sizeof items / sizeof items[0], ID_MOST = 80 };

static bool
read_options(const struct given *given, struct visit *visit, struct fault *why)
{
	visit_init(visit);
	for (int i = 0; i < ITEMS; i++) {
		const char *value = given_value(given, items[i].option);

		if (value != NULL &&
		    !field_read(fields_find(visit_fields, items[i].field),
				value, visit, why))
			return fault_at(why, "--%s", items[i].option);
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

struct batch {
	struct desk *desk;
	const struct field *column[CSV_COLUMNS_MOST]; /* NULL: the id */
	long rows, bad;
};

static bool
read_header(struct batch *batch, const struct csv_row *row, struct fault *why)
{
	bool right = false, left = false;

	for (size_t i = 0; i < row->count; i++) {
		const char *name = row->value[i];
		int item = 0;

		while (item < ITEMS && strcmp(items[item].field, name) != 0)
			item++;
		if (item == ITEMS && strcmp(name, "id") != 0)
			return fault_set(why, FAULT_INPUT,
					 "line %ld: '%.40s' is not a column "
					 "here; allowed are id, age_years, "
					 "sex, depth_right, depth_left, "
					 "pressure_right, pressure_left, "
					 "findings",
					 row->line, name);
		batch->column[i] =
			item == ITEMS ? NULL : fields_find(visit_fields, name);
		right = right || strcmp(name, "depth_right") == 0;
		left = left || strcmp(name, "depth_left") == 0;
	}
	if (!right || !left)
		return fault_set(why, FAULT_INPUT,
				 "line %ld: the columns depth_right and "
				 "depth_left are both needed",
				 row->line);
	fprintf(batch->desk->out, "id,urgency,within_days,rescreen_months,"
				  "rules,problem\n");
	return true;
}

/* The row's id as it may be printed, whether or not the rest is sound. */
static bool
read_id(const struct batch *batch, const struct csv_row *row, const char **id,
	struct fault *why)
{
	*id = "";
	for (size_t i = 0; i < row->count && i < row->columns; i++)
		if (batch->column[i] == NULL) {
			if (!text_check(row->value[i], ID_MOST, why))
				return fault_at(why, "id");
			*id = row->value[i];
		}
	return csv_check_count(row, why);
}

static bool
read_person(const struct batch *batch, const struct csv_row *row,
	    struct visit *visit, struct fault *why)
{
	visit_init(visit);
	for (size_t i = 0; i < row->count; i++)
		if (batch->column[i] != NULL &&
		    !field_read(batch->column[i], row->value[i], visit, why))
			return false;
	return visit_check(visit, why);
}

static void
write_answer(const struct batch *batch, const char *id,
	     const struct visit *visit, const char *problem)
{
	static const char *const shown[] = {"urgency", "within_days",
					    "rescreen_months", "rules"};
	char value[FIELD_TEXT_SIZE];

	csv_write_value(batch->desk->out, id, true);
	for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++) {
		field_write(fields_find(visit_fields, shown[i]), visit, value,
			    sizeof value);
		csv_write_value(batch->desk->out, value, false);
	}
	csv_write_value(batch->desk->out, problem, false);
	csv_end_row(batch->desk->out);
}

static bool
see_row(void *context, const struct csv_row *row, struct fault *why)
{
	struct batch *batch = context;
	struct decision decision;
	struct visit visit;
	struct fault one;
	const char *id;

	if (row->row == 0)
		return read_header(batch, row, why);
	batch->rows++;
	if (read_id(batch, row, &id, &one) &&
	    read_person(batch, row, &visit, &one)) {
		desk_judge(batch->desk, &visit, &decision);
		write_answer(batch, id, &visit, "");
		return true;
	}
	visit_init(&visit);
	write_answer(batch, id, &visit, one.sentence);
	fault_at(&one, "row %ld (line %ld)", row->row, row->line);
	desk_hear(batch->desk, &one);
	batch->bad++;
	return true;
}

static bool
assess_many(struct desk *desk, const char *path, struct fault *why)
{
	struct batch batch = {.desk = desk};
	bool from_stdin = path[0] == '\0' || strcmp(path, "-") == 0;
	FILE *in = from_stdin ? desk->in : fopen(path, "re");
	bool done;

	if (in == NULL)
		return fault_set(why, FAULT_INPUT,
				 "'%.200s' cannot be opened for reading", path);
	done = csv_read(in, see_row, &batch, why);
	if (!from_stdin)
		fclose(in);
	if (!done)
		return false;
	if (batch.bad > 0)
		return fault_set(why, FAULT_INPUT,
				 "%ld of %ld rows were refused; the others are "
				 "answered",
				 batch.bad, batch.rows);
	return true;
}

bool
run_assess(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *csv = given_value(given, "csv");

	return csv == NULL ? assess_one(desk, given, why)
			   : assess_many(desk, csv, why);
}
