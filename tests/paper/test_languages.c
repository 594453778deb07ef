/* test_languages.c: the languages compiled in, held to the English words. */
#include "paper/forms.h"
#include "paper/slip.h"

#include "people.h"

enum { ENGLISH = 0 }; /* the first */

static const char *const people[] = {
	PERSON_ACUTE,	   PERSON_RED_EYE,    PERSON_URGENT,  PERSON_ROUTINE,
	PERSON_WELL,	   PERSON_BORDERLINE, PERSON_ONE_EYE, PERSON_NO_AGE,
	PERSON_UNGRADABLE, PERSON_OPERATED,
};

/* Calls `look` for each text of each other language beside the English one. */
static void
look_at_each(void (*look)(const char *language, const struct ini_entry *entry,
			  const char *english))
{
	struct paper *english = paper_open();
	struct paper *other = paper_open();
	int looked_at = 0;

	for (size_t l = ENGLISH + 1; wording_language(l)[0] != '\0'; l++) {
		const struct ini *ini = &other->wording.ini;

		paper_speak(other, wording_language(l));
		for (int i = 0; i < ini->count; i++) {
			const struct ini_entry *entry = &ini->entry[i];
			char key[2 * INI_NAME_SIZE];

			if (entry->key[0] == '\0' ||
			    strcmp(entry->section, "wording") == 0)
				continue;
			snprintf(key, sizeof key, "%s.%s", entry->section,
				 entry->key);
			look(wording_language(l), entry,
			     wording_text(&english->wording, key));
			looked_at++;
		}
	}
	cr_expect_gt(looked_at, 4 * 300);
	free(english);
	free(other);
}

/* Reading holds keys and placeholders together; see test_wording.c for what
 * is refused. */
Test(languages, each_is_read_whole_and_says_what_it_is)
{
	static const char *const wanted[] = {"en", "fr", "es", "sw", "ar", ""};
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(wanted); i++) {
		const char *language = wording_language(i);

		cr_assert_str_eq(language, wanted[i]);
		if (language[0] == '\0')
			break;
		paper_speak(paper, language);
		cr_expect_str_eq(wording_text(&paper->wording, "wording."
							       "language"),
				 language);
		cr_expect_eq(wording_is_rtl(&paper->wording),
			     strcmp(language, "ar") == 0, "%s", language);
		cr_expect_not(wording_is_reviewed(&paper->wording), "%s",
			      language);
	}
	free(paper);
}

/* --- nothing left in English --------------------------------------------- */

static bool
has_letter(const char *text)
{
	bool inside = false;

	for (; *text != '\0'; text++) {
		inside = *text == '{' || (inside && *text != '}');
		if (!inside && ((*text >= 'a' && *text <= 'z') ||
				(*text >= 'A' && *text <= 'Z')))
			return true;
	}
	return false;
}

/* Words that two languages share; in Swahili the structures of the angle,
 * which clinicians learn in English. */
static bool
may_be_alike(const char *language, const char *english)
{
	static const struct {
		const char *language, *english;
	} rows[] = {
		{"fr", "sup."},
		{"fr", "inf."},
		{"fr", "nasal"},
		{"fr", "temp."},
		{"fr", "plateau"},
		{"fr", "normal"},
		{"fr", "Programme"},
		{"fr", "Page"},
		{"fr", "Quadrant"},
		{"fr", "Iris"},
		{"fr", "Urgent"},
		{"fr", "urgent"},
		{"es", "sup."},
		{"es", "inf."},
		{"es", "nasal"},
		{"es", "temp."},
		{"es", "normal"},
		{"es", "glaucoma"},
		{"es", "no"},
		{"es", "Iris"},
		{"sw", "Schwalbe's line"},
		{"sw", "anterior meshwork"},
		{"sw", "posterior meshwork"},
		{"sw", "scleral spur"},
		{"sw", "ciliary body band"},
		{"sw", "plateau"},
		{"sw", "meshwork"},
		{"sw", "spur"},
		{"sw", "Anterior synechiae"},
		{"sw", "Synechiae"},
		{"sw", "Optic disc"},
		{"sw", "Iris"},
	};

	for (size_t i = 0; i < COUNT(rows); i++)
		if (strcmp(rows[i].language, language) == 0 &&
		    strcmp(rows[i].english, english) == 0)
			return true;
	return false;
}

static void
look_for_english(const char *language, const struct ini_entry *entry,
		 const char *english)
{
	if (has_letter(english))
		cr_expect(strcmp(entry->value, english) != 0 ||
				  may_be_alike(language, english),
			  "%s: [%s] %s is English: %s", language,
			  entry->section, entry->key, english);
}

Test(languages, nothing_is_left_in_english)
{
	look_at_each(look_for_english);
}

/* An Arabic text has Latin letters only in names that are typed or printed so
 * everywhere. */
