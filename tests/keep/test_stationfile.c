/* test_stationfile.c: what differs from one laptop to the next. */
#include "keep/stationfile.h"

#include "base/embedded.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

enum { TEXT_SIZE = 8192 };

static void
hear(void *context, const struct fault *one)
{
	char *told = context;
	size_t used = strlen(told);
	const char *colon = strchr(one->sentence, ':');

	/* Without the name of the file. */
	cr_assert_not_null(colon, "%s", one->sentence);
	snprintf(told + used, TEXT_SIZE - used, "%s\n", colon + 1);
}

/* Reads `text` by way of a file; `told` holds TEXT_SIZE bytes. */
static bool
read_text(const char *text, struct station *station, char *told,
	  struct fault *why)
{
	char path[] = "/tmp/shoal-station-XXXXXX";
	int handle = mkstemp(path);
	bool done;

	cr_assert_geq(handle, 0);
	cr_assert_eq(write(handle, text, strlen(text)), (ssize_t)strlen(text));
	close(handle);
	told[0] = '\0';
	done = stationfile_read(path, station, hear, told, why);
	unlink(path);
	return done;
}

static bool
write_text(const struct station *station, char *text, struct fault *why)
{
	FILE *out = fmemopen(text, TEXT_SIZE, "w");
	bool done;

	cr_assert_not_null(out);
	text[0] = '\0';
	done = stationfile_write(station, out, why);
	fclose(out);
	return done;
}

static const struct station example = {
	.code = 14,
	.programme = "North lake eye programme",
	.site = "School of Exampleton",
	.phone = "000 1234",
	.clinic_name = "Eye clinic of Exampleton",
	.clinic_address = "Well street; beside the market",
	.clinic_days = "Monday to Friday, 8 to 12",
	.clinic_door = "green gate, room 4",
	.clinic_cost = "it's free",
	.clinic_phone = "000 5678",
	.language = "xx",
};

Test(stationfile, what_is_written_is_read_back)
{
	struct station blanks = {.code = 9999,
				 .programme = "P",
				 .site = "S",
				 .clinic_name = "\xc3\x89",
				 .language = "en"};
	const struct station *const rows[] = {&example, &blanks};

	for (size_t i = 0; i < COUNT(rows); i++) {
		char text[TEXT_SIZE], told[TEXT_SIZE];
		struct station read;
		struct fault why = {0};

		cr_assert(write_text(rows[i], text, &why), "row %zu: %s", i,
			  why.sentence);
		cr_assert(read_text(text, &read, told, &why), "row %zu: %s", i,
			  told);
		cr_expect_eq(read.code, rows[i]->code, "row %zu", i);
		for (int s = 0; s < STATION_SECTIONS; s++)
			for (size_t f = 0; f < station_sections[s].fields.count;
			     f++) {
				char one[FIELD_TEXT_SIZE];
				char other[FIELD_TEXT_SIZE];
				const struct field *field =
					&station_sections[s].fields.field[f];

				field_write(field, rows[i], one, sizeof one);
				field_write(field, &read, other, sizeof other);
				cr_expect_str_eq(one, other, "row %zu: %s", i,
						 field->name);
			}
	}
}

Test(stationfile, writing_changes_values_and_nothing_else)
{
	const char *from = (const char *)embedded_station;
	char text[TEXT_SIZE];
	struct fault why;
	int keys = 0, lines = 0;

	cr_assert(write_text(&example, text, &why));
	for (const char *to = text; *from != '\0'; lines++) {
		size_t length = strcspn(from, "\n"),
		       written = strcspn(to, "\n");
		bool key = from[0] >= 'a' && from[0] <= 'z';
		size_t same = key ? strcspn(from, "=") + 1 : length;

		keys += key;
		cr_expect_eq(strncmp(from, to, same), 0, "line %d: %.*s",
			     lines + 1, (int)written, to);
		cr_expect(key || written == length, "line %d", lines + 1);
		cr_assert_eq(to[written], '\n');
		from += length + 1;
		to += written + 1;
	}
	cr_expect_eq(keys, 12);
	cr_expect_not_null(strstr(text, "\ncode = 0014\n"));
	cr_expect_not_null(strstr(text, "\nphone = \"000 1234\"\n"));
	cr_expect_not_null(strstr(text, "\nphone = \"000 5678\"\n"));
	cr_expect_not_null(strstr(text, "\nlanguage = xx\n"));
}

