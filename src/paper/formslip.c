/* formslip.c: slips to be filled in by hand. */
#include "paper/formslip.h"

#include "base/text.h"
#include "clinic/paperrow.h"
#include "paper/phrase.h"
#include "paper/replyhtml.h"

#include <string.h>

/* --- the patient's half --------------------------------------------------- */

/* One of the three ways to go, to be ticked. */
static const struct way {
	const char *class, *headline, *by;
	const char *say[2];
} ways[] = {
	{"soon today",
	 "urgency.same_day",
	 NULL,
	 {"patient.same_day_1", "patient.same_day_4"}},
	{"soon",
	 "urgency.routine",
	 "forms.slip_by",
	 {"patient.urgent_2", "patient.urgent_3"}},
	{"soon",
	 "urgency.no_referral",
	 "forms.slip_again",
	 {"patient.no_referral_2", "patient.no_referral_4"}},
};

static void
write_way(const struct form_facts *facts, const struct way *way, FILE *out)
{
	fprintf(out, "<div class=\"%s\"><h1><span class=\"box\"></span>",
		way->class);
	form_words(facts, way->headline, out);
	fputs("</h1>", out);
	if (way->by != NULL) {
		fputs("<p class=\"by\">", out);
		form_words(facts, way->by, out);
		fputs(" <span class=\"fill\"></span></p>", out);
	}
	for (int i = 0; i < 2; i++) {
		fputs("<p>", out);
		form_words(facts, way->say[i], out);
		fputs("</p>", out);
	}
	fputs("</div>\n", out);
}

static void
write_where(const struct form_facts *facts, int index, FILE *out)
{
	const struct station *station = facts->station;
	const struct phrase lines[] = {
		{"patient.clinic", {{"clinic", station->clinic_name, true}}},
		{"patient.address",
		 {{"address", station->clinic_address, true}}},
		{"patient.door", {{"door", station->clinic_door, true}}},
		{"patient.phone", {{"phone", station->clinic_phone, true}}},
		{"patient.days", {{"days", station->clinic_days, true}}},
		{"patient.cost", {{"cost", station->clinic_cost, true}}},
		{"patient.if_closed", {{NULL, NULL, false}}}};

	fputs("<div class=\"where\"><div>", out);
	for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
		fputs("<span>", out);
		phrase_write_html(facts->wording, &lines[i], out);
		fputs("</span> ", out);
	}
	fputs("</div>", out);
	form_write_code(facts, index, out);
	fputs("</div>\n", out);
}

static void
write_at_once(const struct form_facts *facts, FILE *out)
{
	static const char *const signs[] = {"patient.at_once_pain",
					    "patient.at_once_red",
					    "patient.at_once_haloes",
					    "patient.at_once_sight"};

	fputs("<div class=\"once\"><h3>", out);
	form_words(facts, "patient.at_once", out);
	fputs("</h3>", out);
	for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
		fputs("<span class=\"sign\">", out);
		form_words(facts, signs[i], out);
		fputs("</span> ", out);
	}
	fputs("</div>\n<p>", out);
	form_words(facts, "patient.not_a_diagnosis", out);
	fputs("</p>\n", out);
}

static void
write_patient(const struct form_facts *facts, int index, FILE *out)
{
	fputs("<div class=\"half patient\">\n<div class=\"who\"><span>", out);
	form_word(facts, "column", "name", out);
	fputs(" <span class=\"fill\"></span></span>", out);
	form_write_number(facts, index, out);
	fputs("</div>\n", out);
	for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
		write_way(facts, &ways[i], out);
	fputs("<p>", out);
	form_words(facts, "patient.bring", out);
	fputs("</p>\n<p>", out);
	form_words(facts, "patient.show_before_drops", out);
	fputs("</p>\n", out);
	write_where(facts, index, out);
	write_at_once(facts, out);
	fputs("</div>\n", out);
}

/* --- the clinic's half ---------------------------------------------------- */

static const struct field *
field_of(const char *name)
{
	return fields_find(visit_fields, name);
}

