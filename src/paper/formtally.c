/* formtally.c: the day, counted by hand. */
#include "paper/formtally.h"

#include "base/text.h"
#include "counts/tally.h"
#include "paper/phrase.h"

#include <string.h>

void
form_write_tally_head(const struct form_facts *facts, FILE *out)
{
	char code[8];

	snprintf(code, sizeof code, "%04d", facts->station->code);
	form_given(facts, "forms.programme", facts->station->programme, out);
	form_given(facts, "forms.station", code, out);
	form_given(facts, "column.site", "", out);
	form_given(facts, "column.screened_on", "", out);
}

static bool
is_counted(const struct field *field)
{
	return strcmp(field->name, "late_entries") != 0;
}

/* Its heading is a figure; the others' are words, and want the room. */
static bool
is_depth(const struct field *field)
{
	return strncmp(field->name, "depth_", 6) == 0;
}

/* Behind these a box is ticked when what was written adds up. */
static bool
ends_a_sum(const char *name)
{
	return strcmp(name, "no_referral") == 0 ||
	       strcmp(name, "not_gradable") == 0;
}

static void
write_heading(const struct form_facts *facts, const struct field *field,
	      FILE *out)
{
	if (!is_depth(field)) {
		form_word(facts, "column", field->name, out);
		return;
	}
	fputs("<bdi dir=\"ltr\">", out);
	form_word(facts, "column", field->name, out);
	fputs(" %</bdi>", out);
}

static void
write_headings(const struct form_facts *facts, FILE *out)
{
	fputs("<thead><tr><th>", out);
	form_words(facts, "forms.tally_who", out);
	fputs("</th>\n", out);
	for (size_t i = 0; i < tally_count_fields.count; i++) {
		const struct field *field = &tally_count_fields.field[i];

		if (!is_counted(field))
			continue;
		fputs(is_depth(field) ? "<th class=\"depth\">" : "<th>", out);
		write_heading(facts, field, out);
		fputs("</th>\n", out);
		if (!ends_a_sum(field->name))
			continue;
		fputs("<th class=\"agrees\">", out);
		form_words(facts, "forms.tally_agrees", out);
		fputs("</th>\n", out);
	}
	fputs("</tr></thead>\n<tbody>\n", out);
}

static void
write_cells(bool named, FILE *out)
{
	for (size_t i = 0; i < tally_count_fields.count; i++) {
		const struct field *field = &tally_count_fields.field[i];

		if (!is_counted(field))
			continue;
		if (named)
			fprintf(out, "<td data-field=\"%s\"></td>",
				field->name);
		else
			fputs("<td></td>", out);
		if (ends_a_sum(field->name))
			fputs("<td class=\"agrees\"><span class=\"box\"></span>"
			      "</td>",
			      out);
	}
	fputs("</tr>\n", out);
}

static void
write_row(const struct form_facts *facts, int sex, int band, FILE *out)
{
	static const char *const sexes[TALLY_SEXES] = {"sex_f", "sex_m",
						       "sex_x", "sex_unknown"};
	char text[TALLY_BAND_SIZE], key[32];
	struct phrase who = {"slip.person", {{"age", text, false}}};

	snprintf(key, sizeof key, "slip.%s", sexes[sex]);
	who.value[1].name = "sex";
	who.value[1].text = wording_text(facts->wording, key);
	if (band > facts->bands->count)
		who.value[0].text = wording_text(facts->wording, "slip.age_"
								 "unknown");
	else
		age_band_write(facts->bands, band, text, sizeof text);
	fprintf(out, "<tr%s><th>", band == 0 ? " class=\"sex\"" : "");
	phrase_write_html(facts->wording, &who, out);
	fputs("</th>", out);
	write_cells(false, out);
}

void
form_write_tally(const struct form_facts *facts, FILE *out)
{
	write_headings(facts, out);
	for (int sex = 0; sex < TALLY_SEXES; sex++)
		for (int band = 0; band <= facts->bands->count + 1; band++)
			write_row(facts, sex, band, out);
	fputs("<tr class=\"sum\"><th>", out);
	form_words(facts, "forms.tally_sum", out);
	fputs("</th>", out);
	write_cells(true, out);
	fputs("</tbody>\n", out);
}
