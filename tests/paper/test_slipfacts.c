/* test_slipfacts.c: the words in the wording file are the words in use. */
#include "paper/forms.h"
#include "paper/slipfacts.h"

#include "../keep/folder.h"
#include "people.h"

enum { FILE_SIZE = 65536, PAGES_SIZE = 4 * 1024 * 1024 };

/* People who between them need every word there is. */
static const char *const people[] = {
	PERSON_ACUTE,
	PERSON_RED_EYE,
	PERSON_URGENT,
	PERSON_ROUTINE,
	PERSON_ROUTINE "|reply_consent=",
	PERSON_WELL,
	PERSON_BORDERLINE,
	PERSON_UNGRADABLE,
	PERSON_ONE_EYE,
	PERSON_NO_AGE,
	PERSON_OPERATED,
	PERSON_BLIND,
	PERSON_OVERDUE,
	PERSON_ACUTE "|state=void",
	"depth_right=x|depth_left=x|not_gradable_why_right=scar|"
	"not_gradable_why_left=could_not_keep_still|pressure_left=15|"
	"findings=right:artificial_lens;left:artificial_lens",
	"depth_right=x|depth_left=x|not_gradable_why_left=other",
	"depth_right=100|depth_left=100",
	"depth_right=0|depth_left=25|findings=severe_eye_pain;blurred_sight;"
	"past_spells;sudden_sight_loss;headache;family_closure;long_sighted;"
	"needs_dilating;risk_medicine;new_medicine;right:odd_pupil;"
	"right:blood_in_chamber;left:injury;left:past_attack;left:iridotomy",
};

/* Every text of the English file becomes "Q17Q" with its placeholders. */
static void
write_marked(const struct ini *english, FILE *out)
{
	for (int i = 0; i < english->count; i++) {
		const struct ini_entry *entry = &english->entry[i];

		if (entry->key[0] == '\0')
			fprintf(out, "[%s]\n", entry->section);
		else if (strcmp(entry->section, "wording") == 0)
			fprintf(out, "%s = \"%s\"\n", entry->key, entry->value);
		else {
			const char *at = entry->value;
			char name[WORDING_NAME_SIZE];

			fprintf(out, "%s = \"Q%dQ", entry->key, i);
			while ((at = strchr(at, '{')) != NULL) {
				at = wording_placeholder(at, name);
				fprintf(out, " {%s}", name);
			}
			fprintf(out, "\"\n");
		}
	}
}

static void
read_marked(struct wording *marked, const struct ini *english)
{
	char folder[FOLDER_SIZE], path[FOLDER_PATH];
	FILE *out;
	struct fault why;

	cr_assert(folder_make(folder));
	out = fopen(folder_path(folder, "wording-en.ini", path), "w");
	cr_assert_not_null(out);
	write_marked(english, out);
	fclose(out);
	cr_assert(wording_read(marked, folder, "en", paper_hear, NULL, &why));
	folder_remove(folder);
}

static void
print_without_number(struct paper *paper, FILE *out)
{
	struct fault why;

	paper_person(paper, PERSON_WELL);
	paper->visit.number = (struct refnum){0, 0};
	slip_write_text(&paper->slip, SLIP_COLUMNS, out, &why);
}

static void
print_chosen_by_number(struct paper *paper, FILE *out)
{
	struct fault why;

	paper->policy.verify_every = 7;
	paper_person(paper, PERSON_WELL);
	slip_write_text(&paper->slip, SLIP_COLUMNS, out, &why);
	slip_write_html(&paper->slip, out, &why);
	paper->policy.verify_every = FIELD_BLANK;
}

static void
print_forms(struct paper *paper, FILE *out)
{
	struct form_facts facts = {&paper->station, paper->slip.wording,
				   &paper->policy.age_bands, 90001, 1};

	for (int form = 0; form < FORM_COUNT; form++) {
		struct fault why;

		form_write((enum form)form, &facts, out, &why);
	}
}

