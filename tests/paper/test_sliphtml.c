/* test_sliphtml.c: the slip as an HTML page. */
#include "paper/slip.h"

#include "people.h"

#include <ctype.h>

static const char *const people[] = {
	PERSON_ACUTE,  PERSON_RED_EYE,	  PERSON_URGENT,     PERSON_ROUTINE,
	PERSON_WELL,   PERSON_BORDERLINE, PERSON_UNGRADABLE, PERSON_ONE_EYE,
	PERSON_NO_AGE, PERSON_OPERATED,
};

enum { DEPTH_MOST = 40, NAME_SIZE = 24 };

/* --- a small reader of well-formed pages ------------------------------- */

struct reader {
	char open[DEPTH_MOST][NAME_SIZE];
	int depth;
	int elements;
	const char *wrong; /* where it is not well-formed, or NULL */
};

static bool
is_entity(const char *at)
{
	static const char *const known[] = {"&amp;", "&lt;", "&gt;", "&quot;",
					    "&#39;"};

	for (size_t i = 0; i < COUNT(known); i++)
		if (strncmp(at, known[i], strlen(known[i])) == 0)
			return true;
	return false;
}

static size_t
name_length(const char *at)
{
	size_t length = 0;

	while (isalnum((unsigned char)at[length]) || at[length] == '-')
		length++;
	return length;
}

/* The attributes of a tag, each NAME="VALUE"; returns the '>' or "/>". */
static const char *
skip_attributes(const char *at)
{
	for (;;) {
		size_t length;

		at += strspn(at, " \n");
		if (*at == '>' || strncmp(at, "/>", 2) == 0)
			return at;
		length = name_length(at);
		if (length == 0 || strncmp(at + length, "=\"", 2) != 0)
			return NULL;
		at += length + 2;
		for (; *at != '"'; at++)
			if (*at == '\0' || *at == '<' ||
			    (*at == '&' && !is_entity(at)))
				return NULL;
		at++;
	}
}

static const char *
read_closing(struct reader *reader, const char *at)
{
	size_t length = name_length(at + 2);

	if (reader->depth == 0 || at[2 + length] != '>' ||
	    strlen(reader->open[reader->depth - 1]) != length ||
	    strncmp(reader->open[reader->depth - 1], at + 2, length) != 0)
		return NULL;
	reader->depth--;
	return at + 2 + length + 1;
}

static const char *
read_opening(struct reader *reader, const char *at)
{
	size_t length = name_length(at + 1);
	const char *end;

	if (length == 0 || length >= NAME_SIZE || reader->depth == DEPTH_MOST)
		return NULL;
	end = skip_attributes(at + 1 + length);
	if (end == NULL)
		return NULL;
	reader->elements++;
	if (*end == '/')
		return end + 2;
	snprintf(reader->open[reader->depth++], NAME_SIZE, "%.*s", (int)length,
		 at + 1);
	return end + 1;
}

static const char *
read_tag(struct reader *reader, const char *at)
{
	if (strncmp(at, "<!--", 4) == 0) {
		const char *end = strstr(at, "-->");

		return end == NULL ? NULL : end + 3;
	}
	return at[1] == '/' ? read_closing(reader, at)
			    : read_opening(reader, at);
}

static struct reader
read_page(const char *page)
{
	static const char start[] = "<!DOCTYPE html>\n";
	struct reader reader = {.wrong = page};
	const char *at = page + strlen(start);

	if (strncmp(page, start, strlen(start)) != 0)
		return reader;
	while (*at != '\0') {
		reader.wrong = at;
		if (*at == '<')
			at = read_tag(&reader, at);
		else if (*at == '>' ? reader.depth == 0 : false)
			return reader;
		else if (*at == '&' && !is_entity(at))
			return reader;
		else
			at++;
		if (at == NULL)
			return reader;
	}
	reader.wrong = reader.depth == 0 ? NULL : at;
	return reader;
}