Test(languages, arabic_is_written_in_arabic)
{
	static const char *const latin[] = {"x", "F", "M", "X", "CSV"};
	struct paper *paper = paper_open();
	const struct ini *ini = &paper->wording.ini;

	paper_speak(paper, "ar");
	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *entry = &ini->entry[i];
		char text[INI_LINE_MOST + 1], *rest = NULL;

		if (entry->key[0] == '\0' || !has_letter(entry->value) ||
		    strcmp(entry->section, "wording") == 0)
			continue;
		text_copy(text, sizeof text, entry->value);
		for (char *word = strtok_r(text, " .,:;()", &rest);
		     word != NULL; word = strtok_r(NULL, " .,:;()", &rest)) {
			bool known = !has_letter(word);

			for (size_t j = 0; j < COUNT(latin); j++)
				known |= strcmp(word, latin[j]) == 0;
			cr_expect(known, "[%s] %s: %s", entry->section,
				  entry->key, word);
		}
	}
	free(paper);
}

/* --- lengths -------------------------------------------------------------- */

static int
longest_word(const char *text)
{
	int longest = 0;

	while (*text != '\0') {
		size_t length = strcspn(text, " ");
		char word[256];

		snprintf(word, sizeof word, "%.*s", (int)length, text);
		if (text_width(word) > longest)
			longest = text_width(word);
		text += length;
		text += strspn(text, " ");
	}
	return longest;
}

static bool
begins(const char *text, const char *start)
{
	return strncmp(text, start, strlen(start)) == 0;
}

/* What the places on paper hold, in columns of text; a browser prints pages
 * that prove it in tests/shell/print.sh. */
static void
look_at_length(const char *language, const struct ini_entry *entry,
	       const char *english)
{
	static const struct row {
		const char *section, *key;
		int most, word;
	} rows[] = {
		{"urgency", "when_", 30, 14}, /* 17 pt, with a date */
		{"urgency", "clinic_", 50, 14},
		{"urgency", "", 40, 14},	  /* 24 pt, two lines */
		{"patient", "", 60, 16},	  /* 14 pt */
		{"column", "depth_right", 15, 9}, /* of the register */
		{"column", "depth_left", 15, 9},
		{"column", "signs_", 18, 9},
		{"column", "past_", 18, 9},
		{"column", "pressure_", 15, 9},
		{"column", "age_", 12, 10},
		{"column", "sex", 8, 8},
		{"column", "risks", 8, 8},
		{"reply", "structure_", 26, 16},
		{"forms", "register_sent_letters", 7, 1},
		{"forms", "register_sent", 200, 18},
		{"date", "", 40, 12},
	};
	int width = text_width(entry->value);
	int most = text_width(english) * 3 / 2 + 15;

	cr_expect_leq(width, most, "%s: [%s] %s: %s", language, entry->section,
		      entry->key, entry->value);
	for (size_t i = 0; i < COUNT(rows); i++) {
		if (strcmp(rows[i].section, entry->section) != 0 ||
		    !begins(entry->key, rows[i].key))
			continue;
		cr_expect_leq(width, rows[i].most, "%s: [%s] %s: %s", language,
			      entry->section, entry->key, entry->value);
		cr_expect_leq(longest_word(entry->value), rows[i].word,
			      "%s: [%s] %s: %s", language, entry->section,
			      entry->key, entry->value);
		return;
	}
}

Test(languages, no_text_is_longer_than_its_place)
{
	look_at_each(look_at_length);
}

/* --- what they say -------------------------------------------------------- */

/* Phrases of which each slip of that kind must have one line. */
Test(languages, a_slip_says_what_matters_in_each_of_them)
{
	static const struct row {
		const char *language, *person;
		const char *says[4];
	} rows[] = {
		{"fr",
		 PERSON_ACUTE "|screened_on=2026-12-01",
		 {"Aujourd'hui, 1er d\xc3\xa9"
		  "cembre 2026",
		  "(2026-12-01)", "Partez maintenant.",
		  "un clinicien qui parle fran\xc3\xa7"
		  "ais"}},
		{"es",
		 PERSON_URGENT,
		 {"\xc3\x9altimo d\xc3\xad"
		  "a: 9 de diciembre de 2026",
		  "Vaya pronto a la cl\xc3\xadnica de ojos", "(2026-12-09)",
		  "hable espa\xc3\xb1ol"}},
		{"sw",
		 PERSON_WELL,
		 {"Leo hutumwi kliniki", "Kupimwa tena: Novemba 2028",
		  "maumivu ya jicho", "anayezungumza Kiswahili"}},
		{"ar",
		 PERSON_URGENT,
		 {"9 \xd8\xaf\xd9\x8a\xd8\xb3\xd9\x85\xd8\xa8\xd8\xb1",
		  "(\xe2\x81\xa6"
		  "2026-12-09\xe2\x81\xa9)",
		  "\n  Chitra Sample\n",
		  "\xd8\xa7\xd9\x84\xd8\xb9\xd8\xb1\xd8\xa8\xd9\x8a\xd8\xa9"}},
	};
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(rows); i++) {
		char *text;

		paper_speak(paper, rows[i].language);
		paper_person(paper, rows[i].person);
		text = paper_print(paper, SLIP_COLUMNS);
		for (size_t j = 0; j < COUNT(rows[i].says); j++)
			cr_expect_not_null(strstr(text, rows[i].says[j]),
					   "%s: no %s in %s", rows[i].language,
					   rows[i].says[j], text);
		free(text);
	}
	free(paper);
}

