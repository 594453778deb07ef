/* field.c: one table per record; everything else loops over it. */
#include "base/field.h"

#include "base/day.h"
#include "base/mark.h"
#include "base/number.h"
#include "base/refnum.h"
#include "base/text.h"

#include <stdio.h>
#include <string.h>

static bool
count_read(const struct field *field, const char *text, void *value,
	   struct fault *why)
{
	long number;

	if (!number_read(text, field->least, field->most, field->words, &number,
			 why))
		return false;
	*(int *)value = (int)number;
	return true;
}

static void
count_write(const struct field *field, const void *value, char *text,
	    size_t size)
{
	(void)field;
	snprintf(text, size, "%d", *(const int *)value);
}

static void
int_blank(const struct field *field, void *value)
{
	(void)field;
	*(int *)value = FIELD_BLANK;
}

static bool
int_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const int *)value == FIELD_BLANK;
}

const struct field_kind field_count = {"INTEGER", count_read, count_write,
				       int_blank, int_is_blank};

const char *
field_word(const char *words, int index, size_t *length)
{
	for (; index > 0; index--) {
		words += strcspn(words, "|");
		if (*words++ == '\0')
			return NULL;
	}
	*length = strcspn(words, "|");
	return words;
}

/* "F|M|X" as "F, M, X". */
static void
list_words(const char *words, char *list, size_t size)
{
	size_t used = 0;

	for (; *words != '\0' && used + 3 < size; words++) {
		if (*words == '|') {
			list[used++] = ',';
			list[used++] = ' ';
		} else {
			list[used++] = *words;
		}
	}
	list[used] = '\0';
}

/* The index of a word, or a fault that lists them. */
static bool
word_read(const char *words, const char *text, size_t length, int *index,
	  struct fault *why)
{
	char list[200];
	const char *word;
	size_t its;

	for (int i = 0; (word = field_word(words, i, &its)); i++)
		if (length == its && memcmp(word, text, length) == 0) {
			*index = i;
			return true;
		}
	list_words(words, list, sizeof list);
	return fault_set(why, FAULT_INPUT, "'%.*s' is not one of: %s",
			 length < 40 ? (int)length : 40, text, list);
}

static bool
choice_read(const struct field *field, const char *text, void *value,
	    struct fault *why)
{
	return word_read(field->words, text, strlen(text), value, why);
}

static void
choice_write(const struct field *field, const void *value, char *text,
	     size_t size)
{
	size_t length = 0;
	const char *word =
		field_word(field->words, *(const int *)value, &length);

	snprintf(text, size, "%.*s", (int)length, word == NULL ? "" : word);
}

const struct field_kind field_choice = {"TEXT", choice_read, choice_write,
					int_blank, int_is_blank};

static bool
set_read(const struct field *field, const char *text, void *value,
	 struct fault *why)
{
	int set = 0, index = 0;

	for (;;) {
		size_t length = strcspn(text, ";,");
		const char *end = text + length;

		text += strspn(text, " ");
		for (length = (size_t)(end - text);
		     length > 0 && text[length - 1] == ' '; length--)
			;
		if (!word_read(field->words, text, length, &index, why))
			return false;
		set |= 1 << index;
		if (*end == '\0')
			break;
		text = end + 1;
	}
	*(int *)value = set;
	return true;
}

static void
set_write(const struct field *field, const void *value, char *text, size_t size)
{
	const char *word;
	size_t length, used = 0;

	text[0] = '\0';
	for (int i = 0; (word = field_word(field->words, i, &length)); i++)
		if ((*(const int *)value & 1 << i) != 0 && used < size)
			used += (size_t)snprintf(text + used, size - used,
						 "%s%.*s", used > 0 ? ";" : "",
						 (int)length, word);
}

static void
set_blank(const struct field *field, void *value)
{
	(void)field;
	*(int *)value = 0;
}

static bool
set_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const int *)value == 0;
}

const struct field_kind field_set = {"TEXT", set_read, set_write, set_blank,
				     set_is_blank};

static bool
text_read(const struct field *field, const char *text, void *value,
	  struct fault *why)
{
	if (!text_check(text, field->most, why))
		return false;
	if (!text_copy(value, field->size, text))
		return fault_set(why, FAULT_INPUT,
				 "it has more than %zu bytes; at most %ld "
				 "characters are allowed",
				 field->size - 1, field->most);
	return true;
}

