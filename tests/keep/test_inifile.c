/* test_inifile.c: INI files, read so that nothing is guessed. */
#include "keep/inifile.h"

#include "keep/inicheck.h"

#include <criterion/criterion.h>
#include <locale.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* What was told: the first sentence, and how many. */
struct heard {
	int count;
	char first[FAULT_SENTENCE_SIZE];
	bool disagreed; /* any sentence about the two readers */
};

static void
hear(void *context, const struct fault *one)
{
	struct heard *heard = context;

	if (heard->count++ == 0)
		memcpy(heard->first, one->sentence, sizeof heard->first);
	if (strstr(one->sentence, "two readers") != NULL)
		heard->disagreed = true;
}

static bool
read_text(struct ini *ini, const char *text, struct heard *heard)
{
	struct fault why;

	*heard = (struct heard){0};
	return ini_read_bytes(ini, "t.ini", text, strlen(text), hear, heard,
			      &why);
}

Test(inifile, what_is_accepted_keeps_its_strings_and_lines)
{
	static const struct {
		const char *text, *section, *key, *value;
		int line;
	} rows[] = {
		{"[a]\nb = 5\n", "a", "b", "5", 2},
		{"[a]\r\nb = 5\r\n", "a", "b", "5", 2},
		{"\xef\xbb\xbf[a]\nb = 5\n", "a", "b", "5", 2},
		{"[a]\nb=5", "a", "b", "5", 2},
		{"[a]\n\t b\t=\t5 \t\n", "a", "b", "5", 2},
		{"[a]\nb = 5 6  7\n", "a", "b", "5 6  7", 2},
		{"[a]\nb =\n", "a", "b", "", 2},
		{"[a]\nb = \"\"\n", "a", "b", "", 2},
		{"[a]\nb = ''\n", "a", "b", "", 2},
		{"[a]\nb = \"  5 \"\n", "a", "b", "  5 ", 2},
		{"[a]\nb = '5'  \n", "a", "b", "5", 2},
		{"[a]\nb = \"it's\"\n", "a", "b", "it's", 2},
		{"[a]\nb = '\"5\"'\n", "a", "b", "\"5\"", 2},
		{"[a]\nb = \"5 ; 6 # 7\"\n", "a", "b", "5 ; 6 # 7", 2},
		{"[a]\nb = 5 = 6\n", "a", "b", "5 = 6", 2},
		{"[a]\nb == 5\n", "a", "b", "= 5", 2},
		{"[a]\nb ==\n", "a", "b", "=", 2},
		{"[a]\nb = [c]\n", "a", "b", "[c]", 2},
		{"[a]\nb = 5\"6\"\n", "a", "b", "5\"6\"", 2},
		{"[a]\nb = %s%n\n", "a", "b", "%s%n", 2},
		{"[a]\nb = \xc3\xa9\xc2\xa0\n", "a", "b", "\xc3\xa9\xc2\xa0",
		 2},
		{"; c\n# d = 1\n\n \t\n  [a]\n;b = 1\nb = 5\n", "a", "b", "5",
		 7},
		{"[c]\n[a 1-b_c]\nb_2 = 5\n[d]\nb_2 = 6", "a 1-b_c", "b_2", "5",
		 3},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct ini ini;
		struct heard heard;
		const struct ini_entry *entry;

		cr_expect(read_text(&ini, rows[i].text, &heard),
			  "row %zu is refused: %s", i, heard.first);
		entry = ini_find(&ini, rows[i].section, rows[i].key);
		cr_assert_not_null(entry, "row %zu has no entry", i);
		cr_expect_str_eq(entry->value, rows[i].value, "row %zu", i);
		cr_expect_eq(entry->line, rows[i].line, "row %zu", i);
		cr_expect_eq(heard.count, 0, "row %zu", i);
	}
}

