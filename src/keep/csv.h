/* csv.h: rows of values, as RFC 4180 writes them. */
#ifndef SHOAL_KEEP_CSV_H
#define SHOAL_KEEP_CSV_H

#include "base/fault.h"

#include <stddef.h>
#include <stdio.h>

/*
 * Reading is strict and goes row by row through libcsv: UTF-8 (one byte-order
 * mark at the start is dropped), comma, LF or CRLF, quotes only where RFC 4180
 * has them. Refused as a whole, with the line: NUL bytes, UTF-16, invalid
 * UTF-8, lines that end in CR alone, a quote in the wrong place, an open quote
 * at the end, a row over CSV_LINE_MOST bytes, a header with a name twice or a
 * column without a name, a header that is one column with semicolons or tabs
 * in it. "As a whole" means that csv_read returns false; rows before the
 * refused one were seen.
 */
enum {
	CSV_LINE_MOST = 4096, /* bytes of one row, without its line end */
	CSV_COLUMNS_MOST = 64
};

/* One row. Values are NUL-terminated, trimmed of spaces and tabs at both ends
 * unless quoted, and live until the visit returns. */
struct csv_row {
	long line;	/* line of the file on which the row begins, from 1 */
	long row;	/* row of data from 1; 0 = the header */
	size_t columns; /* of the header */
	size_t count;	/* values here: see csv_check_count */
	const char *value[CSV_COLUMNS_MOST];
};

/* Called for the header (row 0) and then for each row that is not blank: lines
 * without anything, and rows of nothing but commas as spreadsheets leave them
 * below a table, are passed over and not numbered. False stops the reading;
 * the fault it set is handed up as it is. */
typedef bool csv_see(void *context, const struct csv_row *row,
		     struct fault *why);

/* Whether the row has a value for each column: to be asked of every row before
 * its values are used, so that one bad row need not spoil the others. */
bool csv_check_count(const struct csv_row *row, struct fault *why);

/* Reads all of `in`. FAULT_INPUT when the file is refused, FAULT_OUTPUT never.
 * An empty file (no header) is refused. */
bool csv_read(FILE *in, csv_see *see, void *context, struct fault *why);

/* The same for a file that a spreadsheet may have saved again: commas,
 * semicolons or tabs, as the header has them or a first line "sep=;" says;
 * empty columns behind the last one of the header are passed over. */
bool csv_read_resaved(FILE *in, csv_see *see, void *context, struct fault *why);

/* Writes one value, quoted only when it holds a comma, a quote, a semicolon, a
 * tab, CR, LF or a space at either end; `first` false puts a comma before. A
 * row of a single empty value would be a blank line. (csv_write is a name of
 * libcsv.) */
void csv_write_value(FILE *out, const char *value, bool first);

/* Ends the row with LF. */
void csv_end_row(FILE *out);

#endif
