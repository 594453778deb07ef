/* Tests of desk/collating and desk/settle: what is told at first is taken back
 * when it turns out not to count. */
#include "desk/collating.h"

#include "../keep/folder.h"
#include "../keep/tallycase.h"
#include "counts/gather.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

/* Who listens: the sums, the lines, and what is done to a file on the way. */
struct listener {
	long long people, rows; /* by sign */
	char lines[2000];
	const char *spoil; /* a path to write to at the row of that revision's
			    * first telling, or NULL */
	int calls;
};

static bool
hear_row(void *context, const struct counted *row, int sign, struct fault *why)
{
	struct listener *listener = context;

	(void)why;
	listener->people += sign * row->counts.screened;
	listener->rows += sign;
	if (++listener->calls == 4 && listener->spoil != NULL)
		cr_assert(folder_put(listener->spoil, "schema\n", 7));
	return true;
}

static bool
hear_line(void *context, const struct ledger_line *line, struct fault *why)
{
	struct listener *listener = context;
	size_t used = strlen(listener->lines);
	const char *name = strrchr(line->path, '/');

	(void)why;
	snprintf(listener->lines + used, sizeof listener->lines - used,
		 "%s %s r%d|", name == NULL ? line->path : name + 1,
		 ledger_status_word(line->status), line->revision);
	return true;
}

/* Writes the three rows as that revision, with so many people more in the first
 * row and, when spoilt, a wrong letter in the last. */
static void
put_tally(const char *folder, const char *name, const char *revision, int more,
	  const struct casestyle *style, bool spoilt)
{
	char text[CASE_SIZE], path[FOLDER_PATH];
	struct casetable table;

	case_begin(&table);
	for (int row = 1; row < table.rows; row++) {
		snprintf(table.value[row][case_column(&table, "revision")], 64,
			 "%s", revision);
		snprintf(table.value[row][case_column(&table, "day_total")], 64,
			 "%d", 1214 + more);
	}
	for (int i = 0; i < 3; i++) {
		static const char *const columns[] = {"screened", "no_referral",
						      "depth_100"};
		char *value = table.value[1][case_column(&table, columns[i])];

		snprintf(value, 64, "%ld", strtol(value, NULL, 10) + more);
	}
	for (int row = 1; row < table.rows; row++)
		case_sign(&table, row);
	if (spoilt)
		table.value[3][table.columns - 1][0] = 'a';
	cr_assert(folder_put(folder_path(folder, name, path), text,
			     case_write(&table, style, text)));
}

/* Collates the folder. */
static bool
collate(const char *folder, struct listener *listener, struct fault *why)
{
	const char *given[] = {folder};
	struct onlooker onlooker = {
		.row = hear_row, .line = hear_line, .context = listener};
	struct desk *desk = calloc(1, sizeof *desk);
	struct collating_totals totals;
	bool done;

	cr_assert_not_null(desk);
	desk->in = stdin;
	desk->out = stdout;
	desk->talk = stderr;
	done = collating_run(desk, &gather_kind, given, 1, &onlooker, 1,
			     &totals, why);
	free(desk);
	return done;
}

static const struct casestyle by_spreadsheet = {"",   ';', "\r\n",
						true, "",  true};

