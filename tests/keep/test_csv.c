/* Tests of keep/csv: RFC 4180 both ways, and what is refused. */
#include "keep/csv.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

/* Rows seen, written as "line/row[value|value]". */
struct seen {
	char text[20000];
	size_t length;
	long stop_at; /* this row is refused; -1 = none */
};

static bool
see(void *context, const struct csv_row *row, struct fault *why)
{
	struct seen *seen = context;
	size_t size = sizeof seen->text;

	if (row->row > 0 && !csv_check_count(row, why))
		return fault_at(why, "line %ld", row->line);
	if (row->row == seen->stop_at)
		return fault_set(why, FAULT_POLICY, "that is enough");
	seen->length += (size_t)snprintf(seen->text + seen->length,
					 size - seen->length, "%ld/%ld[",
					 row->line, row->row);
	for (size_t i = 0; i < row->count; i++)
		seen->length += (size_t)snprintf(seen->text + seen->length,
						 size - seen->length, "%s%s",
						 i == 0 ? "" : "|",
						 row->value[i]);
	seen->length += (size_t)snprintf(seen->text + seen->length,
					 size - seen->length, "]");
	return true;
}

static bool
read_bytes(const char *bytes, size_t length, struct seen *seen,
	   struct fault *why)
{
	FILE *in = tmpfile();
	bool done;

	cr_assert_not_null(in);
	cr_assert_eq(fwrite(bytes, 1, length, in), length);
	rewind(in);
	seen->length = 0;
	seen->text[0] = '\0';
	seen->stop_at = -1;
	*why = (struct fault){FAULT_NONE, ""};
	done = csv_read(in, see, seen, why);
	fclose(in);
	return done;
}

/*
 * The quoting of RFC 4180 (section 2, rules 5 to 7), more generous by
 * semicolon, tab and outer spaces, which other readers part or trim at.
 * Beginnings that a spreadsheet takes for a formula are those of the OWASP page
 * on CSV injection (full-width forms from memory): they are refused where free
 * text is typed and are carried here like any other value.
 */
static const struct {
	const char *value, *written;
} values[] = {
	{"plain", "plain"},
	{"", ""},
	{"one,two", "\"one,two\""},
	{"say \"so\"", "\"say \"\"so\"\"\""},
	{"\"", "\"\"\"\""},
	{"two\nlines", "\"two\nlines\""},
	{"a\rb", "\"a\rb\""},
	{"a\r\nb", "\"a\r\nb\""},
	{" before", "\" before\""},
	{"after ", "\"after \""},
	{"in the middle", "in the middle"},
	{" ", "\" \""},
	{"'quoted'", "'quoted'"},
	{"right:red_eye;haloes", "\"right:red_eye;haloes\""},
	{"a\tb", "\"a\tb\""},
	{"Tilo \xe0\xa4\x86\xe0\xa4\xb6\xe0\xa4\xbe", "Tilo "
						      "\xe0\xa4\x86\xe0\xa4\xb6"
						      "\xe0\xa4\xbe"},
	{"=2+2", "=2+2"},
	{"+15550100", "+15550100"},
	{"-", "-"},
	{"@SUM(B2)", "@SUM(B2)"},
	{"\t=2+2", "\"\t=2+2\""},
	{"\r=2+2", "\"\r=2+2\""},
	{"\n=2+2", "\"\n=2+2\""},
	{" =2+2", "\" =2+2\""},
	{"\xef\xbc\x9d"
	 "2",
	 "\xef\xbc\x9d"
	 "2"},
	{"\xef\xbc\x8b"
	 "2",
	 "\xef\xbc\x8b"
	 "2"},
	{"\xef\xbc\x8d"
	 "2",
	 "\xef\xbc\x8d"
	 "2"},
	{"\xef\xbc\xa0"
	 "2",
	 "\xef\xbc\xa0"
	 "2"},
	{"y\";=2+2", "\"y\"\";=2+2\""},
	{"y;=2+2", "\"y;=2+2\""},
	{"'=2", "'=2"},
};

Test(csv, values_are_quoted_only_where_needed_and_come_back)
{
	static struct seen seen;

	for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
		char bytes[400], expected[200];
		FILE *out = fmemopen(bytes, sizeof bytes, "w");
		struct fault why;

		cr_assert_not_null(out);
		fputs("a,b\n", out);
		csv_write_value(out, values[i].value, true);
		csv_write_value(out, "end", false);
		csv_end_row(out);
		fclose(out);
		snprintf(expected, sizeof expected, "a,b\n%s,end\n",
			 values[i].written);
		cr_expect_str_eq(bytes, expected, "row %zu", i);
		cr_expect(read_bytes(bytes, strlen(bytes), &seen, &why),
			  "row %zu: %s", i, why.sentence);
		snprintf(expected, sizeof expected, "1/0[a|b]2/1[%s|end]",
			 values[i].value);
		cr_expect_str_eq(seen.text, expected, "row %zu", i);
	}
}

