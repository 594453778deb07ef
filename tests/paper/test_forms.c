/* test_forms.c: forms to be printed and filled in by hand. */
#include "paper/forms.h"

#include "clinic/paperrow.h"
#include "clinic/reply.h"
#include "counts/tally.h"
#include "paper/formregister.h"
#include "people.h"

enum { PEOPLE = 12, NAMES_MOST = 400, NAME_SIZE = 48 };

/* A form of an invented station, to be freed. */
static char *
print(enum form form)
{
	struct paper *paper = paper_open();
	struct form_facts facts = {&paper->station, &paper->wording,
				   &paper->policy.age_bands, 90001, PEOPLE};
	char *text = NULL;
	size_t size = 0;
	FILE *out = open_memstream(&text, &size);
	struct fault why = {FAULT_NONE, ""};

	cr_assert_not_null(out);
	cr_assert(form_write(form, &facts, out, &why), "%s", why.sentence);
	fclose(out);
	free(paper);
	return text;
}

/* The fields of a form in their order, each where it comes first. */
struct names {
	int count;
	char name[NAMES_MOST][NAME_SIZE];
};

static bool
has(const struct names *names, const char *name)
{
	for (int i = 0; i < names->count; i++)
		if (strcmp(names->name[i], name) == 0)
			return true;
	return false;
}

static void
gather(const char *page, struct names *names)
{
	static const char mark[] = "data-field=\"";

	names->count = 0;
	while ((page = strstr(page, mark)) != NULL) {
		char name[NAME_SIZE];

		page += sizeof mark - 1;
		snprintf(name, sizeof name, "%.*s", (int)strcspn(page, "\""),
			 page);
		if (has(names, name))
			continue;
		cr_assert_lt(names->count, NAMES_MOST);
		memcpy(names->name[names->count++], name, sizeof name);
	}
}

Test(forms, the_register_has_every_column_in_the_order_of_the_questions)
{
	static struct names names;
	char *page = print(FORM_REGISTER);
	int at = 0;

	gather(page, &names);
	/* The head of the page stands first. */
	for (int i = PAPER_HEAD_FIRST; i <= PAPER_HEAD_LAST; i++)
		cr_expect_str_eq(names.name[at++], paper_columns[i].name);
	for (int i = 0; i < PAPER_COLUMNS; i++)
		if (i < PAPER_HEAD_FIRST || i > PAPER_HEAD_LAST)
			cr_expect_str_eq(names.name[at++],
					 paper_columns[i].name, "column %d", i);
	cr_expect_eq(names.count, at);
	cr_expect_eq(paper_count(page, "data-field=\"depth_left\""), PEOPLE);
	free(page);
}

Test(forms, the_slip_filled_in_by_hand_asks_for_all_that_is_typed)
{
	static struct names names;
	char *page = print(FORM_SLIPS);

	gather(page, &names);
	for (int i = 0; i < PAPER_COLUMNS; i++)
		cr_expect(has(&names, paper_columns[i].name), "no %s",
			  paper_columns[i].name);
	cr_expect_eq(names.count, PAPER_COLUMNS);
	/* A reply for each person; a code on each part that travels. */
	cr_expect_eq(paper_count(page, "class=\"half reply\""), PEOPLE);
	cr_expect_eq(paper_count(page, "<svg class=\"code\""), 2 * PEOPLE);
	free(page);
}

Test(forms, the_reply_sheet_follows_the_table_of_the_reply)
{
	static struct names names;
	char *page = print(FORM_REPLY);
	int at = 0;

	gather(page, &names);
	for (size_t i = 0; i < reply_fields.count; i++)
		if (reply_fields.field[i].origin == FIELD_TYPED)
			cr_expect_str_eq(names.name[at++],
					 reply_fields.field[i].name,
					 "field %zu", i);
	cr_expect_eq(names.count, at);
	free(page);
}

Test(forms, the_tally_sheet_has_every_count_but_late_entries)
{
	static struct names names;
	char *page = print(FORM_TALLY);
	struct paper *paper = paper_open();
	int at = 0, rows;

	gather(page, &names);
	for (size_t i = 0; i < tally_count_fields.count; i++) {
		const char *name = tally_count_fields.field[i].name;

		if (strcmp(name, "late_entries") != 0)
			cr_expect_str_eq(names.name[at++], name);
	}
	cr_expect_eq(names.count, at);
	/* Each sex by each band, one for age not known; headings; the sum. */
	rows = TALLY_SEXES * (paper->policy.age_bands.count + 2) + 2;
	cr_expect_eq(paper_count(page, "<tr"), rows);
	free(paper);
	free(page);
}

