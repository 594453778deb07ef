/* batchtable.c: the batches of a file as any writer of CSV leaves it. */
#include "keep/batchtable.h"

#include "base/mark.h"
#include "keep/csv.h"

#include <assert.h>
#include <errno.h>
#include <stdarg.h>
#include <string.h>
#include <unistd.h>

#define ASK_ANEW "ask the station for the file anew"
#define ASK_UNSAVED ASK_ANEW ", and do not save it from a spreadsheet"

static_assert((int)CSV_COLUMNS_MOST == (int)BATCHTABLE_COLUMNS, "there is a "
								"place for "
								"every column "
								"that a file "
								"may have");

__attribute__((format(printf, 4, 5))) static bool
refuse(struct batchtable *table, long row, const char *column,
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
check_names(struct batchtable *table, const struct csv_row *header)
{
	struct fields columns = *table->kind->columns;

	for (size_t i = 0; i < columns.count; i++)
		if (table->place[i] == header->count)
			return refuse(table, 0, columns.field[i].name,
				      "this column is missing; " ASK_UNSAVED);
	for (size_t i = 0; i < header->count; i++)
		if (fields_find(columns, header->value[i]) == NULL)
			return refuse(table, 0, "",
				      "a %s has no column '%.60s'; was it "
				      "added later? " ASK_UNSAVED,
				      table->kind->what, header->value[i]);
	return true;
}

/* What lies beside these files as a rule and is none of them, or NULL. */
static const char *
other_file(const struct batchtable *table, const struct csv_row *header)
{
	const struct batch_other *other = table->kind->other;

	for (; other->column != NULL; other++)
		if (find_name(header, other->column) < header->count &&
		    find_name(header, other->and_column) < header->count &&
		    (other->without == NULL ||
		     find_name(header, other->without) == header->count))
			return other->sentence;
	return NULL;
}

static bool
refuse_headless(struct batchtable *table)
{
	return refuse(table, 0, "",
		      "the first line is a row already, so the header was "
		      "taken out; " ASK_ANEW);
}

/* With a column `schema` the first row may still say what the table is. */
static bool
take_header(struct batchtable *table, const struct csv_row *header)
{
	const struct batch_kind *kind = table->kind;
	const char *other = other_file(table, header);

	table->refusal->passed_over = other != NULL;
	if (other != NULL)
		return refuse(table, 0, "", "%s", other);
	for (size_t i = 0; i < kind->columns->count; i++)
		table->place[i] =
			find_name(header, kind->columns->field[i].name);
	if (find_name(header, kind->schema) < header->count)
		return refuse_headless(table);
	if (table->place[0] == header->count)
		return refuse(table, 0, "",
			      "it is no %s: its first line has no column "
			      "'schema'; take it away if it is none, "
			      "else " ASK_ANEW,
			      kind->what);
	table->misfits = !check_names(table, header);
	table->refused = false;
	return true;
}

/* --- a row ---------------------------------------------------------------- */

/* Of a schema that is another one, or none. */
static bool
refuse_schema(struct batchtable *table, long row, const char *schema)
{
	const struct batch_kind *kind = table->kind;
	size_t name = strlen(kind->schema) - 1; /* without its number */

	if (strncmp(schema, kind->schema, name) == 0 &&
	    strspn(schema + name, "0123456789") == strlen(schema + name))
		return refuse(table, row, "schema",
			      "it is '%.40s', which another version of the "
			      "program wrote, and this one reads '%s'; collate "
			      "with the newer of the two",
			      schema, kind->schema);
	return refuse(table, row, "schema",
		      "it is '%.40s', and every row of a %s has '%s' here; was "
		      "a row added or changed? " ASK_UNSAVED,
		      schema, kind->what, kind->schema);
}

/* What can be said before any value is read. */
static bool
check_kind(struct batchtable *table, const struct csv_row *row)
{
	const struct batch_kind *kind = table->kind;
	const char *schema;
	struct fault why;

	if (table->place[0] < row->count) {
		schema = row->value[table->place[0]];
		if (strcmp(schema, kind->columns->field[0].name) == 0)
			return refuse(table, row->row, "",
				      "the header comes again: files were put "
				      "one behind the other; give each by "
				      "itself");
		if (strcmp(schema, kind->schema) != 0 &&
		    strncmp(schema, kind->schema, strlen(schema)) != 0)
			return refuse_schema(table, row->row, schema);
	}
	if (table->misfits) {
		table->refused = true;
		return false;
	}
	if (!csv_check_count(row, &why))
		return refuse(table, row->row, "",
			      "%s; the file was cut or changed; " ASK_UNSAVED,
			      why.sentence);
	return true;
}

static bool
read_value(struct batchtable *table, const struct csv_row *row, size_t column)
{
	const struct field *field = &table->kind->columns->field[column];
	const char *text = row->value[table->place[column]];
	struct fault why;

	if (text[0] == '\0' &&
	    strcmp(field->name, table->kind->may_be_empty) == 0) {
		field_blank(field, table->row);
		return true;
	}
	if (text[0] == '\0')
		return refuse(table, row->row, field->name,
			      "it is empty; " ASK_UNSAVED);
	if (field->kind->read(field, text, (char *)table->row + field->offset,
			      &why))
		return true;
	return refuse(table, row->row, field->name, "%s; " ASK_UNSAVED,
		      why.sentence);
}

/* The check letters are over the values as they stand in the file. */
static bool
check_letters(struct batchtable *table, const struct csv_row *row,
	      uint32_t *crc)
{
	size_t last = table->kind->columns->count - 1;
	char letters[FIELDS_MARK_SIZE];
	struct mark mark;

	mark_init(&mark);
	for (size_t i = 0; i < last; i++)
		mark_add(&mark, row->value[table->place[i]]);
	mark_write(&mark, MARK_ROW_LETTERS, letters);
	*crc = mark.crc;
	if (strcmp(letters, row->value[table->place[last]]) == 0)
		return true;
	return refuse(table, row->row, table->kind->columns->field[last].name,
		      "the letters do not fit the row, so a value was changed "
		      "after the program wrote it; " ASK_UNSAVED);
}

static bool
tell(struct batchtable *table, struct fault *why)
{
	table->batches++;
	if (table->batches > table->told &&
	    !table->see(table->context, table->gather, -table->batches, why)) {
		table->stopped = true;
		return false;
	}
	table->kind->begin(table->gather);
	return true;
}

/* What a row says of itself comes before its letters: they are wrong whatever
 * was changed, and tell less. */
static bool
take_row(struct batchtable *table, const struct csv_row *row, struct fault *why)
{
	const struct batch_kind *kind = table->kind;
	const char *column = "";
	struct fault fault;
	uint32_t crc;

	if (!check_kind(table, row))
		return false;
	for (size_t i = 0; i < kind->columns->count; i++)
		if (!read_value(table, row, i))
			return false;
	if (strcmp(row->value[table->place[0]], kind->schema) != 0)
		return refuse_schema(table, row->row,
				     row->value[table->place[0]]);
	if (!kind->check(table->row, &column, &fault))
		return refuse(table, row->row, column, "%s", fault.sentence);
	if (!check_letters(table, row, &crc))
		return false;
	if (!kind->add(table->gather, table->row, crc, false, &column, &fault))
		return refuse(table, row->row, column, "%s", fault.sentence);
	table->refusal->row = row->row;
	return !batch_is_whole(table->gather) || tell(table, why);
}

static bool
see(void *context, const struct csv_row *row, struct fault *why)
{
	struct batchtable *table = context;

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
check_end(struct batchtable *table)
{
	long last = table->refusal->row;
	struct fault why;

	if (table->misfits) {
		table->refused = true;
		return false;
	}
	if (!batch_may_end(table->gather, table->kind, &why))
		return refuse(table, last, "row", "%s", why.sentence);
	if (table->batches == 0)
		return refuse(table, 0, "",
			      "there is no row below the header, so the file "
			      "was cut; " ASK_UNSAVED);
	return true;
}

/* Whether the file begins with a row; its counts, taken for names of columns,
 * stand there twice. */
static bool
begins_with_row(const struct batchtable *table, int handle)
{
	char bytes[32];
	ssize_t got = pread(handle, bytes, sizeof bytes, 0);
	size_t length = strlen(table->kind->schema), at = 0;

	if (got >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0)
		at = 3;
	if (got > (ssize_t)at && bytes[at] == '"')
		at++;
	return got >= (ssize_t)(at + length) &&
	       memcmp(bytes + at, table->kind->schema, length) == 0;
}

/* The reader of CSV says how a file is to be saved, or only what is wrong. */
static bool
refuse_table(struct batchtable *table, int handle, const char *sentence)
{
	if (begins_with_row(table, handle))
		return refuse_headless(table);
	return refuse(table, 0, "", "%s%s", sentence,
		      strstr(sentence, "; save it as ") == NULL
			      ? "; " ASK_UNSAVED
			      : ", or " ASK_ANEW);
}

bool
batchtable_read(struct batchtable *table, int handle, struct fault *why)
{
	FILE *in = open_again(handle);
	struct fault fault;
	bool done;

	table->batches = 0;
	table->stopped = table->refused = table->misfits = false;
	table->refusal->row = 0;
	table->refusal->passed_over = false;
	table->kind->begin(table->gather);
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
		refuse_table(table, handle, fault.sentence);
	return false;
}
