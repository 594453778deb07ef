/* keying.c: what keys do to a person's form, without a terminal. */
#include "desk/keying.h"

#include "base/text.h"

#include <string.h>

static void
come_to(struct keying *keying, enum question question)
{
	keying->at = question;
	keying->typed[0] = '\0';
	keying->typing = false;
}

void
keying_begin(struct keying *keying, struct form *form)
{
	keying->form = form;
	keying->said.kind = FAULT_NONE;
	come_to(keying, form_open(form, ASK_NUMBER));
}

static enum answer_kind
kind_at(const struct keying *keying)
{
	return question_table[keying->at].kind;
}

static bool
takes_text(const struct keying *keying)
{
	return keying->at != QUESTION_COUNT &&
	       kind_at(keying) != ANSWER_FINDINGS &&
	       kind_at(keying) != ANSWER_CHOICE;
}

static enum keying_effect
answer(struct keying *keying, const char *text)
{
	keying->said.kind = FAULT_NONE;
	return form_answer(keying->form, keying->at, text, &keying->said)
		       ? KEYING_ANSWERED
		       : KEYING_NOTHING;
}

/* --- findings and choices: a key counts at once --------------------------- */

bool
keying_has(const struct form *form, enum question question, int key)
{
	const struct question_row *row = &question_table[question];
	finding_set bit = finding_bit(question_finding(row->group, key));
	const struct findings *findings = &form->visit.findings;

	return ((row->group == GROUP_SIGNS || row->group == GROUP_EYE_PAST
			 ? findings->eye[row->eye]
			 : findings->person) &
		bit) != 0;
}

/* The number keys of all findings, with one turned round. */
static enum keying_effect
turn_finding(struct keying *keying, int key)
{
	int most = question_keys(question_table[keying->at].group);
	char keys[12] = "";

	if (key < 1 || key > most) {
		fault_set(&keying->said, FAULT_INPUT,
			  "type the numbers of the lines that apply, each 1 to "
			  "%d, 0 for none of them, then Enter",
			  most);
		return KEYING_NOTHING;
	}
	for (int i = 1; i <= most; i++)
		if (keying_has(keying->form, keying->at, i) != (i == key)) {
			size_t used = strlen(keys);

			keys[used] = (char)('0' + i);
			keys[used + 1] = '\0';
		}
	return answer(keying, keys[0] == '\0' ? "-" : keys);
}

/* A word of the choice by its first letter; "" when none or several. */
static void
word_of(const struct field *field, char letter, char *word, size_t size)
{
	const char *text;
	size_t length;
	int found = 0;

	for (int i = 0; (text = field_word(field->words, i, &length)); i++)
		if ((text[0] | 0x20) == (letter | 0x20)) {
			snprintf(word, size, "%.*s", (int)length, text);
			found++;
		}
	if (found != 1)
		word[0] = '\0';
}

static enum keying_effect
choose(struct keying *keying, const char *text)
{
	char word[64] = "";

	word_of(question_field(keying->at), text[0], word, sizeof word);
	return answer(keying, word[0] == '\0' ? text : word);
}

static enum keying_effect
type_at_end(struct keying *keying, const char *text)
{
	if (strcmp(text, "0") == 0)
		return KEYING_DROP;
	if (strcmp(text, "?") == 0)
		return KEYING_HELP;
	if (strcmp(text, "<") == 0)
		return keying_back(keying);
	fault_set(&keying->said, FAULT_INPUT,
		  "Enter saves this person; an arrow goes back to an answer");
	return KEYING_NOTHING;
}

/* --- text ----------------------------------------------------------------- */

enum keying_effect
keying_type(struct keying *keying, const char *text)
{
	size_t used = strlen(keying->typed);

	keying->said.kind = FAULT_NONE;
	if (keying->at == QUESTION_COUNT)
		return type_at_end(keying, text);
	if (used == 0 && strcmp(text, "?") == 0)
		return KEYING_HELP;
	if (used == 0 && strcmp(text, "<") == 0)
		return keying_back(keying);
	if (kind_at(keying) == ANSWER_FINDINGS)
		return text[0] == '0' || text[0] == '-'
			       ? answer(keying, "-")
			       : turn_finding(keying, text[0] - '0');
	if (kind_at(keying) == ANSWER_CHOICE)
		return choose(keying, text);
	keying->typing = true;
	if (used + strlen(text) < sizeof keying->typed)
		memcpy(keying->typed + used, text, strlen(text) + 1);
	return KEYING_NOTHING;
}

/* A character of several bytes goes as a whole. */
static void
shorten(char *text)
{
	size_t used = strlen(text);

	while (used > 0 && ((unsigned char)text[used - 1] & 0xc0) == 0x80)
		used--;
	if (used > 0)
		used--;
	text[used] = '\0';
}

