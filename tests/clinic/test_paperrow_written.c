/* Tests of clinic/paperrow: what was read from paper is written as it reads. */
#include "clinic/paperrow.h"

#include "base/text.h"

#include <criterion/criterion.h>
#include <string.h>

/* Every set of numbers of every circled column: read, written, read again. */
Test(paperrow, each_set_of_circles_is_written_so_that_it_reads_the_same)
{
	int columns = 0, sets = 0;

	for (int c = 0; c < PAPER_COLUMNS; c++) {
		enum finding_group group = paper_columns[c].group;
		const struct field *field =
			fields_find(paper_row_fields, paper_columns[c].name);
		int most = 0;

		if (group == GROUP_COUNT)
			continue;
		while (paper_finding(group, most + 1) != FINDING_COUNT)
			most++;
		columns++;
		for (int set = 0; set < 1 << most; set++, sets++) {
			char typed[12] = "", text[FIELD_TEXT_SIZE],
			     again[FIELD_TEXT_SIZE];
			struct fault why = {FAULT_NONE, ""};
			struct paper_row row, other;

			for (int i = 0; i < most; i++)
				if (set & 1 << i)
					typed[strlen(typed)] = (char)('1' + i);
			paper_row_init(&row);
			paper_row_init(&other);
			cr_assert(field_read(field, typed, &row, &why), "%s",
				  why.sentence);
			cr_assert_eq(field_is_blank(field, &row), set == 0);
			field_write(field, &row, text, sizeof text);
			cr_assert(field_read(field, text, &other, &why), "%s",
				  why.sentence);
			field_write(field, &other, again, sizeof again);
			cr_assert_str_eq(text, again, "%s '%s'", field->name,
					 typed);
			paper_row_gather(&row);
			paper_row_gather(&other);
			cr_assert(
				row.visit.findings.person ==
						other.visit.findings.person &&
					memcmp(row.visit.findings.eye,
					       other.visit.findings.eye,
					       sizeof row.visit.findings.eye) ==
						0,
				"%s '%s'", field->name, typed);
		}
	}
	cr_expect(columns == PAPER_GROUPS && sets > 300, "%d, %d", columns,
		  sets);
}

Test(paperrow, a_reason_given_as_a_number_is_written_as_its_word)
{
	static const char *const words[] = {"scar", "pterygium",
					    "could_not_keep_still", "other"};
	const struct field *field = fields_find(paper_row_fields, "not_"
								  "gradable_"
								  "why_left");

	for (int i = 0; i < 4; i++) {
		char text[FIELD_TEXT_SIZE];
		struct fault why = {FAULT_NONE, ""};
		struct paper_row row;

		paper_row_init(&row);
		snprintf(text, sizeof text, "%d", i + 1);
		cr_assert(field_read(field, text, &row, &why));
		field_write(field, &row, text, sizeof text);
		cr_expect_str_eq(text, words[i]);
	}
}
