/* entry.c: one row of the register about a person, read and written. */
#include "keep/entry.h"

#include "base/text.h"

#include <stdio.h>
#include <string.h>

enum {
	/* All texts of one record, and one more of the longest kind. */
	TEXTS_SIZE = sizeof(struct visit) + 1024 + FIELD_TEXT_SIZE,
	VALUES_MOST = 64,
	BEFORE_FIELDS = 3 /* values: revises, reason, folded_name */
};

static void
write_columns(char *text, size_t size)
{
	size_t length = 0;

	for (size_t i = 0; i < visit_fields.count && length < size; i++)
		length += (size_t)snprintf(text + length, size - length, "%s%s",
					   i == 0 ? "" : ", ",
					   visit_fields.field[i].name);
}

/* --- reading -------------------------------------------------------------- */

/* Another spelling of the same value would break order and uniqueness. */
static bool
read_column(const struct store_row *row, int column, const struct field *field,
	    struct visit *visit, struct fault *why)
{
	const char *text = store_text(row, column);
	char written[FIELD_TEXT_SIZE];

	if (text != NULL && !field_read(field, text, visit, why))
		return false;
	if (text != NULL) {
		field_write(field, visit, written, sizeof written);
		if (strcmp(text, written) == 0)
			return true;
	}
	fault_set(why, FAULT_REGISTER, "it is not written as it should be");
	return fault_at(why, "%s", field->name);
}

static bool
read_reason(const struct store_row *row, struct entry *entry, struct fault *why)
{
	const char *text = store_text(row, 1);

	if (text != NULL && text_check(text, ENTRY_REASON_MOST, why) &&
	    text_copy(entry->reason, sizeof entry->reason, text))
		return true;
	if (text == NULL)
		fault_set(why, FAULT_REGISTER,
			  "it is not written as it should be");
	return fault_at(why, "reason");
}

bool
entry_read(const struct store_row *row, struct visit *visit,
	   struct entry *entry, struct fault *why)
{
	const char *number = store_text(row, 0);
	bool done;

	text_copy(entry->number, sizeof entry->number,
		  number == NULL ? "" : number);
	done = read_reason(row, entry, why);
	for (size_t i = 0; done && i < visit_fields.count; i++)
		done = read_column(row, (int)i + 2, &visit_fields.field[i],
				   visit, why);
	if (done)
		return true;
	fault_at(why, "entry %s", entry->number);
	return store_misread(why);
}

void
entry_write_select(char *sql, size_t size, const char *where)
{
	char columns[ENTRY_SQL_SIZE / 2];

	write_columns(columns, sizeof columns);
	snprintf(sql, size,
		 "SELECT entry, reason, %s FROM visit WHERE %s LIMIT 1",
		 columns, where);
}

/* --- writing -------------------------------------------------------------- */

void
entry_fold_name(const struct visit *visit, char *folded)
{
	if (!text_fold(visit->name, folded, ENTRY_FOLDED_SIZE))
		folded[0] = '\0';
}

/* The texts of a record, and where each begins. */
struct texts {
	const char *value[VALUES_MOST];
	int count;
	size_t used;
	char bytes[TEXTS_SIZE];
};

/* Each text is read again: what could not be read back is never kept. */
static bool
add_field(struct texts *texts, const struct field *field,
	  const struct visit *visit, struct visit *again, struct fault *why)
{
	char *text = texts->bytes + texts->used;

	if (texts->count == VALUES_MOST ||
	    sizeof texts->bytes - texts->used < FIELD_TEXT_SIZE)
		return fault_set(why, FAULT_INTERNAL,
				 "the record is too long to be kept");
	field_write(field, visit, text, FIELD_TEXT_SIZE);
	texts->value[texts->count++] = text;
	texts->used += strlen(text) + 1;
	return field_read(field, text, again, why);
}

static void
write_insert(char *sql, size_t size, int count)
{
	char columns[ENTRY_SQL_SIZE / 2], marks[4 * VALUES_MOST] = "?";
	size_t length = 1;

	write_columns(columns, sizeof columns);
	for (int i = 1; i < count; i++) {
		memcpy(marks + length, ", ?", 4);
		length += 3;
	}
	snprintf(sql, size,
		 "INSERT INTO visit(revises, reason, folded_name, %s) "
		 "VALUES (%s)",
		 columns, marks);
}

bool
entry_insert(struct store *store, const struct visit *visit,
	     const char *revises, const char *reason, struct fault *why)
{
	char sql[ENTRY_SQL_SIZE], folded[ENTRY_FOLDED_SIZE];
	struct texts texts = {{revises, reason, folded}, BEFORE_FIELDS, 0, ""};
	struct visit again;

	entry_fold_name(visit, folded);
	for (size_t i = 0; i < visit_fields.count; i++)
		if (!add_field(&texts, &visit_fields.field[i], visit, &again,
			       why))
			return false;
	write_insert(sql, sizeof sql, texts.count);
	return store_put(store, sql, texts.value, texts.count, why);
}
