/* test_field.c: a record is read and written by its table. */
#include "base/field.h"

#include "base/day.h"
#include "base/refnum.h"

#include <criterion/criterion.h>
#include <string.h>

struct sample {
	int age_years;
	int answer;
	int tags;
	char site[5 * 4 + 1];
	char code[4]; /* room for fewer bytes than its five characters need */
	struct day day;
	struct refnum number;
};

/* clang-format off */
#define ROW(name, kind, least, most, need, words) \
	{#name, &field_##kind, offsetof(struct sample, name), \
	 sizeof(((struct sample *)NULL)->name), least, most, need, FIELD_TYPED, \
	 words, "about " #name}
static const struct field rows[] = {
	ROW(age_years, count, 0, 120, FIELD_OPTIONAL, "years"),
	ROW(answer, choice, 0, 0, FIELD_OPTIONAL, "no|yes|not asked"),
	ROW(tags, set, 0, 0, FIELD_OPTIONAL, "a|bb|c c"),
	ROW(site, text, 0, 5, FIELD_NEEDED, ""),
	ROW(code, text, 0, 5, FIELD_OPTIONAL, ""),
	ROW(day, day, 0, 0, FIELD_OPTIONAL, ""),
	ROW(number, refnum, 0, 0, FIELD_OPTIONAL, ""),
};
/* clang-format on */

static const struct fields fields = {rows, sizeof rows / sizeof rows[0]};

static const struct field *
field_of(const char *name)
{
	const struct field *field = fields_find(fields, name);

	cr_assert_not_null(field, "%s", name);
	return field;
}

Test(field, every_kind_is_blank_read_and_written_back)
{
	/* NULL = the same as typed */
	static const struct {
		const char *name, *typed, *written;
	} tries[] = {
		{"age_years", "0", NULL},
		{"age_years", "58", NULL},
		{"age_years", "120", NULL},
		{"answer", "no", NULL},
		{"answer", "yes", NULL},
		{"answer", "not asked", NULL},
		{"tags", "a", NULL},
		{"tags", "c c;a;a", "a;c c"},
		{"tags", " bb , c c", "bb;c c"},
		{"tags", "a;bb;c c", NULL},
		{"site", "a", NULL},
		{"site", "O'Ha<", NULL},
		{"site",
		 "\xf0\x9f\x91\x81\xf0\x9f\x91\x81\xf0\x9f\x91\x81"
		 "\xf0\x9f\x91\x81\xf0\x9f\x91\x81",
		 NULL},
		{"code", "abc", NULL},
		{"day", "2026-02-28", NULL},
		{"day", "1900-01-01", NULL},
		{"number", "00140000198", "0014-00001-98"},
		{"number", "0014-00001-98", NULL},
	};
	char text[FIELD_TEXT_SIZE];
	struct fault why;
	struct sample sample;

	memset(&sample, 0x5a, sizeof sample);
	fields_blank(fields, &sample);
	for (size_t i = 0; i < fields.count; i++) {
		cr_expect(field_is_blank(&rows[i], &sample), "%s",
			  rows[i].name);
		field_write(&rows[i], &sample, text, sizeof text);
		cr_expect_str_eq(text, "", "%s", rows[i].name);
	}
	for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
		const struct field *field = field_of(tries[i].name);
		const char *expected = tries[i].written == NULL
					       ? tries[i].typed
					       : tries[i].written;

		fields_blank(fields, &sample);
		cr_expect(field_read(field, tries[i].typed, &sample, &why),
			  "row %zu", i);
		cr_expect(!field_is_blank(field, &sample), "row %zu", i);
		field_write(field, &sample, text, sizeof text);
		cr_expect_str_eq(text, expected, "row %zu", i);
		for (size_t other = 0; other < fields.count; other++)
			cr_expect(&rows[other] == field ||
					  field_is_blank(&rows[other], &sample),
				  "row %zu touches %s", i, rows[other].name);
		field_blank(field, &sample);
		cr_expect(field_is_blank(field, &sample), "row %zu", i);
	}
}

Test(field, values_lie_where_the_struct_has_them)
{
	struct sample sample;
	struct fault why;

	fields_blank(fields, &sample);
	cr_expect_eq(sample.age_years, FIELD_BLANK);
	cr_expect_eq(sample.answer, FIELD_BLANK);
	cr_expect_eq(sample.tags, 0);
	cr_expect_str_eq(sample.site, "");
	cr_expect(day_is_none(sample.day));
	cr_expect(refnum_is_none(sample.number));
	field_read(field_of("age_years"), "58", &sample, &why);
	field_read(field_of("answer"), "yes", &sample, &why);
	field_read(field_of("site"), "Hill", &sample, &why);
	field_read(field_of("day"), "1970-01-02", &sample, &why);
	field_read(field_of("number"), "0014-00001-98", &sample, &why);
	cr_expect_eq(sample.age_years, 58);
	cr_expect_eq(sample.answer, 1);
	field_read(field_of("tags"), "c c;a", &sample, &why);
	cr_expect_eq(sample.tags, 1 << 2 | 1 << 0);
	cr_expect_str_eq(sample.site, "Hill");
	cr_expect_eq(sample.day.number, 1);
	cr_expect_eq(sample.number.station, 14);
	cr_expect_eq(sample.number.serial, 1);
}

