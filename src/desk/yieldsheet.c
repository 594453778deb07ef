/* yieldsheet.c: the sums of collated yields as CSV. */
#include "desk/yieldsheet.h"

#include "desk/sumsheet.h"
#include "desk/yieldcsv.h"
#include "keep/csv.h"

enum { VALUE_SIZE = 60 };

struct sheet {
	FILE *out;
	struct yieldsheet *told;
};

/* What the screening finds, as the chosen tell. */
enum { CONDITIONS = 3 };
static const enum yield_finding condition[CONDITIONS] = {
	YIELD_CLOSED, YIELD_CLOSURE, YIELD_GLAUCOMA};

static void
write_accuracy_titles(FILE *out)
{
	static const char *const names[CONDITIONS] = {
		"narrow", "closure_or_worse", "closure_glaucoma"};
	static const char *const ends[] = {"sensitivity_percent",
					   "sensitivity_low",
					   "sensitivity_high",
					   "specificity_percent",
					   "specificity_low",
					   "specificity_high",
					   "missed",
					   "examined"};
	char name[VALUE_SIZE];

	for (int i = 0; i < CONDITIONS; i++)
		for (size_t end = 0; end < sizeof ends / sizeof ends[0];
		     end++) {
			snprintf(name, sizeof name, "%s_%s", names[i],
				 ends[end]);
			csv_write_value(out, name, false);
		}
}

static void
write_accuracy(const struct yieldsum *sum, FILE *out)
{
	static const enum accuracy_measure measures[] = {ACCURACY_SENSITIVITY,
							 ACCURACY_SPECIFICITY};
	static const struct yield_share none;
	struct accuracy_sample sample;
	struct yield_share share;
	struct fault why;

	for (int i = 0; i < CONDITIONS; i++) {
		yield_sample(&sum->referred, &sum->cleared, condition[i],
			     &sample);
		for (int measure = 0; measure < 2; measure++) {
			yield_measure(&sample, measures[measure], &share, &why);
			yieldcsv_write_share(sum->one_policy ? &share : &none,
					     out);
		}
		fprintf(out, ",%lld,%lld", sample.cleared.diseased,
			sample.cleared.diseased + sample.cleared.healthy);
	}
}

static void
write_header(const struct grouping *grouping, FILE *out)
{
	char name[VALUE_SIZE];

	sumsheet_write_titles(grouping, out);
	yieldcsv_write_titles(false, out);
	csv_write_value(out, "hidden_quadrants", false);
	csv_write_value(out, "not_referred_chosen", false);
	for (size_t i = 0; i < yield_count_fields.count; i++) {
		snprintf(name, sizeof name, "not_referred_%s",
			 yield_count_fields.field[i].name);
		csv_write_value(out, name, false);
	}
	write_accuracy_titles(out);
	csv_end_row(out);
}

static void
write_quadrants(struct sheet *sheet, int quadrants)
{
	char value[VALUE_SIZE] = "";

	if (quadrants == YIELDSUMS_MIXED) {
		sheet->told->mixed = true;
		snprintf(value, sizeof value, "mixed");
	} else if (quadrants != FIELD_BLANK) {
		snprintf(value, sizeof value, "%d", quadrants);
	}
	csv_write_value(sheet->out, value, false);
}

/* A yieldsums_see. */
static bool
write_group(void *context, const char *key, const struct yieldsum *sum,
	    struct fault *why)
{
	struct sheet *sheet = context;
	struct yield_cell cell = {.counts = sum->referred};
	char value[FIELD_TEXT_SIZE];

	if (!sumsheet_write_key(key, sheet->out, why))
		return false;
	yieldcsv_write_figures(&cell, false, sheet->out);
	write_quadrants(sheet, sum->hidden_quadrants);
	snprintf(value, sizeof value, "%d", sum->chosen);
	csv_write_value(sheet->out, value, false);
	for (size_t i = 0; i < yield_count_fields.count; i++) {
		field_write(&yield_count_fields.field[i], &sum->cleared, value,
			    sizeof value);
		csv_write_value(sheet->out, value, false);
	}
	sheet->told->policies |= !sum->one_policy && sum->chosen > 0;
	write_accuracy(sum, sheet->out);
	csv_end_row(sheet->out);
	return true;
}

bool
yieldsheet_write(struct yieldsums *sums, FILE *out, struct yieldsheet *told,
		 struct fault *why)
{
	struct sheet sheet = {out, told};

	write_header(&sums->grouping, out);
	*told = (struct yieldsheet){false, false};
	return yieldsums_visit(sums, write_group, &sheet, why);
}
