/* test_phrase.c: one line of a paper, a key and its values. */
#include "paper/phrase.h"

#include "people.h"

static const struct row {
	struct phrase phrase;
	const char *plain;
	const char *html;
} rows[] = {
	{{"patient.cost", {{"cost", "20 & <free>", true}}},
	 "Cost: 20 & <free>",
	 "Cost: <bdi>20 &amp; &lt;free&gt;</bdi>"},
	{{"patient.cost", {{"cost", "{cost}", false}}},
	 "Cost: {cost}",
	 "Cost: {cost}"},
	{{"patient.cost", {{"cost", "", true}}},
	 "Cost: ________________",
	 "Cost: <span class=\"blank\"></span>"},
	{{"date.full",
	  {{"year", "2026", false},
	   {"day", "9", false},
	   {"month", "May", false}}},
	 "9 May 2026",
	 "9 May 2026"},
	{{"slip.screened_on", {{"date", "May 2026 (2026-05-09) <", false}}},
	 "Screened on May 2026 (2026-05-09) <",
	 "Screened on May 2026 (<span class=\"day\">2026-05-09</span>) &lt;"},
	{{"consent.keep", {{NULL, NULL, false}}},
	 "Do not send the result back, only keep it.",
	 "Do not send the result back, only keep it."},
};

Test(phrase, values_are_put_in_plainly_or_escaped)
{
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(rows); i++) {
		char plain[256], html[256];
		FILE *out = fmemopen(html, sizeof html, "w");

		cr_assert_not_null(out);
		phrase_fill(&paper->wording, &rows[i].phrase, plain,
			    sizeof plain);
		phrase_write_html(&paper->wording, &rows[i].phrase, out);
		fclose(out);
		cr_expect_str_eq(plain, rows[i].plain, "row %zu", i);
		cr_expect_str_eq(html, rows[i].html, "row %zu", i);
	}
	free(paper);
}

Test(phrase, a_phrase_that_does_not_fit_is_cut_between_characters)
{
	struct paper *paper = paper_open();
	/* Six bytes of wording, then letters of two bytes. */
	struct phrase phrase = {"patient.cost",
				{{"cost", "\xc3\xa9\xc3\xa9\xc3\xa9", true}}};

	for (size_t size = 1; size < 16; size++) {
		char text[16];

		phrase_fill(&paper->wording, &phrase, text, size);
		cr_expect_lt(strlen(text), size);
		cr_expect(text_is_utf8(text, strlen(text)), "size %zu", size);
	}
	free(paper);
}