Test(sliphtml, the_reader_of_this_test_finds_what_is_not_well_formed)
{
	static const char *const bad[] = {"<!DOCTYPE html>\n<p>",
					  "<!DOCTYPE html>\n<p></b>",
					  "<!DOCTYPE html>\n<p>&x</p>",
					  "<!DOCTYPE html>\n<p a=b></p>",
					  "<!DOCTYPE html>\n<p>1 < 2</p>",
					  "<!DOCTYPE html>\n<p a=\"<\"></p>",
					  "<p></p>",
					  "<!DOCTYPE html>\n</p>",
					  "<!DOCTYPE html>\n<!-- "};

	for (size_t i = 0; i < COUNT(bad); i++)
		cr_expect_not_null(read_page(bad[i]).wrong, "row %zu", i);
	cr_expect_null(
		read_page("<!DOCTYPE html>\n<p a=\"1\">&amp;<br /></p>").wrong);
}

/* --- the page ---------------------------------------------------------- */

static void
expect_sound(const struct paper *paper, const char *what)
{
	static const char *const never[] = {
		"<script", "http", "src=", "href=", "url(",    "@import",
		"onclick", "gray", "#ccc", "rgb",   "opacity", "{{"};
	char *page = paper_print(paper, 0);
	struct reader reader = read_page(page);

	cr_expect_null(reader.wrong, "%s: %.60s", what,
		       reader.wrong == NULL ? "" : reader.wrong);
	cr_expect_gt(reader.elements, 50);
	for (size_t i = 0; i < COUNT(never); i++)
		cr_expect_null(strstr(page, never[i]), "%s in %s", never[i],
			       what);
	/* Nothing may be lost in a photocopy: no colour, no grey, no tint. */
	for (const char *at = page; (at = strchr(at, '#')) != NULL; at++)
		cr_expect(strncmp(at, "#000", 4) == 0 ||
				  strncmp(at, "#fff", 4) == 0 ||
				  strncmp(at, "#39;", 4) == 0,
			  "%s: %.20s", what, at);
	free(page);
}

Test(sliphtml, every_page_is_well_formed_black_on_white_and_by_itself)
{
	struct paper *paper = paper_open();

	for (size_t l = 0; wording_language(l)[0] != '\0'; l++) {
		paper_speak(paper, wording_language(l));
		for (size_t i = 0; i < COUNT(people); i++) {
			paper_person(paper, people[i]);
			expect_sound(paper, people[i]);
		}
	}
	free(paper);
}

Test(sliphtml, the_page_names_its_language_direction_and_paper)
{
	static const char *const wanted[] = {"<html lang=\"en\" dir=\"ltr\">",
					     "@page { size: 148mm 210mm; "
					     "margin: 8mm 9mm 9mm;",
					     "<title>Eye screening "
					     "0014-00007-80</title>",
					     "<body class=\"same_day full "
					     "fullest\">",
					     "<bdi>Amina Testcase</bdi>",
					     "<span "
					     "class=\"number\">0014-00007-80</"
					     "span>"};
	struct paper *paper = paper_open();
	char *page;

	paper_person(paper, PERSON_ACUTE);
	page = paper_print(paper, 0);
	for (size_t i = 0; i < COUNT(wanted); i++)
		cr_expect_not_null(strstr(page, wanted[i]), "no %s", wanted[i]);
	free(page);
	free(paper);
}

/* The size of type set for a selector, in points. */
static double
points(const char *page, const char *selector)
{
	const char *at = strstr(page, selector);
	const char *end = at == NULL ? NULL : strchr(at, '}');
	const char *size = at == NULL ? NULL : strstr(at, "font-size: ");

	cr_assert(size != NULL && size < end, "no size for %s", selector);
	return strtod(size + strlen("font-size: "), NULL);
}

/* Sizes for people with poor sight: 14 pt advised for them, one message line
 * of 24 pt or more (clear-print guidance of organisations for the blind,
 * common practice). */
Test(sliphtml, type_is_large_enough_for_those_who_read_it)
{
	static const struct row {
		const char *selector;
		double least;
	} rows[] = {{"\n.patient {", 14},
		    {"\n.soon h1 {", 24},
		    {"\n.once h3 {", 14},
		    {"\n.state {", 14},
		    {".who .number {", 18},
		    {"\ntd, th {", 9.5},
		    {".full .clinic, .full .clinic td,", 8.5},
		    {".fullest .clinic, .fullest .clinic td,", 8},
		    {".fullest .reply, .fullest .reply td,", 8}};
	struct paper *paper = paper_open();
	char *page;

	paper_person(paper, PERSON_ACUTE);
	page = paper_print(paper, 0);
	for (size_t i = 0; i < COUNT(rows); i++)
		cr_expect_geq(points(page, rows[i].selector), rows[i].least,
			      "%s", rows[i].selector);
	cr_expect_not_null(strstr(page, "font: 9.5pt/"));
	free(page);
	free(paper);
}