static void
text_write(const struct field *field, const void *value, char *text,
	   size_t size)
{
	(void)field;
	snprintf(text, size, "%s", (const char *)value);
}

static void
text_blank(const struct field *field, void *value)
{
	memset(value, 0, field->size);
}

static bool
text_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return *(const char *)value == '\0';
}

const struct field_kind field_text = {"TEXT", text_read, text_write, text_blank,
				      text_is_blank};

static bool
day_field_read(const struct field *field, const char *text, void *value,
	       struct fault *why)
{
	(void)field;
	return day_read(text, value, why);
}

static void
day_field_write(const struct field *field, const void *value, char *text,
		size_t size)
{
	char written[DAY_SIZE];

	(void)field;
	day_write(*(const struct day *)value, written);
	snprintf(text, size, "%s", written);
}

static void
day_field_blank(const struct field *field, void *value)
{
	(void)field;
	*(struct day *)value = day_none();
}

static bool
day_field_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return day_is_none(*(const struct day *)value);
}

const struct field_kind field_day = {"TEXT", day_field_read, day_field_write,
				     day_field_blank, day_field_is_blank};

static bool
refnum_field_read(const struct field *field, const char *text, void *value,
		  struct fault *why)
{
	(void)field;
	return refnum_read(text, value, why);
}

static void
refnum_field_write(const struct field *field, const void *value, char *text,
		   size_t size)
{
	char written[REFNUM_SIZE];

	(void)field;
	refnum_write(*(const struct refnum *)value, written);
	snprintf(text, size, "%s", written);
}

static void
refnum_field_blank(const struct field *field, void *value)
{
	(void)field;
	*(struct refnum *)value = (struct refnum){0, 0};
}

static bool
refnum_field_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return refnum_is_none(*(const struct refnum *)value);
}

const struct field_kind field_refnum = {"TEXT", refnum_field_read,
					refnum_field_write, refnum_field_blank,
					refnum_field_is_blank};

bool
field_read(const struct field *field, const char *text, void *record,
	   struct fault *why)
{
	if (text[0] == '\0') {
		if (field->need == FIELD_NEEDED) {
			fault_set(why, FAULT_INPUT,
				  "it is empty; a value is needed");
			return fault_at(why, "%s", field->name);
		}
		field_blank(field, record);
		return true;
	}
	if (field->kind->read(field, text, (char *)record + field->offset, why))
		return true;
	return fault_at(why, "%s", field->name);
}

void
field_write(const struct field *field, const void *record, char *text,
	    size_t size)
{
	text[0] = '\0';
	if (!field_is_blank(field, record))
		field->kind->write(field, (const char *)record + field->offset,
				   text, size);
}

void
field_blank(const struct field *field, void *record)
{
	field->kind->blank(field, (char *)record + field->offset);
}

bool
field_is_blank(const struct field *field, const void *record)
{
	return field->kind->is_blank(field,
				     (const char *)record + field->offset);
}

void
fields_blank(struct fields fields, void *record)
{
	for (size_t i = 0; i < fields.count; i++)
		field_blank(&fields.field[i], record);
}

const struct field *
fields_find(struct fields fields, const char *name)
{
	for (size_t i = 0; i < fields.count; i++)
		if (strcmp(fields.field[i].name, name) == 0)
			return &fields.field[i];
	return NULL;
}

void
fields_mark(struct fields fields, const void *record, char *letters)
{
	char value[FIELD_TEXT_SIZE];
	struct mark mark;

	mark_init(&mark);
	for (size_t i = 0; i + 1 < fields.count; i++) {
		field_write(&fields.field[i], record, value, sizeof value);
		mark_add(&mark, value);
	}
	mark_write(&mark, MARK_ROW_LETTERS, letters);
}

const struct field *
fields_nearest(struct fields fields, const char *name)
{
	const struct field *nearest = NULL;
	int least = text_distance_helpful(name) + 1;

	for (size_t i = 0; i < fields.count; i++) {
		int distance = text_distance(fields.field[i].name, name);

		if (distance < least) {
			least = distance;
			nearest = &fields.field[i];
		}
	}
	return nearest;
}
