/* planrows.h: what to expect of a screening, cut-off by cut-off. */
#ifndef SHOAL_DESK_PLANROWS_H
#define SHOAL_DESK_PLANROWS_H

#include "base/fault.h"
#include "clinic/depth.h"
#include "counts/rates.h"
#include "keep/planfile.h"

#include <stdio.h>

struct plan_question {
	/* One without a name holds somebody's own figures for one test, at
	 * [0], and no cut-off. */
	const struct plan_preset *preset;
	long people;	/* 1 to 1000000 */
	int prevalence; /* hundredths of a per cent */
	long per_day;	/* people a clinic sees in a day; 0 = not asked */
	int half_width; /* hundredths of a per cent; 0 = not asked */
};

/* One cut-off. */
struct plan_row {
	char label[8]; /* "25 %", or "given" */
	int percent;   /* FIELD_BLANK = own figures */
	struct rates_test test;
	struct rates_expected expected;
	bool has_ppv, has_npv; /* false: cannot be estimated */
	double ppv, npv;
};

struct plan_rows {
	int count;
	struct plan_row row[DEPTH_GRADES];
};

/* FAULT_INPUT for what counts/rates.h refuses of every cut-off. */
bool planrows_fill(const struct plan_question *question, struct plan_rows *rows,
		   struct fault *why);

/* Hundredths of a per cent as a fraction. */
double planrows_share(int hundredths);

/* A row per cut-off; what cannot be estimated or was not asked is empty. */
bool planrows_write_csv(const struct plan_question *question, FILE *out,
			struct fault *why);

#endif
