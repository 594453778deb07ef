/* draft.c: the unfinished person, put aside after each answer. */
#include "desk/draft.h"

#include "base/text.h"
#include "clinic/paperrow.h"

#include <string.h>

static const char first_line[] = "shoal-draft-1";
static const char last_line[] = "end=yes";

void
draft_none(struct draft *draft)
{
	draft->keeps = false;
	draft->there = false;
	draft->aside.folder = -1;
	draft->trouble.kind = FAULT_NONE;
}

void
draft_open(struct draft *draft, const struct desk *desk)
{
	draft_none(draft);
	if (desk->in_is_terminal)
		draft->keeps = aside_open(&draft->aside, desk->folder,
					  "draft.txt", &draft->trouble);
}

void
draft_close(struct draft *draft)
{
	aside_close(&draft->aside);
	draft->keeps = false;
}

bool
draft_trouble(struct draft *draft, struct fault *trouble)
{
	if (draft->trouble.kind == FAULT_NONE)
		return false;
	*trouble = draft->trouble;
	draft->trouble.kind = FAULT_NONE;
	return true;
}

/* A question's name in the file: its field, or its column on paper. */
static const char *
name_of(enum question question)
{
	const struct question_row *row = &question_table[question];

	if (row->field != NULL)
		return row->field;
	for (int i = 0; i < PAPER_COLUMNS; i++)
		if (paper_columns[i].group == row->group &&
		    (paper_columns[i].eye == row->eye ||
		     row->group == GROUP_COMPLAINTS ||
		     row->group == GROUP_RISKS))
			return paper_columns[i].name;
	return "";
}

/* --- writing -------------------------------------------------------------- */

static void
write_draft(const struct form *form, struct refnum before, FILE *out)
{
	char value[FIELD_TEXT_SIZE], number[REFNUM_SIZE];

	refnum_write(before, number);
	fprintf(out, "%s\npaper=%s\nbefore=%s\n", first_line,
		form->paper ? "yes" : "no", number);
	for (size_t i = 0; i < visit_fields.count; i++) {
		const struct field *field = &visit_fields.field[i];

		if (field->origin != FIELD_TYPED ||
		    field_is_blank(field, &form->visit))
			continue;
		field_write(field, &form->visit, value, sizeof value);
		fprintf(out, "%s=%s\n", field->name, value);
	}
	for (int i = 0; i < QUESTION_COUNT; i++)
		if (form->answered[i])
			fprintf(out, "answered=%s\n",
				name_of((enum question)i));
	fprintf(out, "%s\n", last_line);
}

void
draft_keep(struct draft *draft, const struct form *form, struct refnum before)
{
	char text[ASIDE_TEXT_SIZE] = "";
	FILE *out;

	if (!draft->keeps || !form_is_begun(form))
		return;
	out = fmemopen(text, sizeof text, "w");
	if (out == NULL)
		return;
	write_draft(form, before, out);
	fclose(out);
	draft->keeps = aside_write(&draft->aside, text, &draft->trouble);
	draft->there = true;
}

bool
draft_holds(const struct draft *draft)
{
	return draft->keeps && draft->there;
}

bool
draft_set_by(struct draft *draft, char *kept, struct fault *why)
{
	draft->there = false;
	draft->keeps = aside_set_by(&draft->aside, kept, why);
	return draft->keeps;
}

/* One that can no longer be written is old, and must not come back. */
void
draft_remove(struct draft *draft)
{
	if (draft->aside.folder >= 0 && draft->there &&
	    !aside_remove(&draft->aside, &draft->trouble))
		draft->keeps = false;
	draft->there = false;
}

/* --- reading -------------------------------------------------------------- */

static bool
read_answered(struct form *form, const char *name, struct fault *why)
{
	for (int i = 0; i < QUESTION_COUNT; i++)
		if (strcmp(name_of((enum question)i), name) == 0) {
			form->answered[i] = true;
			return true;
		}
	return fault_set(why, FAULT_INPUT, "'%.40s' is not a question", name);
}

static bool
read_pair(struct form *form, struct refnum *before, const char *name,
	  const char *value, struct fault *why)
{
	const struct field *field = fields_find(visit_fields, name);

	if (strcmp(name, "answered") == 0)
		return read_answered(form, value, why);
	if (strcmp(name, "before") == 0)
		return value[0] == '\0' || refnum_read(value, before, why);
	if (strcmp(name, "paper") == 0) {
		form->paper = strcmp(value, "yes") == 0;
		return true;
	}
	if (field == NULL || field->origin != FIELD_TYPED)
		return fault_set(why, FAULT_INPUT, "'%.40s' is not a field",
				 name);
	return field_read(field, value, &form->visit, why);
}

/* Takes a line apart in place; the number of the line stands before a fault. */
static bool
read_line(struct form *form, struct refnum *before, char *line, long number,
	  struct fault *why)
{
	char *value = strchr(line, '=');

	if (value == NULL)
		return fault_set(why, FAULT_INPUT, "line %ld is not NAME=VALUE",
				 number);
	*value++ = '\0';
	return read_pair(form, before, line, value, why) ||
	       fault_at(why, "line %ld", number);
}

static bool
read_draft(char *text, struct form *form, struct refnum *before,
	   struct fault *why)
{
	long number = 0;
	bool ended = false;

	for (char *line = text, *end; *line != '\0'; line = end) {
		end = line + strcspn(line, "\n");
		if (*end == '\n')
			*end++ = '\0';
		if (++number == 1) {
			if (strcmp(line, first_line) != 0)
				break;
			continue;
		}
		ended = strcmp(line, last_line) == 0;
		if (!ended && !read_line(form, before, line, number, why))
			return false;
	}
	return ended || fault_set(why, FAULT_INPUT, "it is not whole");
}

bool
draft_find(struct draft *draft, struct form *form, struct refnum *before,
	   bool *found, struct fault *why)
{
	char text[ASIDE_TEXT_SIZE];

	*found = false;
	form_init(form, false);
	*before = (struct refnum){0, 0};
	if (!draft->keeps)
		return true;
	if (!aside_read(&draft->aside, text, why))
		return false;
	if (text[0] == '\0')
		return true;
	draft->there = true;
	*found = read_draft(text, form, before, why);
	return *found || fault_at(why, "'%s'", draft->aside.path);
}
