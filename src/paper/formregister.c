/* formregister.c: the pages of the paper register. */
#include "paper/formregister.h"

#include "base/text.h"
#include "clinic/paperrow.h"

#include <string.h>

/* Widths of the columns in tenths of a millimetre; the day, site and grader
 * stand at the head. All but the name and the contact are as narrow as what is
 * circled or written there; the last, not typed in, takes what is left. */
static const struct width {
	const char *name;
	int tenths;
} widths[] = {
	{"number", 245},	 {"name", 340},
	{"contact", 250},	 {"age_years", 95},
	{"age_estimated", 110},	 {"sex", 115},
	{"complaints", 175},	 {"risks", 125},
	{"past_right", 125},	 {"past_left", 125},
	{"signs_right", 125},	 {"signs_left", 125},
	{"depth_right", 105},	 {"not_gradable_why_right", 105},
	{"depth_left", 105},	 {"not_gradable_why_left", 105},
	{"pressure_right", 110}, {"pressure_left", 110},
	{"reply_consent", 120},
};

static bool
is_of_head(int column)
{
	return column >= PAPER_HEAD_FIRST && column <= PAPER_HEAD_LAST;
}

void
form_write_header(FILE *out)
{
	for (int i = 0; i < PAPER_COLUMNS; i++)
		fprintf(out, "%s%s", i == 0 ? "" : ",", paper_columns[i].name);
}

static void
write_head(const struct form_facts *facts, int first, FILE *out)
{
	int pages = (facts->people + REGISTER_LINES - 1) / REGISTER_LINES;
	char page[32];

	snprintf(page, sizeof page, "%d/%d", first / REGISTER_LINES + 1, pages);
	fputs("<div class=\"head\">", out);
	form_given(facts, "forms.programme", facts->station->programme, out);
	for (int i = PAPER_HEAD_FIRST; i <= PAPER_HEAD_LAST; i++) {
		const char *name = paper_columns[i].name;

		fputs("<span><b>", out);
		form_word(facts, "column", name, out);
		fputs("</b> ", out);
		form_line(name, false, out);
		form_name(name, out);
		fputs("</span>\n", out);
	}
	form_given(facts, "forms.page", page, out);
	fputs("</div>\n", out);
}

/* Each eye's columns begin behind a thick line. */
static const char *
class_of(const char *name)
{
	static const char *const thick[] = {"complaints",   "past_right",
					    "signs_right",  "depth_right",
					    "depth_left",   "pressure_right",
					    "reply_consent"};

	for (size_t i = 0; i < sizeof thick / sizeof thick[0]; i++)
		if (strcmp(name, thick[i]) == 0)
			return " thick";
	return "";
}

static void
write_width(const char *name, FILE *out)
{
	for (size_t i = 0; i < sizeof widths / sizeof widths[0]; i++)
		if (strcmp(widths[i].name, name) == 0)
			fprintf(out, "<col style=\"width:%d.%dmm\" />",
				widths[i].tenths / 10, widths[i].tenths % 10);
}

static void
write_headings(const struct form_facts *facts, FILE *out)
{
	fputs("<table>\n<colgroup>", out);
	for (int i = 0; i < PAPER_COLUMNS; i++)
		if (!is_of_head(i))
			write_width(paper_columns[i].name, out);
	fputs("<col /></colgroup>\n<thead><tr>", out);
	for (int i = 0; i < PAPER_COLUMNS; i++) {
		const char *name = paper_columns[i].name;

		if (is_of_head(i))
			continue;
		fprintf(out, "<th class=\"head-of%s\">", class_of(name));
		form_word(facts, "column", name, out);
		form_name(name, out);
		fputs("</th>\n", out);
	}
	fputs("<th class=\"thick\">", out);
	form_words(facts, "forms.register_sent", out);
	fputs("</th></tr></thead>\n", out);
}

/* In the words of the wording; where those are others, what is typed in for
 * them stands below. */
static void
write_yes_no(const struct form_facts *facts, FILE *out)
{
	const char *yes = wording_text(facts->wording, "answer.yes");

	form_words(facts, "answer.yes", out);
	fputc(' ', out);
	form_words(facts, "answer.no", out);
	if (yes != NULL && strcmp(yes, "yes") != 0)
		fputs("<small>yes no</small>", out);
}

/* What is circled: numbers of findings with 0 for none, numbers of reasons,
 * or the words themselves where they are a letter or two. */
