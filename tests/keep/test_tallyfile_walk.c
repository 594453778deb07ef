/* Tests of keep/tallyfile: every way to cut a tally and to change one character
 * of it, walked to the end; and both readers beside each other. */
#include "keep/tallyfile.h"

#include "tallycase.h"

/* Short, so that every change can be tried: two rows, all values of one or two
 * characters where the format lets them be. */
static void
short_tally(struct casetable *table)
{
	static const char head[] = "shoal-tally-1,L,M,0014,QWERTZ,2026-03-10,"
				   "2,open,VYZXCS";

	table->rows = 0;
	case_split(case_header, table);
	case_add(table, head, "F,40-49,3,1,1,1,0,1,1,1,0,0,0,0,0,1,0,1,2,4");
	case_add(table, head, "M,70+,1,0,0,0,1,0,0,0,0,0,0,0,1,0,1,2,2,4");
}

/* Without its last line feed a file lacks no value. */
Test(tallyfile, every_prefix_of_a_tally_is_refused)
{
	static const struct casestyle styles[] = {
		{"", ',', "\n", false, "", false},
		{"\xef\xbb\xbf", ';', "\r\n", true, "", true}};
	char text[CASE_SIZE];
	struct casetable table;
	struct casefile file;

	short_tally(&table);
	casefile_begin(&file);
	for (size_t i = 0; i < sizeof styles / sizeof styles[0]; i++) {
		size_t whole = case_write(&table, &styles[i], text);
		size_t values = whole - strlen(styles[i].end);

		for (size_t length = 0; length < values; length++) {
			casefile_put(&file, text, length);
			cr_assert_eq(casefile_read(&file, length, false),
				     TALLYFILE_REFUSED,
				     "style %zu: %zu of %zu bytes", i, length,
				     whole);
			cr_assert(file.tallies == 0 &&
					  file.refusal.fault.sentence[0] !=
						  '\0',
				  "style %zu: %zu bytes", i, length);
		}
		casefile_put(&file, text, values);
		cr_expect_eq(casefile_read(&file, values, false),
			     TALLYFILE_READ, "style %zu", i);
	}
	casefile_release(&file);
}

/* The places of the values' characters in a table in the program's own form. */
static size_t
first_value(const char *text)
{
	return (size_t)(strchr(text, '\n') - text) + 1;
}

/* What replaces a character: whatever can be typed, and bytes that mean
 * something to a reader; further down what people and programs would write. */
static const char usual[] = "0123456789AZaz+-.,;: \t\r\n\"'=%";

static size_t
put_every(char *bytes)
{
	static const char odd[] = "\0\t\n\r\x1b\x1f\x7f\x80\xc3\xef\xff";
	size_t count = sizeof odd - 1;

	memcpy(bytes, odd, count);
	for (char c = ' '; c <= '~'; c++)
		bytes[count++] = c;
	return count;
}

static void
put_byte(struct casefile *file, size_t at, char byte)
{
	cr_assert_eq(pwrite(file->handle, &byte, 1, (off_t)at), 1);
}

static void
try_byte(struct casefile *file, size_t length, size_t at, char byte, char was)
{
	enum tallyfile_end end;

	put_byte(file, at, byte);
	end = casefile_read(file, length, false);
	cr_assert_eq(end, TALLYFILE_REFUSED,
		     "byte %zu, '%c' made 0x%02x, was read", at, was,
		     (unsigned char)byte);
}

Test(tallyfile, every_change_of_one_character_in_a_value_is_refused)
{
	char text[CASE_SIZE], every[120];
	struct casetable table;
	struct casefile file;
	size_t length, row, tail, count = put_every(every);

	short_tally(&table);
	length = case_write(&table, &case_own, text);
	row = first_value(text);
	row += first_value(text + row);
	tail = (size_t)(strstr(text + row, ",M,70+") - text);
	casefile_begin(&file);
	casefile_put(&file, text, length);
	for (size_t at = first_value(text); at < length; at++) {
		const char *bytes = at < row ? every : usual;
		size_t to_try = at < row ? count : sizeof usual - 1;

		/* The columns before `sex` were tried in the first row. */
		if (text[at] == ',' || text[at] == '\n' ||
		    (at >= row && at < tail))
			continue;
		for (size_t i = 0; i < to_try; i++)
			if (bytes[i] != text[at])
				try_byte(&file, length, at, bytes[i], text[at]);
		put_byte(&file, at, text[at]);
	}
	cr_expect_eq(casefile_read(&file, length, false), TALLYFILE_READ);
	casefile_release(&file);
}

/* The same of a table that a spreadsheet saved, which the other reader reads:
 * digits for digits, letters for letters. */
