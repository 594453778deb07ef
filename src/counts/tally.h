/* tally.h: one day's people, counted for the programme. */
#ifndef SHOAL_COUNTS_TALLY_H
#define SHOAL_COUNTS_TALLY_H

#include "base/day.h"
#include "base/fault.h"
#include "base/field.h"
#include "clinic/policy.h"
#include "clinic/visit.h"

/*
 * Counts without names, one row per site x policy x sex x age band with
 * anybody in it (a day usually has one site and one policy). Void entries are
 * not counted; a corrected person counts once, as corrected. Rows are sorted,
 * so that one day's content has one form. In each row
 *   screened = same_day + urgent + routine + no_referral
 *            = depth_0 + ... + depth_100 + not_gradable,
 * and the rows' screened add up to day_total.
 *
 * `check` is seven letters over the row's values before it (see mark.h): one
 * altered value is found, while quoting, line ends or another separator change
 * nothing.
 */
enum {
	TALLY_ROWS_MOST = 400,
	TALLY_TEXT_SIZE = 120 * 4 + 1,
	TALLY_BAND_SIZE = 12,
	TALLY_SEXES = 4,     /* F, M, X, unknown */
	TALLY_MARK_SIZE = 8, /* seven letters and a NUL */
	TALLY_COUNT_MOST = 99999
};

#define TALLY_SCHEMA "shoal-tally-1"

/* The table of a tally row:
 *   COLUMN(type, name, dimension, kind, most, words) */
/* clang-format off */
#define TALLY_COUNTS(COLUMN) \
COLUMN(int, screened, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, same_day, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, urgent, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, routine, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, no_referral, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, depth_0, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, depth_5, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, depth_15, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, depth_25, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, depth_40, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, depth_75, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, depth_100, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, not_gradable, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, with_symptoms, , count, TALLY_COUNT_MOST, "people") \
COLUMN(int, late_entries, , count, TALLY_COUNT_MOST, "people")

#define TALLY_COLUMNS(COLUMN) \
COLUMN(char, schema, [16], text, 15, "") \
COLUMN(char, programme, [TALLY_TEXT_SIZE], text, 120, "") \
COLUMN(char, site, [TALLY_TEXT_SIZE], text, 120, "") \
COLUMN(char, station, [5], text, 4, "") \
COLUMN(char, device, [7], text, 6, "") \
COLUMN(struct day, date, , day, 0, "") \
COLUMN(int, revision, , count, 9999, "") \
COLUMN(int, state, , choice, 0, "open|closed") \
COLUMN(char, policy, [7], text, 6, "") \
COLUMN(int, sex, , choice, 0, "F|M|X|unknown") \
COLUMN(char, age_band, [TALLY_BAND_SIZE], text, 11, "") \
TALLY_COUNTS(COLUMN) \
COLUMN(int, row, , count, TALLY_ROWS_MOST, "") \
COLUMN(int, rows, , count, TALLY_ROWS_MOST, "") \
COLUMN(int, day_total, , count, TALLY_COUNT_MOST, "people") \
COLUMN(char, check, [TALLY_MARK_SIZE], text, 7, "")
/* clang-format on */

struct tally_row {
#define TALLY_MEMBER(type, name, dimension, ...) type name dimension;
	TALLY_COLUMNS(TALLY_MEMBER)
};

struct tally_counts {
	TALLY_COUNTS(TALLY_MEMBER)
#undef TALLY_MEMBER
};

/* Column order, names and kinds of the CSV. */
extern const struct fields tally_columns;
/* The counts alone, for sums and tables; offsets into struct tally_counts. */
extern const struct fields tally_count_fields;

/* What stands at the head of every row. */
struct tally_head {
	const char *programme;
	const char *site; /* for a day on which nobody remains */
	int station;
	const char *device;
	const char *policy; /* the same */
	struct day date;
	int revision;
	bool closed;
};

/* People of one kind. `band` is an age band, or bands.count + 1 for an age
 * that is not known. */
struct tally_cell {
	char site[VISIT_SITE_SIZE];
	char policy[VISIT_POLICY_SIZE];
	int sex; /* enum visit_sex, or SEX_COUNT when not recorded */
	int band;
	struct tally_counts counts;
};

struct tally {
	struct age_bands bands;
	int count;
	struct tally_cell cell[TALLY_ROWS_MOST]; /* always sorted */
};

void tally_init(struct tally *tally, const struct age_bands *bands);

/* Counts one person as known now; a void one changes nothing. FAULT_INPUT when
 * a day has more than TALLY_ROWS_MOST kinds of people. */
bool tally_add(struct tally *tally, const struct visit *visit,
	       struct fault *why);

/* All counts of all rows together. */
void tally_total(const struct tally *tally, struct tally_counts *total);

/* Rows of the file: one per cell, or one of zeros when nobody remains (all
 * entries of the day were made void), so that an earlier revision is
 * replaced. */
int tally_rows(const struct tally *tally);

/* Row `index` (from 0) ready to be written, with its check. FAULT_INTERNAL when
 * its sums do not agree. */
bool tally_row(const struct tally *tally, const struct tally_head *head,
	       int index, struct tally_row *row, struct fault *why);

/* Seven letters over the values of a row before `check`. */
void tally_row_check(const struct tally_row *row, char *letters);

/* Seven letters over everything in the file but the revision: another day's
 * content has another mark. */
bool tally_mark(const struct tally *tally, const struct tally_head *head,
		char *letters, struct fault *why);

/* "0-39", "70+" or "unknown". */
void tally_band_write(const struct tally *tally, int band, char *text,
		      size_t size);

#endif