Test(field, refusals_begin_with_the_name_and_change_nothing)
{
	static const struct {
		const char *name, *typed, *sentence;
	} tries[] = {
		{"age_years", "121",
		 "age_years: 121 is out of range; allowed are 0 to 120 years"},
		{"age_years", "old",
		 "age_years: 'old' is not a plain whole number; allowed are 0 "
		 "to 120 years"},
		{"answer", "YES",
		 "answer: 'YES' is not one of: no, yes, not asked"},
		{"answer", "no|yes",
		 "answer: 'no|yes' is not one of: no, yes, not asked"},
		{"answer", "y",
		 "answer: 'y' is not one of: no, yes, not asked"},
		{"tags", "a;b", "tags: 'b' is not one of: a, bb, c c"},
		{"tags", "a;", "tags: '' is not one of: a, bb, c c"},
		{"tags", "a b", "tags: 'a b' is not one of: a, bb, c c"},
		{"site", "", "site: it is empty; a value is needed"},
		{"site", "123456",
		 "site: it has 6 characters; at most 5 are allowed"},
		{"site", "=a",
		 "site: it may not begin with = + - or @, which a spreadsheet "
		 "takes for a formula"},
		{"code", "abcd",
		 "code: it has more than 3 bytes; at most 5 characters are "
		 "allowed"},
		{"day", "2026-02-29",
		 "day: there is no day '2026-02-29' in the years 1900 to "
		 "2199"},
		{"number", "0014-00001-97",
		 "number: the last two digits of '0014-00001-97' do not fit "
		 "the others; read the number again from the slip"},
	};
	struct sample sample;
	struct fault why;

	fields_blank(fields, &sample);
	for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
		const struct field *field = field_of(tries[i].name);

		cr_expect(!field_read(field, tries[i].typed, &sample, &why),
			  "row %zu", i);
		cr_expect_str_eq(why.sentence, tries[i].sentence, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect(field_is_blank(field, &sample), "row %zu", i);
	}
	cr_expect(field_read(field_of("age_years"), "58", &sample, &why));
	cr_expect(field_read(field_of("age_years"), "", &sample, &why));
	cr_expect(field_is_blank(field_of("age_years"), &sample), "an empty "
								  "text makes "
								  "an optional "
								  "field blank "
								  "again");
}

Test(field, names_are_found_and_the_nearest_is_offered)
{
	static const struct {
		const char *typed, *nearest; /* NULL = none is near */
	} tries[] = {
		{"age_years", "age_years"}, {"age_year", "age_years"},
		{"ageyears", "age_years"},  {"anwser", "answer"},
		{"sites", "site"},	    {"dya", "day"},
		{"pressure", NULL},	    {"xyz", NULL},
	};

	cr_expect_eq(fields_find(fields, "site"), &rows[3]);
	cr_expect_null(fields_find(fields, "sit"));
	cr_expect_null(fields_find(fields, "Site"));
	cr_expect_null(fields_find(fields, ""));
	for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
		const struct field *nearest =
			fields_nearest(fields, tries[i].typed);

		cr_expect_eq(nearest == NULL, tries[i].nearest == NULL,
			     "row %zu", i);
		if (nearest != NULL && tries[i].nearest != NULL)
			cr_expect_str_eq(nearest->name, tries[i].nearest,
					 "row %zu", i);
	}
}

Test(field, words_of_a_list_are_found_by_index)
{
	static const struct {
		const char *words;
		int index;
		const char *word; /* NULL = past the end */
	} tries[] = {
		{"F|M|X", 0, "F"},    {"F|M|X", 2, "X"},     {"F|M|X", 3, NULL},
		{"no|yes", 1, "yes"}, {"alone", 0, "alone"}, {"alone", 1, NULL},
		{"", 0, ""},	      {"", 1, NULL},
	};

	for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
		size_t length = 99;
		const char *word =
			field_word(tries[i].words, tries[i].index, &length);

		cr_expect_eq(word == NULL, tries[i].word == NULL, "row %zu", i);
		if (word == NULL || tries[i].word == NULL)
			continue;
		cr_expect_eq(length, strlen(tries[i].word), "row %zu", i);
		cr_expect_eq(strncmp(word, tries[i].word, length), 0, "row %zu",
			     i);
	}
}
