/* replycolumns.c: how a reply is given by name: columns and --set. */
#include "desk/replycolumns.h"

#include "base/text.h"

#include <string.h>

/* --- all four quadrants of an eye ----------------------------------------- */

static bool
fours_read(const struct field *field, const char *text, void *value,
	   struct fault *why)
{
	int *quadrant = value;

	if (!field_choice.read(field, text, value, why))
		return false;
	for (int i = 1; i < QUADRANT_COUNT; i++)
		quadrant[i] = quadrant[0];
	return true;
}

static void
fours_write(const struct field *field, const void *value, char *text,
	    size_t size)
{
	field_choice.write(field, value, text, size);
}

static void
fours_blank(const struct field *field, void *value)
{
	for (int i = 0; i < QUADRANT_COUNT; i++)
		field_choice.blank(field, (int *)value + i);
}

static bool
fours_is_blank(const struct field *field, const void *value)
{
	for (int i = 0; i < QUADRANT_COUNT; i++)
		if (!field_choice.is_blank(field, (const int *)value + i))
			return false;
	return true;
}

static const struct field_kind field_fours = {"TEXT", fours_read, fours_write,
					      fours_blank, fours_is_blank};

/* --- the names ------------------------------------------------------------ */

void
reply_columns_init(struct reply_columns *columns)
{
	static const char first[] = "_superior";
	size_t count = reply_fields.count, fours = 0;

	memcpy(columns->field, reply_fields.field,
	       count * sizeof columns->field[0]);
	for (size_t i = 0; i < reply_fields.count; i++) {
		const struct field *field = &reply_fields.field[i];
		const char *quadrant = strstr(field->name, first);
		struct field *all = &columns->field[count];

		if (quadrant == NULL)
			continue;
		snprintf(columns->name[fours], sizeof columns->name[0], "%.*s",
			 (int)(quadrant - field->name), field->name);
		*all = *field;
		all->name = columns->name[fours++];
		all->kind = &field_fours;
		all->size *= QUADRANT_COUNT;
		count++;
	}
	columns->fields = (struct fields){columns->field, count};
}

static bool
names_a_quadrant(const char *name)
{
	for (int i = 0; i < QUADRANT_COUNT; i++)
		if (strstr(name, quadrant_name((enum quadrant)i)) != NULL)
			return true;
	return false;
}

static void
write_name(const struct field *field, int width, FILE *out)
{
	char line[400], words[200] = "", about[100];
	size_t end;

	snprintf(about, sizeof about, "%.*s",
		 (int)(strstr(field->about, ", right") == NULL
			       ? strlen(field->about)
			       : (size_t)(strstr(field->about, ", right") -
					  field->about)),
		 field->about);
	text_copy(words, sizeof words, field->words);
	while ((end = strcspn(words, "|")) < strlen(words))
		words[end] = ' ';
	if (field->kind == &field_count)
		snprintf(words, sizeof words, "%ld to %ld %s", field->least,
			 field->most, field->words);
	if (field->kind == &field_day)
		text_copy(words, sizeof words, "YYYY-MM-DD");
	if (field->kind == &field_text)
		snprintf(words, sizeof words, "up to %ld characters",
			 field->most);
	snprintf(line, sizeof line, "%s: %s%s%s%s", field->name, about,
		 words[0] == '\0' ? "" : ": ", words,
		 field->need == FIELD_NEEDED ? " (needed)"
		 : field->kind == &field_set ? "; several joined by ;"
					     : "");
	text_write_wrapped(out, line, width, 0, 3);
}

void
reply_columns_write(const struct reply_columns *columns, int width, FILE *out)
{
	for (size_t i = 0; i < columns->fields.count; i++) {
		const struct field *field = &columns->field[i];

		if (field->origin == FIELD_TYPED &&
		    strstr(field->name, "_left") == NULL &&
		    !names_a_quadrant(field->name))
			write_name(field, width, out);
	}
	text_write_wrapped(out,
			   "The left eye has the same with _left. Of a "
			   "quadrant alone: _superior, _inferior, _nasal or "
			   "_temporal behind, such as deepest_left_nasal; "
			   "without it the answer is that of all four.",
			   width, 0, 0);
}
