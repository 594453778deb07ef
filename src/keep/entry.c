/* entry.c: one row of the register about a person or a reply. */
#include "keep/entry.h"

#include "base/text.h"
#include "clinic/reply.h"
#include "keep/rowmark.h"

#include <stdio.h>
#include <string.h>

enum {
	/* All texts of one record, and one more of the longest kind. */
	TEXTS_SIZE = sizeof(struct visit) + 1024 + FIELD_TEXT_SIZE,
	VALUES_MOST = ROWMARK_VALUES_MOST
};

/* The first columns; the record's fields follow, behind the key if any. */
enum { ENTRY, REVISES, REASON, NEXT };

/* clang-format off */
const struct entry_table entry_visits = {
	"visit", &visit_fields, "folded_name", "entry",
	"is not in this register"};
const struct entry_table entry_replies = {
	"reply", &reply_fields, "", "reply", "has no reply yet"};
/* clang-format on */

static const char no_text[] = "it is not written as it should be, or there is "
			      "not enough memory to read it";

/* All but the mark. */
static void
write_columns(const struct entry_table *table, char *text, size_t size)
{
	size_t length =
		(size_t)snprintf(text, size, "entry, revises, reason%s%s",
				 table->key[0] == '\0' ? "" : ", ", table->key);

	for (size_t i = 0; i < table->fields->count && length < size; i++)
		length += (size_t)snprintf(text + length, size - length, ", %s",
					   table->fields->field[i].name);
}

static int
fields_at(const struct entry_table *table)
{
	return table->key[0] == '\0' ? NEXT : NEXT + 1;
}

/* --- reading -------------------------------------------------------------- */

/* Another spelling of the same value would break order and uniqueness. */
static bool
read_column(const struct store_row *row, int column, const struct field *field,
	    void *record, struct fault *why)
{
	const char *text = store_text(row, column);
	char written[FIELD_TEXT_SIZE];

	if (text != NULL && !field_read(field, text, record, why))
		return false;
	if (text != NULL) {
		field_write(field, record, written, sizeof written);
		if (strcmp(text, written) == 0)
			return true;
	}
	fault_set(why, FAULT_REGISTER, "%s",
		  text == NULL ? no_text : "it is not written as it should be");
	return fault_at(why, "%s", field->name);
}

static bool
read_reason(const struct store_row *row, struct entry *entry, struct fault *why)
{
	const char *text = store_text(row, REASON);

	if (text != NULL && text_check(text, ENTRY_REASON_MOST, why) &&
	    text_copy(entry->reason, sizeof entry->reason, text))
		return true;
	if (text == NULL)
		fault_set(why, FAULT_REGISTER, "%s", no_text);
	return fault_at(why, "reason");
}

bool
entry_read(const struct store_row *row, const struct entry_table *table,
	   void *record, struct entry *entry, struct fault *why)
{
	const char *number = store_text(row, ENTRY);
	int count = (int)table->fields->count, first = fields_at(table);
	bool done;

	text_copy(entry->number, sizeof entry->number,
		  number == NULL ? "" : number);
	done = read_reason(row, entry, why);
	for (int i = 0; done && i < count; i++)
		done = read_column(row, first + i, &table->fields->field[i],
				   record, why);
	if (done && rowmark_check(row, first + count, why))
		return true;
	fault_at(why, "%s %s", table->word, entry->number);
	return store_misread(why);
}

void
entry_write_select(const struct entry_table *table, int form, const char *where,
		   char *sql, size_t size)
{
	char columns[ENTRY_SQL_SIZE / 2];

	write_columns(table, columns, sizeof columns);
	snprintf(sql, size, "SELECT %s, %s FROM %s WHERE %s LIMIT 1", columns,
		 rowmark_column(form), table->name, where);
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

union record {
	struct visit visit;
	struct reply reply;
};

/* Each text is read again: what could not be read back is never kept. */
static bool
add_field(struct texts *texts, const struct field *field, const void *record,
	  union record *again, struct fault *why)
{
	char *text = texts->bytes + texts->used;

	if (texts->count == VALUES_MOST ||
	    sizeof texts->bytes - texts->used < FIELD_TEXT_SIZE)
		return fault_set(why, FAULT_INTERNAL,
				 "the record is too long to be kept");
	field_write(field, record, text, FIELD_TEXT_SIZE);
	texts->value[texts->count++] = text;
	texts->used += strlen(text) + 1;
	return field_read(field, text, again, why);
}

/* The number that SQLite would give it, which is a part of its mark. */
static bool
next_entry(struct store *store, const struct entry_table *table, char *entry,
	   struct fault *why)
{
	char sql[80];

	snprintf(sql, sizeof sql, "SELECT ifnull(max(entry), 0) + 1 FROM %s",
		 table->name);
	return store_ask_text(store, sql, NULL, 0, entry, STORE_NUMBER_SIZE,
			      why);
}

bool
entry_insert(struct store *store, const struct entry_table *table,
	     const void *record, const struct entry_place *place,
	     const char *key, struct fault *why)
{
	char entry[STORE_NUMBER_SIZE];
	struct texts texts = {{entry, place->revises, place->reason, key},
			      fields_at(table),
			      0,
			      ""};
	union record again;

	if (!next_entry(store, table, entry, why))
		return false;
	for (size_t i = 0; i < table->fields->count; i++)
		if (!add_field(&texts, &table->fields->field[i], record, &again,
			       why))
			return false;
	return rowmark_add(store, table->name, texts.value, texts.count, why);
}

/* --- the last one of a number ----------------------------------------------
 */

bool
entry_find_last(struct store *store, const struct entry_table *table,
		struct refnum number, char *entry, struct fault *why)
{
	char written[REFNUM_SIZE], sql[120];
	const char *values[] = {written};

	refnum_write(number, written);
	snprintf(sql, sizeof sql,
		 "SELECT entry FROM %s WHERE number = ?1 "
		 "ORDER BY entry DESC LIMIT 1",
		 table->name);
	return store_ask_text(store, sql, values, 1, entry, STORE_NUMBER_SIZE,
			      why);
}

bool
entry_check_revision(struct store *store, const struct entry_table *table,
		     struct refnum number, int state,
		     const struct entry_place *place, struct fault *why)
{
	char written[REFNUM_SIZE], last[STORE_NUMBER_SIZE];

	if (state != STATE_CORRECTED && state != STATE_VOID)
		return fault_set(why, FAULT_INTERNAL,
				 "a later entry is a correction or void");
	if (place->reason[0] == '\0')
		return fault_set(why, FAULT_INPUT,
				 "the reason is empty; say why in a few words");
	if (!text_check(place->reason, ENTRY_REASON_MOST, why))
		return fault_at(why, "reason");
	refnum_write(number, written);
	if (!entry_find_last(store, table, number, last, why))
		return false;
	if (last[0] == '\0')
		return fault_set(why, FAULT_INPUT, "'%s' %s", written,
				 table->absent);
	if (strcmp(last, place->revises) != 0)
		return fault_set(why, FAULT_INPUT,
				 "'%s' was changed by somebody else meanwhile; "
				 "look at it again",
				 written);
	return true;
}

/* A refusal of what was asked for needs no paper. */
bool
entry_not_saved(bool own, const char *what, struct fault *why)
{
	char sentence[FAULT_SENTENCE_SIZE];

	text_copy(sentence, sizeof sentence, why->sentence);
	if (!own || why->kind == FAULT_INPUT)
		return fault_at(why, "NOT saved");
	return fault_set(why, why->kind, "NOT saved: %.480s; write %s on paper",
			 sentence, what);
}
