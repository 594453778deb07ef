/* accounts.c: what became of each tally and each file, in sentences. */
#include "desk/accounts.h"

#include "base/text.h"
#include "keep/csv.h"

#include <stdlib.h>
#include <string.h>

struct accounts {
	struct collate *collate;
	struct spool *spool;
	const struct batch_kind *kind;
	ledger_see *see;
	void *context;
	struct spool_record other;     /* of a file that is named in a reason */
	char path[ACCOUNTS_PATH_SIZE]; /* of the file at hand */
};

/* A path may hold anything but NUL: piece by piece it is made as harmless as a
 * sentence, with nothing cut off its end. */
static void
write_path(const char *path, char *text, size_t size)
{
	size_t used = 0;

	while (*path != '\0' && used + FAULT_SENTENCE_SIZE < size) {
		struct fault piece;
		size_t length = strcspn(path + 1, "/") + 1;

		if (length > 300)
			length = 300;
		fault_set(&piece, FAULT_INPUT, "%.*s", (int)length, path);
		memcpy(text + used, piece.sentence, strlen(piece.sentence));
		used += strlen(piece.sentence);
		path += length;
	}
	text[used] = '\0';
}

/* --- reasons -------------------------------------------------------------- */

static bool
read_other(struct accounts *accounts, const struct collate_entry *entry,
	   struct fault *why)
{
	unsigned next;

	return spool_read(accounts->spool, entry->file, &accounts->other, &next,
			  why);
}

/* The sentences are put together as a fault's, which keeps them harmless. */
static bool
say_same(struct accounts *accounts, const struct collate_entry *entry,
	 const struct collate_entry *best, struct fault *reason,
	 struct fault *why)
{
	if (best->file == entry->file) {
		fault_set(reason, FAULT_INPUT,
			  "the same stands further up in this file");
		return true;
	}
	if (!read_other(accounts, best, why))
		return false;
	fault_set(reason, FAULT_INPUT, "the same content is counted from '%s'",
		  accounts->other.path);
	return true;
}

static void
say_superseded(const struct collate_entry *entry,
	       const struct collate_entry *best, struct fault *reason)
{
	char device[7];

	collate_device(best, device);
	if (entry->device != best->device && best->status == LEDGER_COUNTED)
		fault_set(reason, FAULT_INPUT,
			  "revision %u is counted, of the register that went "
			  "on from a copy of this one, device %s",
			  (unsigned)best->revision, device);
	else
		fault_set(reason, FAULT_INPUT,
			  best->status == LEDGER_COUNTED ? "revision %u is "
							   "counted"
							 : "revision %u is "
							   "there, "
							   "which is in "
							   "conflict",
			  (unsigned)best->revision);
}

static bool
say_conflict(struct accounts *accounts, const struct collate_entry *entry,
	     const struct collate_entry *best, struct fault *reason,
	     struct fault *why)
{
	const struct collate *collate = accounts->collate;
	char one[7], other[7];

	if (collate_two_devices(collate, entry->station, one, other)) {
		fault_set(reason, FAULT_INPUT,
			  "station %04u comes from two laptops, devices %s and "
			  "%s; collate their files apart, and give one laptop "
			  "another station code",
			  (unsigned)entry->station, one, other);
		return true;
	}
	if (best->copies ? entry->device == best->device
			 : entry->mark == best->mark)
		best = &collate->entry[best->place];
	if (!read_other(accounts, best, why))
		return false;
	if (entry->device != best->device) {
		collate_device(entry, one);
		collate_device(best, other);
		fault_set(reason, FAULT_INPUT,
			  "station %04u went on from a copy of its register or "
			  "a mended one, devices %s and %s, and '%s' tells of "
			  "the same %s, so neither counts; find out which is "
			  "right, and take the other away",
			  (unsigned)entry->station, one, other,
			  best->file == entry->file ? "this file"
						    : accounts->other.path,
			  collate->grows ? "month, and the later one lacks "
					   "people or outcomes of the earlier"
					 : "day");
		return true;
	}
	fault_set(reason, FAULT_INPUT,
		  "its content differs from the same revision in '%s', so "
		  "neither counts; find out which is right, and take the other "
		  "away",
		  best->file == entry->file ? "this file"
					    : accounts->other.path);
	return true;
}

