/* Counts as drawings for a page. */
#include "paper/chart.h"
#include "paper/funnelchart.h"
#include "paper/gridchart.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct drawn {
	FILE *out;
	char *text;
	size_t size;
};

static void
begin(struct drawn *drawn)
{
	drawn->out = open_memstream(&drawn->text, &drawn->size);
	cr_assert_not_null(drawn->out);
}

static void
says(const char *text, const char *words, int times)
{
	int seen = 0;

	for (const char *at = text; (at = strstr(at, words)) != NULL; at++)
		seen++;
	cr_expect_eq(seen, times, "'%s' %d times: %s", words, seen, text);
}

/* What no page may hold, whatever was drawn. */
static void
end(struct drawn *drawn)
{
	static const char *const never[] = {"nan",    "inf",  "-0\"",
					    "\"-0.0", "http", "<i>"};

	fclose(drawn->out);
	for (size_t i = 0; i < sizeof never / sizeof never[0]; i++)
		says(drawn->text, never[i], 0);
}

Test(chart, bars_carry_their_words_and_nothing_is_drawn_of_nothing)
{
	struct chart_bar bars[] = {
		{"a <i> & b", "3 of 4", {3, 0, 0, 1}, 4, 0, 0},
		{"none", "0", {0, 0, 0, 0}, 4, 0, 0},
		{"with interval", "2", {2}, 1, 1, 3.5},
	};
	struct drawn drawn;

	for (int columns = 0; columns <= 14; columns += 14) {
		for (double most = 0; most <= 4; most += 4) {
			begin(&drawn);
			chart_bars(drawn.out, "bars of <i>", columns, most,
				   bars, 3);
			end(&drawn);
			says(drawn.text, "role=\"img\"", 1);
			says(drawn.text, "<title>bars of &lt;i&gt;</title>", 1);
			says(drawn.text, ">a &lt;i&gt; &amp; b</text>", 1);
			says(drawn.text, ">3 of 4</text>", 1);
			says(drawn.text, "<rect", 3);
			free(drawn.text);
		}
	}
	begin(&drawn);
	chart_bars(drawn.out, "empty", 10, 0, bars, 0);
	chart_cells(drawn.out, "empty", NULL, 8, NULL, 0);
	end(&drawn);
	cr_expect_eq(drawn.size, 0);
	free(drawn.text);
}

/* Labels are cut between characters, figures never. */
Test(chart, long_texts_stay_inside)
{
	char name[481] = "", figures[200];
	struct chart_bar bar = {name, figures, {1}, 1, 0, 0};
	struct drawn drawn;

	for (int i = 0; i < 120; i++)
		strncat(name, "\xe1\xa0\xa0\xe1", 3);
	memset(figures, '7', sizeof figures);
	figures[sizeof figures - 1] = '\0';
	begin(&drawn);
	chart_bars(drawn.out, "long", 10, 0, &bar, 1);
	end(&drawn);
	says(drawn.text,
	     ">\xe1\xa0\xa0\xe1\xa0\xa0\xe1\xa0\xa0\xe1\xa0\xa0..."
	     "\xe1\xa0\xa0\xe1\xa0\xa0\xe1\xa0\xa0<",
	     1);
	says(drawn.text, figures, 1);
	says(drawn.text, "textLength=", 1);
	free(drawn.text);
}

/* What tells two names apart is often the last word. */
Test(chart, both_ends_of_a_long_text_are_shown)
{
	static const struct {
		const char *text, *shown;
	} rows[] = {
		{"Hall 1", ">Hall 1<"},
		{"Great Hall", ">Great Hall<"},
		{"Great Hall 7", ">Grea...l 7<"},
		{"Great Hall 29", ">Grea... 29<"},
		/* An accent by itself belongs to the letter before it. */
		{"Great Halle\xcc\x81"
		 "123",
		 ">Grea...123<"},
		{"", "></text>"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct chart_bar bar = {rows[i].text, "1", {1}, 1, 0, 0};
		struct drawn drawn;

		begin(&drawn);
		chart_bars(drawn.out, "ends", 10, 0, &bar, 1);
		end(&drawn);
		cr_expect_not_null(strstr(drawn.text, rows[i].shown),
				   "row %zu: %s", i, drawn.text);
		free(drawn.text);
	}
}

Test(chart, a_table_shows_each_count_and_its_share_of_the_row)
{
	static const char *const names[] = {"one", "two"};
	struct chart_row rows[] = {
		{"F", {30, 10}}, {"M", {0, 0}}, {"X", {0, 1234567}}};
	struct drawn drawn;

	begin(&drawn);
	chart_cells(drawn.out, "table", names, 2, rows, 3);
	end(&drawn);
	says(drawn.text, ">30</text>", 1);
	says(drawn.text, ">1234567</text>", 1);
	says(drawn.text, "<rect", 3);
	/* The largest share, all of the third row, fills its cell of 136 units
	 * but for 3. */
	says(drawn.text, "width=\"133.0\"", 1);
	says(drawn.text, "width=\"99.8\"", 1);
	free(drawn.text);
}

Test(chart, funnels_of_any_size_stay_on_the_page)
{
	static const struct {
		double share, highest;
		long long most;
	} rows[] = {{0.001, 0.001, 1},	{0.5, 1, 1},	 {0.2, 0.9, 17},
		    {0.999, 1, 500000}, {1e-6, 1e-3, 5}, {0.2, 0.2, 123456789}};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct funnelchart chart;
		struct drawn drawn;

		begin(&drawn);
		funnelchart_begin(&chart, drawn.out, "funnel", rows[i].share,
				  rows[i].most, rows[i].highest);
		funnelchart_point(&chart, NULL, 0, rows[i].most);
		funnelchart_point(&chart, "0014", rows[i].most, rows[i].most);
		funnelchart_end(&chart);
		end(&drawn);
		cr_expect(chart.across >= rows[i].most &&
				  chart.top >= rows[i].share && chart.top <= 1,
			  "row %zu: %lld, %g", i, chart.across, chart.top);
		says(drawn.text, "<circle", 2);
		says(drawn.text, ">0014</text>", 1);
		free(drawn.text);
	}
}

Test(chart, a_grid_draws_each_kind_of_day_in_its_own_way)
{
	struct gridchart_headings headings = {{"1", "", "", "", "5"}};
	struct gridchart_cell cells[] = {{GRIDCHART_OUTSIDE, 0},
					 {GRIDCHART_NOTHING, 0},
					 {GRIDCHART_LEFT_OUT, 0},
					 {GRIDCHART_OPEN, 0},
					 {GRIDCHART_CLOSED, 5}};
	struct gridchart chart;
	struct drawn drawn;

	begin(&drawn);
	gridchart_begin(&chart, drawn.out, "days", 2, 5, &headings);
	gridchart_row(&chart, "0001", cells);
	gridchart_row(&chart, "0002", cells);
	gridchart_end(&chart);
	end(&drawn);
	says(drawn.text, "<path", 8);
	says(drawn.text, "m3 4h2\"", 2);
	says(drawn.text, "l8 8m0-8l-8 8\"", 2);
	says(drawn.text, "fill=\"none\" stroke=\"#1b2428\" d=\"", 2);
	says(drawn.text, "fill=\"#123a4a\" stroke=\"#123a4a\" d=\"", 2);
	says(drawn.text, ">0002</text>", 1);
	says(drawn.text, ">5</text>", 1);
	free(drawn.text);
}
