/* test_visit.c: the record of one person, as its table has it. */
#include "clinic/visit.h"

#include "sets.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

static const struct field *
field_of(const char *name)
{
	const struct field *field = fields_find(visit_fields, name);

	cr_assert_not_null(field, "%s", name);
	return field;
}

/* A record with "name=value" set, separated by '|'. */
static void
fill(struct visit *visit, const char *sets)
{
	visit_init(visit);
	sets_read(visit_fields, visit, sets);
}

Test(visit, fields_have_names_of_their_own_and_do_not_overlap)
{
	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *one = &visit_fields.field[i];

		cr_expect_eq(strspn(one->name, "abcdefghijklmnopqrstuvwxyz_"),
			     strlen(one->name), "%s", one->name);
		cr_expect_gt(one->size, 0, "%s", one->name);
		cr_expect_leq(one->offset + one->size, sizeof(struct visit),
			      "%s", one->name);
		cr_expect_gt(strlen(one->about), 0, "%s", one->name);
		cr_expect_eq(fields_find(visit_fields, one->name), one, "%s",
			     one->name);
		for (size_t j = 0; j < i; j++) {
			const struct field *other = &visit_fields.field[j];

			cr_expect_str_neq(one->name, other->name);
			cr_expect(one->offset >= other->offset + other->size ||
					  other->offset >=
						  one->offset + one->size,
				  "%s and %s overlap", one->name, other->name);
		}
	}
}

/* clang-format off */
static const struct {
	const char *name, *value[3];
} values[] = {
	{"number", {"0014-00001-98"}},
	{"screened_on", {"2026-11-25", "2024-02-29"}},
	{"entered_at", {"2026-11-25T07:04:09Z"}},
	{"late", {"0", "1"}},
	{"site", {"Lower Mill School"}},
	{"grader", {"AB", "\xe4\xb8\xad"}},
	{"name", {"Ren\xc3\xa9 O'Hara"}},
	{"contact", {"0550 123 456"}},
	{"age_years", {"0", "58", "120"}},
	{"age_estimated", {"no", "yes"}},
	{"sex", {"F", "M", "X"}},
	{"depth_right", {"0", "25", "x"}},
	{"depth_left", {"100", "-", "5"}},
	{"not_gradable_why_right", {"scar", "other"}},
	{"not_gradable_why_left", {"pterygium", "could_not_keep_still"}},
	{"pressure_right", {"1", "54", "99"}},
	{"pressure_left", {"18"}},
	{"findings", {"eye_pain;nausea;right:red_eye;left:injury"}},
	{"reply_consent", {"no", "yes"}},
	{"urgency", {"same_day", "urgent", "no_referral"}},
	{"within_days", {"0", "365"}},
	{"see_by", {"2026-12-25"}},
	{"rescreen_months", {"1", "120"}},
	{"rules", {"shallow;very-shallow"}},
	{"policy", {"ABCDEF"}},
	{"state", {"current", "corrected", "void"}},
};
/* clang-format on */

Test(visit, every_field_is_written_as_it_is_read_and_touches_no_other)
{
	char text[FIELD_TEXT_SIZE];
	struct visit visit;
	struct fault why;

	cr_assert_eq(sizeof values / sizeof values[0], visit_fields.count,
		     "every field is tried");
	memset(&visit, 0x5a, sizeof visit);
	visit_init(&visit);
	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		cr_assert_str_eq(field->name, values[i].name,
				 "the order of headers and schema");
		cr_expect(field_is_blank(field, &visit), "%s", field->name);
		for (int v = 0; v < 3 && values[i].value[v] != NULL; v++) {
			cr_expect(field_read(field, values[i].value[v], &visit,
					     &why),
				  "%s", field->name);
			field_write(field, &visit, text, sizeof text);
			cr_expect_str_eq(text, values[i].value[v], "%s",
					 field->name);
			for (size_t j = 0; j < visit_fields.count; j++)
				cr_expect_eq(
					field_is_blank(&visit_fields.field[j],
						       &visit),
					j != i, "%s after %s",
					visit_fields.field[j].name,
					field->name);
		}
		field_blank(field, &visit);
		cr_expect(field_is_blank(field, &visit), "%s", field->name);
	}
}

