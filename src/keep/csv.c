/* csv.c: rows of values, as RFC 4180 writes them. */
#include "keep/csv.h"

#include "base/text.h"

#include <csv.h>

#include <errno.h>
#include <stdarg.h>
#include <string.h>

#define HOW_TO_SAVE "save it as \"CSV UTF-8\", with commas"

/*
 * libcsv cannot stop and tells neither line nor column, so it is fed line by
 * line, and its callbacks do nothing more once `refused` is set. CSV_REPALL_NL
 * makes it report every line end outside of quotes, which is how a row that
 * goes on in the next line is told from one that ended.
 */
struct reader {
	struct csv_parser parser;
	csv_see *see;
	void *context;
	struct fault *why;
	bool refused;
	bool resaved;	   /* perhaps by a spreadsheet */
	bool row_ended;	   /* a line end outside of quotes was reported */
	long line;	   /* being fed */
	size_t row_bytes;  /* fed of this row */
	size_t cells_used; /* bytes */
	struct csv_row row;
	/* Values are never longer than the row they stand in; each has a NUL
	 * where that had a comma or a line end. */
	char cells[CSV_LINE_MOST + 4];
	char bytes[CSV_LINE_MOST + 4];
};

__attribute__((format(printf, 3, 4))) static void
refuse(struct reader *reader, long line, const char *format, ...)
{
	char sentence[FAULT_SENTENCE_SIZE];
	va_list arguments;

	if (reader->refused)
		return;
	reader->refused = true;
	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	fault_set(reader->why, FAULT_INPUT, "%s", sentence);
	fault_at(reader->why, "line %ld", line);
}

/* --- what libcsv reports -------------------------------------------------- */

static void
take_value(void *bytes, size_t length, void *context)
{
	struct reader *reader = context;
	char *cell = reader->cells + reader->cells_used;
	const struct csv_row *row = &reader->row;

	if (reader->refused)
		return;
	if (row->count == CSV_COLUMNS_MOST ||
	    length >= sizeof reader->cells - reader->cells_used) {
		refuse(reader, row->line,
		       "it has more than %d values; no table here is so wide",
		       CSV_COLUMNS_MOST);
		return;
	}
	if (length > 0)
		memcpy(cell, bytes, length);
	cell[length] = '\0';
	reader->cells_used += length + 1;
	reader->row.value[reader->row.count++] = cell;
}

static void
check_header(struct reader *reader)
{
	const struct csv_row *row = &reader->row;

	if (row->count == 1 && strpbrk(row->value[0], ";\t") != NULL)
		refuse(reader, row->line,
		       "the columns are parted by semicolons or "
		       "tabs; " HOW_TO_SAVE);
	for (size_t i = 0; i < row->count; i++) {
		if (row->value[i][0] == '\0')
			refuse(reader, row->line,
			       "column %zu of the header has no name", i + 1);
		for (size_t j = 0; j < i; j++)
			if (strcmp(row->value[i], row->value[j]) == 0)
				refuse(reader, row->line,
				       "the header has the column '%.60s' "
				       "twice",
				       row->value[i]);
	}
	reader->row.columns = row->count;
}

bool
csv_check_count(const struct csv_row *row, struct fault *why)
{
	if (row->count == row->columns)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "it has %zu value%s, but the header has %zu column%s",
			 row->count, row->count == 1 ? "" : "s", row->columns,
			 row->columns == 1 ? "" : "s");
}

/* Empty columns behind the last one, as spreadsheets leave them. */
static void
drop_spare(struct csv_row *row)
{
	while (row->count > row->columns &&
	       row->value[row->count - 1][0] == '\0')
		row->count--;
}

static bool
holds_nothing(const struct csv_row *row)
{
	for (size_t i = 0; i < row->count; i++)
		if (row->value[i][0] != '\0')
			return false;
	return true;
}

static void
see_row(struct reader *reader)
{
	struct csv_row *row = &reader->row;
	bool is_header = row->columns == 0;

	if (reader->resaved)
		drop_spare(row);
	if (row->count == 0)
		return;
	if (is_header)
		check_header(reader);
	if (reader->refused || (!is_header && holds_nothing(row)))
		return;
	if (!is_header)
		row->row++;
	if (!reader->see(reader->context, row, reader->why))
		reader->refused = true;
}

static void
take_line_end(int ended_by, void *context)
{
	struct reader *reader = context;

	(void)ended_by;
	reader->row_ended = true;
	if (!reader->refused && reader->row.count > 0)
		see_row(reader);
	reader->row.count = 0;
	reader->cells_used = 0;
}

/* --- feeding it ----------------------------------------------------------- */

/* Reads to the next LF or the end. At most three bytes past the limit are
 * taken: a byte too many, or CR and LF. */
static size_t
next_line(FILE *in, char *bytes)
{
	size_t length = 0;
	int c;

	while (length < CSV_LINE_MOST + 3 && (c = getc_unlocked(in)) != EOF) {
		bytes[length++] = (char)c;
		if (c == '\n')
			break;
	}
	return length;
}

static bool
has_utf16_mark(const char *bytes, size_t length)
{
	return length >= 2 && (memcmp(bytes, "\xff\xfe", 2) == 0 ||
			       memcmp(bytes, "\xfe\xff", 2) == 0);
}

static size_t
length_without_end(const char *bytes, size_t length)
{
	if (length > 0 && bytes[length - 1] == '\n')
		length--;
	if (length > 0 && bytes[length - 1] == '\r')
		length--;
	return length;
}