Test(stationfile, what_could_not_be_read_back_is_not_written)
{
	static const struct {
		const char *site;
		int code;
		const char *sentence;
	} rows[] = {
		{"The \"old\" school", 14,
		 "site: a double quote or a backslash is not allowed; write ' "
		 "or / in its place"},
		{"a\\b", 14,
		 "site: a double quote or a backslash is not allowed; write ' "
		 "or / in its place"},
		{"", 14, "site: it is empty; a value is needed"},
		{"here", 0, "code: it is empty; a value is needed"},
		{"=here", 14,
		 "site: it may not begin with = + - or @, which a spreadsheet "
		 "takes for a formula"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct station station = example;
		char text[TEXT_SIZE];
		struct fault why = {0};

		station.code = rows[i].code;
		snprintf(station.site, sizeof station.site, "%s", rows[i].site);
		cr_expect_not(write_text(&station, text, &why), "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
		cr_expect_str_eq(text, "", "row %zu", i);
	}
}

#define NEEDED "[station]\ncode = 0014\nprogramme = P\nsite = S\n"
#define CLINIC "[clinic]\nname = C\n"

Test(stationfile, faults_say_what_to_type)
{
	static const struct {
		const char *text, *told;
	} rows[] = {
		{NEEDED CLINIC, ""},
		{NEEDED CLINIC "phone = \"\"\n[slip]\nlanguage = luo\n", ""},
		{"", " it is empty, or holds nothing but comments; a section "
		     "such as [station] is needed\n"},
		{"[station]\ncode = 14\nprogramme = P\nsite = S\n" CLINIC,
		 "2: code: '14' is not four digits; allowed are 0001 to "
		 "9999\n"},
		{"[station]\ncode = 0000\nprogramme = P\nsite = S\n" CLINIC,
		 "2: code: '0000' is no station; allowed are 0001 to 9999\n"},
		{"[station]\ncode = +014\nprogramme = P\nsite = S\n" CLINIC,
		 "2: code: '+014' is not four digits; allowed are 0001 to "
		 "9999\n"},
		{"[station]\ncode = 00014\nprogramme = P\nsite = S\n" CLINIC,
		 "2: code: '00014' is not four digits; allowed are 0001 to "
		 "9999\n"},
		{NEEDED CLINIC "[slip]\nlanguage = EN\n", "8: language: 'EN' "
							  "is not a language; "
							  "allowed are two or "
							  "three small "
							  "letters, such as "
							  "en\n"},
		{NEEDED CLINIC "[slip]\nlanguage = engl\n", "8: language: "
							    "'engl' is not a "
							    "language; allowed "
							    "are two or three "
							    "small letters, "
							    "such as en\n"},
		{NEEDED CLINIC "[slip]\nlanguage =\n", "8: language: it is "
						       "empty; write a value, "
						       "or take the line "
						       "out\n"},
		{NEEDED, ""},
		{CLINIC, " section [station] is missing; add it with 'code' "
			 "(this laptop's four digits), 'programme' (the "
			 "programme), 'site' (where the camp stands)\n"},
		{NEEDED "[clinik]\nname = C\n", "5: unknown section [clinik]; "
						"did you mean [clinic]?\n"},
		{NEEDED "[clinic]\nnane = C\nphone = 1 # x\n",
		 "7: '# x' would begin a comment; put it on a line of its "
		 "own, or the whole text in straight double quotes\n"
		 "6: unknown key 'nane' in [clinic]; did you mean 'name'?\n"},
		{"[station]\ncode = 0014\n" CLINIC, "1: [station] has no key "
						    "'programme' (the "
						    "programme); add it\n"
						    "1: [station] has no key "
						    "'site' (where the camp "
						    "stands); add it\n"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		char told[TEXT_SIZE];
		struct station station;
		struct fault why = {0};

		cr_expect_eq(read_text(rows[i].text, &station, told, &why),
			     rows[i].told[0] == '\0', "row %zu", i);
		cr_expect_str_eq(told, rows[i].told, "row %zu", i);
		cr_expect_eq(why.kind,
			     rows[i].told[0] == '\0' ? FAULT_NONE
						     : FAULT_POLICY,
			     "row %zu", i);
	}
}

Test(stationfile, what_is_not_given_is_blank_and_the_language_english)
{
	char told[TEXT_SIZE];
	struct station station;
	struct fault why;

	cr_assert(read_text(NEEDED CLINIC, &station, told, &why), "%s", told);
	cr_expect_eq(station.code, 14);
	cr_expect_str_eq(station.clinic_name, "C");
	cr_expect_str_eq(station.clinic_days, "");
	cr_expect_str_eq(station.phone, "");
	cr_expect_str_eq(station.language, "en");
}

/* The template asks to be filled in: exactly the two needed texts. */
Test(stationfile, the_template_lacks_only_what_is_needed)
{
	char told[TEXT_SIZE];
	struct station station;
	struct fault why;

	cr_expect_not(read_text((const char *)embedded_station, &station, told,
				&why));
	cr_expect_str_eq(told, "16: programme: it is empty; a value is needed "
			       "for 'programme' (the programme)\n"
			       "18: site: it is empty; a value is needed for "
			       "'site' (where the camp stands)\n");
	cr_expect_eq(station.code, 1);
}
