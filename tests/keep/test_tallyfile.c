/* Tests of keep/tallyfile: what a spreadsheet may do to a tally, and what it
 * may not. */
#include "keep/tallyfile.h"

#include "tallycase.h"

#define PLAIN                                                           \
	"ask the station for the file anew, and do not save it from a " \
	"spreadsheet"
#define UNSAVED "; " PLAIN
#define ANEW "; ask the station for the file anew"
#define NUMBER "is not a plain whole number; allowed are 0 to 99999 people"
#define UTF8                                                                   \
	"; save it as \"CSV UTF-8\", with commas, or ask the station for the " \
	"file anew"

Test(tallyfile, a_tally_saved_again_is_the_same_tally)
{
	static const struct casestyle styles[] = {
		{"", ',', "\n", false, "", false},
		{"", ';', "\n", false, "", false},
		{"", '\t', "\n", false, "", false},
		{"\xef\xbb\xbf", ',', "\n", false, "", false},
		{"", ',', "\r\n", false, "", false},
		{"", ',', "\n", true, "", false},
		{"", ',', "\n", false, ",,,", false},
		{"sep=;\n", ';', "\n", false, "", false},
		{"sep=,\r\n", ',', "\r\n", false, "", false},
		{"sep=\t\n", '\t', "\n", true, "", false},
		{"", ',', "\n", false, "", true},
		{"\xef\xbb\xbfsep=;\r\n", ';', "\r\n", true, ";;", true},
		{"\n\r\n", ',', "\n\n", false, "", false},
	};
	char text[CASE_SIZE];
	struct casetable table;
	struct casefile file;
	uint64_t mark = 0;

	case_begin(&table);
	casefile_begin(&file);
	for (size_t i = 0; i < sizeof styles / sizeof styles[0]; i++) {
		size_t length = case_write(&table, &styles[i], text);

		casefile_put(&file, text, length);
		cr_expect_eq(casefile_read(&file, length, false),
			     TALLYFILE_READ, "row %zu: %s", i,
			     file.refusal.fault.sentence);
		if (i == 0)
			mark = file.mark;
		cr_expect(file.tallies == 1 && file.people == 1214 &&
				  file.depth_25 == 1 && file.revision == 2,
			  "row %zu", i);
		cr_expect_eq(file.mark, mark, "row %zu: other content", i);
		cr_expect_eq(file.place<0, i> 0, "row %zu: its reader", i);
	}
	casefile_release(&file);
}

/* A value put in the place of another, its row signed anew or not. */
struct change {
	int row;
	const char *column, *value;
	long at_row;
	const char *at_column, *reason;
};

static void
expect_refused(struct casefile *file, const char *text, size_t length,
	       const struct change *change, const char *place, size_t i)
{
	enum tallyfile_end end;

	casefile_put(file, text, length);
	end = casefile_read(file, length, false);
	cr_expect_eq(end, TALLYFILE_REFUSED, "%s %zu: not refused", place, i);
	if (end != TALLYFILE_REFUSED)
		return;
	cr_expect_eq(file->refusal.row, change->at_row, "%s %zu: row %ld",
		     place, i, file->refusal.row);
	cr_expect_str_eq(file->refusal.column, change->at_column,
			 "%s %zu: column %s", place, i, file->refusal.column);
	cr_expect_str_eq(file->refusal.fault.sentence, change->reason,
			 "%s %zu: %s", place, i, file->refusal.fault.sentence);
}

