/* test_replycolumns.c: how a reply is given by name. */
#include "desk/replycolumns.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

/* What is read in turn; what one quadrant then has, and what the column that
 * names all four says of itself. */
static const struct {
	const char *set; /* NAME=VALUE|... */
	const char *superior, *nasal;
	bool blank;
} rows[] = {
	{"", "", "", true},
	{"deepest_right=scleral_spur", "scleral_spur", "scleral_spur", false},
	{"deepest_right=none|deepest_right_nasal=could_not_see", "none",
	 "could_not_see", false},
	/* The last one counts. */
	{"deepest_right_nasal=could_not_see|deepest_right=none", "none", "none",
	 false},
	{"deepest_right_nasal=could_not_see", "", "could_not_see", false},
	{"deepest_right=none|deepest_right=", "", "", true},
	{"deepest_left=none", "", "", true},
	/* By the numbers of the printed sheet. */
	{"deepest_right=5|deepest_right_nasal=7", "scleral_spur",
	 "could_not_see", false},
};

static void
apply(const struct reply_columns *columns, const char *sets,
      struct reply *reply, size_t row)
{
	while (*sets != '\0') {
		size_t length = strcspn(sets, "|");
		char set[80], *equals;
		struct fault why;

		snprintf(set, sizeof set, "%.*s", (int)length, sets);
		equals = strchr(set, '=');
		*equals = '\0';
		cr_assert_not_null(fields_find(columns->fields, set), "row %zu",
				   row);
		cr_expect(field_read(fields_find(columns->fields, set),
				     equals + 1, reply, &why),
			  "row %zu: %s", row, why.sentence);
		sets += length + (sets[length] == '|');
	}
}

Test(replycolumns, one_name_answers_for_four_quadrants)
{
	struct reply_columns columns;
	const struct field *all;

	reply_columns_init(&columns);
	cr_expect_leq(columns.fields.count, (size_t)REPLY_COLUMNS_MOST);
	cr_expect_eq(columns.fields.count, reply_fields.count + 10);
	all = fields_find(columns.fields, "deepest_right");
	cr_assert_not_null(all);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct reply reply;
		char value[FIELD_TEXT_SIZE];

		reply_init(&reply);
		apply(&columns, rows[i].set, &reply, i);
		field_write(fields_find(reply_fields, "deepest_right_superior"),
			    &reply, value, sizeof value);
		cr_expect_str_eq(value, rows[i].superior, "row %zu: %s", i,
				 value);
		field_write(fields_find(reply_fields, "deepest_right_nasal"),
			    &reply, value, sizeof value);
		cr_expect_str_eq(value, rows[i].nasal, "row %zu: %s", i, value);
		cr_expect_eq(field_is_blank(all, &reply), rows[i].blank,
			     "row %zu", i);
	}
}

Test(replycolumns, a_wrong_word_is_told_under_the_columns_name)
{
	struct reply_columns columns;
	struct reply reply;
	struct fault why;

	reply_columns_init(&columns);
	reply_init(&reply);
	cr_expect_not(field_read(fields_find(columns.fields, "synechiae_left"),
				 "maybe", &reply, &why));
	cr_expect_str_eq(why.sentence, "synechiae_left: 'maybe' is not one of: "
				       "yes, no, could_not_see, not_examined");
}

Test(replycolumns, numbers_stand_for_the_words_of_the_printed_sheet)
{
	static const struct {
		const char *field, *typed, *read;
	} numbers[] = {
		{"outcome", "3", "elsewhere"},
		{"outcome", "4", NULL},
		{"outcome", "0", NULL},
		{"outcome", "003", NULL},
		{"useful", "2", "no"},
		{"also_seen", "1", "nothing"},
		{"also_seen", "2;3", "mass_behind_iris;new_vessels"},
		{"done", "drops,2", "iridotomy;drops"},
		{"done", "2;9", NULL},
		{"disc_left", "2", "glaucoma"},
		/* These are numbers already. */
		{"pressure_left", "17", "17"},
		{"cup_left", "1", "1"},
		{"examiner", "7", "7"},
	};
	struct reply_columns columns;

	reply_columns_init(&columns);
	for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
		const struct field *field =
			fields_find(columns.fields, numbers[i].field);
		char value[FIELD_TEXT_SIZE];
		struct reply reply;
		struct fault why = {FAULT_NONE, ""};

		reply_init(&reply);
		cr_expect_eq(field_read(field, numbers[i].typed, &reply, &why),
			     numbers[i].read != NULL, "row %zu: %s", i,
			     why.sentence);
		field_write(field, &reply, value, sizeof value);
		if (numbers[i].read != NULL)
			cr_expect_str_eq(value, numbers[i].read, "row %zu: %s",
					 i, value);
	}
}

Test(replycolumns, every_typed_field_is_listed_once)
{
	struct reply_columns columns;
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	reply_columns_init(&columns);
	reply_columns_write(&columns, 72, out);
	fclose(out);
	for (size_t i = 0; i < reply_fields.count; i++) {
		char start[60];
		const char *name = reply_fields.field[i].name;
		bool listed;

		snprintf(start, sizeof start, "\n%s: ", name);
		listed = strstr(text, start) != NULL || i == 0;
		cr_expect_eq(listed,
			     reply_fields.field[i].origin == FIELD_TYPED &&
				     strstr(name, "left") == NULL &&
				     strstr(name, "erior") == NULL &&
				     strstr(name, "_nasal") == NULL &&
				     strstr(name, "_temporal") == NULL,
			     "%s", name);
	}
	cr_expect_not_null(strstr(text, "\npressure_right: pressure: 1 to 99 "
					"mmHg\n"));
	cr_expect_not_null(strstr(text, "(needed)"));
	free(text);
}
