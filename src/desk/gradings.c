/* gradings.c: eyes graded twice, as typed for 'agree'. */
#include "desk/gradings.h"

#include "base/day.h"
#include "base/field.h"
#include "counts/groups.h"
#include "keep/csv.h"

#include <string.h>

struct grading {
	char name[GRADINGS_NAME_SIZE]; /* of the case */
	enum depth grader, reference;
	char grader_name[GRADINGS_NAME_SIZE];
	struct day date;
};

#define COLUMN(name, member, kind, most, need)                        \
	{                                                             \
		name, kind, FIELD_AT(grading, member), 0, most, need, \
			FIELD_TYPED, NULL, NULL                       \
	}

static const struct field columns[] = {
	COLUMN("case", name, &field_text, 40, FIELD_NEEDED),
	COLUMN("grader", grader, &field_depth, 0, FIELD_NEEDED),
	COLUMN("reference", reference, &field_depth, 0, FIELD_NEEDED),
	COLUMN("grader_name", grader_name, &field_text, 40, FIELD_OPTIONAL),
	COLUMN("date", date, &field_day, 0, FIELD_OPTIONAL),
};

static const struct fields fields = {columns,
				     sizeof columns / sizeof columns[0]};

struct reading {
	struct desk *desk;
	struct gradings *gradings;
	const struct field *column[CSV_COLUMNS_MOST];
	bool has_names, has_dates;
	struct groups met; /* case, grader and day; the sum is the row */
};

static const char not_given[] = "not given";

static bool
read_header(struct reading *reading, const struct csv_row *row,
	    struct fault *why)
{
	unsigned seen = 0;
	enum { NEEDED = 7, NAME = 8, DATE = 16 };

	for (size_t i = 0; i < row->count; i++) {
		const struct field *field = fields_find(fields, row->value[i]);

		if (field == NULL)
			return fault_set(why, FAULT_INPUT,
					 "line %ld: '%.40s' is not a column "
					 "here; allowed are case, grader, "
					 "reference, grader_name, date",
					 row->line, row->value[i]);
		seen |= 1U << (field - columns);
		reading->column[i] = field;
	}
	reading->has_names = (seen & NAME) != 0;
	reading->has_dates = (seen & DATE) != 0;
	if ((seen & NEEDED) != NEEDED)
		return fault_set(why, FAULT_INPUT,
				 "line %ld: the columns case, grader and "
				 "reference are all needed",
				 row->line);
	return true;
}

/* The group of that name, made in its place when there is none. */
static struct gradings_group *
find_group(struct gradings_groups *groups, const char *name)
{
	int at = 0, order = 1;

	while (at < groups->count &&
	       (order = strcmp(name, groups->group[at].name)) > 0)
		at++;
	if (at < groups->count && order == 0)
		return &groups->group[at];
	if (groups->count == GRADINGS_GROUPS_MOST)
		return NULL;
	memmove(&groups->group[at + 1], &groups->group[at],
		(size_t)(groups->count - at) * sizeof groups->group[0]);
	groups->count++;
	agreement_init(&groups->group[at].table, DEPTH_GRADES);
	snprintf(groups->group[at].name, GRADINGS_NAME_SIZE, "%s", name);
	return &groups->group[at];
}

static bool
count_in(struct gradings_groups *groups, const char *name, const char *what,
	 const struct grading *grading, struct fault *why)
{
	struct gradings_group *group =
		find_group(groups, name[0] == '\0' ? not_given : name);

	if (group == NULL)
		return fault_set(why, FAULT_INPUT,
				 "there are more than %d %s in the file; "
				 "allowed are so many at most",
				 GRADINGS_GROUPS_MOST, what);
	group->table.count[grading->grader][grading->reference]++;
	return true;
}

/* The month or the week of a day. */
static void
write_period(struct day date, bool by_week, char *text)
{
	text[0] = '\0';
	if (day_is_none(date))
		return;
	if (by_week) {
		day_write_week(date, text);
		return;
	}
	day_write(date, text);
	text[strlen("YYYY-MM")] = '\0';
}

static void
note_crossing(struct gradings *gradings, const struct grading *grading)
{
	struct gradings_crossed *crossed;

	if (depth_is_at_or_below(grading->grader, gradings->cutoff) ==
	    depth_is_at_or_below(grading->reference, gradings->cutoff))
		return;
	if (gradings->crossings++ >= GRADINGS_CROSSED_MOST)
		return;
	crossed = &gradings->crossed[gradings->crossings - 1];
	memcpy(crossed->name, grading->name, sizeof crossed->name);
	memcpy(crossed->grader_name, grading->grader_name,
	       sizeof crossed->grader_name);
	crossed->grader = grading->grader;
	crossed->reference = grading->reference;
}

