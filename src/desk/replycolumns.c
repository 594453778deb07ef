/* replycolumns.c: how a reply is given by name: columns and --set. */
#include "desk/replycolumns.h"

#include "base/text.h"

#include <stdlib.h>
#include <string.h>

/* --- numbers ---------------------------------------------------------------
 */

/* Puts the word of that number, as the printed sheet has them, in the place of
 * each number; what is none of them is left to the field's own reader. */
static void
put_words(const struct field *field, const char *text, char *words, size_t size)
{
	size_t used = 0;

	words[0] = '\0';
	while (*text != '\0' && used < size) {
		size_t length = strcspn(text, ";,"), known;
		size_t digits = strspn(text, "0123456789");
		const char *word = NULL;

		if (length > 0 && length == digits && length <= 2 &&
		    text[0] != '0')
			word = field_word(field->words,
					  (int)strtol(text, NULL, 10) - 1,
					  &known);
		if (word == NULL) {
			word = text;
			known = length;
		}
		used += (size_t)snprintf(words + used, size - used, "%.*s%.*s",
					 (int)known, word,
					 text[length] == '\0' ? 0 : 1,
					 text + length);
		text += length + (text[length] != '\0');
	}
}

static bool
choice_read(const struct field *field, const char *text, void *value,
	    struct fault *why)
{
	char words[FIELD_TEXT_SIZE];

	put_words(field, text, words, sizeof words);
	return field_choice.read(field, words, value, why);
}

static bool
set_read(const struct field *field, const char *text, void *value,
	 struct fault *why)
{
	char words[FIELD_TEXT_SIZE];

	put_words(field, text, words, sizeof words);
	return field_set.read(field, words, value, why);
}

/* --- all four quadrants of an eye ----------------------------------------- */

static bool
fours_read(const struct field *field, const char *text, void *value,
	   struct fault *why)
{
	int *quadrant = value;

	if (!choice_read(field, text, value, why))
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

	columns->choice = field_choice;
	columns->choice.read = choice_read;
	columns->set = field_set;
	columns->set.read = set_read;
	memcpy(columns->field, reply_fields.field,
	       count * sizeof columns->field[0]);
	for (size_t i = 0; i < count; i++)
		if (columns->field[i].kind == &field_choice)
			columns->field[i].kind = &columns->choice;
		else if (columns->field[i].kind == &field_set)
			columns->field[i].kind = &columns->set;
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
write_name(const struct reply_columns *columns, const struct field *field,
	   int width, FILE *out)
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
		 field->need == FIELD_NEEDED	? " (needed)"
		 : field->kind == &columns->set ? "; several joined by ;"
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
			write_name(columns, field, width, out);
	}
	text_write_wrapped(out,
			   "The left eye has the same with _left. Of a "
			   "quadrant alone: _superior, _inferior, _nasal or "
			   "_temporal behind, such as deepest_left_nasal; "
			   "without it the answer is that of all four. In "
			   "place of a word its number will do, as the printed "
			   "reply sheet has them: the first is 1.",
			   width, 0, 0);
}