/* Names are read in their order, so that what counts comes first or last. */
Test(collating, what_does_not_count_is_taken_back)
{
	static const struct {
		struct {
			const char *name, *revision;
			int more;
			bool resaved, spoilt;
		} file[3];
		long long people, rows;
		const char *lines;
	} rows[] = {
		{{{"a.csv", "1", 0, false, false}},
		 1214,
		 3,
		 "a.csv counted r1|"},
		{{{"a.csv", "1", 0, false, false},
		  {"b.csv", "2", 5, false, false}},
		 1219,
		 3,
		 "a.csv superseded r1|b.csv counted r2|"},
		{{{"a.csv", "2", 5, false, false},
		  {"b.csv", "1", 0, false, false}},
		 1219,
		 3,
		 "a.csv counted r2|b.csv superseded r1|"},
		{{{"a.csv", "1", 0, true, false},
		  {"b.csv", "2", 5, true, false},
		  {"c.csv", "2", 5, false, false}},
		 1219,
		 3,
		 "a.csv superseded r1|b.csv counted r2|c.csv same r2|"},
		{{{"a.csv", "1", 0, false, false},
		  {"b.csv", "1", 5, true, false}},
		 0,
		 0,
		 "a.csv conflict r1|b.csv conflict r1|"},
		/* A higher revision that is refused brings nothing down. */
		{{{"a.csv", "1", 0, false, false},
		  {"b.csv", "2", 5, false, true}},
		 1214,
		 3,
		 "a.csv counted r1|b.csv refused r0|"},
		{{{"a.csv", "2", 5, true, true},
		  {"b.csv", "1", 0, true, false}},
		 1214,
		 3,
		 "a.csv refused r0|b.csv counted r1|"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct listener listener = {.people = 0};
		char folder[FOLDER_SIZE];
		struct fault why;

		cr_assert(folder_make(folder));
		for (int file = 0; file < 3 && rows[i].file[file].name != NULL;
		     file++)
			put_tally(folder, rows[i].file[file].name,
				  rows[i].file[file].revision,
				  rows[i].file[file].more,
				  rows[i].file[file].resaved ? &by_spreadsheet
							     : &case_own,
				  rows[i].file[file].spoilt);
		cr_assert(collate(folder, &listener, &why), "row %zu: %s", i,
			  why.sentence);
		cr_expect_eq(listener.people, rows[i].people, "row %zu: %lld",
			     i, listener.people);
		cr_expect_eq(listener.rows, rows[i].rows, "row %zu", i);
		cr_expect_str_eq(listener.lines, rows[i].lines, "row %zu: %s",
				 i, listener.lines);
		folder_remove(folder);
	}
}

/* A sheet whose last tally is at fault: those before it had been told of. */
Test(collating, a_file_refused_at_its_end_leaves_nothing_behind)
{
	static const struct casestyle *const styles[] = {&case_own,
							 &by_spreadsheet};

	for (int i = 0; i < 2; i++) {
		struct listener listener = {.people = 0};
		char folder[FOLDER_SIZE], path[FOLDER_PATH], text[CASE_SIZE];
		struct casetable table;
		struct fault why;

		case_begin(&table);
		table.rows = 4 + 3;
		memcpy(table.value[4], table.value[1],
		       3 * sizeof table.value[0]);
		for (int row = 4; row < table.rows; row++) {
			snprintf(table.value[row][3], 64, "0021");
			case_sign(&table, row);
		}
		table.value[6][table.columns - 1][0] ^= 1;
		cr_assert(folder_make(folder));
		cr_assert(folder_put(folder_path(folder, "a.csv", path), text,
				     case_write(&table, styles[i], text)));
		cr_assert(collate(folder, &listener, &why));
		cr_expect(listener.people == 0 && listener.rows == 0,
			  "row %d: %lld", i, listener.people);
		cr_expect_str_eq(listener.lines, "a.csv refused r0|");
		folder_remove(folder);
	}
}

/* Taking back needs a second reading; a file that is another by then gives no
 * answer at all rather than a wrong one. */
Test(collating, a_file_that_changes_meanwhile_gives_no_answer)
{
	char folder[FOLDER_SIZE], first[FOLDER_PATH];
	struct listener listener = {.people = 0};
	struct fault why;

	cr_assert(folder_make(folder));
	put_tally(folder, "a.csv", "1", 0, &case_own, false);
	put_tally(folder, "b.csv", "2", 5, &case_own, false);
	listener.spoil = folder_path(folder, "a.csv", first);
	cr_expect_not(collate(folder, &listener, &why));
	cr_expect_eq(why.kind, FAULT_INPUT);
	cr_expect_not_null(strstr(why.sentence, "a.csv' was changed while it "
						"was being read; collate "
						"again"),
			   "%s", why.sentence);
	cr_expect_str_eq(listener.lines, "");
	folder_remove(folder);
}
