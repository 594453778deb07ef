/* schema.c: the tables of the register, in each form that there was. */
#include "keep/schema.h"

#include "clinic/reply.h"
#include "clinic/visit.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* The letters "shol". */
const struct storefile_form schema_form = {0x73686f6c, SCHEMA_VERSION};

#define REFUSE "SELECT raise(ABORT, 'rows are only added');"

/* A number has one first entry, and no entry is revised twice: so each number
 * has one last entry. */
#define TAKEN_ENTRY                                                           \
	"entry = new.entry OR revises = new.revises OR (number = new.number " \
	"AND ifnull(revises, 0) = ifnull(new.revises, 0))"

#define RECORD_COLUMNS(table)                                          \
	"entry INTEGER PRIMARY KEY, revises INTEGER REFERENCES " table \
	"(entry), reason TEXT"
#define RECORD_REST                                      \
	", CHECK (number NOT NULL AND state NOT NULL), " \
	"CHECK ((revises IS NULL) = (reason IS NULL))"

/* By name. A table has the text of its columns or, before `fields`, of what
 * stands in front of those of a record; `rest` is what follows the columns. A
 * marked one has a mark at the end of each row from form 3 on. */
static const struct table {
	const char *name;
	int since; /* the first form that has it */
	bool marked;
	const struct fields *fields;
	const char *columns, *rest;
	const char *taken; /* for add_triggers */
} tables[] = {
	{"policy_text", 1, false, NULL,
	 "id INTEGER PRIMARY KEY, fingerprint TEXT NOT NULL, "
	 "text TEXT NOT NULL",
	 "", "id = new.id"},
	{"reply", 2, true, &reply_fields, RECORD_COLUMNS("reply"), RECORD_REST,
	 TAKEN_ENTRY},
	{"station", 1, true, NULL, "name TEXT PRIMARY KEY, value TEXT NOT NULL",
	 "", "name = new.name"},
	{"tally_written", 1, true, NULL,
	 "day TEXT NOT NULL, revision INTEGER NOT NULL, "
	 "closed INTEGER NOT NULL, mark TEXT NOT NULL",
	 ", PRIMARY KEY(day, revision)",
	 "day = new.day AND revision = new.revision"},
	{"visit", 1, true, &visit_fields,
	 RECORD_COLUMNS("visit") ", folded_name TEXT", RECORD_REST,
	 TAKEN_ENTRY},
};

/* By name. Only what holds something is in an index: most saves then touch
 * fewer pages. */
static const struct index {
	const char *name;
	int since;
	const char *rest;
} indexes[] = {
	{"UNIQUE INDEX reply_number", 2, "reply(number, ifnull(revises, 0))"},
	{"UNIQUE INDEX reply_revises", 2,
	 "reply(revises) WHERE revises IS NOT NULL"},
	{"INDEX visit_day", 1, "visit(screened_on, number)"},
	{"INDEX visit_name", 1,
	 "visit(folded_name) WHERE folded_name IS NOT NULL"},
	{"UNIQUE INDEX visit_number", 1, "visit(number, ifnull(revises, 0))"},
	{"UNIQUE INDEX visit_revises", 1,
	 "visit(revises) WHERE revises IS NOT NULL"},
};

__attribute__((format(printf, 2, 3))) static void
add(struct schema *schema, const char *format, ...)
{
	size_t left = sizeof schema->text - schema->length;
	va_list arguments;
	int needed;

	va_start(arguments, format);
	needed = vsnprintf(schema->text + schema->length, left, format,
			   arguments);
	va_end(arguments);
	if (needed > 0)
		schema->length += (size_t)needed < left ? (size_t)needed
							: left - 1;
}

static void
add_table(struct schema *schema, const struct table *table, int form)
{
	size_t count = table->fields == NULL ? 0 : table->fields->count;

	add(schema, "CREATE TABLE %s(%s", table->name, table->columns);
	for (size_t i = 0; i < count; i++) {
		const struct field *field = &table->fields->field[i];

		add(schema, ", %s %s%s", field->name, field->kind->sql_type,
		    field->need == FIELD_NEEDED ? " NOT NULL" : "");
	}
	if (table->marked && form >= SCHEMA_MARKED)
		add(schema, ", row_mark TEXT");
	add(schema, "%s) STRICT;\n", table->rest);
}

