/* run_tally.c: a day's counts, on screen and as a file. */
#include "desk/run.h"

#include "counts/tally.h"
#include "desk/daytally.h"
#include "desk/unfinished.h"
#include "keep/csv.h"
#include "keep/safefile.h"

#include <string.h>

static bool
write_csv(const struct tally *tally, const struct tally_head *head, FILE *out,
	  struct fault *why)
{
	char value[FIELD_TEXT_SIZE];

	for (size_t i = 0; i < tally_columns.count; i++)
		csv_write_value(out, tally_columns.field[i].name, i == 0);
	csv_end_row(out);
	for (int index = 0; index < tally_rows(tally); index++) {
		struct tally_row row;

		if (!tally_row(tally, head, index, &row, why))
			return false;
		for (size_t i = 0; i < tally_columns.count; i++) {
			field_write(&tally_columns.field[i], &row, value,
				    sizeof value);
			csv_write_value(out, value, i == 0);
		}
		csv_end_row(out);
	}
	return true;
}

static void
write_group(FILE *out, const char *title, const struct tally_counts *counts)
{
	fprintf(out, "%-20s %8d %8d %7d %7d %8d\n", title, counts->screened,
		counts->same_day, counts->urgent, counts->routine,
		counts->no_referral);
}

/* A day at two sites, or under two policies, has rows that look alike. */
static bool
is_of_one_kind(const struct tally_cell *one, const struct tally_cell *other)
{
	return strcmp(one->site, other->site) == 0 &&
	       strcmp(one->policy, other->policy) == 0;
}

static bool
has_one_kind(const struct tally *tally)
{
	for (int i = 1; i < tally->count; i++)
		if (!is_of_one_kind(&tally->cell[0], &tally->cell[i]))
			return false;
	return true;
}

/* A table for eyes: the same numbers as the file. */
static void
write_table(const struct tally *tally, FILE *out)
{
	static const char *const sex[TALLY_SEXES] = {"F", "M", "X",
						     "sex unknown"};
	struct tally_counts total;
	char band[TALLY_BAND_SIZE + 8], title[40];

	fprintf(out, "%-20s %8s %8s %7s %7s %8s\n", "", "screened", "same day",
		"urgent", "routine", "none");
	for (int i = 0; i < tally->count; i++) {
		const struct tally_cell *cell = &tally->cell[i];

		if (!has_one_kind(tally) &&
		    (i == 0 || !is_of_one_kind(cell - 1, cell)))
			fprintf(out, "%s, policy %s\n", cell->site,
				cell->policy);
		tally_band_write(tally, cell->band, band, sizeof band);
		snprintf(title, sizeof title, "%s %s", sex[cell->sex], band);
		write_group(out, title, &cell->counts);
	}
	tally_total(tally, &total);
	write_group(out, "all", &total);
	fprintf(out, "\nshallower eye: ");
	fprintf(out, "0%% %d, 5%% %d, 15%% %d, 25%% %d, ", total.depth_0,
		total.depth_5, total.depth_15, total.depth_25);
	fprintf(out, "40%% %d, 75%% %d, 100%% %d, not graded %d\n",
		total.depth_40, total.depth_75, total.depth_100,
		total.not_gradable);
	fprintf(out, "with symptoms %d, entered late %d\n", total.with_symptoms,
		total.late_entries);
}

static bool
write_file(struct desk *desk, const struct tally *tally,
	   const struct tally_head *head, const char *folder, struct fault *why)
{
	char path[DESK_PATH_SIZE], name[80], day[DAY_SIZE];
	struct safefile file;

	day_write(head->date, day);
	snprintf(name, sizeof name, "tally-%04u-%s-r%d.csv",
		 (unsigned)head->station % 10000, day, head->revision);
	if (!safefile_join(path, sizeof path, folder, name, why) ||
	    !safefile_open(&file, path, why))
		return false;
	if (!write_csv(tally, head, file.out, why)) {
		safefile_drop(&file);
		return false;
	}
	if (!safefile_commit(&file, SAFEFILE_SYNCED, why))
		return false;
	fprintf(desk->talk, "Tally (%s, revision %d): %s\n",
		head->closed ? "closed" : "open", head->revision, path);
	return true;
}

/* The revision is remembered before the file stands: should the power fail
 * between the two, a later file can only carry a higher number, never the
 * same number with other content. */
static bool
write_out(struct desk *desk, const struct daytally *now, const char *folder,
	  struct fault *why)
{
	char path[DESK_PATH_SIZE];

	if (!register_keep_tally(&desk->book, now->head.date, &now->written,
				 why))
		return false;
	if (folder != NULL && strcmp(folder, "-") == 0)
		return write_csv(&now->tally, &now->head, desk->out, why);
	write_table(&now->tally, desk->out);
	if (folder == NULL) {
		if (!desk_path(desk, "tallies", path, why))
			return false;
		folder = path;
	}
	return write_file(desk, &now->tally, &now->head, folder, why);
}

/* A day whose people were all moved to another one has a tally of zeros, where
 * one was written before. */
static bool
tally_day(struct desk *desk, const struct given *given, struct day day,
	  struct fault *why)
{
	char written[DAY_SIZE];
	struct daytally now;

	if (!daytally_take(desk, day, given_is(given, "close"), &now, why))
		return false;
	if (now.people > 0 || now.last.revision > 0)
		return write_out(desk, &now, given_value(given, "out"), why);
	day_write(day, written);
	return fault_set(why, FAULT_INPUT,
			 "nobody was entered for %s, so there is no tally; "
			 "--date names another day",
			 written);
}

bool
run_tally(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *date = given_value(given, "date");
	struct day day = desk->today;
	bool done;

	if (date != NULL && !day_read(date, &day, why))
		return fault_at(why, "--date");
	done = tally_day(desk, given, day, why);
	fflush(desk->out);
	unfinished_tell(desk);
	return done;
}