Test(tallyfile, every_digit_and_letter_changed_in_a_table_is_refused)
{
	static const struct casestyle style = {"",   ';', "\r\n",
					       true, ";", true};
	static const char others[] = "0123456789ABCFMXZ";
	char text[CASE_SIZE];
	struct casetable table;
	struct casefile file;
	size_t length;

	short_tally(&table);
	length = case_write(&table, &style, text);
	casefile_begin(&file);
	casefile_put(&file, text, length);
	for (size_t at = first_value(text); at < length; at++) {
		if (strchr("\";\r\n", text[at]) != NULL)
			continue;
		for (size_t i = 0; i < sizeof others - 1; i++)
			if (others[i] != text[at])
				try_byte(&file, length, at, others[i],
					 text[at]);
		put_byte(&file, at, text[at]);
	}
	cr_expect_eq(casefile_read(&file, length, false), TALLYFILE_READ);
	casefile_release(&file);
}

/* A character left out or put in, a pair swapped: as when somebody types. */
Test(tallyfile, every_character_dropped_doubled_or_swapped_is_refused)
{
	char text[CASE_SIZE], other[CASE_SIZE];
	struct casetable table;
	struct casefile file;
	size_t length;

	short_tally(&table);
	length = case_write(&table, &case_own, text);
	casefile_begin(&file);
	for (size_t at = first_value(text); at + 1 < length; at++) {
		bool ends = strchr(",\n", text[at]) != NULL;
		size_t sizes[] = {length - 1, length + 1, length};

		for (int how = 0; how < 3; how++) {
			memcpy(other, text, length);
			if (how == 0)
				memmove(other + at, text + at + 1,
					length - at - 1);
			if (how == 1)
				memmove(other + at + 1, text + at, length - at);
			if (how == 2) {
				other[at] = text[at + 1];
				other[at + 1] = text[at];
			}
			/* A blank line, or nothing that changed. */
			if ((how == 1 && text[at] == '\n') ||
			    (how == 2 && text[at] == text[at + 1]) ||
			    (how == 0 && ends && at + 2 == length))
				continue;
			casefile_put(&file, other, sizes[how]);
			cr_assert_eq(casefile_read(&file, sizes[how], false),
				     TALLYFILE_REFUSED, "byte %zu, %s", at,
				     how == 0	? "dropped"
				     : how == 1 ? "doubled"
						: "swapped");
		}
	}
	casefile_release(&file);
}

/* --- the two readers ------------------------------------------------------ */

/* What each reader says of the same bytes. */
static void
expect_same(struct casefile *file, const char *text, size_t length,
	    const char *column, const char *value)
{
	struct casefile fast;
	enum tallyfile_end end;

	casefile_put(file, text, length);
	end = casefile_read(file, length, false);
	fast = *file;
	cr_expect_eq(casefile_read(file, length, true), end,
		     "column %s, '%s': the readers disagree: %s", column, value,
		     file->refusal.fault.sentence);
	cr_expect(fast.tallies == file->tallies &&
			  fast.people == file->people &&
			  fast.mark == file->mark,
		  "column %s, '%s': other values", column, value);
}

/* Signed with letters that fit, as no accident does it: whatever stands in a
 * column, the fast reader takes it if and only if the other does. */
Test(tallyfile, both_readers_take_the_same_values)
{
	static const char *const odd[] = {"",
					  "0",
					  "00",
					  "010",
					  "1",
					  "-1",
					  "+1",
					  "1.0",
					  " 1",
					  "1 ",
					  "2",
					  "3",
					  "4",
					  "99999",
					  "100000",
					  "4294967297",
					  "0014",
					  "14",
					  "0000",
					  "9999",
					  "2026-03-11",
					  "2026-3-10",
					  "2026-02-30",
					  "1999-12-31",
					  "2100-01-01",
					  "open",
					  "closed",
					  "Open",
					  "F",
					  "M",
					  "X",
					  "unknown",
					  "f",
					  "FF",
					  "40-49",
					  "70+",
					  "40-",
					  "0-120",
					  "1000+",
					  "QWERTZ",
					  "QWERT1",
					  "abcdef",
					  "Mavi",
					  "M\xc3\xa4",
					  "M\xe4",
					  "a\tb",
					  "a\x01z",
					  "a\x7fz",
					  "=x",
					  "@x",
					  "\xe2\x80\xae",
					  "a;b",
					  "a\"b",
					  "\"a\"",
					  "a\rb",
					  "sep=;",
					  "\xd9\xa3",
					  "schema",
					  "shoal-tally-2"};
	char text[CASE_SIZE];
	struct casetable table;
	struct casefile file;
	int read = 0, depth_0, not_gradable;

	short_tally(&table);
	depth_0 = case_column(&table, "depth_0");
	not_gradable = case_column(&table, "not_gradable");
	casefile_begin(&file);
	for (int column = 0; column + 1 < table.columns; column++)
		for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
			short_tally(&table);
			if (column > depth_0 && column < not_gradable)
				continue; /* one depth is read as another */
			for (int row = 1; row < table.rows; row++) {
				snprintf(table.value[row][column], 64, "%s",
					 odd[i]);
				case_sign(&table, row);
			}
			expect_same(&file, text,
				    case_write(&table, &case_own, text),
				    table.value[0][column], odd[i]);
			read += file.tallies;
		}
	/* Some are sound: another site, day, device, state ... */
	cr_expect_gt(read, 30, "%d", read);
	casefile_release(&file);
}
