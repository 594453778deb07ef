/* question.c: the questions about one person, as a table. */
#include "desk/question.h"

#include "base/text.h"
#include "clinic/paperrow.h"

#include <ctype.h>
#include <string.h>

static const char age_help[] = "Full years, 0 to 120. Put a star behind an age "
			       "that is a guess: 60*. "
			       "Leave it empty when it is not known: every "
			       "rule with an age limit "
			       "then counts as met.";
static const char findings_help[] = "Type the number of each line that "
				    "applies, together or apart: 13 or "
				    "1 3. Enter alone means none of them. A "
				    "minus takes back what was "
				    "typed before.";
static const char depth_help[] =
	"Slit lamp, beam at 60 degrees, dim room, temporal edge of the cornea, "
	"eye looking straight ahead, before any drops. Compare the dark gap "
	"with the thickness of the cornea beside it; the shallowest place "
	"counts. Type the grade: 0 5 15 25 40 75 100, or 1/4, or 0.25. Type x "
	"when it cannot be graded, - when there is no eye.";
static const char pressure_help[] = "Whole mmHg, 1 to 99. Leave it empty when "
				    "it was not measured. Do not "
				    "measure an injured or freshly operated "
				    "eye.";
static const char why_help[] = "Say why the eye could not be graded; do not "
			       "guess a grade.";

/* clang-format off */
const struct question_row question_table[QUESTION_COUNT] = {
[ASK_NUMBER] = {"Number on the paper slip", "paper number",
	ANSWER_TEXT, "number",
	GROUP_COUNT, EYE_RIGHT, "none: give a new one",
	"The eleven digits printed on the paper slip, such as those from 90001 "
	"on. Leave it empty when the person has no paper slip."},
[ASK_NAME] = {"Name", "name",
	ANSWER_TEXT, "name", GROUP_COUNT, EYE_RIGHT, "no name",
	"As the person says it, up to 80 characters. May be left empty."},
[ASK_CONTACT] = {"Phone or village", "phone",
	ANSWER_TEXT, "contact", GROUP_COUNT,
	EYE_RIGHT, "none",
	"How the clinic can reach the person. May be left empty. Begin a "
	"foreign number with 00, not with a plus sign."},
[ASK_AGE] = {"Age", "age",
	ANSWER_AGE, "age_years", GROUP_COUNT, EYE_RIGHT,
	"not known", age_help},
[ASK_SEX] = {"Sex", "sex",
	ANSWER_CHOICE, "sex", GROUP_COUNT, EYE_RIGHT,
	"not recorded", "F woman, M man, X another answer. May be left empty."},
[ASK_COMPLAINTS] = {"Complaints", "complaints",
	ANSWER_FINDINGS, NULL, GROUP_COMPLAINTS,
	EYE_RIGHT, "none", findings_help},
[ASK_RISKS] = {"Risks", "risks",
	ANSWER_FINDINGS, NULL, GROUP_RISKS, EYE_RIGHT,
	"none", findings_help},
[ASK_PAST_RIGHT] = {"RIGHT eye, history", "right history",
	ANSWER_FINDINGS, NULL,
	GROUP_EYE_PAST, EYE_RIGHT, "none", findings_help},
[ASK_PAST_LEFT] = {"LEFT eye, history", "left history",
	ANSWER_FINDINGS, NULL,
	GROUP_EYE_PAST, EYE_LEFT, "none", findings_help},
[ASK_SIGNS_RIGHT] = {"RIGHT eye, signs", "right signs",
	ANSWER_FINDINGS, NULL, GROUP_SIGNS,
	EYE_RIGHT, "none", findings_help},
[ASK_SIGNS_LEFT] = {"LEFT eye, signs", "left signs",
	ANSWER_FINDINGS, NULL, GROUP_SIGNS,
	EYE_LEFT, "none", findings_help},
[ASK_DEPTH_RIGHT] = {"RIGHT eye, depth in %", "right depth",
	ANSWER_DEPTH, "depth_right",
	GROUP_COUNT, EYE_RIGHT, "", depth_help},
[ASK_WHY_RIGHT] = {"RIGHT eye, why not graded", "why not graded, right",
	ANSWER_CHOICE,
	"not_gradable_why_right", GROUP_COUNT, EYE_RIGHT, "", why_help},
[ASK_DEPTH_LEFT] = {"LEFT eye, depth in %", "left depth",
	ANSWER_DEPTH, "depth_left",
	GROUP_COUNT, EYE_LEFT, "", depth_help},
[ASK_WHY_LEFT] = {"LEFT eye, why not graded", "why not graded, left",
	ANSWER_CHOICE,
	"not_gradable_why_left", GROUP_COUNT, EYE_LEFT, "", why_help},
[ASK_PRESSURE_RIGHT] = {"RIGHT eye, pressure in mmHg", "right pressure",
	ANSWER_TEXT,
	"pressure_right", GROUP_COUNT, EYE_RIGHT, "not measured",
	pressure_help},
[ASK_PRESSURE_LEFT] = {"LEFT eye, pressure in mmHg", "left pressure",
	ANSWER_TEXT,
	"pressure_left", GROUP_COUNT, EYE_LEFT, "not measured",
	pressure_help},
[ASK_CONSENT] = {"May the clinic write back to you", "write back",
	ANSWER_CHOICE,
	"reply_consent", GROUP_COUNT, EYE_RIGHT, "",
	"Ask the person: may the eye clinic send its result back to this "
	"camp? A no changes nothing about the care."},
};
/* clang-format on */