/* No letters are signed anew: this is what other programs do. */
static const struct change changes[] = {
	{2, "screened", "1,203", 2, "screened", "'1,203' " NUMBER UNSAVED},
	{2, "screened", "1.203", 2, "screened", "'1.203' " NUMBER UNSAVED},
	{2, "screened", "1 203", 2, "screened", "'1 203' " NUMBER UNSAVED},
	{2, "screened", "1'203", 2, "screened", "'1'203' " NUMBER UNSAVED},
	{2, "screened", "1\u00a0203", 2, "screened",
	 "'1\u00a0203' " NUMBER UNSAVED},
	{2, "screened", "1\u202f203", 2, "screened",
	 "'1\u202f203' " NUMBER UNSAVED},
	{2, "screened", "1.2E+03", 2, "screened", "'1.2E+03' " NUMBER UNSAVED},
	{1, "screened", "10,0", 1, "screened", "'10,0' " NUMBER UNSAVED},
	{1, "screened", "10.0", 1, "screened", "'10.0' " NUMBER UNSAVED},
	{1, "screened", "010", 1, "screened", "'010' " NUMBER UNSAVED},
	{1, "screened", "+10", 1, "screened", "'+10' " NUMBER UNSAVED},
	{1, "screened", "-10", 1, "screened", "'-10' " NUMBER UNSAVED},
	{1, "screened", "=10", 1, "screened", "'=10' " NUMBER UNSAVED},
	{1, "screened", "ten", 1, "screened", "'ten' " NUMBER UNSAVED},
	{1, "screened", "NaN", 1, "screened", "'NaN' " NUMBER UNSAVED},
	{1, "screened", "", 1, "screened", "it is empty" UNSAVED},
	{1, "screened", "100000", 1, "screened",
	 "100000 is out of range; allowed are 0 to 99999 people" UNSAVED},
	/* Digits of other scripts: Arabic, Devanagari, full width. */
	{1, "routine", "\u0663", 1, "routine", "'\u0663' " NUMBER UNSAVED},
	{1, "routine", "\u0969", 1, "routine", "'\u0969' " NUMBER UNSAVED},
	{1, "routine", "\uff13", 1, "routine", "'\uff13' " NUMBER UNSAVED},
	{1, "date", "10/03/2026", 1, "date",
	 "'10/03/2026' is not a date; write year-month-day with all digits, "
	 "such as 2026-03-09" UNSAVED},
	{1, "date", "10-Mar-26", 1, "date",
	 "'10-Mar-26' is not a date; write year-month-day with all digits, "
	 "such as 2026-03-09" UNSAVED},
	{1, "date", "2026-03-10 00:00", 1, "date",
	 "'2026-03-10 00:00' is not a date; write year-month-day with all "
	 "digits, such as 2026-03-09" UNSAVED},
	{3, "date", "46091", 3, "date",
	 "'46091' is not a date; write year-month-day with all digits, such as "
	 "2026-03-09" UNSAVED},
	{1, "date", "2026-10-03", 1, "check",
	 "the letters do not fit the row, so a value was changed after the "
	 "program wrote it" UNSAVED},
	{1, "date", "1926-03-10", 1, "date",
	 "it is not in the years 2000 to 2099, so the laptop's clock was "
	 "wrong; let the station write the file anew, with the right day"},
	{1, "station", "14", 1, "station",
	 "'14' is not a station code of four digits, 0001 to 9999; a "
	 "spreadsheet drops zeros in front" ANEW},
	{1, "station", "0000", 1, "station",
	 "'0000' is not a station code of four digits, 0001 to 9999; a "
	 "spreadsheet drops zeros in front" ANEW},
	{1, "device", "qwertz", 1, "device",
	 "'qwertz' is not six letters A to Z" ANEW},
	{1, "policy", "VYZXC", 1, "policy",
	 "'VYZXC' is not six letters A to Z" ANEW},
	{1, "age_band", "Apr-49", 1, "age_band",
	 "'Apr-49' is not an age band such as 40-49 or 70+; a spreadsheet may "
	 "take one for a date" ANEW},
	{1, "sex", "f", 1, "sex",
	 "'f' is not one of: F, M, X, unknown" UNSAVED},
	{1, "state", "Closed", 1, "state",
	 "'Closed' is not one of: open, closed" UNSAVED},
	{1, "site", "=Mavi", 1, "site",
	 "it may not begin with = + - or @, which a spreadsheet takes for a "
	 "formula" UNSAVED},
	{1, "site", "Mavi school", 1, "check",
	 "the letters do not fit the row, so a value was changed after the "
	 "program wrote it" UNSAVED},
	{1, "urgent", "3", 1, "screened",
	 "10 people are screened, but the urgencies add up to 11" ANEW},
	{1, "depth_0", "2", 1, "screened",
	 "10 people are screened, but the depths add up to 11" ANEW},
	{3, "with_symptoms", "2", 3, "with_symptoms",
	 "2 of 1 people screened cannot be" ANEW},
	{3, "late_entries", "2", 3, "late_entries",
	 "2 of 1 people screened cannot be" ANEW},
	{1, "schema", "shoal-tally-2", 1, "schema",
	 "it is 'shoal-tally-2', which another version of the program wrote, "
	 "and this one reads 'shoal-tally-1'; collate with the newer of the "
	 "two"},
	{2, "schema", "Total", 2, "schema",
	 "it is 'Total', and every row of a tally has 'shoal-tally-1' here; "
	 "was a row added or changed? " PLAIN},
	{2, "check", "AAAAAAA", 2, "check",
	 "the letters do not fit the row, so a value was changed after the "
	 "program wrote it" UNSAVED},
	{0, "screened", "Screened", 0, "screened",
	 "this column is missing" UNSAVED},
	{0, "urgent", "same_day", 0, "",
	 "line 1: the header has the column 'same_day' twice" UNSAVED},
	{0, "urgent", "", 0, "",
	 "line 1: column 14 of the header has no name" UNSAVED},
	{0, "schema", "kind", 0, "",
	 "it is no tally: its first line has no column 'schema'; take it away "
	 "if it is none, else ask the station for the file anew"},
};

