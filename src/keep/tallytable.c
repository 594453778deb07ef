/* tallytable.c: the tallies of a file as any writer of CSV leaves it. */
#include "keep/tallytable.h"

#include "base/mark.h"
#include "keep/csv.h"

#include <assert.h>
#include <errno.h>
#include <stdarg.h>
#include <string.h>
#include <unistd.h>

#define ASK_ANEW                                                        \
	"ask the station for the file anew, and do not save it from a " \
	"spreadsheet"

#define COLUMN_INDEX(type, name, ...) COLUMN_##name,
enum { TALLY_COLUMNS(COLUMN_INDEX) COLUMNS };
static_assert((int)COLUMNS == (int)TALLYTABLE_COLUMNS, "there is a place for "
						       "every column of a "
						       "tally");

__attribute__((format(printf, 4, 5))) static bool
refuse(struct tallytable *table, long row, const char *column,
       const char *format, ...)
{
	char sentence[FAULT_SENTENCE_SIZE];
	va_list arguments;

	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	table->refused = true;
	table->refusal->row = row;
	table->refusal->column = column;
	return fault_set(&table->refusal->fault, FAULT_INPUT, "%s", sentence);
}

/* --- the header ----------------------------------------------------------- */

/* The place of a column in the header, or the number of columns. */
static size_t
find_name(const struct csv_row *header, const char *name)
{
	size_t place = 0;

	while (place < header->count && strcmp(header->value[place], name) != 0)
		place++;
	return place;
}

static bool
check_names(struct tallytable *table, const struct csv_row *header)
{
	for (size_t i = 0; i < TALLYTABLE_COLUMNS; i++)
		if (table->place[i] == header->count)
			return refuse(table, 0, tally_columns.field[i].name,
				      "this column is missing; " ASK_ANEW);
	for (size_t i = 0; i < header->count; i++)
		if (fields_find(tally_columns, header->value[i]) == NULL)
			return refuse(table, 0, "",
				      "a tally has no column '%.60s'; was it "
				      "added later? " ASK_ANEW,
				      header->value[i]);
	return true;
}

/* What lies beside tallies as a rule and is none, or NULL. */
static const char *
other_file(const struct csv_row *header)
{
	if (find_name(header, "month_total") < header->count)
		return "it is a yield, which is not added to tallies";
	if (find_name(header, "status") < header->count &&
	    find_name(header, "reason") < header->count)
		return "it is the ledger of an earlier collating";
	return NULL;
}

/* With a column `schema` the first row may still say what the table is. */
static bool
take_header(struct tallytable *table, const struct csv_row *header)
{
	const char *other = other_file(header);

	table->refusal->passed_over = other != NULL;
	if (other != NULL)
		return refuse(table, 0, "", "%s", other);
	for (size_t i = 0; i < TALLYTABLE_COLUMNS; i++)
		table->place[i] =
			find_name(header, tally_columns.field[i].name);
	if (table->place[0] == header->count)
		return refuse(table, 0, "",
			      "it is no tally: its first line has no column "
			      "'schema'");
	table->misfits = !check_names(table, header);
	table->refused = false;
	return true;
}

/* --- a row ---------------------------------------------------------------- */

static bool
is_header_again(const struct tallytable *table, const struct csv_row *row)
{
	return strcmp(row->value[table->place[0]],
		      tally_columns.field[0].name) == 0;
}

/* What can be said before any value is read. */
static bool
check_kind(struct tallytable *table, const struct csv_row *row)
{
	const char *schema;
	struct fault why;

	if (table->place[0] < row->count) {
		schema = row->value[table->place[0]];
		if (is_header_again(table, row))
			return refuse(table, row->row, "",
				      "the header comes again: files were put "
				      "one behind the other; give each by "
				      "itself");
		if (strcmp(schema, TALLY_SCHEMA) != 0 &&
		    strncmp(schema, TALLY_SCHEMA, strlen(schema)) != 0)
			return refuse(table, row->row, "schema",
				      "it is '%.40s', and only tables of "
				      "'" TALLY_SCHEMA "' are collated",
				      schema);
	}
	if (table->misfits) {
		table->refused = true;
		return false;
	}
	if (!csv_check_count(row, &why))
		return refuse(table, row->row, "",
			      "%s; the file was cut or changed; " ASK_ANEW,
			      why.sentence);
	return true;
}

