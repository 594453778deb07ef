/* callsheet.c: who is to be called about a missing reply, as a page. */
#include "paper/callsheet.h"

#include "base/text.h"

#include <string.h>

static const char style[] =
	"@page{size:A4 landscape;margin:9mm}\n"
	"body{font:10pt/1.25 sans-serif;color:#000;background:#fff;margin:0}\n"
	"h1{font-size:1.5em;margin:0}\n"
	"p{margin:0 0 1.5mm}\n"
	".mind{border:.5mm solid #000;padding:1mm 2mm;font-weight:bold}\n"
	"table{border-collapse:collapse;width:100%}\n"
	"td,th{border:.2mm solid #000;padding:1mm 1.5mm;text-align:left;"
	"vertical-align:top}\n"
	"td{overflow-wrap:anywhere}\n"
	"thead{display:table-header-group}\n"
	"tr{break-inside:avoid}\n"
	".box{display:inline-block;width:4mm;height:4mm;border:.3mm solid "
	"#000}\n"
	"table+p{margin-top:2mm}\n"
	".tick{width:18mm}.line{width:44mm}.plain{white-space:nowrap}\n"
	"@media screen{body{max-width:279mm;margin:5mm auto;padding:0 3mm}}\n"
	"@media screen and (max-width:285mm){table{display:block;"
	"overflow-x:auto}td{overflow-wrap:normal}}\n";

void
callsheet_begin(const struct station *station, struct day today, FILE *out)
{
	char day[DAY_SIZE];

	day_write(today, day);
	fprintf(out,
		"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n"
		"<meta charset=\"utf-8\">\n<meta name=\"viewport\" "
		"content=\"width=device-width\">\n<title>Call sheet "
		"%s</title>\n"
		"<style>\n%s</style>\n</head>\n<body>\n<h1>Call sheet: sent to "
		"the clinic, no reply yet</h1>\n<p>",
		day, style);
	text_write_html(out, station->programme);
	fprintf(out, ", station %04d, %s. Clinic: ", station->code, day);
	text_write_html(out, station->clinic_name);
	fputs("</p>\n<p class=\"mind\">This sheet has names. Keep it locked "
	      "away, do not copy or photograph it, and destroy it when it is "
	      "entered. Say to nobody but the person why you call.</p>\n"
	      "<table>\n<thead><tr><th>overdue</th><th>to be seen by</th>"
	      "<th>number</th><th>name</th><th>phone or village</th>"
	      "<th>screened at</th><th class=\"tick\">called</th>"
	      "<th class=\"tick\">will come</th>"
	      "<th class=\"tick\">came elsewhere</th>"
	      "<th class=\"line\">why not; when, where</th></tr></thead>\n"
	      "<tbody>\n",
	      out);
}

static void
write_field(const struct visit *visit, const char *name, FILE *out)
{
	char value[FIELD_TEXT_SIZE];

	field_write(fields_find(visit_fields, name), visit, value,
		    sizeof value);
	for (char *at = value; (at = strchr(at, '_')) != NULL;)
		*at = ' ';
	text_write_html(out, value);
}

void
callsheet_row(const struct visit *visit, int days_over, FILE *out)
{
	fputs("<tr><td class=\"plain\">", out);
	if (days_over > 0)
		fprintf(out, "<b>%d day%s</b>", days_over,
			days_over == 1 ? "" : "s");
	fputs("</td><td class=\"plain\">", out);
	write_field(visit, "see_by", out);
	fputs("<br>", out);
	if (visit->urgency == URGENCY_NO_REFERRAL)
		fputs("check only", out);
	else
		write_field(visit, "urgency", out);
	fputs("</td><td class=\"plain\">", out);
	write_field(visit, "number", out);
	fputs("</td><td>", out);
	text_write_html(out, visit->name);
	fputs("</td><td>", out);
	text_write_html(out, visit->contact);
	fputs("</td><td>", out);
	text_write_html(out, visit->site);
	fputs("<br>", out);
	write_field(visit, "screened_on", out);
	for (int i = 0; i < 3; i++)
		fputs("</td><td><span class=\"box\"></span>", out);
	fputs("</td><td></td></tr>\n", out);
}

void
callsheet_end(long people, long overdue, FILE *out)
{
	fprintf(out,
		"</tbody>\n</table>\n<p>%ld %s, %ld overdue. Enter what was "
		"learnt with: shoal reply NUMBER</p>\n</body>\n</html>\n",
		people, people == 1 ? "person" : "people", overdue);
}