Test(tallyfile, a_value_changed_is_refused_with_row_column_and_advice)
{
	static const struct casestyle quoted = {"", ',', "\n", true, "", false};
	char text[CASE_SIZE];
	struct casetable table;
	struct casefile file;

	casefile_begin(&file);
	for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
		const struct change *one = &changes[i];

		case_begin(&table);
		snprintf(
			table.value[one->row][case_column(&table, one->column)],
			64, "%s", one->value);
		expect_refused(&file, text, case_write(&table, &quoted, text),
			       one, "change", i);
	}
	casefile_release(&file);
}

/* --- the shape of the table ----------------------------------------------- */

static void
drop_row(struct casetable *table, int row)
{
	table->rows--;
	memmove(table->value[row], table->value[row + 1],
		(size_t)(table->rows - row) * sizeof table->value[0]);
}

static void
double_row(struct casetable *table, int row)
{
	memmove(table->value[row + 1], table->value[row],
		(size_t)(table->rows - row) * sizeof table->value[0]);
	table->rows++;
}

static void
swap_rows(struct casetable *table, int row)
{
	char kept[sizeof table->value[0]];

	memcpy(kept, table->value[row], sizeof kept);
	memcpy(table->value[row], table->value[row + 1], sizeof kept);
	memcpy(table->value[row + 1], kept, sizeof kept);
}

static void
drop_column(struct casetable *table, int column)
{
	table->columns--;
	for (int row = 0; row < table->rows; row++)
		memmove(table->value[row][column],
			table->value[row][column + 1],
			(size_t)(table->columns - column) *
				sizeof table->value[0][0]);
}

static void
double_column(struct casetable *table, int column)
{
	for (int row = 0; row < table->rows; row++)
		memmove(table->value[row][column + 1],
			table->value[row][column],
			(size_t)(table->columns - column) *
				sizeof table->value[0][0]);
	table->columns++;
}

static void
add_column(struct casetable *table, int column)
{
	table->columns++;
	for (int row = 0; row < table->rows; row++)
		snprintf(table->value[row][column], 64, "%s",
			 row == 0 ? "note" : "ok");
}

static void
head_of(struct casetable *table, int column)
{
	(void)column;
	table->rows = 1;
}

static void
glue(struct casetable *table, int rows)
{
	memcpy(table->value[table->rows], table->value[0],
	       (size_t)rows * sizeof table->value[0]);
	table->rows += rows;
}

/* Below, an empty row but for its first value. */
static void
add_words(struct casetable *table, int column)
{
	memset(table->value[table->rows], 0, sizeof table->value[0]);
	snprintf(table->value[table->rows++][column], 64, "counted by hand");
}

