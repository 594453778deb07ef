/* yieldcsv.c: a yield as CSV, for a spreadsheet. */
#include "desk/yieldcsv.h"

#include "keep/csv.h"

enum { NAME_SIZE = 60 };

static const char *const findings[YIELD_FINDINGS] = {
	"narrow",	    "suspect", "closure",
	"closure_glaucoma", "open",    "not_derivable"};

static void
write_names(const char *what, const char *const *ends, int count, FILE *out)
{
	char name[NAME_SIZE];

	for (int i = 0; i < count; i++) {
		snprintf(name, sizeof name, "%s_%s", what, ends[i]);
		csv_write_value(out, name, false);
	}
}

void
yieldcsv_write_titles(bool times, FILE *out)
{
	static const char *const ends[] = {"percent", "low", "high",
					   "at_least_percent",
					   "at_most_percent"};
	static const char *const days[] = {"days", "low", "high"};

	for (size_t i = 0; i < yield_count_fields.count; i++)
		csv_write_value(out, yield_count_fields.field[i].name, false);
	write_names("uptake", ends, 5, out);
	if (times) {
		write_names("by_day_30", ends, 3, out);
		write_names("median", days, 3, out);
	}
	for (int i = 0; i < YIELD_FINDINGS; i++)
		write_names(findings[i], ends, 5, out);
}

static void
write_percent(bool has, double fraction, FILE *out)
{
	char value[NAME_SIZE] = "";

	if (has)
		snprintf(value, sizeof value, "%.2f", 100 * fraction);
	csv_write_value(out, value, false);
}

void
yieldcsv_write_share(const struct yield_share *share, FILE *out)
{
	write_percent(share->has, share->value, out);
	write_percent(share->has_interval, share->low, out);
	write_percent(share->has_interval, share->high, out);
}

static void
write_bounds(const struct yield_share *bounds, FILE *out)
{
	write_percent(bounds->has, bounds->low, out);
	write_percent(bounds->has, bounds->high, out);
}

static void
write_day(bool has, int day, FILE *out)
{
	char value[NAME_SIZE] = "";

	if (has && day != ATTENDANCE_NOT_REACHED)
		snprintf(value, sizeof value, "%d", day);
	csv_write_value(out, value, false);
}

void
yieldcsv_write_figures(const struct yield_cell *cell, bool times, FILE *out)
{
	char value[FIELD_TEXT_SIZE];
	struct yield_figures figures;

	yield_figure(cell, &figures);
	for (size_t i = 0; i < yield_count_fields.count; i++) {
		field_write(&yield_count_fields.field[i], &cell->counts, value,
			    sizeof value);
		csv_write_value(out, value, false);
	}
	yieldcsv_write_share(&figures.uptake, out);
	write_bounds(&figures.uptake_bounds, out);
	if (times) {
		yieldcsv_write_share(&figures.by_day, out);
		write_day(figures.has_median, figures.median.day, out);
		write_day(figures.has_median, figures.median.low, out);
		write_day(figures.has_median, figures.median.high, out);
	}
	for (int i = 0; i < YIELD_FINDINGS; i++) {
		const struct yield_found *found = &figures.found[i];

		yieldcsv_write_share(&found->share, out);
		write_bounds(&found->bounds, out);
	}
}

static void
write_cell(const struct yield_cell *cell, FILE *out)
{
	csv_write_value(out, yield_per_word(cell->per), true);
	csv_write_value(out, cell->label, false);
	yieldcsv_write_figures(cell, true, out);
	csv_end_row(out);
}

void
yieldcsv_write(const struct yield *yield, enum yield_per per, FILE *out)
{
	csv_write_value(out, "per", true);
	csv_write_value(out, "group", false);
	yieldcsv_write_titles(true, out);
	csv_end_row(out);
	for (int i = 0; i < yield->count; i++) {
		enum yield_per its = yield->cell[i].per;

		if (its == YIELD_ALL || per == YIELD_ALL || its == per)
			write_cell(&yield->cell[i], out);
	}
}
