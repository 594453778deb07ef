/* sheet.h: a typed sheet of records, all rows or none. */
#ifndef SHOAL_DESK_SHEET_H
#define SHOAL_DESK_SHEET_H

#include "base/fault.h"
#include "base/field.h"
#include "desk/desk.h"
#include "keep/csv.h"

enum { SHEET_ROWS_MOST = 2000, SHEET_BYTES_MOST = 1 << 20 };

struct sheet;

/* Reads a row into a record and checks it; with `keeping` it is then saved. A
 * fault of the first pass is told with its row; one while keeping undoes all.
 */
typedef bool sheet_row(struct sheet *sheet, const struct csv_row *row,
		       bool keeping, struct fault *why);

/* Checks the header once its columns are known. */
typedef bool sheet_head(const struct sheet *sheet, const struct csv_row *row,
			struct fault *why);

struct sheet {
	struct desk *desk;
	struct fields fields;	   /* those that are typed may be columns */
	const char *const *needed; /* columns, NULL after the last */
	sheet_head *head;	   /* or NULL */
	sheet_row *row;
	/* Asked when every row is sound, before anything is kept; or NULL. */
	bool (*may_keep)(const struct sheet *sheet, struct fault *why);
	void *context; /* the caller's */
	/* Known from the header on. */
	const struct field *column[CSV_COLUMNS_MOST];
	long rows, bad;
	bool keeping;
};

/*
 * Enters the sheet at `path` ("-" is standard input). It is gone through
 * twice: once to find every fault, so that all are told before anything is
 * kept, and once to keep the rows in one transaction. Only when this returns
 * true may anything be announced.
 */
bool sheet_enter(struct sheet *sheet, const char *path, struct fault *why);

/* Reads the values of a row into the record. An empty one leaves what the
 * caller has put there. */
bool sheet_read(const struct sheet *sheet, const struct csv_row *row,
		void *record, struct fault *why);

#endif