static void
check_bytes(struct reader *reader, size_t length)
{
	const char *bytes = reader->bytes;
	size_t held = length_without_end(bytes, length);

	if (reader->line == 1 && has_utf16_mark(bytes, length))
		refuse(reader, 1, "the file is UTF-16; " HOW_TO_SAVE);
	else if (memchr(bytes, '\0', length) != NULL)
		refuse(reader, reader->line,
		       "it holds a NUL byte, as UTF-16 and damaged files "
		       "do; " HOW_TO_SAVE);
	else if (reader->row_bytes + held > CSV_LINE_MOST)
		refuse(reader, reader->row.line,
		       "the row is longer than %d bytes; perhaps a quote was "
		       "opened and not closed",
		       CSV_LINE_MOST);
	else if (!text_is_utf8(bytes, length))
		refuse(reader, reader->line,
		       "it is not valid UTF-8; " HOW_TO_SAVE);
}

static void
feed(struct reader *reader, const char *bytes, size_t length)
{
	if (csv_parse(&reader->parser, bytes, length, take_value, take_line_end,
		      reader) == length)
		return;
	if (csv_error(&reader->parser) == CSV_EPARSE)
		refuse(reader, reader->line,
		       "a quote stands where none may; a value with quotes is "
		       "put in quotes, and each quote in it is doubled");
	else
		refuse(reader, reader->line, "there is not enough memory");
}

/* Ends a piece at every CR that is alone: outside of quotes libcsv would take
 * it for a line end, and the lines would be counted wrongly. */
static void
feed_line(struct reader *reader, const char *bytes, size_t length)
{
	size_t held = length_without_end(bytes, length);

	reader->row_ended = false;
	while (!reader->refused && length > 0) {
		const char *lone = memchr(bytes, '\r', held);
		size_t piece = length;

		if (lone == NULL && held + 1 == length && bytes[held] == '\r')
			lone = bytes + held;
		if (lone != NULL)
			piece = (size_t)(lone - bytes) + 1;
		feed(reader, bytes, piece);
		if (lone != NULL && reader->row_ended)
			refuse(reader, reader->line,
			       "the line ends in CR alone, as on old "
			       "machines; " HOW_TO_SAVE);
		bytes += piece;
		length -= piece;
		held -= piece < held ? piece : held;
	}
}

/* Before the header: takes what parts the columns from it, or from a line that
 * says nothing else. False for such a line, which is not to be read. */
static bool
find_delimiter(struct reader *reader, const char *line, size_t length)
{
	size_t at = 0;

	if (!reader->resaved || reader->row.columns > 0)
		return true;
	if (length_without_end(line, length) == 5 &&
	    memcmp(line, "sep=", 4) == 0 && strchr(",;\t", line[4]) != NULL) {
		csv_set_delim(&reader->parser, (unsigned char)line[4]);
		return false;
	}
	while (at < length && strchr(",;\t", line[at]) == NULL)
		at++;
	if (at < length)
		csv_set_delim(&reader->parser, (unsigned char)line[at]);
	return true;
}

static void
read_lines(struct reader *reader, FILE *in)
{
	size_t length, skip;

	while (!reader->refused &&
	       (length = next_line(in, reader->bytes)) > 0) {
		reader->line++;
		if (reader->row_bytes == 0)
			reader->row.line = reader->line;
		skip = reader->line == 1 && length >= 3 &&
				       memcmp(reader->bytes, "\xef\xbb\xbf",
					      3) == 0
			       ? 3
			       : 0;
		check_bytes(reader, length);
		if (reader->refused ||
		    !find_delimiter(reader, reader->bytes + skip,
				    length - skip))
			continue;
		feed_line(reader, reader->bytes + skip, length - skip);
		reader->row_bytes =
			reader->row_ended ? 0 : reader->row_bytes + length;
	}
}

static void
finish(struct reader *reader, FILE *in)
{
	if (reader->refused)
		return;
	if (ferror(in))
		refuse(reader, reader->line + 1, "it cannot be read: %s",
		       strerror(errno));
	else if (csv_fini(&reader->parser, take_value, take_line_end, reader) !=
		 0)
		refuse(reader, reader->row.line,
		       "a quote is opened in this row and never closed");
	if (!reader->refused && reader->row.columns == 0) {
		reader->refused = true;
		fault_set(reader->why, FAULT_INPUT,
			  "the file is empty; a header of column names is "
			  "needed");
	}
}

static bool
read_all(FILE *in, bool resaved, csv_see *see, void *context, struct fault *why)
{
	struct reader reader = {
		.see = see, .context = context, .why = why, .resaved = resaved};

	if (csv_init(&reader.parser, CSV_STRICT | CSV_STRICT_FINI |
					     CSV_APPEND_NULL | CSV_REPALL_NL) !=
	    0)
		return fault_set(why, FAULT_INTERNAL,
				 "the reader of CSV files could not be set "
				 "up");
	read_lines(&reader, in);
	finish(&reader, in);
	csv_free(&reader.parser);
	return !reader.refused;
}

bool
csv_read(FILE *in, csv_see *see, void *context, struct fault *why)
{
	return read_all(in, false, see, context, why);
}

bool
csv_read_resaved(FILE *in, csv_see *see, void *context, struct fault *why)
{
	return read_all(in, true, see, context, why);
}

/* --- writing -------------------------------------------------------------- */

static bool
needs_quotes(const char *value)
{
	size_t length = strlen(value);

	return strpbrk(value, ",\";\t\r\n") != NULL || value[0] == ' ' ||
	       (length > 0 && value[length - 1] == ' ');
}

void
csv_write_value(FILE *out, const char *value, bool first)
{
	bool quoted = needs_quotes(value);

	if (!first)
		putc(',', out);
	if (quoted)
		putc('"', out);
	for (; *value != '\0'; value++) {
		if (*value == '"')
			putc('"', out);
		putc(*value, out);
	}
	if (quoted)
		putc('"', out);
}

void
csv_end_row(FILE *out)
{
	putc('\n', out);
}
