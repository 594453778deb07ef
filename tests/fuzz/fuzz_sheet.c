/* fuzz_sheet.c: a typed sheet of people screened is saved whole or not at all,
 * and exactly those that were saved are announced.
 *
 * seeds: tests/fuzz/seeds/sheet
 * options: -max_len=1200
 */
#include "desk/run.h"
#include "fuzz.h"
#include "fuzzdesk.h"
#include "keep/csv.h"

/* Numbers that were announced, and the people who are there. */
struct count {
	struct fuzzdesk *table;
	long announced, there;
};

static bool
see_announced(void *context, const struct csv_row *row, struct fault *why)
{
	struct count *count = context;
	struct refnum number;
	struct visit visit;

	if (row->row == 0)
		return true;
	count->announced++;
	FUZZ_HOLD(refnum_read(row->value[0], &number, why));
	FUZZ_HOLD(register_find(&count->table->desk.book, number, &visit, NULL,
				why));
	FUZZ_HOLD(visit_check(&visit, why));
	FUZZ_HOLD(visit_check_kept(&visit, count->table->desk.today, why));
	return true;
}

static bool
see_there(void *context, const struct visit *visit, const char *reason,
	  struct fault *why)
{
	struct count *count = context;
	char *written = fuzz_written(visit_fields, visit), *rest = written;
	char *line;

	(void)why;
	FUZZ_HOLD(reason[0] == '\0');
	while ((line = strsep(&rest, "\n")) != NULL)
		FUZZ_HOLD(fuzz_is_harmless(line));
	free(written);
	count->there++;
	return true;
}

static void
check_announced(struct count *count)
{
	struct fault why = {FAULT_NONE, ""};
	FILE *in = fmemopen(count->table->out, count->table->out_size, "r");

	FUZZ_HOLD(in != NULL);
	FUZZ_HOLD(csv_read(in, see_announced, count, &why));
	fclose(in);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	struct given given = {.options = 1, .option = {{.name = "csv"}}};
	struct fuzzdesk *table = fuzzdesk();
	struct count count = {.table = table};
	struct fault why = {FAULT_NONE, ""};
	bool done;

	if (table->kept == NULL) {
		fuzzdesk_register(table);
		fuzzdesk_keep(table);
	}
	given.option[0].value = fuzz_file("sheet.csv", bytes, length);
	fuzzdesk_begin(table, "", 0);
	done = run_sheet(&table->desk, &given, &why);
	fuzzdesk_end(table);
	if (!done)
		fuzz_sentence(&why, FAULT_INPUT);
	FUZZ_HOLD(done == (table->out_size > 0));
	if (done)
		check_announced(&count);
	fuzzdesk_everybody(table, see_there, &count);
	FUZZ_HOLD(count.announced == count.there);
	fuzzdesk_forget(table);
	if (count.there > 0)
		fuzzdesk_restore(table);
	return 0;
}
