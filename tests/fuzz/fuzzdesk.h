/* fuzzdesk.h: a desk in memory, for the fuzzing targets that run commands. */
#ifndef SHOAL_TESTS_FUZZ_FUZZDESK_H
#define SHOAL_TESTS_FUZZ_FUZZDESK_H

#include "desk/desk.h"

#include "base/embedded.h"
#include "fuzz.h"
#include "keep/book.h"
#include "keep/lookup.h"
#include "keep/policyfile.h"
#include "keep/register.h"

#include <sys/stat.h>

/* What a command wrote. */
struct fuzzdesk {
	struct desk desk;
	char *out, *talk;
	size_t out_size, talk_size;
	char *kept; /* the bytes of the register as it was at first */
	size_t kept_size;
};

/* The one desk of the process: an invented station with the default policy. */
static inline struct fuzzdesk *
fuzzdesk(void)
{
	static struct fuzzdesk *table;
	struct fault why = {FAULT_NONE, ""};
	int faults = 0;

	if (table != NULL)
		return table;
	table = calloc(1, sizeof *table);
	FUZZ_HOLD(table != NULL);
	struct desk *desk = &table->desk;
	FUZZ_HOLD(day_read("2026-03-10", &desk->today, &why));
	desk->today_given = true;
	desk->seconds = 1773133200;
	desk->columns = 80;
	snprintf(desk->folder, sizeof desk->folder, "%s", fuzz_folder());
	FUZZ_HOLD(policyfile_read_bytes(
		"policy.ini", (const char *)embedded_policy,
		embedded_policy_size, &desk->policy, fuzz_hear, &faults, &why));
	policy_fingerprint(&desk->policy, desk->policy_mark);
	memcpy(desk->policy_text, embedded_policy, embedded_policy_size + 1);
	FUZZ_HOLD(wording_read(&desk->wording, NULL, "en", fuzz_hear, &faults,
			       &why));
	station_init(&desk->station);
	desk->station.code = 14;
	text_copy(desk->station.programme, STATION_TEXT_SIZE, "Eyes Upriver");
	text_copy(desk->station.site, STATION_TEXT_SIZE, "Mavi school");
	text_copy(desk->station.clinic_name, STATION_TEXT_SIZE, "Hill clinic");
	return table;
}

static inline void
fuzzdesk_begin(struct fuzzdesk *table, const void *bytes, size_t length)
{
	table->desk.in =
		length == 0 ? fopen("/dev/null", "re")
			    : fmemopen((void *)(uintptr_t)bytes, length, "r");
	table->desk.out = open_memstream(&table->out, &table->out_size);
	table->desk.talk = open_memstream(&table->talk, &table->talk_size);
	FUZZ_HOLD(table->desk.in != NULL && table->desk.out != NULL &&
		  table->desk.talk != NULL);
}

/* Every line of talk is fit for a terminal. What was written lives until
 * fuzzdesk_forget. */
static inline void
fuzzdesk_end(struct fuzzdesk *table)
{
	char *rest = table->talk, *line;

	fclose(table->desk.in);
	fclose(table->desk.out);
	fclose(table->desk.talk);
	rest = table->talk;
	while ((line = strsep(&rest, "\n")) != NULL)
		FUZZ_HOLD(fuzz_is_harmless(line));
}

static inline void
fuzzdesk_forget(struct fuzzdesk *table)
{
	free(table->out);
	free(table->talk);
	table->out = table->talk = NULL;
}

/* Makes the desk's register, with nobody in it, and opens it; and a folder for
 * the slips. */
static inline void
fuzzdesk_register(struct fuzzdesk *table)
{
	struct desk *desk = &table->desk;
	struct fault why = {FAULT_NONE, ""};
	char path[400];

	snprintf(path, sizeof path, "%s/slips", fuzz_folder());
	FUZZ_HOLD(mkdir(path, 0700) == 0);
	FUZZ_HOLD(register_create(desk->folder, desk->station.code, &why));
	FUZZ_HOLD(register_open(&desk->book, desk->folder, BOOK_WRITE, &why));
}

/* Remembers the register as it is now. */
static inline void
fuzzdesk_keep(struct fuzzdesk *table)
{
	char path[400];
	struct fault why = {FAULT_NONE, ""};
	FILE *in;

	register_close(&table->desk.book);
	snprintf(path, sizeof path, "%s/register.db", fuzz_folder());
	in = fopen(path, "re");
	FUZZ_HOLD(in != NULL);
	table->kept = malloc(1 << 20);
	FUZZ_HOLD(table->kept != NULL);
	table->kept_size = fread(table->kept, 1, 1 << 20, in);
	FUZZ_HOLD(table->kept_size < 1 << 20);
	fclose(in);
	FUZZ_HOLD(register_open(&table->desk.book, table->desk.folder,
				BOOK_WRITE, &why));
}

/* Makes the register what it was then. */
static inline void
fuzzdesk_restore(struct fuzzdesk *table)
{
	struct fault why = {FAULT_NONE, ""};

	register_close(&table->desk.book);
	fuzz_file("register.db", table->kept, table->kept_size);
	FUZZ_HOLD(register_open(&table->desk.book, table->desk.folder,
				BOOK_WRITE, &why));
}

/* Calls `see` for everybody in the register. */
static inline void
fuzzdesk_everybody(struct fuzzdesk *table, register_see *see, void *context)
{
	struct fault why = {FAULT_NONE, ""};

	FUZZ_HOLD(register_visit_day(&table->desk.book, day_none(), see,
				     context, &why));
}

#endif