Test(forms, numbers_rise_and_their_check_digits_fit)
{
	char *page = print(FORM_REGISTER);
	const char *at = page;

	for (int i = 0; i < PEOPLE; i++) {
		char text[REFNUM_SIZE];
		struct refnum number;
		struct fault why;

		at = strstr(at, "class=\"number\">0");
		cr_assert_not_null(at, "number %d", i);
		at = strchr(at, '>') + 1;
		snprintf(text, sizeof text, "%.13s", at);
		cr_assert(refnum_read(text, &number, &why), "%s", why.sentence);
		cr_expect_eq(number.station, 14);
		cr_expect_eq(number.serial, 90001 + i);
		cr_expect(refnum_is_paper(number));
	}
	cr_expect_null(strstr(at, "class=\"number\">0"));
	free(page);
}

/* In the order in which they are read: right eye first, its nose to the right.
 */
Test(forms, the_nose_is_between_the_eyes)
{
	char *page = print(FORM_REPLY);
	const char *at = page;
	double side[EYE_COUNT];

	for (int eye = 0; eye < EYE_COUNT; eye++) {
		const char *label;

		at = strstr(at + 1, "<svg class=\"quadrants\"");
		cr_assert_not_null(at);
		label = strstr(at, ">nasal<");
		cr_assert_not_null(label);
		while (strncmp(label, "<text x=\"", 9) != 0)
			label--;
		side[eye] = strtod(label + 9, NULL) - 100;
	}
	cr_expect_gt(side[EYE_RIGHT], 20);
	cr_expect_lt(side[EYE_LEFT], -20);
	free(page);
}

/* A key printed because it has no words. */
static bool
has_key(const char *page, const char *section)
{
	for (; (page = strstr(page, section)) != NULL; page++) {
		char next = page[strlen(section)];

		if (next >= 'a' && next <= 'z')
			return true;
	}
	return false;
}

Test(forms, every_form_is_black_on_white_and_asks_nothing_of_the_outside)
{
	static const char *const never[] = {
		"<script", "http", "src=", "href=", "url(",    "@import",
		"gray",	   "grey", "rgb",  "hsl",   "opacity", "{{"};
	static const char *const sections[] = {"forms.",   "column.", "answer.",
					       "finding.", "slip.",   "reply."};

	for (int form = 0; form < FORM_COUNT; form++) {
		char *page = print((enum form)form);

		for (size_t i = 0; i < COUNT(never); i++)
			cr_expect_null(strstr(page, never[i]), "%s in %s",
				       never[i], form_file((enum form)form));
		for (size_t i = 0; i < COUNT(sections); i++)
			cr_expect_not(has_key(page, sections[i]), "%s in %s",
				      sections[i], form_file((enum form)form));
		for (const char *at = page; (at = strchr(at, '#')) != NULL;
		     at++)
			cr_expect(strncmp(at, "#000", 4) == 0 ||
					  strncmp(at, "#fff", 4) == 0 ||
					  strncmp(at, "#39;", 4) == 0,
				  "%s: %.12s", form_file((enum form)form), at);
		free(page);
	}
}

/* The sizes of people with poor sight, as on the slip. */
Test(forms, the_patients_half_is_in_large_type)
{
	static const struct {
		const char *selector;
		double least;
	} rows[] = {{"\n.patient {", 14},
		    {"\n.patient h1 {", 24},
		    {"\n.once h3 {", 14},
		    {"\n.patient .by {", 14},
		    {".who .number {", 18}};
	char *page = print(FORM_SLIPS);

	for (size_t i = 0; i < COUNT(rows); i++) {
		const char *at = strstr(page, rows[i].selector);
		const char *end = at == NULL ? NULL : strchr(at, '}');
		const char *size = at == NULL ? NULL
					      : strstr(at, "font-size: ");

		cr_assert(size != NULL && size < end, "row %zu", i);
		cr_expect_geq(strtod(size + 11, NULL), rows[i].least, "row %zu",
			      i);
	}
	free(page);
}

/* Everything that a number or a box stands for has its words. */
Test(forms, every_answer_and_heading_has_words)
{
	struct paper *paper = paper_open();
	const struct fields tables[] = {visit_fields, reply_fields};

	for (size_t t = 0; t < COUNT(tables); t++)
		for (size_t i = 0; i < tables[t].count; i++) {
			const struct field *field = &tables[t].field[i];
			const char *word;
			size_t length;

			if (strchr(field->words, '|') == NULL ||
			    (t == 0 && field->origin != FIELD_TYPED) ||
			    strcmp(field->name, "state") == 0)
				continue;
			for (int j = 0; (word = field_word(field->words, j,
							   &length)) != NULL;
			     j++) {
				const char *part =
					strncmp(field->name, "not_", 4) == 0
						? "eye.why_"
					: strcmp(field->name, "sex") == 0
						? "slip.sex_"
						: "answer.";
				char key[80];

				snprintf(key, sizeof key, "%s%.*s", part,
					 (int)length, word);
				for (char *c = key; *c != '\0'; c++)
					if (*c >= 'A' && *c <= 'Z')
						*c = (char)(*c - 'A' + 'a');
				cr_expect_not_null(wording_text(&paper->wording,
								key),
						   "no %s", key);
			}
		}
	free(paper);
}
