/* tallycase.h: tallies in a file without a name, read and told of, for tests.
 */
#ifndef SHOAL_TESTS_KEEP_TALLYCASE_H
#define SHOAL_TESTS_KEEP_TALLYCASE_H

#include "base/mark.h"
#include "keep/tallyfile.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { CASE_SIZE = 65536, CASE_COLUMNS = 48, CASE_ROWS = 8 };

/* The values of a table, the header as row 0. */
struct casetable {
	int rows, columns;
	char value[CASE_ROWS][CASE_COLUMNS][64];
};

/* Made by hand from the format's words, not by the program's writer. */
static const char case_header[] =
	"schema,programme,site,station,device,date,revision,state,policy,sex,"
	"age_band,screened,same_day,urgent,routine,no_referral,depth_0,"
	"depth_5,depth_15,depth_25,depth_40,depth_75,depth_100,not_gradable,"
	"with_symptoms,late_entries,row,rows,day_total,check";
static const char *const case_rows[] = {"F,40-49,10,1,2,3,4,1,1,1,1,1,2,2,1,5,"
					"0,1,3,1214",
					"M,70+,1203,3,100,100,1000,3,0,0,0,100,"
					"100,1000,0,5,1,2,3,1214",
					"unknown,unknown,1,0,0,0,1,0,0,0,0,0,0,"
					"1,0,0,0,3,3,1214"};

static inline void
case_split(const char *line, struct casetable *table)
{
	int column = 0;

	for (;;) {
		size_t length = strcspn(line, ",");

		snprintf(table->value[table->rows][column++], 64, "%.*s",
			 (int)length, line);
		line += length;
		if (*line++ == '\0')
			break;
	}
	if (table->rows++ == 0)
		table->columns = column;
}

/* The letters of a row over its values as they stand. */
static inline void
case_sign(struct casetable *table, int row)
{
	struct mark mark;

	mark_init(&mark);
	for (int i = 0; i + 1 < table->columns; i++)
		mark_add(&mark, table->value[row][i]);
	mark_write(&mark, MARK_ROW_LETTERS,
		   table->value[row][table->columns - 1]);
}

static inline void
case_add(struct casetable *table, const char *head, const char *rest)
{
	char line[1000];

	snprintf(line, sizeof line, "%s,%s,", head, rest);
	case_split(line, table);
	case_sign(table, table->rows - 1);
}

/* One tally of three rows. */
static inline void
case_begin(struct casetable *table)
{
	static const char head[] = "shoal-tally-1,Lantern Valley Eye "
				   "Programme,Mavi school hall,"
				   "0014,QWERTZ,2026-03-10,2,closed,VYZXCS";

	table->rows = 0;
	case_split(case_header, table);
	for (size_t i = 0; i < sizeof case_rows / sizeof case_rows[0]; i++)
		case_add(table, head, case_rows[i]);
}

static inline int
case_column(const struct casetable *table, const char *name)
{
	int column = 0;

	while (column < table->columns &&
	       strcmp(table->value[0][column], name) != 0)
		column++;
	cr_assert(column < table->columns, "no column %s", name);
	return column;
}

/* How it is written. */
struct casestyle {
	const char *before; /* the header */
	char delimiter;
	const char *end; /* of a line */
	bool quoted;
	const char *behind; /* the last column */
	bool backwards;	    /* the columns */
};

static inline size_t
case_write(const struct casetable *table, const struct casestyle *style,
	   char *text)
{
	FILE *out = fmemopen(text, CASE_SIZE, "w");
	const char *quote = style->quoted ? "\"" : "";
	long length;

	cr_assert_not_null(out);
	fputs(style->before, out);
	for (int row = 0; row < table->rows; row++) {
		for (int i = 0; i < table->columns; i++) {
			int column = style->backwards ? table->columns - 1 - i
						      : i;

			if (i > 0)
				putc(style->delimiter, out);
			fprintf(out, "%s%s%s", quote, table->value[row][column],
				quote);
		}
		fprintf(out, "%s%s", style->behind, style->end);
	}
	length = ftell(out);
	fclose(out);
	return (size_t)length;
}

static const struct casestyle case_own = {"", ',', "\n", false, "", false};

/* --- reading -------------------------------------------------------------- */

/* A file without a name, and what was told of it. */
struct casefile {
	FILE *bytes;
	int handle;
	struct tallyfile *file;
	struct refusal refusal;
	int tallies;
	int revision;
	long long people, depth_25, place;
	uint64_t mark;
};

static inline void
casefile_begin(struct casefile *file)
{
	memset(file, 0, sizeof *file);
	file->bytes = tmpfile();
	cr_assert_not_null(file->bytes);
	file->handle = fileno(file->bytes);
	file->file = malloc(sizeof *file->file);
	cr_assert_not_null(file->file);
	tallyfile_begin(file->file);
}

static inline void
casefile_release(struct casefile *file)
{
	fclose(file->bytes);
	free(file->file);
}

static inline bool
case_see(void *context, const struct batch *batch, long long place,
	 struct fault *why)
{
	struct casefile *file = context;
	const struct gather *tally = &file->file->gather;

	(void)why;
	cr_assert(batch == &tally->batch && batch_is_whole(batch));
	file->tallies++;
	file->revision = batch->revision;
	file->mark = file->mark * 31 + batch->mark;
	file->place = place;
	for (int i = 0; i < batch->count; i++) {
		file->people += tally->row[i].counts.screened;
		file->depth_25 += tally->row[i].counts.depth_25;
	}
	return true;
}

static inline void
casefile_put(struct casefile *file, const char *bytes, size_t length)
{
	cr_assert(ftruncate(file->handle, (off_t)length) == 0 &&
		  pwrite(file->handle, bytes, length, 0) == (ssize_t)length);
}

static inline enum tallyfile_end
casefile_read(struct casefile *file, size_t length, bool as_csv)
{
	struct fault why;

	file->tallies = 0;
	file->people = file->depth_25 = 0;
	file->mark = 0;
	file->refusal.column = "";
	return tallyfile_read(file->file, file->handle, (long long)length,
			      as_csv, case_see, file, &file->refusal, &why);
}

#endif