static void
write_circles(const struct form_facts *facts, const struct paper_column *column,
	      FILE *out)
{
	const struct field *field = fields_find(paper_row_fields, column->name);
	const char *word;
	size_t length;

	if (column->group != GROUP_COUNT) {
		fputs("0", out);
		for (int i = 1;
		     paper_finding(column->group, i) != FINDING_COUNT; i++)
			fprintf(out, " %d", i);
	} else if (strchr(field->words, '|') != NULL) {
		if (strcmp(field->words, "yes|no") == 0) {
			write_yes_no(facts, out);
			return;
		}
		for (int i = 0;
		     (word = field_word(field->words, i, &length)) != NULL; i++)
			if (strncmp(field->name, "not_", 4) == 0)
				fprintf(out, "%s%d", i > 0 ? " " : "", i + 1);
			else
				fprintf(out, "%s%.*s", i > 0 ? " " : "",
					(int)length, word);
	}
}

static void
write_line(const struct form_facts *facts, int index, FILE *out)
{
	fputs("<tr>", out);
	for (int i = 0; i < PAPER_COLUMNS; i++) {
		const char *name = paper_columns[i].name;

		if (is_of_head(i))
			continue;
		fprintf(out, "<td class=\"circle%s\" data-field=\"%s\">",
			class_of(name), name);
		if (i == 0)
			form_write_number(facts, index, out);
		else
			write_circles(facts, &paper_columns[i], out);
		fputs("</td>", out);
	}
	fputs("<td class=\"circle thick\">", out);
	form_words(facts, "forms.register_sent_letters", out);
	fputs("</td></tr>\n", out);
}

static void
write_key(const struct form_facts *facts, const char *heading,
	  enum finding_group group, FILE *out)
{
	fputs("<div><b>", out);
	form_word(facts, "column", heading, out);
	fputs("</b>", out);
	for (int i = 1; paper_finding(group, i) != FINDING_COUNT; i++) {
		fprintf(out, "<p>%d ", i);
		form_word(facts, "finding",
			  finding_code(paper_finding(group, i)), out);
		fputs("</p>", out);
	}
	fputs("</div>\n", out);
}

static void
write_reasons(const struct form_facts *facts, FILE *out)
{
	const struct field *field = fields_find(visit_fields, "not_gradable_"
							      "why_right");
	const char *word;
	size_t length;

	fputs("<div><b>", out);
	form_word(facts, "column", "not_gradable_why", out);
	fputs("</b>", out);
	for (int i = 0; (word = field_word(field->words, i, &length)) != NULL;
	     i++) {
		char name[64];

		snprintf(name, sizeof name, "why_%.*s", (int)length, word);
		fprintf(out, "<p>%d ", i + 1);
		form_word(facts, "eye", name, out);
		fputs("</p>", out);
	}
	fputs("</div>\n", out);
}

static void
write_keys(const struct form_facts *facts, FILE *out)
{
	fputs("<div class=\"key\">\n", out);
	write_key(facts, "complaints", GROUP_COMPLAINTS, out);
	write_key(facts, "risks", GROUP_RISKS, out);
	write_key(facts, "past", GROUP_EYE_PAST, out);
	write_key(facts, "signs", GROUP_SIGNS, out);
	write_reasons(facts, out);
	fputs("</div>\n<p class=\"typing\">", out);
	form_words(facts, "forms.register_typing", out);
	fputs("<small>", out);
	form_write_header(out);
	fputs("</small> ", out);
	if (!wording_is_reviewed(facts->wording))
		form_words(facts, "approval.wording_not_reviewed", out);
	fputs("</p>\n", out);
}

static void
write_how(const struct form_facts *facts, FILE *out)
{
	static const char *const keys[] = {"forms.register_how",
					   "forms.register_depth",
					   "forms.register_sex",
					   "forms.register_estimated",
					   "forms.register_sent_key"};

	fputs("<p class=\"how\">", out);
	for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
		form_words(facts, keys[i], out);
		fputc(' ', out);
	}
	fputs("</p>\n", out);
}

void
form_write_register(const struct form_facts *facts, FILE *out)
{
	for (int first = 0; first < facts->people; first += REGISTER_LINES) {
		fputs("<section class=\"page\">\n<h1>", out);
		form_words(facts, "forms.register", out);
		fputs("</h1>\n", out);
		write_head(facts, first, out);
		write_how(facts, out);
		write_headings(facts, out);
		fputs("<tbody>\n", out);
		for (int i = first;
		     i < first + REGISTER_LINES && i < facts->people; i++)
			write_line(facts, i, out);
		fputs("</tbody></table>\n", out);
		write_keys(facts, out);
		fputs("</section>\n", out);
	}
}
