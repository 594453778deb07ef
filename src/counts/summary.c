/* summary.c: everything the page about a collation needs, added up. */
#include "counts/summary.h"

#include "base/memory.h"
#include "clinic/visit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Texts as places in summary->text. */
struct summary_line {
	struct ledger_line line;
	size_t path, reason, column;
};

void
summary_init(struct summary *summary)
{
	memset(summary, 0, sizeof *summary);
}

void
summary_release(struct summary *summary)
{
	struct groups *all[] = {&summary->total,      &summary->weeks,
				&summary->sites,      &summary->stations,
				&summary->programmes, &summary->policies,
				&summary->people,     &summary->calendar};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		groups_release(all[i]);
	free(summary->line);
	free(summary->text);
	summary_init(summary);
}

/* Sexes in their order, then bands by the age they begin with. */
static void
person_key(const struct counted *row, char *key)
{
	long from = strtol(row->age_band, NULL, 10);
	bool unknown = row->age_band[0] < '0' || row->age_band[0] > '9';

	snprintf(key, SUMMARY_ORDERED_SIZE, "%d%03ld%.30s", row->sex,
		 unknown ? 999 : from % 999, row->age_band);
}

void
summary_person_words(const char *key, char *words)
{
	static const char *const sexes[] = {"F", "M", "X", "?"};

	snprintf(words, SUMMARY_ORDERED_SIZE, "%s %.30s",
		 sexes[(key[0] - '0') & 3],
		 key[1] == '9' && key[2] == '9' ? "age ?" : key + 4);
}

bool
summary_count(void *context, const struct counted *row, int sign,
	      struct fault *why)
{
	struct summary *summary = context;
	const struct tally_counts *counts = &row->counts;
	char week[16], station[16], person[SUMMARY_ORDERED_SIZE];

	snprintf(week, sizeof week, "%05d", calendar_week(row->date));
	snprintf(station, sizeof station, "%04d", row->station);
	person_key(row, person);
	return groups_add(&summary->total, "", counts, sign, why) &&
	       groups_add(&summary->weeks, week, counts, sign, why) &&
	       groups_add(&summary->sites, row->site, counts, sign, why) &&
	       groups_add(&summary->stations, station, counts, sign, why) &&
	       groups_add(&summary->programmes, row->programme, counts, sign,
			  why) &&
	       groups_add(&summary->policies, row->policy, counts, sign, why) &&
	       groups_add(&summary->people, person, counts, sign, why) &&
	       calendar_add(&summary->calendar, row->station, row->date,
			    row->policy, row->closed, sign, why);
}

struct sums
summary_total(const struct summary *summary)
{
	const struct sums *sums = groups_find(&summary->total, "");
	struct sums nobody = {{0}};

	return sums == NULL ? nobody : *sums;
}

/* --- lines -------------------------------------------------------------- */

static bool
keep(struct summary *summary, const char *text, size_t *place)
{
	size_t length = strlen(text == NULL ? "" : text) + 1;

	if (!memory_grow((void **)&summary->text, &summary->size,
			 summary->used + length, 1))
		return false;
	*place = summary->used;
	memcpy(summary->text + summary->used, text == NULL ? "" : text, length);
	summary->used += length;
	return true;
}

bool
summary_account(void *context, const struct ledger_line *line,
		struct fault *why)
{
	struct summary *summary = context;
	struct summary_line kept = {*line, 0, 0, 0};
	bool left_out = line->status == LEDGER_CONFLICT ||
			line->status == LEDGER_REFUSED;

	if (left_out && line->station > 0 && !day_is_none(line->date) &&
	    !calendar_leave_out(&summary->calendar, line->station, line->date,
				why))
		return false;
	summary->of[line->status]++;
	if (line->status == LEDGER_COUNTED ||
	    summary->of[line->status] > SUMMARY_LINES)
		return true;
	if (!memory_grow((void **)&summary->line, &summary->room,
			 summary->lines + 1, sizeof kept) ||
	    !keep(summary, line->path, &kept.path) ||
	    !keep(summary, line->reason, &kept.reason) ||
	    !keep(summary, line->column, &kept.column))
		return fault_set(why, FAULT_INTERNAL,
				 "no memory for another line of the report");
	summary->line[summary->lines++] = kept;
	return true;
}

void
summary_lines(const struct summary *summary, enum ledger_status status,
	      summary_see *see, void *context)
{
	for (size_t i = 0; i < summary->lines; i++) {
		struct ledger_line line = summary->line[i].line;

		if (line.status != status)
			continue;
		line.path = summary->text + summary->line[i].path;
		line.reason = summary->text + summary->line[i].reason;
		line.column = summary->text + summary->line[i].column;
		see(context, &line);
	}
}