Test(csv, sound_files_are_read)
{
	/* clang-format off */
	static const struct {
		const char *bytes, *seen;
	} rows[] = {
		{"a,b\n1,2\n", "1/0[a|b]2/1[1|2]"},
		{"a,b\r\n1,2\r\n", "1/0[a|b]2/1[1|2]"},
		{"a,b\n1,2", "1/0[a|b]2/1[1|2]"},
		{"a,b\n1,\n,2\n", "1/0[a|b]2/1[1|]3/2[|2]"},
		{"a,b\n1,", "1/0[a|b]2/1[1|]"},
		{"a\n", "1/0[a]"},
		{"a", "1/0[a]"},
		{"\xef\xbb\xbf" "a,b\n1,2\n", "1/0[a|b]2/1[1|2]"},
		{"\xef\xbb\xbf\"a\",b\r\n1,2\r\n", "1/0[a|b]2/1[1|2]"},
		{"\"a\",\"b\"\n\"1\",\"2\"\n", "1/0[a|b]2/1[1|2]"},
		{" a ,\tb\n 1 , 2\n", "1/0[a|b]2/1[1|2]"},
		{"a,b\n\" 1 \",\"2\"\n", "1/0[a|b]2/1[ 1 |2]"},
		{"\n\n  \na,b\n\n1,2\n\n", "4/0[a|b]6/1[1|2]"},
		{"a,b\n1,2\n,\n\" \",\n", "1/0[a|b]2/1[1|2]4/2[ |]"},
		{"a,b\n\"x\ny\",2\n3,4\n", "1/0[a|b]2/1[x\ny|2]4/2[3|4]"},
		{"a,b\n\"x\r\ny\",2\r\n3,4\r\n",
		 "1/0[a|b]2/1[x\r\ny|2]4/2[3|4]"},
		{"a,b\n\"x\ry\",2\n3,4\n", "1/0[a|b]2/1[x\ry|2]3/2[3|4]"},
		{"a,b\n\"x\"\"y\",\"\"\n", "1/0[a|b]2/1[x\"y|]"},
		{"a,b\n1;2,3\t4\n", "1/0[a|b]2/1[1;2|3\t4]"},
	};
	/* clang-format on */
	static struct seen seen;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why;

		cr_expect(read_bytes(rows[i].bytes, strlen(rows[i].bytes),
				     &seen, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_str_eq(seen.text, rows[i].seen, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_NONE, "row %zu", i);
	}
}

#define BYTES(literal) literal, sizeof(literal) - 1
#define SAVE "save it as \"CSV UTF-8\", with commas"
#define QUOTE                                                           \
	"a quote stands where none may; a value with quotes is put in " \
	"quotes, and each quote in it is doubled"

Test(csv, unsound_files_are_refused_with_the_line)
{
	/* clang-format off */
	static const struct {
		const char *bytes;
		size_t length;
		const char *sentence;
	} rows[] = {
		{BYTES(""),
		 "the file is empty; a header of column names is needed"},
		{BYTES("\xef\xbb\xbf"),
		 "the file is empty; a header of column names is needed"},
		{BYTES("\n\r\n \n"),
		 "the file is empty; a header of column names is needed"},
		{BYTES("\xff\xfe" "a\0,\0b\0\n\0"),
		 "line 1: the file is UTF-16; " SAVE},
		{BYTES("\xfe\xff\0a\0,\0b\0\n"),
		 "line 1: the file is UTF-16; " SAVE},
		{BYTES("a\0,\0b\0\n\0"),
		 "line 1: it holds a NUL byte, as UTF-16 and damaged files "
		 "do; " SAVE},
		{BYTES("a,b\n1,2\n3,\0\n"),
		 "line 3: it holds a NUL byte, as UTF-16 and damaged files "
		 "do; " SAVE},
		{BYTES("a,b\n1,caf\xe9\n"),
		 "line 2: it is not valid UTF-8; " SAVE},
		{BYTES("a,b\n1,\xc0\xaf\n"),
		 "line 2: it is not valid UTF-8; " SAVE},
		{BYTES("a;b\n1;2\n"), "line 1: the columns are parted by "
		 "semicolons or tabs; " SAVE},
		{BYTES("a\tb\n1\t2\n"), "line 1: the columns are parted by "
		 "semicolons or tabs; " SAVE},
		{BYTES("sep=;\na;b\n"), "line 1: the columns are parted by "
		 "semicolons or tabs; " SAVE},
		{BYTES("a,b\r1,2\r"), "line 1: the line ends in CR alone, as "
		 "on old machines; " SAVE},
		{BYTES("a,b\n1,2\r3,4\n"), "line 2: the line ends in CR alone, "
		 "as on old machines; " SAVE},
		{BYTES("a,b\n1,2\r\r\n"), "line 2: the line ends in CR alone, "
		 "as on old machines; " SAVE},
		{BYTES("a,b,a\n"), "line 1: the header has the column 'a' "
		 "twice"},
		{BYTES("a,b,\n1,2,\n"),
		 "line 1: column 3 of the header has no name"},
		{BYTES("a,b\n1,2\n1,2,3\n"), "line 3: it has 3 values, but the "
		 "header has 2 columns"},
		{BYTES("a,b\n\n1\n"), "line 3: it has 1 value, but the header "
		 "has 2 columns"},
		{BYTES("a\n1,2\n"),
		 "line 2: it has 2 values, but the header has 1 column"},
		{BYTES("a,b\n1,x\"y\"\n"), "line 2: " QUOTE},
		{BYTES("a,b\n1,\"x\"y\n"), "line 2: " QUOTE},
		{BYTES("a,b\n\"1\n2,\"3\"\n"), "line 3: " QUOTE},
		{BYTES("a,b\n1,2\n3,\"4\n5,6\n7,8\n"), "line 3: a quote is "
		 "opened in this row and never closed"},
		{BYTES("a,b\n1,\""), "line 2: a quote is opened in this row "
		 "and never closed"},
	};
	/* clang-format on */
	static struct seen seen;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why;

		cr_expect_not(read_bytes(rows[i].bytes, rows[i].length, &seen,
					 &why),
			      "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
	}
}

/* A file of a header and one row of `bytes` bytes in `columns` columns, with
 * a line feed inside of quotes when `broken`. */
static size_t
make_wide(char *text, size_t bytes, size_t columns, bool broken)
{
	size_t length = 0, start;

	for (size_t i = 0; i < columns; i++)
		length += (size_t)snprintf(text + length, 10, "%sc%zu",
					   i == 0 ? "" : ",", i);
	text[length++] = '\n';
	start = length;
	for (size_t i = 1; i < columns; i++)
		text[length++] = ',';
	if (broken) {
		memcpy(text + length, "\"x\n", 3);
		length += 3;
	}
	while (length < start + bytes - broken)
		text[length++] = 'x';
	if (broken)
		text[length++] = '"';
	text[length++] = '\r';
	text[length++] = '\n';
	return length;
}

Test(csv, rows_are_read_up_to_their_limits)
{
	static const struct {
		size_t bytes, columns;
		bool broken;
		const char *sentence; /* NULL = read */
	} rows[] = {
		{CSV_LINE_MOST, 2, false, NULL},
		{CSV_LINE_MOST, 2, true, NULL},
		{CSV_LINE_MOST, CSV_COLUMNS_MOST, false, NULL},
		{CSV_LINE_MOST + 1, 2, false, "line 2: the row is longer than"},
		{CSV_LINE_MOST + 1, 2, true, "line 2: the row is longer than"},
		{10000, 2, false, "line 2: the row is longer than 4096 bytes"},
		{100, CSV_COLUMNS_MOST + 1, false,
		 "line 1: it has more than 64 values"},
	};
	static char text[20000];
	static struct seen seen;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		size_t length = make_wide(text, rows[i].bytes, rows[i].columns,
					  rows[i].broken);
		struct fault why;

		cr_expect_eq(read_bytes(text, length, &seen, &why),
			     rows[i].sentence == NULL, "row %zu: %s", i,
			     why.sentence);
		if (rows[i].sentence != NULL)
			cr_expect_not_null(strstr(why.sentence,
						  rows[i].sentence),
					   "row %zu: %s", i, why.sentence);
		else
			cr_expect_not_null(strstr(seen.text, "2/1["), "row %zu",
					   i);
	}
}