Test(visit, the_longest_texts_fit)
{
	static const char *const letters[] = {"a", "\xc3\xa9", "\xe4\xb8\xad",
					      "\xf0\x9f\x91\x81"};
	static const char *const names[] = {"site", "grader", "name",
					    "contact"};
	char typed[4 * 80 + 8], text[FIELD_TEXT_SIZE];
	struct visit visit;
	struct fault why;

	visit_init(&visit);
	for (size_t i = 0; i < 4; i++)
		for (size_t l = 0; l < 4; l++) {
			const struct field *field = field_of(names[i]);
			size_t length = strlen(letters[l]), used = 0;

			for (long n = 0; n < field->most; n++, used += length)
				memcpy(typed + used, letters[l], length);
			typed[used] = '\0';
			cr_expect(field_read(field, typed, &visit, &why),
				  "%s.%zu: %s", names[i], l, why.sentence);
			field_write(field, &visit, text, sizeof text);
			cr_expect_str_eq(text, typed, "%s.%zu", names[i], l);
			memcpy(typed + used, letters[l], length + 1);
			cr_expect(!field_read(field, typed, &visit, &why),
				  "%s.%zu: one too many", names[i], l);
		}
}

Test(visit, each_eye_has_its_own_values_and_the_shallower_depth_counts)
{
	static const struct {
		const char *right, *left;
		enum depth worse;
	} rows[] = {
		{"5", "15", DEPTH_5},	 {"15", "5", DEPTH_5},
		{"0", "100", DEPTH_0},	 {"75", "75", DEPTH_75},
		{"x", "40", DEPTH_40},	 {"40", "x", DEPTH_40},
		{"-", "100", DEPTH_100}, {"25", "-", DEPTH_25},
		{"x", "x", DEPTH_BLANK}, {"x", "-", DEPTH_BLANK},
		{"-", "x", DEPTH_BLANK},
	};
	struct visit visit;
	struct fault why;

	fill(&visit, "depth_right=5|depth_left=40|pressure_right=11|"
		     "pressure_left=22|not_gradable_why_right=scar|"
		     "not_gradable_why_left=other");
	cr_expect_eq(visit_depth(&visit, EYE_RIGHT), DEPTH_5);
	cr_expect_eq(visit_depth(&visit, EYE_LEFT), DEPTH_40);
	cr_expect_eq(visit_pressure(&visit, EYE_RIGHT), 11);
	cr_expect_eq(visit_pressure(&visit, EYE_LEFT), 22);
	cr_expect_eq(visit_not_gradable_why(&visit, EYE_RIGHT), 0);
	cr_expect_eq(visit_not_gradable_why(&visit, EYE_LEFT), 3);
	visit_init(&visit);
	cr_expect_eq(visit_worse_depth(&visit), DEPTH_BLANK);
	cr_expect_eq(visit_pressure(&visit, EYE_LEFT), FIELD_BLANK,
		     "not measured is not 0");
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		field_read(field_of("depth_right"), rows[i].right, &visit,
			   &why);
		field_read(field_of("depth_left"), rows[i].left, &visit, &why);
		cr_expect_eq(visit_worse_depth(&visit), rows[i].worse,
			     "row %zu", i);
	}
}

Test(visit, what_must_hold_between_fields_is_told)
{
	/* NULL = sound */
	static const struct {
		const char *sets, *sentence;
	} rows[] = {
		{"depth_right=5|depth_left=15", NULL},
		{"depth_right=x|depth_left=x", NULL},
		{"depth_right=-|depth_left=x", NULL},
		{"depth_right=5|depth_left=-", NULL},
		{"depth_right=5|depth_left=5|age_years=60|age_estimated=yes",
		 NULL},
		{"depth_right=5|depth_left=5|age_estimated=no", NULL},
		{"", "depth_right: it is empty; write a grade, x for could not "
		     "be graded, or - for no eye"},
		{"depth_left=5", "depth_right: it is empty; write a grade, x "
				 "for could not be graded, or - for no eye"},
		{"depth_right=5", "depth_left: it is empty; write a grade, x "
				  "for could not be graded, or - for no eye"},
		{"depth_right=-|depth_left=-", "depth_left: both eyes are "
					       "marked -, so there is nothing "
					       "to judge"},
		{"depth_right=5|depth_left=5|age_estimated=yes", "age_"
								 "estimated: "
								 "it says yes, "
								 "but no age "
								 "is given"},
		{"depth_right=25|depth_left=-|findings=left:red_eye",
		 "depth_left: - says that there is no eye, but signs are "
		 "recorded for it; write x when it could not be graded, or "
		 "take the signs away"},
		{"depth_right=-|depth_left=25|pressure_right=45",
		 "depth_right: - says that there is no eye, but a pressure is "
		 "recorded for it; write x when it could not be graded, or "
		 "take the pressure away"},
		{"depth_right=25|depth_left=-|findings=left:injury;right:red_"
		 "eye",
		 NULL},
	};
	struct visit visit;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why = {0};

		fill(&visit, rows[i].sets);
		cr_expect_eq(visit_check(&visit, &why),
			     rows[i].sentence == NULL, "row %zu: %s", i,
			     why.sentence);
		if (rows[i].sentence != NULL)
			cr_expect_str_eq(why.sentence, rows[i].sentence,
					 "row %zu", i);
	}
}

