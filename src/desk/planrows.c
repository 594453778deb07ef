/* planrows.c: what to expect of a screening, cut-off by cut-off. */
#include "desk/planrows.h"

#include "base/field.h"
#include "keep/csv.h"

enum { CELL_SIZE = 40 };

double
planrows_share(int hundredths)
{
	return (double)hundredths / PLAN_WHOLE_SHARE;
}

static bool
fill_row(const struct plan_question *question, int grade, struct plan_row *row,
	 struct fault *why)
{
	const struct plan_preset *preset = question->preset;
	double prevalence = planrows_share(question->prevalence);
	struct fault ignored;

	row->percent = preset->name[0] == '\0'
			       ? FIELD_BLANK
			       : depth_percent((enum depth)grade);
	if (row->percent == FIELD_BLANK)
		snprintf(row->label, sizeof row->label, "given");
	else
		snprintf(row->label, sizeof row->label, "%d %%",
			 row->percent % 1000);
	row->test =
		(struct rates_test){planrows_share(preset->sensitivity[grade]),
				    planrows_share(preset->specificity[grade])};
	row->has_ppv = rates_ppv(&row->test, prevalence, &row->ppv, &ignored);
	row->has_npv = rates_npv(&row->test, prevalence, &row->npv, &ignored);
	return rates_expect(&row->test, prevalence, (double)question->people,
			    &row->expected, why);
}

bool
planrows_fill(const struct plan_question *question, struct plan_rows *rows,
	      struct fault *why)
{
	rows->count = 0;
	for (int i = 0; i < DEPTH_GRADES; i++)
		if (question->preset->sensitivity[i] != FIELD_BLANK &&
		    !fill_row(question, i, &rows->row[rows->count++], why))
			return false;
	return true;
}

static void
put(FILE *out, bool known, double value, int places)
{
	char cell[CELL_SIZE] = "";

	if (known)
		snprintf(cell, sizeof cell, "%.*f", places, value);
	csv_write_value(out, cell, false);
}

static void
write_csv_row(const struct plan_question *question, const struct plan_row *row,
	      FILE *out)
{
	struct rates_sample sample = {0};
	struct fault ignored;
	bool sized = question->half_width > 0 &&
		     rates_sample_size(&row->test,
				       planrows_share(question->prevalence),
				       planrows_share(question->half_width),
				       rates_z_95, &sample, &ignored);

	csv_write_value(out, question->preset->name, true);
	put(out, row->percent != FIELD_BLANK, row->percent, 0);
	put(out, true, 100 * row->test.sensitivity, 2);
	put(out, true, 100 * row->test.specificity, 2);
	put(out, true, (double)question->people, 0);
	put(out, true, 100 * planrows_share(question->prevalence), 2);
	put(out, true, row->expected.flagged, 2);
	put(out, true, row->expected.found, 2);
	put(out, true, row->expected.missed, 2);
	put(out, true, row->expected.false_alarms, 2);
	put(out, row->has_ppv, 100 * row->ppv, 4);
	put(out, row->has_npv, 100 * row->npv, 4);
	put(out, question->per_day > 0, (double)question->per_day, 0);
	put(out, question->per_day > 0,
	    question->per_day > 0 ? (double)rates_days(row->expected.flagged,
						       question->per_day)
				  : 0,
	    0);
	put(out, question->half_width > 0,
	    100 * planrows_share(question->half_width), 2);
	put(out, sized, sample.people, 0);
	csv_write_value(out, question->preset->source, false);
	csv_end_row(out);
}

bool
planrows_write_csv(const struct plan_question *question, FILE *out,
		   struct fault *why)
{
	struct plan_rows rows;

	if (!planrows_fill(question, &rows, why))
		return false;
	fprintf(out, "preset,cut_off_percent,sensitivity_percent,"
		     "specificity_percent,people,prevalence_percent,flagged,"
		     "found,missed,false_alarms,ppv_percent,npv_percent,"
		     "per_clinic_day,clinic_days,half_width_percent,"
		     "sample_people,source\n");
	for (int i = 0; i < rows.count; i++)
		write_csv_row(question, &rows.row[i], out);
	return true;
}
