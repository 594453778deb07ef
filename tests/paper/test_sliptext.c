/* test_sliptext.c: the slip as plain text. */
#include "paper/slip.h"

#include "people.h"

static const char *const people[] = {
	PERSON_ACUTE,  PERSON_RED_EYE,	  PERSON_URGENT,     PERSON_ROUTINE,
	PERSON_WELL,   PERSON_BORDERLINE, PERSON_UNGRADABLE, PERSON_ONE_EYE,
	PERSON_NO_AGE, PERSON_OPERATED,
};

static const int widths[] = {SLIP_COLUMNS, SLIP_COLUMNS_NARROW, 53};

static void
expect_within(const char *text, int columns, const char *what)
{
	char line[1024];

	while (*text != '\0') {
		size_t length = strcspn(text, "\n");

		snprintf(line, sizeof line, "%.*s", (int)length, text);
		cr_expect_leq(text_width(line), columns, "%s, %d columns: %s",
			      what, columns, line);
		cr_expect_null(strchr(line, '\t'), "%s: a tab", what);
		text += length + (text[length] == '\n');
	}
}

Test(sliptext, no_line_runs_over_the_edge)
{
	struct paper *paper = paper_open();

	for (size_t l = 0; wording_language(l)[0] != '\0'; l++) {
		paper_speak(paper, wording_language(l));
		for (size_t i = 0; i < COUNT(people); i++) {
			paper_person(paper, people[i]);
			for (size_t j = 0; j < COUNT(widths); j++) {
				char *text = paper_print(paper, widths[j]);

				expect_within(text, widths[j], people[i]);
				free(text);
			}
		}
	}
	free(paper);
}

static void
repeat(const char *piece, int times, char *to, size_t size)
{
	size_t used = 0;

	to[0] = '\0';
	for (int i = 0; i < times && used < size; i++)
		used += (size_t)snprintf(to + used, size - used, "%s", piece);
}

/* Without spaces and line ends, in place. */
static char *
squeeze(char *text)
{
	char *to = text;

	for (const char *from = text; *from != '\0'; from++)
		if (*from != ' ' && *from != '\n')
			*to++ = *from;
	*to = '\0';
	return text;
}

Test(sliptext, long_names_of_any_script_are_whole_and_stay_inside)
{
	static const struct row {
		const char *piece;
		int times;
	} rows[] = {
		{"W", 80},
		{"Ab ", 26},
		{"\xe5\xad\x97", 80}, /* double width */
		{"e\xcc\x81", 40},    /* a letter, a mark */
		{"\xd8\xb9\xd8\xa7\xd8\xa6\xd8\xb4\xd8\xa9 ", 13}, /* Arabic */
		{"\xe0\xa4\x95\xe0\xa5\x8d\xe0\xa4\xb7", 26}, /* Devanagari */
	};
	struct paper *paper = paper_open();

	paper_person(paper, PERSON_ACUTE);
	for (size_t i = 0; i < COUNT(rows); i++) {
		char name[VISIT_NAME_SIZE], what[32];

		repeat(rows[i].piece, rows[i].times, name, sizeof name);
		text_trim(name);
		text_copy(paper->visit.name, sizeof name, name);
		snprintf(what, sizeof what, "row %zu", i);
		squeeze(name);
		for (size_t j = 0; j < COUNT(widths); j++) {
			char *text = paper_print(paper, widths[j]);

			expect_within(text, widths[j], what);
			cr_expect_not_null(strstr(squeeze(text), name), "%s",
					   what);
			free(text);
		}
	}
	free(paper);
}

Test(sliptext, a_name_in_another_script_stands_on_lines_of_its_own)
{
	struct paper *paper = paper_open();
	char *text;

	paper_person(paper, PERSON_ACUTE);
	text_copy(paper->visit.name, VISIT_NAME_SIZE, "\xd8\xb9\xd8\xa7");
	text = paper_print(paper, SLIP_COLUMNS);
	cr_expect_not_null(strstr(text, "\nName:\n  \xd8\xb9\xd8\xa7\n"), "%s",
			   text);
	free(text);
	free(paper);
}

Test(sliptext, the_number_stands_alone_between_blank_lines)
{
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(people); i++) {
		char number[REFNUM_SIZE], alone[REFNUM_SIZE + 8];
		char *text;

		paper_person(paper, people[i]);
		refnum_write(paper->visit.number, number);
		snprintf(alone, sizeof alone, "\n\n%s\n\n", number);
		text = paper_print(paper, SLIP_COLUMNS_NARROW);
		cr_expect_eq(paper_count(text, alone),
			     paper->decision.urgency == URGENCY_NO_REFERRAL ? 1
									    : 2,
			     "%s", people[i]);
		free(text);
	}
	free(paper);
}

Test(sliptext, what_the_station_does_not_say_is_a_line_to_write_on)
{
	static const char *const labels[] = {
		"Eye clinic: ____", "Where: ____",    "Door: ____",
		"Open: ____",	    "Cost: ____",     "\nPhone: ____",
		"Camp phone: ____", "Programme: ____"};
	struct paper *paper = paper_open();
	char *text;

	paper_person(paper, PERSON_ROUTINE);
	station_init(&paper->station);
	text = paper_print(paper, SLIP_COLUMNS);
	for (size_t i = 0; i < COUNT(labels); i++)
		cr_expect_not_null(strstr(text, labels[i]), "no %s", labels[i]);
	free(text);
	free(paper);
}

Test(sliptext, without_a_number_there_is_a_line_for_it)
{
	struct paper *paper = paper_open();
	char *text;

	paper_person(paper, PERSON_ROUTINE);
	paper->visit.number = (struct refnum){0, 0};
	text = paper_print(paper, SLIP_COLUMNS);
	cr_expect_eq(paper_count(text, "\n\nNumber: ________"), 2);
	free(text);
	free(paper);
}
