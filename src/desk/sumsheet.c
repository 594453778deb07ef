/* sumsheet.c: the sums of collated tallies as CSV. */
#include "desk/sumsheet.h"

#include "base/number.h"
#include "base/text.h"
#include "counts/hide.h"
#include "keep/csv.h"

#include <string.h>

struct sheet {
	FILE *out;
	long under;
};

bool
sumsheet_read_limit(const char *text, long *under, struct fault *why)
{
	*under = 0;
	if (text == NULL)
		return true;
	if (number_read(text, HIDE_LEAST, HIDE_MOST, "people", under, why))
		return true;
	why->kind = FAULT_USAGE;
	return fault_at(why, "--public");
}

void
sumsheet_write_titles(const struct grouping *grouping, FILE *out)
{
	for (size_t i = 0; i < grouping_titles(grouping); i++)
		csv_write_value(out, grouping_title(grouping, i), i == 0);
}

static void
write_header(const struct grouping *grouping, FILE *out)
{
	sumsheet_write_titles(grouping, out);
	for (size_t i = 0; i < tally_count_fields.count; i++)
		csv_write_value(out, tally_count_fields.field[i].name, false);
	csv_end_row(out);
}

/* Without the letter it was sorted by. */
static void
write_value(const char *value, bool first, FILE *out)
{
	const char *order = strchr(value, GROUPING_ORDER);

	csv_write_value(out, order == NULL ? value : order + 1, first);
}

bool
sumsheet_write_key(const char *key, FILE *out, struct fault *why)
{
	char text[GROUPING_KEY_SIZE], *value = text, *end;

	if (!text_copy(text, sizeof text, key))
		return fault_set(why, FAULT_INTERNAL,
				 "the name of a group is too long");
	while ((end = strchr(value, GROUPING_JOINT)) != NULL) {
		*end = '\0';
		write_value(value, value == text, out);
		value = end + 1;
	}
	write_value(value, value == text, out);
	return true;
}

/* With the comma before it; a sheet may have half a million of them. */
static void
write_count(long long count, FILE *out)
{
	unsigned long long left = (unsigned long long)count;
	char text[24], *end = text + sizeof text, *at = end;

	if (count < 0)
		left = 0 - left;
	do
		*--at = (char)('0' + left % 10);
	while ((left /= 10) > 0);
	if (count < 0)
		*--at = '-';
	*--at = ',';
	fwrite(at, 1, (size_t)(end - at), out);
}

static bool
write_group(void *context, const char *key, const struct sums *sums,
	    struct fault *why)
{
	const struct sheet *sheet = context;
	struct hidden hidden;

	if (!sumsheet_write_key(key, sheet->out, why))
		return false;
	hide_nothing(&hidden);
	if (sheet->under > 0)
		hide_row(sums, sheet->under, &hidden);
	for (int i = 0; i < GROUPS_COUNTS; i++)
		if (hide_is_shown(&hidden, i))
			write_count(sums->count[i], sheet->out);
		else
			fprintf(sheet->out, ",%s", hide_word);
	csv_end_row(sheet->out);
	return true;
}

bool
sumsheet_write(struct groups *groups, const struct grouping *grouping,
	       long under, FILE *out, struct fault *why)
{
	struct sheet sheet = {out, under};

	write_header(grouping, out);
	return groups_visit(groups, write_group, &sheet, why);
}