#define KEPT "depth_right=5|depth_left=15|screened_on=2026-11-25|grader=AB|"

Test(visit, what_must_hold_before_it_is_kept_is_told)
{
	/* NULL = may be kept */
	static const struct {
		const char *sets, *sentence;
	} rows[] = {
		{KEPT "reply_consent=no", NULL},
		{KEPT "reply_consent=yes", NULL},
		{KEPT "reply_consent=yes|depth_left=x|"
		      "not_gradable_why_left=scar",
		 NULL},
		{KEPT "reply_consent=yes|screened_on=2026-11-24", NULL},
		{KEPT "reply_consent=yes|screened_on=2026-11-26", "screened_on:"
								  " 2026-11-26 "
								  "is after "
								  "today, "
								  "2026-11-25"},
		{KEPT "reply_consent=yes|screened_on=", "screened_on: the day "
							"of screening is "
							"missing"},
		{KEPT "reply_consent=yes|grader=", "grader: the initials of "
						   "who graded are missing"},
		{KEPT "age_years=60", "reply_consent: it is empty; ask, and "
				      "write yes or no"},
		{KEPT "reply_consent=yes|depth_left=x", "not_gradable_why_left:"
							" it is empty; say "
							"why: scar, pterygium, "
							"could_not_keep_still "
							"or other"},
		{KEPT "reply_consent=yes|depth_right=x|"
		      "not_gradable_why_left=scar",
		 "not_gradable_why_right: it is empty; say why: scar, "
		 "pterygium, could_not_keep_still or other"},
		{KEPT "reply_consent=yes|not_gradable_why_left=scar",
		 "not_gradable_why_left: a reason is given, but depth_left is "
		 "not x"},
		{KEPT "reply_consent=yes|depth_right=-|"
		      "not_gradable_why_right=other",
		 "not_gradable_why_right: a reason is given, but depth_right "
		 "is not x"},
	};
	struct visit visit;
	struct day today;

	cr_assert(day_make(2026, 11, 25, &today));
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct fault why = {0};

		fill(&visit, rows[i].sets);
		cr_expect_eq(visit_check_kept(&visit, today, &why),
			     rows[i].sentence == NULL, "row %zu: %s", i,
			     why.sentence);
		if (rows[i].sentence != NULL)
			cr_expect_str_eq(why.sentence, rows[i].sentence,
					 "row %zu", i);
	}
}

Test(visit, what_looks_odd_is_shown_but_allowed)
{
	static const struct {
		const char *sets;
		int count;
		const char *lines;
	} rows[] = {
		{"depth_right=5|depth_left=5|pressure_right=20", 0, ""},
		{"depth_right=x|depth_left=5|findings=right:not_seeing", 0, ""},
		{"depth_right=-|depth_left=5|findings=right:not_seeing", 0, ""},
		{"depth_right=-|depth_left=5", 1,
		 "no right eye to grade, but it is not marked as not seeing: "
		 "mark it, so that the left eye counts as the only seeing "
		 "eye\n"},
		{"depth_right=5|depth_left=-|findings=right:not_seeing", 1,
		 "no left eye to grade, but it is not marked as not seeing: "
		 "mark it, so that the right eye counts as the only seeing "
		 "eye\n"},
	};
	struct visit visit;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char *written = NULL;
		size_t size;
		FILE *out = open_memstream(&written, &size);

		cr_assert_not_null(out);
		fill(&visit, rows[i].sets);
		cr_expect_eq(visit_write_oddities(&visit, out), rows[i].count,
			     "row %zu", i);
		fclose(out);
		cr_expect_str_eq(written, rows[i].lines, "row %zu", i);
		free(written);
	}
}
