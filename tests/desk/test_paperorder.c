/* test_paperorder.c: paper asks in the order of the screen. */
#include "clinic/paperrow.h"
#include "desk/question.h"

#include <criterion/criterion.h>
#include <string.h>

/* The next column that is a question: an age carries its mark, and what stands
 * at the head of a page is asked once. */
static int
next_column(int column)
{
	do
		column++;
	while ((column >= PAPER_HEAD_FIRST && column <= PAPER_HEAD_LAST) ||
	       (column < PAPER_COLUMNS &&
		strcmp(paper_columns[column].name, "age_estimated") == 0));
	return column;
}

Test(paperorder, paper_asks_in_the_order_of_the_screen)
{
	int column = -1;

	for (int i = 0; i < QUESTION_COUNT; i++) {
		const struct question_row *row = &question_table[i];

		column = next_column(column);
		cr_assert_lt(column, PAPER_COLUMNS, "question %d", i);
		if (row->field != NULL) {
			cr_expect_str_eq(paper_columns[column].name,
					 row->field);
			continue;
		}
		cr_expect_eq(paper_columns[column].group, row->group, "%s",
			     row->title);
		if (finding_is_of_eye(question_finding(row->group, 1)))
			cr_expect_eq(paper_columns[column].eye, row->eye, "%s",
				     row->title);
	}
	cr_expect_eq(next_column(column), PAPER_COLUMNS);
}

Test(paperorder, numbers_on_paper_are_the_keys_of_the_screen)
{
	for (int group = 0; group < GROUP_DERIVED; group++)
		for (int key = 1; key <= 9; key++)
			cr_expect_eq(paper_finding((enum finding_group)group,
						   key),
				     question_finding((enum finding_group)group,
						      key));
}