static bool
read_value(struct tallytable *table, const struct csv_row *row, size_t column)
{
	const struct field *field = &tally_columns.field[column];
	const char *text = row->value[table->place[column]];
	struct fault why;

	if (text[0] == '\0')
		return refuse(table, row->row, field->name,
			      "it is empty; " ASK_ANEW);
	if (field->kind->read(field, text, (char *)&table->row + field->offset,
			      &why))
		return true;
	return refuse(table, row->row, field->name, "%s; " ASK_ANEW,
		      why.sentence);
}

/* The check letters are over the values as they stand in the file. */
static bool
check_letters(struct tallytable *table, const struct csv_row *row,
	      uint32_t *crc)
{
	char letters[TALLY_MARK_SIZE];
	struct mark mark;

	mark_init(&mark);
	for (size_t i = 0; i + 1 < TALLYTABLE_COLUMNS; i++)
		mark_add(&mark, row->value[table->place[i]]);
	mark_write(&mark, MARK_ROW_LETTERS, letters);
	*crc = mark.crc;
	if (strcmp(letters, table->row.check) == 0)
		return true;
	return refuse(table, row->row, "check",
		      "the letters do not fit the row, so a value was changed "
		      "after the program wrote it; " ASK_ANEW);
}

static bool
tell(struct tallytable *table, struct fault *why)
{
	table->tallies++;
	if (table->tallies > table->told &&
	    !table->see(table->context, table->gather, -table->tallies, why)) {
		table->stopped = true;
		return false;
	}
	gather_begin(table->gather);
	return true;
}

static bool
take_row(struct tallytable *table, const struct csv_row *row, struct fault *why)
{
	const char *column = "";
	struct fault fault;
	uint32_t crc;

	if (!check_kind(table, row))
		return false;
	for (size_t i = 0; i < TALLYTABLE_COLUMNS; i++)
		if (!read_value(table, row, i))
			return false;
	if (strcmp(table->row.schema, TALLY_SCHEMA) != 0)
		return refuse(table, row->row, "schema",
			      "it is not '" TALLY_SCHEMA "'; " ASK_ANEW);
	if (!check_letters(table, row, &crc))
		return false;
	if (!gather_add(table->gather, &table->row, crc, false, &column,
			&fault))
		return refuse(table, row->row, column, "%s", fault.sentence);
	table->refusal->row = row->row;
	return !gather_is_whole(table->gather) || tell(table, why);
}

static bool
see(void *context, const struct csv_row *row, struct fault *why)
{
	struct tallytable *table = context;

	if (row->row == 0)
		return take_header(table, row);
	return take_row(table, row, why);
}

/* --- the file ------------------------------------------------------------- */

static FILE *
open_again(int handle)
{
	int copy = dup(handle);
	FILE *in;

	if (copy < 0 || lseek(copy, 0, SEEK_SET) < 0) {
		if (copy >= 0)
			close(copy);
		return NULL;
	}
	in = fdopen(copy, "r");
	if (in == NULL)
		close(copy);
	return in;
}

/* What can be said only at the end. */
static bool
check_end(struct tallytable *table)
{
	long last = table->refusal->row;
	struct fault why;

	if (table->misfits) {
		table->refused = true;
		return false;
	}
	if (!gather_may_end(table->gather, &why))
		return refuse(table, last, "row", "%s", why.sentence);
	if (table->tallies == 0)
		return refuse(table, 0, "",
			      "there is no row below the header, so the file "
			      "was cut; " ASK_ANEW);
	return true;
}

bool
tallytable_read(struct tallytable *table, int handle, struct fault *why)
{
	FILE *in = open_again(handle);
	struct fault fault;
	bool done;

	table->tallies = 0;
	table->stopped = table->refused = table->misfits = false;
	table->refusal->row = 0;
	table->refusal->passed_over = false;
	gather_begin(table->gather);
	if (in == NULL)
		return refuse(table, 0, "", "it cannot be read: %s",
			      strerror(errno));
	done = csv_read_resaved(in, see, table, &fault);
	fclose(in);
	if (done)
		return check_end(table);
	if (table->stopped)
		*why = fault;
	else if (!table->refused)
		refuse(table, 0, "", "%s", fault.sentence);
	return false;
}
