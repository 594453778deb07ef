/* test_wording.c: the words of the papers, one file per language. */
#include "paper/wording.h"

#include "../keep/folder.h"
#include "people.h"

enum { TOLD_SIZE = 4096, FILE_SIZE = 65536 };

static void
hear(void *context, const struct fault *one)
{
	char *told = context;
	size_t used = strlen(told);
	const char *text = strstr(one->sentence, ": ");

	/* Without the file's name and line. */
	snprintf(told + used, TOLD_SIZE - used, "%s\n",
		 text == NULL ? one->sentence : text + 2);
}

/* The English file with `from` replaced by `to`, once. */
static void
edit(const char *from, const char *to, char *text)
{
	const char *english = (const char *)embedded_wording_en;
	const char *at = strstr(english, from);

	cr_assert_not_null(at, "no '%s' in the English file", from);
	snprintf(text, FILE_SIZE, "%.*s%s%s", (int)(at - english), english, to,
		 at + strlen(from));
}

/* Puts the text into a folder as wording-LL.ini and reads it. */
static bool
read_text(const char *text, const char *language, char *told, struct fault *why)
{
	struct wording *wording = calloc(1, sizeof *wording);
	char folder[FOLDER_SIZE], name[32], path[FOLDER_PATH];
	bool done;

	cr_assert_not_null(wording);
	cr_assert(folder_make(folder));
	snprintf(name, sizeof name, "wording-%s.ini", language);
	cr_assert(folder_put(folder_path(folder, name, path), text,
			     strlen(text)));
	told[0] = '\0';
	done = wording_read(wording, folder, language, hear, told, why);
	folder_remove(folder);
	free(wording);
	return done;
}

Test(wording, english_is_compiled_in_and_a_file_takes_its_place)
{
	struct wording *wording = calloc(1, sizeof *wording);
	char folder[FOLDER_SIZE], path[FOLDER_PATH], told[TOLD_SIZE] = "";
	static char text[FILE_SIZE];
	struct fault why;

	cr_assert_not_null(wording);
	cr_assert(folder_make(folder));
	cr_assert(wording_read(wording, folder, "en", hear, told, &why), "%s",
		  told);
	cr_expect_str_eq(wording_text(wording, "slip.left_eye"), "Left eye");
	edit("\"Left eye\"", "\"The left eye\"", text);
	cr_assert(folder_put(folder_path(folder, "wording-en.ini", path), text,
			     strlen(text)));
	cr_assert(wording_read(wording, folder, "en", hear, told, &why), "%s",
		  told);
	cr_expect_str_eq(wording_text(wording, "slip.left_eye"), "The left "
								 "eye");
	cr_expect_null(wording_text(wording, "slip.no_such_key"));
	cr_expect_null(wording_text(wording, "slip"));
	folder_remove(folder);
	free(wording);
}

Test(wording, a_translation_is_read_by_its_letters)
{
	static char text[FILE_SIZE];
	char told[TOLD_SIZE];
	struct fault why;

	edit("language = \"en\"", "language = \"qaa\"", text);
	cr_expect(read_text(text, "qaa", told, &why), "%s", told);
	cr_expect_not(read_text(text, "qab", told, &why));
	cr_expect_str_eq(told, "language: 'qaa' does not fit the name of the "
			       "file; write 'qab'\n");
	/* In place of the one compiled in. */
	edit("language = \"en\"", "language = \"ar\"", text);
	cr_expect(read_text(text, "ar", told, &why), "%s", told);
}