Test(csv, who_sees_the_rows_can_stop_the_reading)
{
	static const char bytes[] = "a,b\n1,2\n3,4\n5,\"open\n";
	static const char *const before[] = {"", "1/0[a|b]",
					     "1/0[a|b]2/1[1|2]"};

	for (int i = 0; i < 3; i++) {
		struct seen seen = {"", 0, i};
		FILE *in = fmemopen((void *)bytes, sizeof bytes - 1, "r");
		struct fault why;

		cr_assert_not_null(in);
		cr_expect_not(csv_read(in, see, &seen, &why), "row %d", i);
		cr_expect_str_eq(why.sentence, "that is enough", "row %d", i);
		cr_expect_eq(why.kind, FAULT_POLICY, "row %d", i);
		cr_expect_str_eq(seen.text, before[i], "row %d", i);
		fclose(in);
	}
}

Test(csv, a_file_that_cannot_be_read_is_refused)
{
	FILE *in = fopen("/", "r");
	static struct seen seen;
	struct fault why;

	cr_assert_not_null(in);
	cr_expect_not(csv_read(in, see, &seen, &why));
	cr_expect_eq(why.kind, FAULT_INPUT);
	cr_expect_str_eq(why.sentence, "line 1: it cannot be read: Is a "
				       "directory");
	fclose(in);
}