static void
write_findings(const struct form_facts *facts, const char *name,
	       enum finding_group group, FILE *out)
{
	fprintf(out, "<p class=\"asked\" data-field=\"%s\"><b>", name);
	form_word(facts, "column", name, out);
	fputs("</b> ", out);
	for (int i = 1; paper_finding(group, i) != FINDING_COUNT; i++) {
		fputs("<span class=\"tick\"><span class=\"box\"></span>", out);
		form_word(facts, "finding",
			  finding_code(paper_finding(group, i)), out);
		fputs("</span> ", out);
	}
	fputs("</p>\n", out);
}

/* One row per finding of an eye, a box for the right and one for the left. */
static void
write_eye_findings(const struct form_facts *facts, const char *stem,
		   enum finding_group group, FILE *out)
{
	for (int i = 1; paper_finding(group, i) != FINDING_COUNT; i++) {
		fputs("<tr><td class=\"name\">", out);
		form_word(facts, "finding",
			  finding_code(paper_finding(group, i)), out);
		for (int place = 0; place < EYE_COUNT; place++) {
			fputs("</td><td", out);
			if (i == 1)
				fprintf(out, " data-field=\"%s_%s\"", stem,
					eye_name(form_eye(facts, place)));
			fputs("><span class=\"box\"></span>", out);
		}
		fputs("</td></tr>\n", out);
	}
}

static void
write_depth_boxes(FILE *out)
{
	for (int i = 0; i <= DEPTH_NO_EYE; i++) {
		char text[8];

		depth_write((enum depth)i, text);
		fprintf(out,
			"<span class=\"tick\"><span class=\"box\"></span>%s"
			"</span> ",
			text);
	}
}

static void
write_reason_boxes(const struct form_facts *facts, const struct field *field,
		   FILE *out)
{
	const char *word;
	size_t length;

	for (int i = 0; (word = field_word(field->words, i, &length)) != NULL;
	     i++) {
		char key[80];

		snprintf(key, sizeof key, "why_%.*s", (int)length, word);
		fputs("<span class=\"tick\"><span class=\"box\"></span>", out);
		form_word(facts, "eye", key, out);
		fputs("</span> ", out);
	}
}

/* Depth, reason and pressure: a row each, right and left. */
static void
write_eye_row(const struct form_facts *facts, const char *stem,
	      const char *heading, FILE *out)
{
	fputs("<tr><td class=\"name\"><b>", out);
	form_word(facts, "column", heading, out);
	fputs("</b></td>", out);
	for (int place = 0; place < EYE_COUNT; place++) {
		const struct field *field;
		char name[64];

		snprintf(name, sizeof name, "%s_%s", stem,
			 eye_name(form_eye(facts, place)));
		field = field_of(name);
		fprintf(out, "<td data-field=\"%s\">", name);
		if (field->kind == &field_depth)
			write_depth_boxes(out);
		else if (strchr(field->words, '|') != NULL)
			write_reason_boxes(facts, field, out);
		fputs("</td>", out);
	}
	fputs("</tr>\n", out);
}

static void
write_eye_heads(const struct form_facts *facts, const char *class, FILE *out)
{
	fprintf(out, "<table class=\"%s\"><tr><th class=\"name\"></th><th>",
		class);
	for (int place = 0; place < EYE_COUNT; place++) {
		fputs(place == 0 ? "" : "</th><th>", out);
		form_words(facts,
			   form_eye(facts, place) == EYE_RIGHT ? "slip.right_"
								 "eye"
							       : "slip.left_"
								 "eye",
			   out);
	}
	fputs("</th></tr>\n", out);
}

static void
write_eyes(const struct form_facts *facts, FILE *out)
{
	write_eye_heads(facts, "found", out);
	write_eye_findings(facts, "past", GROUP_EYE_PAST, out);
	write_eye_findings(facts, "signs", GROUP_SIGNS, out);
	fputs("</table>\n", out);
	write_eye_heads(facts, "measured", out);
	write_eye_row(facts, "depth", "depth", out);
	write_eye_row(facts, "not_gradable_why", "not_gradable_why", out);
	write_eye_row(facts, "pressure", "pressure", out);
	fputs("</table>\n", out);
}