const struct field *
question_field(enum question question)
{
	const char *name = question_table[question].field;

	return name == NULL ? NULL : fields_find(visit_fields, name);
}

bool
question_is_needed(enum question question)
{
	return question_table[question].kind == ANSWER_DEPTH ||
	       question_table[question].nothing[0] == '\0';
}

enum finding
question_finding(enum finding_group group, int key)
{
	return paper_finding(group, key);
}

int
question_keys(enum finding_group group)
{
	int count = 0;

	while (question_finding(group, count + 1) != FINDING_COUNT)
		count++;
	return count;
}

void
question_spell(char *code)
{
	for (; *code != '\0'; code++)
		if (*code == '_')
			*code = ' ';
}

static void
write_line(FILE *out, int key, const char *words, int columns)
{
	fprintf(out, " %d ", key);
	text_write_wrapped(out, words, columns, 3, 3);
}

void
question_write_words(const struct field *field, int columns, FILE *out)
{
	char words[64];
	const char *word;
	size_t length;

	for (int i = 0; (word = field_word(field->words, i, &length)); i++) {
		snprintf(words, sizeof words, "%.*s", (int)length, word);
		question_spell(words);
		write_line(out, i + 1, words, columns);
	}
}

/* Whether a word was typed, in any case, its spaces as they are shown. */
static bool
is_word(const char *answer, const char *word, size_t length)
{
	bool same = strlen(answer) == length;

	for (size_t i = 0; same && i < length; i++)
		same = tolower((unsigned char)answer[i]) ==
			       tolower((unsigned char)word[i]) ||
		       (answer[i] == ' ' && word[i] == '_');
	return same;
}

bool
question_read_word(const struct field *field, const char *answer, void *record,
		   struct fault *why)
{
	const char *word;
	size_t length;
	int count = 0;

	for (; (word = field_word(field->words, count, &length)); count++) {
		char key[2] = {(char)('1' + count), '\0'};

		if (is_word(answer, word, length) || strcmp(answer, key) == 0) {
			*(int *)(void *)((char *)record + field->offset) =
				count;
			return true;
		}
	}
	return fault_set(why, FAULT_INPUT,
			 "type a number from 1 to %d, or the word itself",
			 count);
}

void
question_write_choices(enum question question, int columns, FILE *out)
{
	const struct question_row *row = &question_table[question];

	if (row->kind == ANSWER_FINDINGS)
		for (int key = 1; key <= question_keys(row->group); key++)
			write_line(out, key,
				   finding_about(
					   question_finding(row->group, key)),
				   columns);
	if (row->kind == ANSWER_CHOICE)
		question_write_words(question_field(question), columns, out);
}

void
question_write_help(enum question question, int columns, FILE *out)
{
	text_write_wrapped(out, question_table[question].help, columns, 0, 0);
}
