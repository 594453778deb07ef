/* sheet.c: a typed sheet of records, all rows or none. */
#include "desk/sheet.h"

#include "keep/safefile.h"

#include <string.h>

static bool
take_column(struct sheet *sheet, const char *name, size_t index,
	    struct fault *why)
{
	const struct field *field = fields_find(sheet->fields, name);
	const struct field *nearest = fields_nearest(sheet->fields, name);

	if (field == NULL || field->origin != FIELD_TYPED)
		return fault_set(why, FAULT_INPUT,
				 "'%.40s' is not a column that is typed%s%s%s",
				 name,
				 nearest == NULL ? "" : "; did you mean '",
				 nearest == NULL ? "" : nearest->name,
				 nearest == NULL ? "" : "'?");
	sheet->column[index] = field;
	return true;
}

static bool
read_header(struct sheet *sheet, const struct csv_row *row, struct fault *why)
{
	for (size_t i = 0; i < row->count; i++)
		if (!take_column(sheet, row->value[i], i, why))
			return fault_at(why, "line %ld", row->line);
	for (const char *const *needed = sheet->needed; *needed != NULL;
	     needed++) {
		bool found = false;

		for (size_t i = 0; i < row->count; i++)
			found = found || strcmp(row->value[i], *needed) == 0;
		if (!found)
			return fault_set(why, FAULT_INPUT,
					 "the sheet has no column '%s'; it is "
					 "needed in every sheet",
					 *needed);
	}
	return sheet->head == NULL || sheet->head(sheet, row, why);
}

bool
sheet_read(const struct sheet *sheet, const struct csv_row *row, void *record,
	   struct fault *why)
{
	if (!csv_check_count(row, why))
		return false;
	for (size_t i = 0; i < row->count; i++) {
		bool preset = row->value[i][0] == '\0' &&
			      !field_is_blank(sheet->column[i], record);

		if (!preset &&
		    !field_read(sheet->column[i], row->value[i], record, why))
			return false;
	}
	return true;
}

static bool
see_row(void *context, const struct csv_row *row, struct fault *why)
{
	struct sheet *sheet = context;
	struct fault one;

	if (row->row == 0)
		return read_header(sheet, row, why);
	if (++sheet->rows > SHEET_ROWS_MOST)
		return fault_set(why, FAULT_INPUT,
				 "the sheet has more than %d rows; enter it in "
				 "parts",
				 SHEET_ROWS_MOST);
	if (sheet->row(sheet, row, sheet->keeping, &one))
		return true;
	if (sheet->keeping) {
		*why = one;
		return fault_at(why, "row %ld", row->row);
	}
	fault_at(&one, "row %ld (line %ld)", row->row, row->line);
	desk_hear(sheet->desk, &one);
	sheet->bad++;
	return true;
}

static bool
go_through(struct sheet *sheet, char *bytes, size_t length, struct fault *why)
{
	FILE *in = fmemopen(bytes, length == 0 ? 1 : length, "r");
	bool done;

	if (in == NULL)
		return fault_set(why, FAULT_INTERNAL,
				 "there is not enough memory for the sheet");
	sheet->rows = 0;
	done = csv_read(in, see_row, sheet, why);
	fclose(in);
	return done;
}

static bool
keep_all(struct sheet *sheet, char *bytes, size_t length, struct fault *why)
{
	struct book *book = &sheet->desk->book;

	sheet->keeping = true;
	if (!register_begin(book, why))
		return false;
	if (go_through(sheet, bytes, length, why) && register_commit(book, why))
		return true;
	register_undo(book);
	return false;
}

bool
sheet_enter(struct sheet *sheet, const char *path, struct fault *why)
{
	char bytes[SHEET_BYTES_MOST];
	size_t length;

	if (!safefile_read(path, bytes, sizeof bytes, &length, FAULT_INPUT,
			   why) ||
	    !go_through(sheet, bytes, length, why))
		return false;
	if (sheet->bad > 0)
		return fault_set(why, FAULT_INPUT,
				 "%ld of %ld rows are refused, so nothing was "
				 "saved; correct them and enter the sheet "
				 "again",
				 sheet->bad, sheet->rows);
	if (sheet->rows == 0)
		return fault_set(why, FAULT_INPUT, "the sheet has no row");
	return (sheet->may_keep == NULL || sheet->may_keep(sheet, why)) &&
	       keep_all(sheet, bytes, length, why);
}