/* SQLite puts the column behind the others, in front of the rest, and so makes
 * of the text of an older form that of a new one. */
static void
add_marks(struct schema *schema, const struct table *table)
{
	add(schema, "ALTER TABLE %s ADD COLUMN row_mark TEXT;\n", table->name);
}

/* Rows are only added: not even INSERT OR REPLACE, which deletes without
 * asking the trigger for that, takes the place of a row. */
static void
add_triggers(struct schema *schema, const struct table *table)
{
	const char *name = table->name;

	add(schema,
	    "CREATE TRIGGER %s_no_delete BEFORE DELETE ON %s "
	    "BEGIN " REFUSE " END;\n",
	    name, name);
	add(schema,
	    "CREATE TRIGGER %s_no_replace BEFORE INSERT ON %s WHEN "
	    "EXISTS (SELECT 1 FROM %s WHERE %s) "
	    "BEGIN " REFUSE " END;\n",
	    name, name, name, table->taken);
	add(schema,
	    "CREATE TRIGGER %s_no_update BEFORE UPDATE ON %s "
	    "BEGIN " REFUSE " END;\n",
	    name, name);
}

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* Single spaces up to the name, as SQLite keeps them. */
void
schema_make(struct schema *schema, int from, int to)
{
	schema->length = 0;
	schema->text[0] = '\0';
	for (size_t i = 0; i < COUNT(tables); i++)
		if (tables[i].since > from && tables[i].since <= to)
			add_table(schema, &tables[i], to);
		else if (tables[i].since <= from && tables[i].marked &&
			 from < SCHEMA_MARKED && to >= SCHEMA_MARKED)
			add_marks(schema, &tables[i]);
	for (size_t i = 0; i < COUNT(indexes); i++)
		if (indexes[i].since > from && indexes[i].since <= to)
			add(schema, "CREATE %s ON %s;\n", indexes[i].name,
			    indexes[i].rest);
	for (size_t i = 0; i < COUNT(tables); i++)
		if (tables[i].since > from && tables[i].since <= to)
			add_triggers(schema, &tables[i]);
}

/* In the order of schema_make, not in that of the file: an upgrade adds at the
 * end, and VACUUM sorts anew. */
bool
schema_check(struct store *store, int version, struct fault *why)
{
	struct schema schema;
	char found[SCHEMA_SIZE];

	schema_make(&schema, 0, version);
	if (!store_ask_text(store,
			    "SELECT group_concat(sql || ';' || char(10), '') "
			    "FROM (SELECT sql FROM sqlite_schema WHERE sql NOT "
			    "NULL AND name NOT LIKE 'sqlite~_%' ESCAPE '~' "
			    "ORDER BY instr('table index trigger', type), "
			    "name)",
			    NULL, 0, found, sizeof found, why))
		return false;
	if (strcmp(schema.text, found) == 0)
		return true;
	return fault_set(why, FAULT_REGISTER,
			 "'%.*s' holds other tables than this program keeps "
			 "in it, and stays as it is",
			 STOREFILE_SHOWN, store->path);
}

/* --- changes that the program itself makes --------------------------------
 */

bool
schema_lift(struct store *store, const char *table,
	    struct schema_lifted *lifted, struct fault *why)
{
	const char *values[] = {table};
	char drop[120];

	snprintf(drop, sizeof drop, "DROP TRIGGER %s_no_update", table);
	return store_ask_text(store,
			      "SELECT sql FROM sqlite_schema WHERE type = "
			      "'trigger' AND name = ?1 || '_no_update'",
			      values, 1, lifted->trigger,
			      sizeof lifted->trigger, why) &&
	       store_run(store, drop, why);
}

bool
schema_put_back(struct store *store, const struct schema_lifted *lifted,
		struct fault *why)
{
	return store_run(store, lifted->trigger, why);
}
