/* stationrow.c: what the register knows about its station, by name. */
#include "keep/stationrow.h"

#include "base/text.h"
#include "keep/rowmark.h"
#include "keep/schema.h"

#include <stdio.h>

enum { NAME, VALUE, VALUES };

bool
stationrow_ask(struct store *store, int form, const char *rest, char *value,
	       size_t size, struct fault *why)
{
	struct store_row row;
	const char *text;
	char sql[240];
	bool done;

	snprintf(sql, sizeof sql,
		 "SELECT name, value, %s FROM station WHERE %s",
		 rowmark_column(form), rest);
	if (!store_ask(store, sql, NULL, 0, &row, why))
		return false;
	text = row.found ? store_text(&row, VALUE) : "";
	done = !row.found || rowmark_check(&row, VALUES, why);
	if (done && (text == NULL || !text_copy(value, size, text)))
		done = store_found_damaged(store, why);
	store_end(&row);
	return done;
}

bool
stationrow_add(struct store *store, const char *name, const char *value,
	       struct fault *why)
{
	const char *values[] = {name, value};

	return rowmark_add(store, "station", values, VALUES, why);
}

bool
stationrow_add_next(struct store *store, const char *name, const char *value,
		    struct fault *why)
{
	const char *values[] = {name};
	char next[80];

	return store_ask_text(store,
			      "SELECT ?1 || '_' || (count(*) + 1) FROM station "
			      "WHERE name GLOB ?1 || '_*'",
			      values, 1, next, sizeof next, why) &&
	       stationrow_add(store, next, value, why);
}

bool
stationrow_change(struct store *store, const char *name, const char *value,
		  struct fault *why)
{
	char mark[ROWMARK_SIZE];
	const char *values[] = {name, value, mark};
	struct schema_lifted lifted;

	rowmark_write(values, VALUES, mark);
	return schema_lift(store, "station", &lifted, why) &&
	       store_put(store,
			 "UPDATE station SET value = ?2, " ROWMARK_COLUMN
			 " = ?3 WHERE name = ?1",
			 values, VALUES + 1, why) &&
	       schema_put_back(store, &lifted, why);
}
