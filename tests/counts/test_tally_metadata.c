/* The description of the tally for other programs, config/
 * tally.csv-metadata.json, says what the program's own table of columns says.
 * Its vocabulary: Metadata Vocabulary for Tabular Data, W3C Recommendation of
 * 17 December 2015 (its property names from memory). */
#include "counts/tally.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

enum { FILE_SIZE = 32768, PART_SIZE = 512 };

static const char path[] = "config/tally.csv-metadata.json";

static void
read_file(char *text)
{
	FILE *in = fopen(path, "r");
	size_t length;

	cr_assert_not_null(in, "%s is not there", path);
	length = fread(text, 1, FILE_SIZE - 1, in);
	fclose(in);
	cr_assert_lt(length, (size_t)FILE_SIZE - 1, "%s is too long", path);
	text[length] = '\0';
}

/* What the datatype of a column must begin with or hold. */
static void
expect_datatype(const struct field *field, char *text)
{
	if (field->kind == &field_count)
		snprintf(text, PART_SIZE,
			 "{\"base\": \"integer\", \"minimum\": %ld, "
			 "\"maximum\": %ld},\n",
			 field->least, field->most);
	else if (field->kind == &field_choice)
		snprintf(text, PART_SIZE,
			 "{\"base\": \"string\", \"format\": \"^(%s)$\"},\n",
			 field->words);
	else if (field->kind == &field_day)
		snprintf(text, PART_SIZE,
			 "{\"base\": \"date\", \"format\": \"yyyy-MM-dd\"},\n");
	else
		snprintf(text, PART_SIZE, "\"maxLength\": %ld},\n",
			 field->most);
}

static size_t
count_of(const char *text, const char *part)
{
	size_t count = 0;

	for (; (text = strstr(text, part)) != NULL; text++)
		count++;
	return count;
}

Test(tally_metadata, names_order_types_and_limits_are_those_of_the_table)
{
	char text[FILE_SIZE], part[PART_SIZE], *place;

	read_file(text);
	cr_expect_eq(count_of(text, "\"name\":"), tally_columns.count);
	cr_expect_eq(count_of(text, "\"required\": true"), tally_columns.count,
		     "no column may be empty");
	place = strstr(text, "\"columns\":");
	for (size_t i = 0; i < tally_columns.count; i++) {
		const struct field *field = &tally_columns.field[i];

		cr_assert_not_null(place, "no column after %zu", i);
		place = strstr(place, "\"name\": ");
		snprintf(part, sizeof part,
			 "\"name\": \"%s\", \"titles\": \"%s\",", field->name,
			 field->name);
		cr_assert(place != NULL &&
				  strncmp(place, part, strlen(part)) == 0,
			  "column %zu is not %s", i, field->name);
		place += strlen(part);
		expect_datatype(field, part);
		cr_expect(strstr(place, part) != NULL &&
				  strstr(place, part) < strstr(place, "\"requir"
								      "ed\""),
			  "column %s: the datatype is not %s", field->name,
			  part);
	}
}

/* The least that lets a row be found again, and that cannot stand twice. */
Test(tally_metadata, a_row_is_known_by_station_date_revision_and_number)
{
	char text[FILE_SIZE];

	read_file(text);
	cr_expect_not_null(strstr(text, "\"primaryKey\": [\"station\", "
					"\"date\", \"revision\", \"row\"]"));
	cr_expect_not_null(strstr(text, "\"@context\": "
					"[\"http://www.w3.org/ns/csvw\""));
}