static bool
say_reason(struct accounts *accounts, const struct collate_entry *entry,
	   struct fault *reason, struct fault *why)
{
	const struct collate_entry *best =
		collate_best(accounts->collate, entry);

	reason->sentence[0] = '\0';
	if (entry->status == LEDGER_SAME)
		return say_same(accounts, entry, best, reason, why);
	if (entry->status == LEDGER_SUPERSEDED)
		say_superseded(entry, best, reason);
	if (entry->status == LEDGER_CONFLICT)
		return say_conflict(accounts, entry, best, reason, why);
	return true;
}

/* --- what a refused file would have replaced ------------------------------ */

/* Digits up to the next `end` (or, for 0, as far as they go). */
static bool
take_number(const char **text, char end, long most, long *number)
{
	size_t length = strspn(*text, "0123456789");

	*number = strtol(*text, NULL, 10);
	if (length == 0 || length > 9 || *number < 1 || *number > most ||
	    (end != '\0' && (*text)[length] != end))
		return false;
	*text += length + (end != '\0');
	return true;
}

/* Of "tally-0014-2026-03-10-r2.csv" and, of a month, "yield-0014-2026-03-r9",
 * with anything behind. The program gave the name; that it may be wrong is why
 * nothing but a word hangs on it. */
static bool
read_name(const struct batch_kind *kind, const char *path, long *station,
	  struct day *day, long *revision)
{
	const char *slash = strrchr(path, '/');
	const char *name = slash == NULL ? path : slash + 1;
	size_t length = strlen(kind->what);
	char date[DAY_SIZE];
	struct fault ignored;

	if (strncmp(name, kind->what, length) != 0 || name[length] != '-')
		return false;
	name += length + 1;
	if (!take_number(&name, '-', 9999, station))
		return false;
	length = strcspn(name, "r");
	if (length < 2 || length > sizeof date || name[length] != 'r' ||
	    name[length - 1] != '-')
		return false;
	snprintf(date, sizeof date, "%.*s%s", (int)length - 1, name,
		 length == 8 ? "-01" : "");
	name += length + 1;
	return day_read(date, day, &ignored) &&
	       take_number(&name, '\0', 999999999, revision);
}

/* Says when an older revision stands in the sums in place of a refused file:
 * else the figure that the station corrected would count without a word. */
static void
say_replaced(const struct accounts *accounts, const char *path, char *reason)
{
	const struct collate_entry *best;
	long station, revision;
	struct fault whole;
	struct day day;

	if (!read_name(accounts->kind, path, &station, &day, &revision))
		return;
	best = collate_find(accounts->collate, (unsigned)station, day);
	if (best == NULL || best->dropped || best->status != LEDGER_COUNTED ||
	    best->revision >= revision)
		return;
	fault_set(&whole, FAULT_INPUT,
		  "%.400s; by its name it is revision %ld, and the older "
		  "revision %u is counted in its place until it comes whole",
		  reason, revision, (unsigned)best->revision);
	text_copy(reason, FAULT_SENTENCE_SIZE, whole.sentence);
}

/* --- lines ---------------------------------------------------------------- */

static bool
tell_entry(struct accounts *accounts, const struct collate_entry *entry,
	   struct fault *why)
{
	struct fault reason;
	struct ledger_line line = {.path = accounts->path,
				   .status = (enum ledger_status)entry->status,
				   .station = (int)entry->station,
				   .date = {entry->day},
				   .revision = (int)entry->revision,
				   .reason = reason.sentence,
				   .column = ""};

	line.went_on = entry->status == LEDGER_SUPERSEDED &&
		       collate_best(accounts->collate, entry)->device !=
			       entry->device;
	return say_reason(accounts, entry, &reason, why) &&
	       accounts->see(accounts->context, &line, why);
}

