/* Tests of counts/grouping: what sums are grouped by. */
#include "counts/grouping.h"

#include "counts/yieldsums.h"

#include <criterion/criterion.h>
#include <string.h>

static const struct counted usual = {.date = {20522},
				     .station = 14,
				     .programme = "Lantern Valley",
				     .site = "Mavi school",
				     .policy = "ABCDEF",
				     .sex = 3,
				     .age_band = "40-49"};

/* 2026-12-31 lies in week 53, 2027-01-03 too; ISO 8601. */
Test(grouping, the_key_is_the_period_and_the_columns)
{
	static const struct {
		const char *by, *per, *date, *key;
	} rows[] = {
		{NULL, NULL, "2026-03-10", "2026-03-10/Mavi school"},
		{"day", "", "2026-03-10", "2026-03-10"},
		{"week", "", "2026-12-31", "2026-W53"},
		{"week", "", "2027-01-03", "2026-W53"},
		{"week", "", "2027-01-04", "2027-W01"},
		{"month", "station", "2026-03-10", "2026-03/0014"},
		{"year", "sex", "2026-03-10", "2026/unknown"},
		{"all", "policy,age_band,programme", "2026-03-10",
		 "all/ABCDEF/40-49/Lantern Valley"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char key[GROUPING_KEY_SIZE];
		struct grouping grouping;
		struct counted row = usual;
		struct fault why;

		cr_assert(day_read(rows[i].date, &row.date, &why));
		cr_assert(grouping_read(&grouping, &grouping_tallies,
					rows[i].by, rows[i].per, &why),
			  "row %zu: %s", i, why.sentence);
		grouping_key(&grouping, row.date, &row, key);
		for (char *joint; (joint = strchr(key, GROUPING_JOINT));)
			*joint = '/';
		cr_expect_str_eq(key, rows[i].key, "row %zu: %s", i, key);
	}
}

#define TALLIES                                                                \
	"allowed are programme, site, station, sex, age_band, policy, joined " \
	"by commas"
#define YIELDS                                                                 \
	"allowed are programme, site, station, policy, urgency, rule, depth, " \
	"joined by commas"

Test(grouping, what_is_not_known_is_refused_with_what_is_allowed)
{
	static const struct {
		const struct grouping_choice *choice;
		const char *by, *per, *said;
	} rows[] = {
		{&grouping_tallies, "days", NULL,
		 "--by: 'days' is no period; allowed are day, week, month, "
		 "year, all"},
		{&grouping_tallies, "", NULL,
		 "--by: '' is no period; allowed are day, week, month, year, "
		 "all"},
		{&grouping_yields, "day", NULL,
		 "--by: 'day' is no period; allowed are month, year, all"},
		{&grouping_yields, "week", NULL,
		 "--by: 'week' is no period; allowed are month, year, all"},
		{&grouping_tallies, NULL, "name",
		 "--per: 'name' is no column to group by; " TALLIES},
		{&grouping_tallies, NULL, "depth",
		 "--per: 'depth' is no column to group by; " TALLIES},
		{&grouping_yields, NULL, "sex",
		 "--per: 'sex' is no column to group by; " YIELDS},
		{&grouping_tallies, NULL, "site,",
		 "--per: '' is no column to group by; " TALLIES},
		{&grouping_tallies, NULL, ",site",
		 "--per: '' is no column to group by; " TALLIES},
		{&grouping_tallies, NULL, "site,sex,site",
		 "--per: 'site' is named twice"},
		{&grouping_tallies, NULL, "site, sex",
		 "--per: ' sex' is no column to group by; " TALLIES},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct grouping grouping;
		struct fault why;

		cr_assert_not(grouping_read(&grouping, rows[i].choice,
					    rows[i].by, rows[i].per, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, FAULT_USAGE, "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].said, "row %zu: %s", i,
				 why.sentence);
	}
}
