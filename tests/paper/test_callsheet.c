/* test_callsheet.c: who is to be called about a missing reply, as a page. */
#include "paper/callsheet.h"

#include "people.h"

static char *
page(const struct visit *visit, int days_over)
{
	struct station station = {.code = 14,
				  .programme = "Lantern <Valley>",
				  .clinic_name = "Ridge & Co"};
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	cr_assert_not_null(out);
	callsheet_begin(&station, (struct day){20542}, out);
	callsheet_row(visit, days_over, out);
	callsheet_end(1, days_over > 0, out);
	fclose(out);
	return text;
}

static const char *const always[] = {
	"size:A4 landscape",
	"Keep it locked away",
	"Lantern &lt;Valley&gt;",
	"Ridge &amp; Co",
	"station 0014, 2026-03-30",
	"Adira &lt;b&gt; Moru",
	"0014-00001-98",
	"Third row &amp; left",
	">called<",
	">will come<",
	">came elsewhere<",
	"why not",
};

Test(callsheet, a_row_has_who_when_and_boxes_and_is_escaped)
{
	struct visit visit;
	struct fault why;
	char *text;

	visit_init(&visit);
	visit.number = (struct refnum){14, 1};
	text_copy(visit.name, sizeof visit.name, "Adira <b> Moru");
	text_copy(visit.contact, sizeof visit.contact, "Third row & left");
	text_copy(visit.site, sizeof visit.site, "Mavi");
	visit.urgency = URGENCY_SAME_DAY;
	cr_assert(day_read("2026-03-10", &visit.see_by, &why));
	text = page(&visit, 20);
	for (size_t i = 0; i < COUNT(always); i++)
		cr_expect_not_null(strstr(text, always[i]), "row %zu: %s", i,
				   text);
	cr_expect_not_null(strstr(text, "<b>20 days</b>"));
	cr_expect_not_null(strstr(text, "2026-03-10<br>same day<"));
	cr_expect_not_null(strstr(text, "1 person, 1 overdue"));
	free(text);
	/* Not overdue; chosen to check the screening. */
	visit.urgency = URGENCY_NO_REFERRAL;
	visit.see_by = day_none();
	text = page(&visit, 0);
	cr_expect_null(strstr(text, " day</b>"));
	cr_expect_not_null(strstr(text, "check only"));
	cr_expect_null(strstr(text, "no referral"), "%s", text);
	cr_expect_not_null(strstr(text, "1 person, 0 overdue"));
	free(text);
	text = page(&visit, 1);
	cr_expect_not_null(strstr(text, "<b>1 day</b>"));
	free(text);
}