enum keying_effect
keying_erase(struct keying *keying)
{
	keying->said.kind = FAULT_NONE;
	if (keying->at == QUESTION_COUNT)
		return KEYING_NOTHING;
	if (!takes_text(keying))
		return question_is_needed(keying->at) ||
				       !keying->form->answered[keying->at]
			       ? KEYING_NOTHING
			       : answer(keying, "-");
	if (!keying->typing) {
		char shown[FORM_SHOWN_SIZE] = "";

		if (!field_is_blank(question_field(keying->at),
				    &keying->form->visit))
			form_show(keying->form, keying->at, shown);
		text_copy(keying->typed, sizeof keying->typed, shown);
	}
	keying->typing = true;
	shorten(keying->typed);
	return KEYING_NOTHING;
}

enum depth
keying_grade(const struct keying *keying)
{
	const char *typed = keying->typed;
	enum depth read = DEPTH_BLANK;
	struct fault ignored;
	int found = 0;

	if (depth_read(typed, &read, &ignored))
		return read;
	/* One key only: a 10 is no beginning of 100. */
	for (int i = 0;
	     typed[0] != '\0' && typed[1] == '\0' && i < DEPTH_GRADES; i++) {
		char grade[4];

		depth_write((enum depth)i, grade);
		if (grade[0] != typed[0])
			continue;
		read = (enum depth)i;
		found++;
	}
	return found == 1 ? read : DEPTH_BLANK;
}

/* Takes what was typed; false when it was refused. */
static bool
take(struct keying *keying, enum keying_effect *effect)
{
	char typed[KEYING_TYPED_SIZE];

	*effect = KEYING_NOTHING;
	keying->said.kind = FAULT_NONE;
	if (keying->at == QUESTION_COUNT || !keying->typing)
		return true;
	text_copy(typed, sizeof typed, keying->typed);
	text_trim(typed);
	if (kind_at(keying) == ANSWER_DEPTH &&
	    keying_grade(keying) != DEPTH_BLANK)
		depth_write(keying_grade(keying), typed);
	if (typed[0] == '\0' && question_is_needed(keying->at))
		return fault_set(&keying->said, FAULT_INPUT,
				 "an answer is needed here; ? explains");
	*effect = answer(keying, typed[0] == '\0' ? "-" : typed);
	return *effect == KEYING_ANSWERED;
}

/* --- going from one to the other ------------------------------------------ */

enum keying_effect
keying_go(struct keying *keying, enum question question)
{
	enum keying_effect effect;

	if (take(keying, &effect))
		come_to(keying, question);
	return effect;
}

enum keying_effect
keying_back(struct keying *keying)
{
	enum question back = form_back(keying->form, keying->at);

	if (back == keying->at)
		return KEYING_MENU;
	return keying_go(keying, back);
}

enum keying_effect
keying_enter(struct keying *keying)
{
	enum keying_effect effect;
	enum question next;

	if (keying->at == QUESTION_COUNT) {
		next = form_open(keying->form, ASK_NUMBER);
		come_to(keying, next);
		return next == QUESTION_COUNT ? KEYING_SAVE : KEYING_NOTHING;
	}
	if (!keying->typing && answer(keying, "") != KEYING_ANSWERED)
		return KEYING_NOTHING;
	if (!take(keying, &effect))
		return effect;
	next = form_next(keying->form, keying->at);
	if (next == QUESTION_COUNT ||
	    form_open(keying->form, ASK_NUMBER) == QUESTION_COUNT)
		next = form_open(keying->form, ASK_NUMBER);
	come_to(keying, next);
	return KEYING_ANSWERED;
}

/* --- what is shown -------------------------------------------------------- */

/* Findings by their codes, which are short. */
static void
show_findings(const struct form *form, enum question question, char *shown)
{
	enum finding_group group = question_table[question].group;
	size_t used = 0;

	for (int key = 1; key <= question_keys(group); key++)
		if (keying_has(form, question, key))
			used += (size_t)snprintf(
				shown + used, FORM_SHOWN_SIZE - used, "%s%d %s",
				used > 0 ? ", " : "", key,
				finding_code(question_finding(group, key)));
	question_spell(shown);
	if (used == 0)
		snprintf(shown, FORM_SHOWN_SIZE, "none");
}

void
keying_show(const struct keying *keying, enum question question, char *shown)
{
	const struct form *form = keying->form;

	shown[0] = '\0';
	if (question == keying->at && keying->typing)
		snprintf(shown, FORM_SHOWN_SIZE, "%s", keying->typed);
	else if (!form->answered[question])
		shown[0] = '\0';
	else if (question_table[question].kind == ANSWER_FINDINGS)
		show_findings(form, question, shown);
	else
		form_show(form, question, shown);
}