static void
write_person(const struct form_facts *facts, FILE *out)
{
	static const char *const asked[] = {"screened_on",  "grader",
					    "site",	    "name",
					    "contact",	    "age_years",
					    "age_estimated"};

	for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++)
		form_asked(facts, field_of(asked[i]), asked[i], false, out);
	fputs("<p class=\"asked short\" data-field=\"sex\"><b>", out);
	form_word(facts, "column", "sex", out);
	fputs("</b> ", out);
	for (int i = 0; i < SEX_COUNT; i++) {
		static const char *const keys[SEX_COUNT] = {
			"slip.sex_f", "slip.sex_m", "slip.sex_x"};

		fputs("<span class=\"tick\"><span class=\"box\"></span>", out);
		form_words(facts, keys[i], out);
		fputs("</span> ", out);
	}
	fputs("</p>\n", out);
}

static void
write_sent(const struct form_facts *facts, FILE *out)
{
	static const char *const notes[] = {"caution.screening",
					    "not_done.at_the_camp",
					    "caution.normal_depth"};

	fputs("<p class=\"asked\"><b>", out);
	form_words(facts, "forms.slip_how_soon", out);
	fputs("</b> ", out);
	form_boxes(facts, field_of("urgency")->words, false, out);
	fputs("</p>\n<p class=\"asked why\"><b>", out);
	form_words(facts, "forms.slip_why", out);
	fputs("</b> <span class=\"fill long\"></span></p>\n<p "
	      "class=\"notes\">",
	      out);
	for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++) {
		form_words(facts, notes[i], out);
		fputc(' ', out);
	}
	fputs("</p>\n", out);
	form_write_review(facts, out);
}

static void
write_clinic(const struct form_facts *facts, int index, FILE *out)
{
	fputs("<div class=\"half clinic\">\n<div class=\"top\"><h2>", out);
	form_words(facts, "slip.part_clinic", out);
	fputs("</h2><span data-field=\"number\">", out);
	form_write_number(facts, index, out);
	fputs("</span></div>\n<p>", out);
	form_given(facts, "forms.programme", facts->station->programme, out);
	fputs("</p>\n", out);
	write_person(facts, out);
	write_findings(facts, "complaints", GROUP_COMPLAINTS, out);
	write_findings(facts, "risks", GROUP_RISKS, out);
	write_eyes(facts, out);
	form_asked(facts, field_of("reply_consent"), "reply_consent", false,
		   out);
	write_sent(facts, out);
	fputs("</div>\n", out);
}

/* --- the reply ------------------------------------------------------------ */

static void
write_reply(const struct form_facts *facts, int index, FILE *out)
{
	const struct station *station = facts->station;
	const struct phrase sender = {"reply.sender",
				      {{"programme", station->programme, true},
				       {"site", "", true}}};

	fputs("<div class=\"half reply\">\n<div class=\"top\"><h2>", out);
	form_words(facts, "reply.title", out);
	fputs("</h2>", out);
	form_write_number(facts, index, out);
	fputs("</div>\n", out);
	form_write_code(facts, index, out);
	fputs("<p>", out);
	phrase_write_html(facts->wording, &sender, out);
	fputs("</p>\n<p>", out);
	form_words(facts, "consent.ask_first", out);
	fputs("</p>\n", out);
	reply_write_html(facts->wording, out);
	fputs("</div>\n", out);
}

void
form_write_slips(const struct form_facts *facts, FILE *out)
{
	for (int i = 0; i < facts->people; i++) {
		fputs("<section class=\"page\">\n", out);
		write_patient(facts, i, out);
		write_clinic(facts, i, out);
		fputs("</section>\n<section class=\"page\">\n", out);
		write_reply(facts, i, out);
		fputs("</section>\n", out);
	}
}
