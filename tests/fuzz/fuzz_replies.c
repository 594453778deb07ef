/* fuzz_replies.c: a sheet of the clinic's replies is saved whole or not at all,
 * and every reply that is kept holds what its record demands.
 *
 * seeds: tests/fuzz/seeds/replies
 * options: -max_len=1200
 */
#include "clinic/reply.h"
#include "desk/run.h"
#include "fuzz.h"
#include "fuzzdesk.h"
#include "keep/replies.h"

enum { PEOPLE = 12 };

struct count {
	struct fuzzdesk *table;
	long kept;
};

/* People of the last days, one after the other. */
static void
fill_register(struct fuzzdesk *table)
{
	struct fault why = {FAULT_NONE, ""};

	fuzzdesk_register(table);
	for (int i = 0; i < PEOPLE; i++) {
		struct decision decision;
		struct visit visit;

		visit_init(&visit);
		visit.screened_on = day_plus_days(table->desk.today, -i);
		visit.depth_right = (enum depth)(i % DEPTH_GRADES);
		visit.depth_left = DEPTH_25;
		visit.reply_consent = ANSWER_YES;
		text_copy(visit.site, sizeof visit.site, "Mavi school");
		text_copy(visit.grader, sizeof visit.grader, "NT");
		desk_judge(&table->desk, &visit, &decision);
		desk_stamp(&table->desk, &visit);
		FUZZ_HOLD(register_save(&table->desk.book, &visit,
					table->desk.policy_text, &why));
	}
	fuzzdesk_keep(table);
}

static bool
see(void *context, const struct visit *visit, const struct reply *reply,
    struct fault *why)
{
	struct count *count = context;
	char *written, *rest, *line;

	if (reply == NULL)
		return true;
	count->kept++;
	FUZZ_HOLD(reply_check(reply, visit->screened_on,
			      count->table->desk.today, why));
	FUZZ_HOLD(reply->number.serial == visit->number.serial);
	written = fuzz_written(reply_fields, reply);
	for (rest = written; (line = strsep(&rest, "\n")) != NULL;)
		FUZZ_HOLD(fuzz_is_harmless(line));
	free(written);
	return true;
}

static long
lines(const char *text)
{
	long count = 0;

	for (; (text = strchr(text, '\n')) != NULL; text++)
		count++;
	return count;
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	struct given given = {.options = 1, .option = {{.name = "csv"}}};
	struct fuzzdesk *table = fuzzdesk();
	struct count count = {.table = table};
	struct fault why = {FAULT_NONE, ""};
	bool done;

	if (table->kept == NULL)
		fill_register(table);
	given.option[0].value = fuzz_file("replies.csv", bytes, length);
	fuzzdesk_begin(table, "", 0);
	done = run_replysheet(&table->desk, &given, &why);
	fuzzdesk_end(table);
	if (!done)
		fuzz_sentence(&why, FAULT_INPUT);
	FUZZ_HOLD(register_visit_replies(&table->desk.book, see, &count, &why));
	FUZZ_HOLD(count.kept == (done ? lines(table->out) - 1 : 0));
	fuzzdesk_forget(table);
	if (count.kept > 0)
		fuzzdesk_restore(table);
	return 0;
}
