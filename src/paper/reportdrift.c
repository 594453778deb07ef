/* reportdrift.c: stations whose grades spread unlike the others'. */
#include "paper/reportparts.h"

#include "base/maths.h"
#include "counts/drift.h"
#include "paper/chart.h"
#include "paper/reportwords.h"

#include <string.h>

enum { GRADES = DRIFT_GRADES_MOST, DRAWN = 16, NAMED = 20 };

static const char *const grade_names[GRADES] = {
	"0 %", "5 %", "15 %", "25 %", "40 %", "75 %", "100 %", "none"};

struct drifting {
	struct sums total;
	long long tested, stations;
	long long too_few, beyond_95, beyond_998;
	struct report_picks picks;
};

/* One station's answer; with joined grades where each by itself is too few. */
struct answer {
	enum drift_answer what;
	struct drift drift;
	int from[GRADES + 1], groups;
	bool joined;
};

static struct answer
ask(const struct sums *all, const struct sums *sums)
{
	const long long *station = sums->count + REPORT_depth_0;
	long long others[GRADES];
	struct answer answer = {.joined = false};

	for (int i = 0; i < GRADES; i++)
		others[i] = all->count[REPORT_depth_0 + i] - station[i];
	answer.what = drift_test(station, others, GRADES, &answer.drift);
	if (answer.what == DRIFT_TOO_FEW) {
		answer.joined = true;
		answer.what = drift_test_joined(station, others, GRADES,
						answer.from, &answer.groups,
						&answer.drift);
		answer.from[answer.groups] = GRADES;
	}
	return answer;
}

static bool
test_station(void *context, const char *key, const struct sums *sums,
	     struct fault *why)
{
	struct drifting *drifting = context;
	struct answer answer;

	(void)why;
	if (sums->count[REPORT_screened] == 0)
		return true;
	drifting->stations++;
	answer = ask(&drifting->total, sums);
	if (answer.what != DRIFT_TESTED) {
		drifting->too_few += answer.what == DRIFT_TOO_FEW;
		return true;
	}
	drifting->tested++;
	drifting->beyond_95 += answer.drift.chance <= 0.05;
	drifting->beyond_998 += answer.drift.chance <= 0.002;
	report_pick(&drifting->picks, key, sums, -answer.drift.chance);
	return true;
}

/* "0 % to 15 %, 100 % to none": grades that were joined. */
static void
write_joined(const struct answer *answer, FILE *out)
{
	const char *before = "";

	for (int i = 0; i < answer->groups; i++) {
		int from = answer->from[i], to = answer->from[i + 1] - 1;

		if (to == from)
			continue;
		fprintf(out, "%s%s to %s", before, grade_names[from],
			grade_names[to]);
		before = ", ";
	}
}

static void
write_row(const struct drifting *drifting, const struct report_pick *pick,
	  FILE *out)
{
	struct answer answer = ask(&drifting->total, pick->sums);
	double chance = answer.drift.chance;

	report_put(out, "<tr><th>", pick->key, "</th>");
	fputs("<td class=\"words\">", out);
	if (answer.joined)
		write_joined(&answer, out);
	else
		fputs("none", out);
	fprintf(out, "</td><td>%.1f (%d)</td><td>", answer.drift.chi_squared,
		answer.drift.freedom);
	if (chance < 0.001)
		fputs("under 0.001", out);
	else
		fprintf(out, "%.3f", chance);
	fprintf(out, "</td><td>%s</td></tr>\n",
		chance <= 0.002	 ? "beyond 99.8 %"
		: chance <= 0.05 ? "beyond 95 %"
				 : "");
}

static void
draw_grades(const struct drifting *drifting, FILE *out)
{
	struct chart_row row[DRAWN + 1];
	int count = drifting->picks.count;

	if (count > DRAWN)
		count = DRAWN;
	row[0].label = "all stations";
	memcpy(row[0].count, drifting->total.count + REPORT_depth_0,
	       sizeof row[0].count);
	for (int i = 0; i < count; i++) {
		row[i + 1].label = drifting->picks.pick[i].key;
		memcpy(row[i + 1].count,
		       drifting->picks.pick[i].sums->count + REPORT_depth_0,
		       sizeof row[0].count);
	}
	chart_cells(out, "Grades by station, the most unlike first",
		    grade_names, GRADES, row, (size_t)count + 1);
}

static void
write_tested(const struct drifting *drifting, FILE *out)
{
	fprintf(out,
		"<p>Of %lld stations tested, %lld %s beyond 95 %% and of these "
		"%lld beyond 99.8 %%; chance alone puts up to %.0f "
		"beyond 95 %%.</p>\n",
		drifting->tested, drifting->beyond_95,
		drifting->beyond_95 == 1 ? "is" : "are", drifting->beyond_998,
		maths_ceiling((double)drifting->tested * 0.05));
	draw_grades(drifting, out);
	fputs("<table class=\"figures\"><thead><tr><th>station</th>"
	      "<th>joined</th><th>chi&#178; (df)</th><th>chance</th>"
	      "<th>look</th></tr></thead>\n",
	      out);
	for (int i = 0; i < drifting->picks.count && i < NAMED; i++)
		write_row(drifting, &drifting->picks.pick[i], out);
	fputs("</table>\n<p class=\"note\">Joined: neighbouring grades counted "
	      "as one, for too few people were expected in one of them. "
	      "Chance: of grades as unlike these or more, were there no "
	      "difference.</p>\n",
	      out);
	if (drifting->picks.seen > NAMED)
		fprintf(out,
			"<p>Not listed: %lld stations more like the others."
			"</p>\n",
			drifting->picks.seen - NAMED);
}

void
report_drift(struct summary *summary, FILE *out)
{
	struct drifting drifting = {.tested = 0};
	struct fault why;

	drifting.total = summary_total(summary);
	groups_visit(&summary->stations, test_station, &drifting, &why);
	if (drifting.stations < 2) {
		fputs("<p>There are not two stations with people, so there is "
		      "nothing to compare.</p>\n",
		      out);
		return;
	}
	if (drifting.tested > 0)
		write_tested(&drifting, out);
	if (drifting.too_few > 0)
		fprintf(out,
			"<p>Too few people for a comparison at %lld of %lld "
			"stations: an expected count is under %d even where "
			"neighbouring grades are joined.</p>\n",
			drifting.too_few, drifting.stations,
			DRIFT_EXPECTED_LEAST);
	if (drifting.tested + drifting.too_few == 0)
		fputs("<p>Everybody has the same grade, so there is nothing to "
		      "compare.</p>\n",
		      out);
}
