/* people.c: people given as CSV, to be judged and not kept. */
#include "desk/people.h"

#include "base/text.h"
#include "keep/csv.h"

#include <string.h>

const struct people_item people_items[PEOPLE_ITEMS] = {
	{"age", "age_years"},
	{"sex", "sex"},
	{"right", "depth_right"},
	{"left", "depth_left"},
	{"pressure-right", "pressure_right"},
	{"pressure-left", "pressure_left"},
	{"findings", "findings"},
};

enum { ID_MOST = 80 };

struct batch {
	struct desk *desk;
	people_see *see;
	void *context;
	const struct field *column[CSV_COLUMNS_MOST]; /* NULL: the id */
	long rows, bad;
};

static bool
show(struct batch *batch, long number, const char *id,
     const struct visit *person, const char *refused, struct fault *why)
{
	struct people_row row = {number, id, person, refused};

	return batch->see(batch->context, &row, why);
}

static bool
read_header(struct batch *batch, const struct csv_row *row, struct fault *why)
{
	bool right = false, left = false;

	for (size_t i = 0; i < row->count; i++) {
		const char *name = row->value[i];
		int item = 0;

		while (item < PEOPLE_ITEMS &&
		       strcmp(people_items[item].field, name) != 0)
			item++;
		if (item == PEOPLE_ITEMS && strcmp(name, "id") != 0)
			return fault_set(why, FAULT_INPUT,
					 "line %ld: '%.40s' is not a column "
					 "here; allowed are id, age_years, "
					 "sex, depth_right, depth_left, "
					 "pressure_right, pressure_left, "
					 "findings",
					 row->line, name);
		batch->column[i] = item == PEOPLE_ITEMS
					   ? NULL
					   : fields_find(visit_fields, name);
		right = right || strcmp(name, "depth_right") == 0;
		left = left || strcmp(name, "depth_left") == 0;
	}
	if (!right || !left)
		return fault_set(why, FAULT_INPUT,
				 "line %ld: the columns depth_right and "
				 "depth_left are both needed",
				 row->line);
	return true;
}

/* The row's id as it may be printed, whether or not the rest is sound. */
static bool
read_id(const struct batch *batch, const struct csv_row *row, const char **id,
	struct fault *why)
{
	*id = "";
	for (size_t i = 0; i < row->count && i < row->columns; i++)
		if (batch->column[i] == NULL) {
			if (!text_check(row->value[i], ID_MOST, why))
				return fault_at(why, "id");
			*id = row->value[i];
		}
	return csv_check_count(row, why);
}

static bool
read_person(const struct batch *batch, const struct csv_row *row,
	    struct visit *person, struct fault *why)
{
	for (size_t i = 0; i < row->count; i++)
		if (batch->column[i] != NULL &&
		    !field_read(batch->column[i], row->value[i], person, why))
			return false;
	return visit_check(person, why);
}

static bool
see_row(void *context, const struct csv_row *row, struct fault *why)
{
	struct batch *batch = context;
	struct visit person;
	struct fault one, told;
	const char *id;

	visit_init(&person);
	if (row->row == 0)
		return read_header(batch, row, why) &&
		       show(batch, 0, "", &person, NULL, why);
	batch->rows++;
	if (read_id(batch, row, &id, &one) &&
	    read_person(batch, row, &person, &one))
		return show(batch, row->row, id, &person, NULL, why);
	batch->bad++;
	told = one;
	fault_at(&told, "row %ld (line %ld)", row->row, row->line);
	desk_hear(batch->desk, &told);
	visit_init(&person);
	return show(batch, row->row, id, &person, one.sentence, why);
}

bool
people_read(struct desk *desk, const char *path, people_see *see, void *context,
	    struct fault *why)
{
	struct batch batch = {.desk = desk, .see = see, .context = context};
	bool from_stdin = path[0] == '\0' || strcmp(path, "-") == 0;
	FILE *in = from_stdin ? desk->in : fopen(path, "re");
	bool done;

	if (in == NULL)
		return fault_set(why, FAULT_INPUT,
				 "'%.200s' cannot be opened for reading", path);
	done = csv_read(in, see_row, &batch, why);
	if (!from_stdin)
		fclose(in);
	if (!done)
		return false;
	if (batch.bad > 0)
		return fault_set(why, FAULT_INPUT,
				 "%ld of %ld rows were refused; the others are "
				 "answered",
				 batch.bad, batch.rows);
	return true;
}