static bool
count(const struct reading *reading, const struct grading *grading,
      struct fault *why)
{
	struct gradings *gradings = reading->gradings;
	char period[DAY_SIZE];

	gradings->all.count[grading->grader][grading->reference]++;
	note_crossing(gradings, grading);
	if (reading->has_names &&
	    !count_in(&gradings->graders, grading->grader_name, "graders",
		      grading, why))
		return false;
	write_period(grading->date, gradings->by_week, period);
	return !reading->has_dates ||
	       count_in(&gradings->periods, period,
			gradings->by_week ? "weeks" : "months", grading, why);
}

/* False for an eye that has its place in the table. */
static bool
is_apart(const struct grading *grading, enum gradings_apart *apart)
{
	bool grader = depth_is_graded(grading->grader);
	bool reference = depth_is_graded(grading->reference);

	*apart = grader ? GRADINGS_REFERENCE_X : GRADINGS_GRADER_X;
	if (grading->grader == DEPTH_NO_EYE ||
	    grading->reference == DEPTH_NO_EYE)
		*apart = GRADINGS_NO_EYE;
	else if (!grader && !reference)
		*apart = GRADINGS_BOTH_X;
	return !grader || !reference;
}

static bool
read_row(const struct reading *reading, const struct csv_row *row,
	 struct grading *grading, struct fault *why)
{
	fields_blank(fields, grading);
	if (!csv_check_count(row, why))
		return false;
	for (size_t i = 0; i < row->count; i++)
		if (!field_read(reading->column[i], row->value[i], grading,
				why))
			return false;
	return true;
}

/* Rows pasted twice would make every interval narrower than it is. `*again`:
 * the eye stands in an earlier row, which `one` names. */
static bool
meet(struct reading *reading, const struct grading *grading, long row,
     bool *again, struct fault *one, struct fault *why)
{
	struct tally_counts number = {.screened = (int)row};
	char key[2 * GRADINGS_NAME_SIZE + DAY_SIZE], date[DAY_SIZE];
	const struct sums *first;

	day_write(grading->date, date);
	snprintf(key, sizeof key, "%s\n%s\n%s", grading->name,
		 grading->grader_name, date);
	first = groups_find(&reading->met, key);
	*again = first != NULL;
	if (first == NULL)
		return groups_add(&reading->met, key, &number, 1, why);
	fault_set(one, FAULT_INPUT,
		  "case '%s' stands in row %lld already; it counts once per "
		  "grader and day, and the columns grader_name and date keep "
		  "graders and days apart",
		  grading->name, first->count[0]);
	return true;
}

static bool
place(struct reading *reading, const struct grading *grading, struct fault *why)
{
	enum gradings_apart apart;

	if (!is_apart(grading, &apart))
		return count(reading, grading, why);
	reading->gradings->apart[apart]++;
	return true;
}

static bool
see_row(void *context, const struct csv_row *row, struct fault *why)
{
	struct reading *reading = context;
	struct gradings *gradings = reading->gradings;
	struct grading grading;
	struct fault one;
	bool is_bad;

	if (row->row == 0)
		return read_header(reading, row, why);
	if (++gradings->rows > GRADINGS_ROWS_MOST)
		return fault_set(why, FAULT_INPUT,
				 "there are more than %d rows; allowed are so "
				 "many at most",
				 GRADINGS_ROWS_MOST);
	is_bad = !read_row(reading, row, &grading, &one);
	if (!is_bad && !meet(reading, &grading, row->row, &is_bad, &one, why))
		return false;
	if (!is_bad)
		return place(reading, &grading, why);
	gradings->bad++;
	fault_at(&one, "row %ld (line %ld)", row->row, row->line);
	desk_hear(reading->desk, &one);
	return true;
}

static bool
holds_any(const struct gradings *gradings, struct fault *why)
{
	if (gradings->rows == 0)
		return fault_set(why, FAULT_INPUT,
				 "there is no row below the header, so there "
				 "is nothing to compare");
	if (gradings->rows == gradings->bad)
		return fault_set(why, FAULT_INPUT,
				 "every row was refused (%ld), so there is "
				 "nothing to compare",
				 gradings->rows);
	return true;
}

bool
gradings_read(struct desk *desk, const char *path, struct gradings *gradings,
	      struct fault *why)
{
	struct reading reading = {.desk = desk, .gradings = gradings};
	bool from_stdin = strcmp(path, "-") == 0;
	FILE *in = from_stdin ? desk->in : fopen(path, "re");
	bool done;

	if (in == NULL)
		return fault_set(why, FAULT_INPUT,
				 "'%.200s' cannot be opened for reading", path);
	agreement_init(&gradings->all, DEPTH_GRADES);
	groups_init(&reading.met);
	done = csv_read(in, see_row, &reading, why) && holds_any(gradings, why);
	groups_release(&reading.met);
	if (!from_stdin)
		fclose(in);
	return done;
}