Test(wording, every_hole_is_told_and_the_file_is_refused)
{
	static const struct row {
		const char *from, *to;
		const char *told;
	} rows[] = {
		{"left_eye = \"Left eye\"\n", "",
		 "'left_eye' is missing in [slip]\n"},
		{"left_eye = \"Left eye\"", "left_eyes = \"Left eye\"",
		 "unknown key 'left_eyes' in [slip]; did you mean "
		 "'left_eye'?\n'left_eye' is missing in [slip]\n"},
		{"[consent]", "[extra]\nkey = \"x\"\n[consent]",
		 "unknown section [extra]\n"},
		{"\"Left eye\"", "\"\"",
		 "left_eye: it is empty; words are needed\n"},
		{"\"Left eye\"", "\"Left {eye}\"",
		 "left_eye: '{eye}' is not filled in here; the English text "
		 "is 'Left eye'\n"},
		{"\"Left eye\"", "\"Left {eye\"",
		 "left_eye: a brace is open or alone; write {name}\n"},
		{"\"Left eye\"", "\"Left }\"",
		 "left_eye: a brace is open or alone; write {name}\n"},
		{"\"Cost: {cost}\"", "\"Cost\"", "cost: '{cost}' is missing\n"},
		{"\"ltr\"", "\"left\"",
		 "direction: 'left' is neither ltr nor rtl\n"},
	};
	static char text[FILE_SIZE];

	for (size_t i = 0; i < COUNT(rows); i++) {
		char told[TOLD_SIZE];
		struct fault why = {FAULT_NONE, ""};

		edit(rows[i].from, rows[i].to, text);
		cr_expect_not(read_text(text, "en", told, &why), "row %zu", i);
		cr_expect_str_eq(told, rows[i].told, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_POLICY, "row %zu", i);
		cr_expect_not_null(strstr(why.sentence, "'wording-en.ini' has"),
				   "row %zu: %s", i, why.sentence);
	}
}

Test(wording, a_language_is_letters_and_nothing_else)
{
	static const char *const languages[] = {"",   "e",    "EN",  "engl",
						"e/", "../x", "e\n", "xx"};
	struct wording *wording = calloc(1, sizeof *wording);

	cr_assert_not_null(wording);
	for (size_t i = 0; i < COUNT(languages); i++) {
		char told[TOLD_SIZE] = "";
		struct fault why = {FAULT_NONE, ""};

		cr_expect_not(wording_read(wording, NULL, languages[i], hear,
					   told, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, FAULT_POLICY, "row %zu", i);
	}
	free(wording);
}

/* Words of the longest sentence; a colon or full stop ends one. */
static int
longest_sentence(const char *text)
{
	int longest = 0, words = 0;

	while (*text != '\0') {
		size_t length = strcspn(text, " ");

		words++;
		if (words > longest)
			longest = words;
		if (length > 0 && strchr(".:?!", text[length - 1]) != NULL)
			words = 0;
		text += length;
		text += strspn(text, " ");
	}
	return longest;
}

static void
expect_short(const struct ini *ini)
{
	int looked_at = 0;

	for (int i = 0; i < ini->count; i++) {
		const struct ini_entry *entry = &ini->entry[i];
		bool capitals = false;

		if (entry->key[0] == '\0' ||
		    (strcmp(entry->section, "patient") != 0 &&
		     strcmp(entry->section, "urgency") != 0))
			continue;
		looked_at++;
		cr_expect_lt(longest_sentence(entry->value), 12, "%s %s: %s",
			     ini->name, entry->key, entry->value);
		for (const char *at = entry->value; *at != '\0'; at++)
			capitals |= at[0] >= 'A' && at[0] <= 'Z' &&
				    at[1] >= 'A' && at[1] <= 'Z';
		cr_expect_not(capitals, "%s %s: %s", ini->name, entry->key,
			      entry->value);
	}
	cr_expect_gt(looked_at, 30);
}

/* Large-print and plain-language practice, as in the comment at the head of
 * the file: fewer than 12 words, no word in capitals. */
Test(wording, sentences_to_patients_are_short_and_not_shouted)
{
	struct paper *paper = paper_open();

	for (size_t i = 0; wording_language(i)[0] != '\0'; i++) {
		paper_speak(paper, wording_language(i));
		expect_short(&paper->wording.ini);
	}
	free(paper);
}