static bool
tell_file(struct accounts *accounts, struct spool_record *record,
	  struct fault *why)
{
	struct ledger_line line = {.path = accounts->path,
				   .status = record->kind == SPOOL_REFUSED
						     ? LEDGER_REFUSED
						     : LEDGER_PASSED_OVER,
				   .date = day_none(),
				   .reason = record->reason,
				   .row = record->row,
				   .column = record->column};

	if (record->kind == SPOOL_REFUSED)
		say_replaced(accounts, record->path, record->reason);
	return accounts->see(accounts->context, &line, why);
}

bool
accounts_visit(struct collate *collate, struct spool *spool,
	       const struct batch_kind *kind, ledger_see *see, void *context,
	       struct fault *why)
{
	struct accounts accounts = {.collate = collate,
				    .spool = spool,
				    .kind = kind,
				    .see = see,
				    .context = context};
	struct spool_record record;
	unsigned next;
	size_t i = 0;

	collate_pair(collate);
	for (unsigned number = 0; number < spool->end; number = next) {
		if (!spool_read(spool, number, &record, &next, why))
			return false;
		write_path(record.path, accounts.path, sizeof accounts.path);
		if (record.kind != SPOOL_READ &&
		    !tell_file(&accounts, &record, why))
			return false;
		for (; i < collate->count && collate->entry[i].file == number;
		     i++)
			if (!collate->entry[i].dropped &&
			    !tell_entry(&accounts, &collate->entry[i], why))
				return false;
	}
	return true;
}

/* --- on paper ------------------------------------------------------------- */

static bool
begins_formula(const char *text)
{
	return text[0] != '\0' && strchr("=+-@", text[0]) != NULL;
}

void
accounts_write_header(FILE *out)
{
	static const char *const names[] = {"file",   "status",	  "station",
					    "date",   "revision", "row",
					    "column", "reason"};

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		csv_write_value(out, names[i], i == 0);
	csv_end_row(out);
}

/* 0 is not known, and stands empty. */
static void
write_number(FILE *out, int digits, long number)
{
	char text[24] = "";

	if (number > 0)
		snprintf(text, sizeof text, "%0*ld", digits, number);
	csv_write_value(out, text, false);
}

void
accounts_write_line(FILE *out, const struct ledger_line *line)
{
	char path[ACCOUNTS_PATH_SIZE + 2], date[DAY_SIZE];

	snprintf(path, sizeof path, "%s%s",
		 begins_formula(line->path) ? "./" : "", line->path);
	csv_write_value(out, path, true);
	csv_write_value(out, ledger_status_word(line->status), false);
	write_number(out, 4, line->station);
	day_write(line->date, date);
	csv_write_value(out, date, false);
	write_number(out, 1, line->revision);
	write_number(out, 1, line->row);
	csv_write_value(out, line->column, false);
	csv_write_value(out, line->reason, false);
	csv_end_row(out);
}

void
accounts_say(FILE *out, const struct ledger_line *line, int columns)
{
	char date[DAY_SIZE];
	char tally[80] = "", row[40] = "", column[SPOOL_COLUMN_SIZE + 20] = "";
	char text[ACCOUNTS_PATH_SIZE + FAULT_SENTENCE_SIZE + sizeof tally +
		  sizeof row + sizeof column];

	if (line->station > 0) {
		day_write(line->date, date);
		snprintf(tally, sizeof tally,
			 "station %04d, %s, revision %d: ", line->station, date,
			 line->revision);
	}
	if (line->row > 0)
		snprintf(row, sizeof row, "row %ld%s", line->row,
			 line->column[0] == '\0' ? ": " : ", ");
	if (line->column[0] != '\0')
		snprintf(column, sizeof column, "column %.60s: ", line->column);
	snprintf(text, sizeof text, "%s: %s%s%s%s", line->path, tally, row,
		 column, line->reason);
	if (columns > 0)
		text_write_wrapped(out, text, columns, 0, ACCOUNTS_INDENT);
	else
		fprintf(out, "%s\n", text);
}