Test(tallyfile, a_table_of_another_shape_is_refused)
{
	static const struct {
		void (*reshape)(struct casetable *table, int at);
		int at;
		struct change told;
	} shapes[] = {
		{drop_row,
		 0,
		 {.at_column = "",
		  .reason = "the first line is a row already, so the header "
			    "was taken out" ANEW}},
		{drop_row,
		 1,
		 {.at_row = 1,
		  .at_column = "row",
		  .reason = "it is row 2 of its tally, but no row of that "
			    "tally stands before it" ANEW}},
		{drop_row,
		 2,
		 {.at_row = 2,
		  .at_column = "row",
		  .reason = "row 3 of the tally follows row 1; rows were taken "
			    "out, doubled or sorted" ANEW}},
		{drop_row,
		 3,
		 {.at_row = 2,
		  .at_column = "row",
		  .reason = "the tally of station 0014 of 2026-03-10 ends "
			    "after row 2 of 3, so the file was cut or rows "
			    "were taken out" ANEW}},
		{double_row,
		 1,
		 {.at_row = 2,
		  .at_column = "row",
		  .reason = "the tally of station 0014 of 2026-03-10 ends "
			    "after row 1 of 3, so the file was cut or rows "
			    "were taken out" ANEW}},
		{double_row,
		 2,
		 {.at_row = 3,
		  .at_column = "row",
		  .reason = "row 2 of the tally follows row 2; rows were taken "
			    "out, doubled or sorted" ANEW}},
		{double_row,
		 3,
		 {.at_row = 4,
		  .at_column = "row",
		  .reason = "it is row 3 of its tally, but no row of that "
			    "tally stands before it" ANEW}},
		{swap_rows,
		 1,
		 {.at_row = 1,
		  .at_column = "row",
		  .reason = "it is row 2 of its tally, but no row of that "
			    "tally stands before it" ANEW}},
		{swap_rows,
		 2,
		 {.at_row = 2,
		  .at_column = "row",
		  .reason = "row 3 of the tally follows row 1; rows were taken "
			    "out, doubled or sorted" ANEW}},
		{drop_column,
		 15,
		 {.at_column = "no_referral",
		  .reason = "this column is missing" UNSAVED}},
		{drop_column,
		 29,
		 {.at_column = "check",
		  .reason = "this column is missing" UNSAVED}},
		{double_column,
		 15,
		 {.at_column = "",
		  .reason = "line 1: the header has the column 'no_referral' "
			    "twice" UNSAVED}},
		{add_column,
		 30,
		 {.at_column = "",
		  .reason = "a tally has no column 'note'; was it added "
			    "later? " PLAIN}},
		{head_of,
		 0,
		 {.at_column = "",
		  .reason = "there is no row below the header, so the file was "
			    "cut" UNSAVED}},
		{glue,
		 4,
		 {.at_row = 4,
		  .at_column = "",
		  .reason = "the header comes again: files were put one behind "
			    "the other; give each by itself"}},
		{add_words,
		 0,
		 {.at_row = 4,
		  .at_column = "schema",
		  .reason = "it is 'counted by hand', and every row of a tally "
			    "has 'shoal-tally-1' here; was a row added or "
			    "changed? " PLAIN}},
		{add_words,
		 3,
		 {.at_row = 4,
		  .at_column = "schema",
		  .reason = "it is empty" UNSAVED}},
	};
	char text[CASE_SIZE];
	struct casetable table;
	struct casefile file;

	casefile_begin(&file);
	for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
		case_begin(&table);
		shapes[i].reshape(&table, shapes[i].at);
		expect_refused(&file, text, case_write(&table, &case_own, text),
			       &shapes[i].told, "shape", i);
	}
	casefile_release(&file);
}

/* --- other bytes ---------------------------------------------------------- */

static size_t
as_utf16(const char *text, size_t length, bool low_first, char *out)
{
	size_t used = 0;

	out[used++] = low_first ? '\xff' : '\xfe';
	out[used++] = low_first ? '\xfe' : '\xff';
	for (size_t i = 0; i < length; i++) {
		out[used++] = low_first ? text[i] : '\0';
		out[used++] = low_first ? '\0' : text[i];
	}
	return used;
}