/* --- from right to left --------------------------------------------------- */

static bool
is_isolated(const char *at)
{
	static const char mark[] = "\xe2\x81\xa6";
	static const char day[] = "<span class=\"day\">";

	if (memcmp(at - strlen(day), day, strlen(day)) == 0)
		at -= strlen(day);
	return memcmp(at - strlen(mark), mark, strlen(mark)) == 0;
}

/* A date in digits must never stand bare among Arabic letters: it would be
 * read with its day first. */
Test(languages, dates_in_digits_are_isolated_in_arabic)
{
	struct paper *paper = paper_open();
	static const int forms[] = {SLIP_COLUMNS, SLIP_COLUMNS_NARROW, 0};
	int found = 0;

	paper_speak(paper, "ar");
	for (size_t i = 0; i < COUNT(people); i++) {
		paper_person(paper, people[i]);
		for (size_t j = 0; j < COUNT(forms); j++) {
			char *page = paper_print(paper, forms[j]);

			for (char *at = page;
			     (at = strstr(at, "2026-")) != NULL; at++) {
				cr_expect(is_isolated(at), "%s: %.20s",
					  people[i], at);
				found++;
			}
			free(page);
		}
	}
	cr_expect_gt(found, 30);
	free(paper);
}

/* The place of a text behind `from`. */
static size_t
place_of(const char *page, const char *from, const char *text)
{
	const char *start = strstr(page, from);
	const char *at = start == NULL ? NULL : strstr(start, text);

	cr_assert_not_null(at, "no '%s' behind '%s'", text, from);
	return (size_t)(at - page);
}

/* The table of findings is laid out from the left in every language; the grid
 * of the reply follows the language, so its eyes change places. */
Test(languages, the_right_eye_stands_on_the_left)
{
	struct paper *paper = paper_open();

	for (size_t l = 0; wording_language(l)[0] != '\0'; l++) {
		const char *right, *left;
		bool rtl;
		char *page;

		paper_speak(paper, wording_language(l));
		rtl = wording_is_rtl(&paper->wording);
		right = wording_text(&paper->wording, "slip.right_eye");
		left = wording_text(&paper->wording, "slip.left_eye");
		paper_person(paper, PERSON_URGENT);
		page = paper_print(paper, 0);
		cr_expect_not_null(strstr(page, ".eyes { direction: ltr }"));
		cr_expect_lt(place_of(page, "<table class=\"eyes\"", right),
			     place_of(page, "<table class=\"eyes\"", left));
		cr_expect_eq(place_of(page, "<table class=\"grid\"", right) <
				     place_of(page, "<table class=\"grid\"",
					      left),
			     !rtl, "%s", wording_language(l));
		free(page);
		/* As text a mark begins each line on which both stand. */
		page = paper_print(paper, SLIP_COLUMNS);
		cr_expect_eq(paper_count(page, "\n\xe2\x80\x8e[_] [_]"),
			     rtl ? 8 : 0);
		free(page);
	}
	free(paper);
}

/* --- forms ---------------------------------------------------------------- */

static char *
print_form(const struct paper *paper, enum form form)
{
	struct form_facts facts = {&paper->station, &paper->wording,
				   &paper->policy.age_bands, 90001, 10};
	char *text = NULL;
	size_t size = 0;
	FILE *out = open_memstream(&text, &size);
	struct fault why = {FAULT_NONE, ""};

	cr_assert_not_null(out);
	cr_assert(form_write(form, &facts, out, &why), "%s", why.sentence);
	fclose(out);
	return text;
}

/* Until a clinician has put a name under reviewed_by. */
Test(languages, every_paper_says_that_its_words_are_not_reviewed)
{
	struct paper *paper = paper_open();

	for (size_t l = 0; wording_language(l)[0] != '\0'; l++) {
		const char *note;

		paper_speak(paper, wording_language(l));
		note = wording_text(&paper->wording, "approval.wording_not_"
						     "reviewed");
		for (int form = 0; form < FORM_COUNT; form++) {
			char *page = print_form(paper, (enum form)form);

			cr_expect_not_null(strstr(page, note), "%s, %s",
					   wording_language(l),
					   form_file((enum form)form));
			free(page);
		}
		for (size_t i = 0; i < COUNT(people); i++) {
			char *page;

			paper_person(paper, people[i]);
			page = paper_print(paper, 0);
			cr_expect_not_null(strstr(page, note), "%s, %s",
					   wording_language(l), people[i]);
			free(page);
		}
	}
	free(paper);
}
