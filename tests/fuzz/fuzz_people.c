/* fuzz_people.c: people given as CSV to be judged and not kept: each row is
 * answered or refused, and the answers are CSV that reads back, row for row.
 *
 * seeds: tests/fuzz/seeds/people
 * options: -max_len=1500
 */
#include "desk/people.h"
#include "desk/run.h"
#include "fuzz.h"
#include "fuzzdesk.h"
#include "keep/csv.h"

struct seen {
	long rows, refused;
};

/* What was read from a row is written and read again without a difference. */
static void
check_person(const struct visit *person)
{
	struct fault why = {FAULT_NONE, ""};
	char value[FIELD_TEXT_SIZE], again[FIELD_TEXT_SIZE];
	struct visit copy;

	FUZZ_HOLD(visit_check(person, &why));
	visit_init(&copy);
	for (int i = 0; i < PEOPLE_ITEMS; i++) {
		const struct field *field =
			fields_find(visit_fields, people_items[i].field);

		field_write(field, person, value, sizeof value);
		FUZZ_HOLD(fuzz_is_harmless(value));
		if (value[0] == '\0')
			continue;
		FUZZ_HOLD(field_read(field, value, &copy, &why));
		field_write(field, &copy, again, sizeof again);
		FUZZ_HOLD(strcmp(value, again) == 0);
	}
}

static bool
see(void *context, const struct people_row *row, struct fault *why)
{
	struct seen *seen = context;

	(void)why;
	FUZZ_HOLD(fuzz_is_harmless(row->id));
	FUZZ_HOLD(row->row == (row->row == 0 ? 0 : seen->rows + 1));
	if (row->row == 0)
		return true;
	seen->rows++;
	if (row->refused == NULL) {
		check_person(row->person);
		return true;
	}
	seen->refused++;
	FUZZ_HOLD(row->refused[0] != '\0' && fuzz_is_harmless(row->refused));
	return true;
}

static bool
see_answer(void *context, const struct csv_row *row, struct fault *why)
{
	struct seen *seen = context;

	FUZZ_HOLD(csv_check_count(row, why) && row->count == 6);
	if (row->row == 0)
		return true;
	seen->rows++;
	/* An answer or a problem, never neither and never both. */
	FUZZ_HOLD((row->value[1][0] == '\0') == (row->value[5][0] != '\0'));
	seen->refused += row->value[1][0] == '\0';
	return true;
}

/* The same bytes through the command. */
static void
check_command(struct fuzzdesk *table, const uint8_t *bytes, size_t length,
	      const struct seen *right)
{
	static const struct given given = {
		.options = 1, .option = {{.name = "csv", .value = "-"}}};
	struct seen answered = {0, 0};
	struct fault why = {FAULT_NONE, ""};
	FILE *answers;

	fuzzdesk_begin(table, bytes, length);
	(void)run_assess(&table->desk, &given, &why);
	fuzzdesk_end(table);
	FUZZ_HOLD(table->out_size > 0 || right->rows == 0);
	if (table->out_size > 0) {
		answers = fmemopen(table->out, table->out_size, "r");
		FUZZ_HOLD(answers != NULL);
		FUZZ_HOLD(csv_read(answers, see_answer, &answered, &why));
		fclose(answers);
	}
	FUZZ_HOLD(answered.rows == right->rows &&
		  answered.refused == right->refused);
	fuzzdesk_forget(table);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	struct fuzzdesk *table = fuzzdesk();
	struct fault why = {FAULT_NONE, ""};
	struct seen seen = {0, 0};

	fuzzdesk_begin(table, bytes, length);
	if (people_read(&table->desk, "-", see, &seen, &why))
		FUZZ_HOLD(seen.refused == 0);
	else
		fuzz_sentence(&why, FAULT_INPUT);
	fuzzdesk_end(table);
	fuzzdesk_forget(table);
	check_command(table, bytes, length, &seen);
	return 0;
}