Test(tallyfile, other_encodings_are_refused_with_how_to_save)
{
	static const struct change told[] = {
		{.at_column = "", .reason = "line 1: the file is UTF-16" UTF8},
		{.at_column = "",
		 .reason = "line 1: it holds a NUL byte, as UTF-16 and damaged "
			   "files do" UTF8},
		{.at_column = "",
		 .reason = "line 2: it is not valid UTF-8" UTF8},
		{.at_column = "",
		 .reason = "line 1: the line ends in CR alone, as on old "
			   "machines" UTF8}};
	static char text[CASE_SIZE], wide[2 * CASE_SIZE + 2];
	struct casetable table;
	struct casefile file;
	size_t length;

	casefile_begin(&file);
	case_begin(&table);
	length = case_write(&table, &case_own, text);
	for (size_t i = 0; i < 2; i++)
		expect_refused(&file, wide,
			       as_utf16(text, length, i == 0, wide), &told[0],
			       "UTF-16", i);
	as_utf16(text, length, true, wide);
	expect_refused(&file, wide + 2, 2 * length, &told[1],
		       "UTF-16 without a mark", 0);
	*strstr(text, "Mavi") = '\xe4'; /* of Latin-1 */
	expect_refused(&file, text, length, &told[2], "Latin-1", 0);
	case_write(&table, &case_own, text);
	for (char *end = text; (end = strchr(end, '\n')) != NULL;)
		*end = '\r';
	expect_refused(&file, text, length, &told[3], "CR", 0);
	casefile_release(&file);
}

Test(tallyfile, what_is_no_tally_is_told_so)
{
	static const struct {
		const char *text;
		struct change told;
		bool passed_over;
	} rows[] = {
		{"",
		 {.at_column = "",
		  .reason = "the file is empty; a header of column names is "
			    "needed" UNSAVED},
		 false},
		{"<html><body></body></html>\n",
		 {.at_column = "",
		  .reason = "it is no tally: its first line has no column "
			    "'schema'; take it away if it is none, else ask "
			    "the station for the file anew"},
		 false},
		{"Tallies of March\nschema,programme\n",
		 {.at_column = "",
		  .reason = "it is no tally: its first line has no column "
			    "'schema'; take it away if it is none, else ask "
			    "the station for the file anew"},
		 false},
		{"file,status,station,date,revision,row,column,reason\n",
		 {.at_column = "",
		  .reason = "it is the ledger of an earlier collating"},
		 true},
		{"schema,programme\n\"shoal",
		 {.at_column = "",
		  .reason = "line 2: a quote is opened in this row and never "
			    "closed" UNSAVED},
		 false},
		{"schema,pro\"gramme\n",
		 {.at_column = "",
		  .reason = "line 1: a quote stands where none may; a value "
			    "with quotes is put in quotes, and each quote in "
			    "it is doubled" UNSAVED},
		 false},
	};
	struct casefile file;

	casefile_begin(&file);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		expect_refused(&file, rows[i].text, strlen(rows[i].text),
			       &rows[i].told, "text", i);
		cr_expect_eq(file.refusal.passed_over, rows[i].passed_over,
			     "text %zu", i);
	}
	casefile_release(&file);
}

/* --- many in one file ----------------------------------------------------- */

/* A sheet of the year: tallies of other days and stations under one header. */
Test(tallyfile, many_tallies_stand_under_one_header)
{
	static const struct casestyle styles[] = {
		{"", ',', "\n", false, "", false},
		{"", ';', "\r\n", true, "", true}};
	char text[CASE_SIZE];
	struct casetable table;
	struct casefile file;

	case_begin(&table);
	table.rows = 3;
	for (int row = 1; row <= 2; row++) {
		char total[64];

		snprintf(total, sizeof total, "%s",
			 table.value[1][case_column(&table, "screened")]);
		memcpy(table.value[row], table.value[1], sizeof table.value[1]);
		snprintf(table.value[row][3], 64, "00%d", 20 + row);
		snprintf(table.value[row][27], 64, "1");
		snprintf(table.value[row][28], 64, "%s", total);
		case_sign(&table, row);
	}
	casefile_begin(&file);
	for (size_t i = 0; i < sizeof styles / sizeof styles[0]; i++) {
		size_t length = case_write(&table, &styles[i], text);

		casefile_put(&file, text, length);
		cr_expect_eq(casefile_read(&file, length, false),
			     TALLYFILE_READ, "%s", file.refusal.fault.sentence);
		cr_expect(file.tallies == 2 && file.people == 20, "row %zu", i);
	}
	/* One row at fault refuses all. */
	snprintf(table.value[2][0], 64, "x");
	casefile_put(&file, text, case_write(&table, &case_own, text));
	cr_expect_eq(casefile_read(&file, 0, false), TALLYFILE_REFUSED);
	casefile_release(&file);
}
