/* reportledger.c: what was not counted, and why. */
#include "paper/reportparts.h"

#include "paper/reportwords.h"

enum { LISTED = 50 }; /* of what needs no look */

/* --- one status --------------------------------------------------------- */

struct listing {
	FILE *out;
	int count, most;
};

static void
write_line(void *context, const struct ledger_line *line)
{
	struct listing *listing = context;
	FILE *out = listing->out;

	if (listing->count++ >= listing->most)
		return;
	report_put(out, "<li><b>", line->path, "</b>: ");
	if (line->row > 0)
		fprintf(out, "row %ld%s", line->row,
			line->column[0] == '\0' ? ": " : ", ");
	if (line->row > 0 && line->column[0] != '\0')
		report_put(out, "", line->column, ": ");
	report_put(out, "", line->reason, "</li>\n");
}

static void
write_status(const struct summary *summary, enum ledger_status status,
	     const char *heading, FILE *out)
{
	int most = status == LEDGER_REFUSED || status == LEDGER_CONFLICT
			   ? SUMMARY_LINES
			   : LISTED;
	struct listing listing = {out, 0, most};

	if (summary->of[status] == 0)
		return;
	fprintf(out, "<h3>%s</h3>\n<ul class=\"files\">\n", heading);
	summary_lines(summary, status, write_line, &listing);
	fputs("</ul>\n", out);
	if (summary->of[status] > most)
		fprintf(out,
			"<p>Not listed: %lld more; the ledger has them "
			"all.</p>\n",
			summary->of[status] - most);
}

/* --- all ---------------------------------------------------------------- */

void
report_ledger(struct summary *summary, FILE *out)
{
	static const struct {
		enum ledger_status status;
		const char *heading, *about;
	} rows[] = {{LEDGER_CONFLICT, "In conflict",
		     "two differ where there can be one, so neither is in the "
		     "total; ask the station which is right"},
		    {LEDGER_REFUSED, "Refused",
		     "cannot be trusted as it came; ask the station for the "
		     "tally again"},
		    {LEDGER_SUPERSEDED, "Superseded",
		     "a later revision of the day is in the total"},
		    {LEDGER_SAME, "Same as another", "a copy; counted once"},
		    {LEDGER_PASSED_OVER, "Passed over",
		     "no tally by its name, such as a hidden or temporary "
		     "file"}};
	size_t count = sizeof rows / sizeof rows[0];

	fprintf(out, "<table><tr><th>counted</th><td>%lld</td><td></td></tr>\n",
		summary->of[LEDGER_COUNTED]);
	for (size_t i = 0; i < count; i++)
		fprintf(out, "<tr><th>%s</th><td>%lld</td><td>%s</td></tr>\n",
			ledger_status_word(rows[i].status),
			summary->of[rows[i].status], rows[i].about);
	fputs("</table>\n", out);
	for (size_t i = 0; i < count; i++)
		write_status(summary, rows[i].status, rows[i].heading, out);
}