Test(inifile, what_is_refused_gets_one_sentence)
{
	static const struct {
		const char *text, *sentence;
	} rows[] = {
		{"[a]\nb = 5\r6\n", "t.ini:2: the line ends in CR alone; save "
				    "the file with LF or CRLF line ends"},
		{"[a]\r", "t.ini:1: the line ends in CR alone; save the file "
			  "with LF or CRLF line ends"},
		{"\xfe\xff", "t.ini: it is saved as UTF-16; save it as plain "
			     "text in UTF-8"},
		{"[a]b]\n", "t.ini:1: 'b]' follows the ']'; write [a] alone, "
			    "and a comment on a line of its own"},
		{"[a]\n[b] ; c\n", "t.ini:2: '; c' follows the ']'; write [b] "
				   "alone, and a "
				   "comment on a line of its own"},
		{"[A\tB]\n", "t.ini:1: '[A?B]' has to be written [a b]"},
		{"[a]\nb c = 5\n", "t.ini:2: key 'b c' has to be written b_c"},
		{"[a]\n: = 5\n", "t.ini:2: ':' is not a key; allowed are "
				 "small letters a to z, digits and '_'"},
		{"[a]\nb\n", "t.ini:2: there is no '=' in this line; write "
			     "KEY = VALUE, or begin a comment with ';'"},
		{"[a]\n// note\n", "t.ini:2: there is no '=' in this line; "
				   "write KEY = VALUE, "
				   "or begin a comment with ';'"},
		{"[a]\nb = \"5\n", "t.ini:2: the quote is not closed; end the "
				   "text with \""},
		{"[a]\nb = \"5'\n", "t.ini:2: the quote is not closed; end "
				    "the text with \""},
		{"[a]\nb = '\n", "t.ini:2: the quote is not closed; end the "
				 "text with '"},
		{"[a]\nb = \"\"5\n", "t.ini:2: '5' follows the closing quote; "
				     "the text has to end there, without a \" "
				     "inside"},
		{"[a]\nb = ;\n", "t.ini:2: ';' would begin a comment; put it "
				 "on a line of its own, or the whole text in "
				 "straight double quotes"},
		{"[a]\nb = 5\x0b\n", "t.ini:2: the line holds a control "
				     "character (byte 0x0B); type the line "
				     "again"},
		{"[a]\nb = \xe2\x80\x98"
		 "5\xe2\x80\x99\n",
		 "t.ini:2: the text stands in curly quotes; write straight "
		 "ones, \"like this\""},
		/* A line with many faults is told once. */
		{"[a]\nB \\ = \"5\x01 ; \n", "t.ini:2: the line holds a "
					     "control character (byte 0x01); "
					     "type the line again"},
		/* So are the keys of a section that is not there. */
		{"b = 1\nc = 2\nb = 3\n", "t.ini:1: key 'b' stands before any "
					  "section; put the line "
					  "of its section, such as [name], "
					  "above it"},
		/* And those of a section given twice. */
		{"[a]\nb = 1\n[c]\n[a]\nb = 2\n", "t.ini:4: section [a] stands "
						  "twice, first on line 1; "
						  "keep one of them"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct ini ini;
		struct heard heard;

		cr_expect_not(read_text(&ini, rows[i].text, &heard),
			      "row %zu is accepted", i);
		cr_expect_str_eq(heard.first, rows[i].sentence, "row %zu", i);
		cr_expect_eq(heard.count, 1, "row %zu: %d told", i,
			     heard.count);
	}
}

/* "[a]\nb = ..." of exactly `length` bytes, filled up with short comments. */
static char *
text_of_length(size_t length)
{
	char *text = malloc(length + 1);
	size_t used = (size_t)sprintf(text, "[a]\nb = 5\n");

	memset(text + used, ';', length - used);
	for (size_t i = used + 99; i < length; i += 100)
		text[i] = '\n';
	text[length] = '\0';
	return text;
}

Test(inifile, limits_hold_to_the_byte)
{
	struct ini ini;
	struct heard heard = {0};
	struct fault why;
	char line[INI_LINE_MOST + 32];
	char *text = text_of_length(INI_FILE_MOST + 1);

	cr_expect(ini_read_bytes(&ini, "/x/t.ini", text, INI_FILE_MOST, hear,
				 &heard, &why));
	cr_expect_not(ini_read_bytes(&ini, "/x/t.ini", text, INI_FILE_MOST + 1,
				     hear, &heard, &why));
	cr_expect_str_eq(why.sentence, "'t.ini' is too large; at most 65536 "
				       "bytes are allowed");
	cr_expect_eq(heard.count, 0);
	free(text);

	for (int over = 0; over < 2; over++) {
		int length = INI_LINE_MOST + over;

		memset(line, 'x', sizeof line);
		memcpy(line, "[a]\nb = ", 8);
		memcpy(line + 4 + length, "\nc = 5\n", 8);
		cr_expect_eq(read_text(&ini, line, &heard), over == 0,
			     "a line of %d bytes: %s", length, heard.first);
	}
	cr_expect_str_eq(heard.first, "t.ini:2: the line has 1001 bytes; at "
				      "most 1000 are allowed");
}

Test(inifile, as_many_keys_are_kept_as_there_is_room_for)
{
	struct ini ini;
	struct heard heard;
	char *text = malloc(INI_FILE_MOST);

	for (int over = 0; over < 3; over++) {
		int used = sprintf(text, "[a]\n");

		for (int i = 1; i < INI_ENTRIES_MOST + over; i++)
			used += sprintf(text + used, "b%d = 5\n", i);
		cr_expect_eq(read_text(&ini, text, &heard), over == 0,
			     "%d over: %s", over, heard.first);
		cr_expect_eq(heard.count, over > 0, "%d over", over);
		cr_expect_eq(ini.count, INI_ENTRIES_MOST);
	}
	cr_expect_str_eq(heard.first, "t.ini:1201: there are more than 1200 "
				      "sections and keys; shorten the file");
	free(text);
}

Test(inifile, what_is_no_plain_file_is_refused_in_one_sentence)
{
	char folder[] = "/tmp/shoal-ini-XXXXXX", pipe[64];
	const char *paths[] = {folder, "/dev/null", "/nowhere/policy.ini",
			       pipe};

	cr_assert_not_null(mkdtemp(folder));
	snprintf(pipe, sizeof pipe, "%s/pipe", folder);
	cr_assert_eq(mkfifo(pipe, 0600), 0);
	for (size_t i = 0; i < COUNT(paths); i++) {
		struct ini ini;
		struct heard heard = {0};
		struct fault why = {0};

		cr_expect_not(ini_read_file(&ini, paths[i], hear, &heard, &why),
			      "%s is accepted", paths[i]);
		cr_expect_eq(why.kind, FAULT_POLICY, "%s", paths[i]);
		cr_expect_neq(strstr(why.sentence, paths[i]), NULL, "%s: '%s'",
			      paths[i], why.sentence);
		cr_expect_eq(heard.count, 0, "%s", paths[i]);
		cr_expect_eq(ini.count, 0, "%s", paths[i]);
	}
	unlink(pipe);
	rmdir(folder);
}

/* The scan of one text is held against iniparser's reading of another. */
Test(inifile, every_difference_between_the_two_readers_is_told)
{
	static const char scanned[] = "[a]\nb = 5\nc = x\n[d]\ne = ''\n";
	static const struct {
		const char *text, *sentence;
	} rows[] = {
		{"[a]\nb = 6\nc = x\n[d]\ne = ''\n", "t.ini:2: the two readers "
						     "disagree about 'b' in "
						     "[a]: '5' and '6'"},
		{"[a]\nb = 5\n[d]\ne = ''\n", "t.ini:3: the two readers "
					      "disagree about 'c' in [a]: 'x' "
					      "and 'nothing'"},
		{"[a]\nb = 5\nc = x\n[d]\ne = ''\nf = 1\n", "t.ini: the two "
							    "readers disagree "
							    "about the number "
							    "of sections and "
							    "keys"},
		{"[a]\nb = 5\nc = x\n[f]\ne = ''\n", "t.ini:4: the two readers "
						     "disagree about section "
						     "[d]"},
		{"[d]\ne = ''\n[a]\nb = 5\nc = x\n", "t.ini:1: the two readers "
						     "disagree about section "
						     "[a]"},
		{"[a]\nb = 5\nc = x\n[d]\ne = ''\n[f]\n", "t.ini: the two "
							  "readers disagree "
							  "about the number of "
							  "sections and keys"},
		{"[a]\nb = 5\nc = x\n[d\ne = ''\n", "t.ini: the second of the "
						    "two readers could not "
						    "read it"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		int copy = ini_copy(rows[i].text, strlen(rows[i].text));
		struct ini ini;
		struct heard heard;

		cr_assert(read_text(&ini, scanned, &heard));
		cr_expect_gt(ini_compare(&ini, copy, hear, &heard), 0,
			     "row %zu", i);
		close(copy);
		cr_expect_eq(strncmp(heard.first, rows[i].sentence,
				     strlen(rows[i].sentence)),
			     0, "row %zu: '%s'", i, heard.first);
	}
}

/* A small generator (xorshift, Marsaglia 2003), the same on every run. */
static uint32_t
next_random(uint32_t *state)
{
	*state ^= *state << 13;
	*state ^= *state >> 17;
	*state ^= *state << 5;
	return *state;
}

/* Puts in, takes out, overwrites or doubles a few bytes. */
static size_t
mutate(char *text, size_t length, size_t size, uint32_t *state)
{
	static const char pieces[][6] = {
		"\n",	    "\r\n", "\r", "=",	   "==",   "\"",   "\"\"",
		"'",	    "''",   ";",  "#",	   "[",	   "]",	   "[a]",
		":",	    "\\",   " ",  "\t",	   "\x0b", "\x0c", "\xc2",
		"\xc2\xa0", "\xff", "%s", "x=1\n", "A",	   "_",	   "-",
		"\\\n",	    "0",    "",
	};
	const char *piece = pieces[next_random(state) % COUNT(pieces)];
	size_t put = strlen(piece), at = next_random(state) % (length + 1);
	size_t cut = next_random(state) % 4 == 0 ? next_random(state) % 40
						 : next_random(state) % 2;

	if (cut > length - at)
		cut = length - at;
	if (length - cut + put > size)
		return length;
	memmove(text + at + put, text + at + cut, length - at - cut);
	memcpy(text + at, piece, put);
	return length - cut + put;
}

static size_t
read_whole(const char *path, char *text, size_t size)
{
	FILE *in = fopen(path, "rb");
	size_t length;

	cr_assert_not_null(in, "there is no %s", path);
	length = fread(text, 1, size, in);
	fclose(in);
	return length;
}

Test(inifile, mutated_files_never_set_the_two_readers_at_odds)
{
	static const char *const paths[] = {
		"tests/fixtures/policies/good/minimal.ini",
		"tests/fixtures/policies/good/crlf-line-ends.ini",
		"tests/fixtures/policies/good/comment-marks-in-quotes.ini",
		"tests/fixtures/policies/good/byte-order-mark.ini",
		"config/station.ini",
	};
	uint32_t state = 20260309;
	int accepted = 0, refused = 0;

	for (int round = 0; round < 5000; round++) {
		char text[8192];
		struct ini ini;
		struct heard heard = {0};
		struct fault why;
		size_t length = read_whole(paths[(size_t)round % COUNT(paths)],
					   text, sizeof text);

		for (uint32_t n = next_random(&state) % 3 + 1; n > 0; n--)
			length = mutate(text, length, sizeof text, &state);
		if (ini_read_bytes(&ini, "t.ini", text, length, hear, &heard,
				   &why))
			accepted++;
		else
			refused++;
		cr_assert_not(heard.disagreed, "round %d: %s\n%.*s", round,
			      heard.first, (int)length, text);
	}
	cr_expect_gt(accepted, 500, "%d accepted", accepted);
	cr_expect_gt(refused, 500, "%d refused", refused);
}

struct record {
	int number, other;
	char text[32], note[32];
};

static const struct field keys[] = {
	{"number", &field_count, offsetof(struct record, number), sizeof(int),
	 1, 9, FIELD_NEEDED, FIELD_TYPED, "days", "how long"},
	{"other", &field_count, offsetof(struct record, other), sizeof(int), 1,
	 9, FIELD_OPTIONAL, FIELD_TYPED, "days", "how long at most"},
	{"text", &field_text, offsetof(struct record, text), 32, 1, 20,
	 FIELD_NEEDED, FIELD_TYPED, "", "its name"},
	{"note", &field_text, offsetof(struct record, note), 32, 0, 20,
	 FIELD_OPTIONAL, FIELD_TYPED, "", "a note"},
};

Test(inifile, filling_tells_each_fault_once)
{
	static const struct {
		const char *text;
		int faults;
		const char *first;
	} rows[] = {
		{"[s]\nnumber = 5\ntext = \"a\"\n", 0, ""},
		{"[s]\nnumber = \"5\"\ntext = a\nnote = \"\"\n", 0, ""},
		{"[t]\n", 1,
		 "t.ini: section [s] is missing; add it with 'number' (how "
		 "long, 1 to 9 days), 'text' (its name)"},
		{"\n[s]\n", 2,
		 "t.ini:2: [s] has no key 'number' (how long, 1 to 9 days); "
		 "add it"},
		{"[s]\nnumber = 10\ntext = a\n", 1,
		 "t.ini:2: number: 10 is out of range; allowed are 1 to 9 "
		 "days"},
		{"[s]\nnumber =\ntext = a\n", 1,
		 "t.ini:2: number: it is empty; a value is needed for "
		 "'number' (how long, 1 to 9 days)"},
		{"[s]\nnumber = 5\ntext = \"\"\n", 1,
		 "t.ini:3: text: it is empty; a value is needed for 'text' "
		 "(its name)"},
		{"[s]\nnumber = 5\ntext = a\nother = \"\"\n", 1,
		 "t.ini:4: other: it is empty; write a value, or take the "
		 "line out"},
		{"[s]\nnumber = 5\ntext = a\nnote =\n", 1,
		 "t.ini:4: note: it is empty; write \"\" when there is none"},
		/* A key that may be meant is not missing as well. */
		{"[s]\nnumbr = 5\ntext = a\n", 1,
		 "t.ini:2: unknown key 'numbr' in [s]; did you mean "
		 "'number'?"},
		{"[s]\nnumber = 5\ntext = a\nzebra = 1\n", 1,
		 "t.ini:4: unknown key 'zebra' in [s]; allowed are number, "
		 "other, text, note"},
		{"[s]\nzebra = 5\ntext = a\n", 2,
		 "t.ini:2: unknown key 'zebra' in [s]; allowed are number, "
		 "other, text, note"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct ini ini;
		struct heard heard;
		struct record record = {7, 7, "seven", "seven"};

		cr_assert(read_text(&ini, rows[i].text, &heard), "row %zu", i);
		cr_expect_eq(ini_fill(&ini, "s",
				      (struct fields){keys, COUNT(keys)},
				      &record, hear, &heard),
			     rows[i].faults, "row %zu", i);
		cr_expect_eq(heard.count, rows[i].faults, "row %zu", i);
		cr_expect_str_eq(heard.first, rows[i].first, "row %zu", i);
		cr_expect_eq(record.other, 7, "row %zu: not given", i);
	}
}

Test(inifile, filling_goes_on_beside_lines_that_were_refused)
{
	struct ini ini;
	struct heard heard;
	struct record record;

	cr_expect_not(read_text(&ini,
				"[s]\nnumber = 5 ; days\nText = a\nother = "
				"10\n",
				&heard));
	cr_expect_eq(heard.count, 2);
	cr_expect_not(ini_section_is_sound(&ini, "s"));
	heard = (struct heard){0};
	cr_expect_eq(ini_fill(&ini, "s", (struct fields){keys, COUNT(keys)},
			      &record, hear, &heard),
		     1);
	cr_expect_str_eq(heard.first, "t.ini:4: other: 10 is out of range; "
				      "allowed are 1 to 9 days");
}

Test(inifile, sections_are_held_to_the_list)
{
	static const char *const names[] = {"station", "slip", "rule NAME"};
	static const struct {
		const char *text;
		int faults;
		const char *first;
	} rows[] = {
		{"[station]\n[slip]\n[rule a]\n[rule b]\n[rule]\n", 0, ""},
		{"[station]\n[statoin]\n", 1,
		 "t.ini:2: unknown section [statoin]; did you mean "
		 "[station]?"},
		{"[ruel a b]\n", 1,
		 "t.ini:1: unknown section [ruel a b]; did you mean [rule a "
		 "b]?"},
		{"[roule]\n", 1,
		 "t.ini:1: unknown section [roule]; did you mean [rule "
		 "NAME]?"},
		{"[elephant]\n[zebra]\n", 2,
		 "t.ini:1: unknown section [elephant]; allowed are [station], "
		 "[slip], [rule NAME]"},
		{"; nothing\n", 1,
		 "t.ini: it is empty, or holds nothing but comments; a "
		 "section such as [station] is needed"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct ini ini;
		struct heard heard;

		cr_assert(read_text(&ini, rows[i].text, &heard), "row %zu", i);
		cr_expect_eq(ini_check_sections(&ini, names, COUNT(names), hear,
						&heard),
			     rows[i].faults, "row %zu", i);
		cr_expect_str_eq(heard.first, rows[i].first, "row %zu", i);
	}
}

/* iniparser folds case and trims by the locale; nothing accepted depends on
 * it, and nothing here sets it. */
Test(inifile, reading_neither_sets_the_locale_nor_depends_on_it)
{
	static const char text[] = "[limit i]\ni = 0.25\nj = "
				   "\xc2\xa0\xc3\xa9\xc2\xa0\n";
	static const char *const locales[] = {"C", "C.UTF-8"};

	for (size_t i = 0; i < COUNT(locales); i++) {
		struct ini ini;
		struct heard heard;
		char before[256];

		cr_assert_not_null(setlocale(LC_CTYPE, locales[i]));
		snprintf(before, sizeof before, "%s", setlocale(LC_ALL, NULL));
		cr_expect(read_text(&ini, text, &heard), "%s", heard.first);
		cr_expect_str_eq(setlocale(LC_ALL, NULL), before);
		cr_expect_str_eq(ini_find(&ini, "limit i", "i")->value, "0.25");
		cr_expect_str_eq(ini_find(&ini, "limit i", "j")->value, "\xc2"
									"\xa0"
									"\xc3"
									"\xa9"
									"\xc2"
									"\xa0");
	}
}