Test(sliphtml, there_is_a_drawing_for_each_graded_eye_and_a_box_per_answer)
{
	struct paper *paper = paper_open();
	char *page;

	paper_person(paper, PERSON_ACUTE);
	page = paper_print(paper, 0);
	cr_expect_eq(paper_count(page, "<svg class=\"depth\""), 2);
	/* Eight answers in the grid, eight boxes each. */
	cr_expect_eq(paper_count(page, "<td></td>") + paper_count(page, "<td "
									"class="
									"\"thic"
									"k\"></"
									"td>"),
		     8 * 8 + 2 /* and the two for the pressure */);
	free(page);
	paper_person(paper, PERSON_UNGRADABLE);
	page = paper_print(paper, 0);
	cr_expect_eq(paper_count(page, "<svg class=\"depth\""), 1);
	free(page);
	free(paper);
}

/* One on the patient's part, one on the part that comes back; a person who is
 * not referred has the first alone. */
Test(sliphtml, a_code_of_the_number_stands_on_each_part_that_travels)
{
	static const struct row {
		const char *person;
		int codes;
	} rows[] = {{PERSON_ACUTE, 2}, {PERSON_WELL, 1}};
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(rows); i++) {
		char *page;

		paper_person(paper, rows[i].person);
		page = paper_print(paper, 0);
		cr_expect_eq(paper_count(page, "<svg class=\"code\""),
			     rows[i].codes, "row %zu", i);
		cr_expect_eq(paper_count(page, "<title>0014-00007-80</title>"),
			     rows[i].codes, "row %zu", i);
		free(page);
	}
	free(paper);
}

/* --- what somebody may type -------------------------------------------- */

static unsigned long
next_random(unsigned long *state)
{
	*state = (*state * 1103515245UL + 12345UL) & 0x7fffffffUL;
	return *state >> 8;
}

/* Pieces of markup in any order, as many as fit; always one to be escaped. */
static void
make_nasty(unsigned long *state, size_t size, char *text)
{
	static const char *const pieces[] = {
		"<script>",    "</script>", "<!--",   "-->",	     "\"",
		"'",	       "&",	    "&amp;",  "&#60;",	     "</style>",
		"<img x=y>",   "]]>",	    "<",      ">",	     "{{name}}",
		"\xd8\xb9",    "e\xcc\x81", "a b",    "onload=x",    "</bdi>",
		"</td></svg>", "}",	    "{cost}", "\xe5\xad\x97"};
	size_t used = 1;

	snprintf(text, size, "<");
	for (unsigned long i = 1 + next_random(state) % 9; i > 0; i--) {
		const char *piece = pieces[next_random(state) % COUNT(pieces)];

		if (used + strlen(piece) >= size)
			return;
		used += (size_t)snprintf(text + used, size - used, "%s", piece);
	}
}

Test(sliphtml, a_thousand_nasty_texts_never_come_through_raw)
{
	struct paper *paper = paper_open();
	unsigned long state = 20261125;

	paper_person(paper, PERSON_ROUTINE);
	for (int i = 0; i < 1000; i++) {
		char *typed[] = {paper->visit.name, paper->visit.site,
				 paper->visit.contact,
				 paper->station.clinic_name,
				 paper->station.programme};
		struct reader reader;
		char *page;

		for (size_t j = 0; j < COUNT(typed); j++)
			make_nasty(&state, 60, typed[j]);
		page = paper_print(paper, 0);
		reader = read_page(page);
		cr_assert_null(reader.wrong, "text %d: %.60s", i,
			       reader.wrong == NULL ? "" : reader.wrong);
		cr_assert_null(strstr(page, "<script"), "text %d", i);
		for (size_t j = 0; j < COUNT(typed); j++)
			if (strlen(typed[j]) > 1)
				cr_assert_null(strstr(page, typed[j]),
					       "text %d: %s", i, typed[j]);
		free(page);
	}
	free(paper);
}