static void
print_all(struct paper *paper, FILE *out)
{
	print_forms(paper, out);
	for (size_t i = 0; i < COUNT(people); i++) {
		struct fault why;

		paper_person(paper, people[i]);
		slip_write_text(&paper->slip, SLIP_COLUMNS, out, &why);
		slip_write_html(&paper->slip, out, &why);
	}
	print_chosen_by_number(paper, out);
	/* Without a number; then every month, a policy that is signed. */
	print_without_number(paper, out);
	for (int month = 1; month <= 12; month++) {
		char fields[256];
		struct fault why;

		text_copy(paper->policy.approved_by, POLICY_NAME_SIZE, "One");
		snprintf(fields, sizeof fields, "%s|screened_on=2026-%02d-01",
			 PERSON_WELL, month);
		paper_person(paper, fields);
		slip_write_text(&paper->slip, SLIP_COLUMNS, out, &why);
	}
}

static char *
print_marked(const struct wording *marked)
{
	struct paper *paper = paper_open();
	char *pages = NULL;
	size_t size = 0;
	FILE *out = open_memstream(&pages, &size);

	cr_assert_not_null(out);
	paper->slip.wording = marked;
	print_all(paper, out);
	fclose(out);
	free(paper);
	return pages;
}

Test(slipfacts, every_text_in_the_file_is_printed_for_somebody)
{
	struct paper *paper = paper_open();
	const struct ini *english = &paper->wording.ini;
	struct wording *marked = calloc(1, sizeof *marked);
	char *pages;

	cr_assert_not_null(marked);
	read_marked(marked, english);
	pages = print_marked(marked);
	for (int i = 0; i < english->count; i++) {
		const struct ini_entry *entry = &english->entry[i];
		char mark[16];

		if (entry->key[0] == '\0' || strcmp(entry->section, "wordin"
								    "g") == 0)
			continue;
		snprintf(mark, sizeof mark, "Q%dQ", i);
		cr_expect_not_null(strstr(pages, mark), "[%s] %s is not used",
				   entry->section, entry->key);
	}
	free(pages);
	free(marked);
	free(paper);
}

/* A key that is not in the file would be printed as itself. */
Test(slipfacts, every_text_that_is_asked_for_is_in_the_file)
{
	struct paper *paper = paper_open();
	const struct ini *english = &paper->wording.ini;
	struct wording *marked = calloc(1, sizeof *marked);
	char *pages;

	cr_assert_not_null(marked);
	read_marked(marked, english);
	pages = print_marked(marked);
	for (int i = 0; i < english->count; i++) {
		char key[INI_NAME_SIZE + 1];
		const char *at = pages;

		if (english->entry[i].key[0] != '\0')
			continue;
		snprintf(key, sizeof key, "%s.", english->entry[i].section);
		while ((at = strstr(at, key)) != NULL) {
			at += strlen(key);
			cr_expect_not(at[0] >= 'a' && at[0] <= 'z',
				      "%s%.20s is asked for", key, at);
		}
	}
	free(pages);
	free(marked);
	free(paper);
}

static void
count_phrase(void *context, const struct phrase *phrase)
{
	int *count = context;

	(void)phrase;
	++*count;
}

Test(slipfacts, headline_and_day_are_there_for_everybody)
{
	static const enum slip_part parts[] = {SLIP_HEADLINE, SLIP_WHEN,
					       SLIP_NAME, SLIP_URGENCY};
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(people); i++) {
		paper_person(paper, people[i]);
		for (size_t j = 0; j < COUNT(parts); j++) {
			int count = 0;

			slip_visit(&paper->slip, parts[j], count_phrase,
				   &count);
			cr_expect_eq(count,
				     paper->visit.state != STATE_VOID ||
					     parts[j] == SLIP_HEADLINE ||
					     parts[j] == SLIP_NAME,
				     "%s, part %zu", people[i], j);
		}
	}
	free(paper);
}
