/* people.h: invented people for the tests of what is printed. */
#ifndef SHOAL_TESTS_PAPER_PEOPLE_H
#define SHOAL_TESTS_PAPER_PEOPLE_H

#include "base/embedded.h"
#include "base/text.h"
#include "clinic/decide.h"
#include "keep/policyfile.h"
#include "paper/slip.h"
#include "paper/wording.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* Everything a slip is made from, in one piece. */
struct paper {
	struct visit visit;
	struct policy policy;
	struct decision decision;
	struct station station;
	struct wording wording;
	struct slip slip;
};

/* Cases that differ in what a slip must say; fields as NAME=VALUE|... */
#define PERSON_ACUTE                                                       \
	"name=Amina Testcase|sex=F|age_years=68|contact=Third row|"        \
	"depth_right=5|depth_left=15|pressure_right=54|pressure_left=18|"  \
	"findings=eye_pain;nausea;haloes;right:red_eye;right:hazy_cornea;" \
	"right:fixed_pupil"
#define PERSON_RED_EYE                                                        \
	"name=Boru Example|sex=M|age_years=70|depth_right=75|depth_left=100|" \
	"pressure_right=14|pressure_left=15|"                                 \
	"findings=eye_pain;right:red_eye;right:reduced_sight"
#define PERSON_URGENT                                                       \
	"name=Chitra Sample|sex=F|age_years=63|depth_right=5|depth_left=5|" \
	"late=1|entered_at=2026-11-27T05:00:00Z|reply_consent=no"
#define PERSON_ROUTINE                                           \
	"name=Dede Nobody|sex=X|age_years=66|age_estimated=yes|" \
	"depth_right=15|depth_left=15|pressure_right=21|pressure_left=21"
#define PERSON_WELL                                                          \
	"name=Efua Cornea|age_years=50|sex=M|depth_right=100|depth_left=75|" \
	"pressure_right=14|pressure_left=15"
#define PERSON_BORDERLINE                                   \
	"age_years=50|sex=F|depth_right=40|depth_left=100|" \
	"pressure_right=14|pressure_left=15"
#define PERSON_UNGRADABLE                                         \
	"name=Femi Placeholder|age_years=67|sex=M|depth_right=x|" \
	"not_gradable_why_right=pterygium|depth_left=40|pressure_right=16"
#define PERSON_ONE_EYE                                                       \
	"name=Gita Invented|age_years=67|sex=F|depth_right=-|depth_left=25|" \
	"findings=right:not_seeing|pressure_left=16|state=corrected"
#define PERSON_NO_AGE "name=Hana Specimen|depth_right=15|depth_left=100"
#define PERSON_BLIND                                                         \
	"name=Ines Nowhere|age_years=50|sex=F|depth_right=40|depth_left=40|" \
	"findings=right:not_seeing;left:not_seeing|pressure_right=14|"       \
	"pressure_left=15"
#define PERSON_OVERDUE PERSON_ACUTE "|late=1|entered_at=2026-11-25T22:30:00Z"
#define PERSON_OPERATED                                                       \
	"age_years=71|sex=F|depth_right=100|depth_left=100|pressure_right=9|" \
	"findings=right:eye_operation"

static inline void
paper_hear(void *context, const struct fault *one)
{
	(void)context;
	cr_log_error("%s", one->sentence);
}

static inline void
paper_set(struct visit *visit, char *pair)
{
	char *value = strchr(pair, '=');
	const struct field *field;
	struct fault why;

	*value++ = '\0';
	field = fields_find(visit_fields, pair);
	cr_assert_not_null(field, "no field %s", pair);
	cr_assert(field_read(field, value, visit, &why), "%s", why.sentence);
}

/* Judges the person as the record stands now. */
static inline void
paper_judge(struct paper *paper)
{
	char mark[POLICY_MARK_SIZE];

	decide(&paper->policy, &paper->visit, &paper->decision);
	policy_fingerprint(&paper->policy, mark);
	decision_record(&paper->policy, mark, &paper->decision, &paper->visit);
}

/* The compiled-in policy and wording, an invented station, nobody yet. */
static inline struct paper *
paper_open(void)
{
	struct paper *paper = calloc(1, sizeof *paper);
	struct fault why;

	cr_assert_not_null(paper);
	cr_assert(policyfile_read_bytes(
		"policy.ini", (const char *)embedded_policy,
		embedded_policy_size, &paper->policy, paper_hear, NULL, &why));
	cr_assert(wording_read(&paper->wording, NULL, "en", paper_hear, NULL,
			       &why));
	station_init(&paper->station);
	paper->station.code = 14;
	text_copy(paper->station.programme, STATION_TEXT_SIZE,
		  "Lakeside sight programme");
	text_copy(paper->station.clinic_name, STATION_TEXT_SIZE,
		  "Hilltop eye clinic");
	text_copy(paper->station.clinic_cost, STATION_TEXT_SIZE, "free");
	paper->slip = (struct slip){&paper->visit,    &paper->policy,
				    &paper->decision, &paper->station,
				    &paper->wording,  NULL};
	return paper;
}

/* From now on in another of the languages compiled in. */
static inline void
paper_speak(struct paper *paper, const char *language)
{
	struct fault why = {FAULT_NONE, ""};

	cr_assert(wording_read(&paper->wording, NULL, language, paper_hear,
			       NULL, &why),
		  "%s", why.sentence);
}

/* The next person: fields as NAME=VALUE|... over a common start. */
static inline void
paper_person(struct paper *paper, const char *fields)
{
	char start[] = "screened_on=2026-11-25|site=Lakeside school|grader=AB|"
		       "reply_consent=yes|state=current|";
	char text[2048], *rest;

	snprintf(text, sizeof text, "%s%s", start, fields);
	visit_init(&paper->visit);
	paper->visit.number = (struct refnum){14, 7};
	for (char *pair = strtok_r(text, "|", &rest); pair != NULL;
	     pair = strtok_r(NULL, "|", &rest))
		paper_set(&paper->visit, pair);
	paper_judge(paper);
}

/* The slip as text of so many columns, or (0) as HTML. To be freed. */
static inline char *
paper_print(const struct paper *paper, int columns)
{
	char *text = NULL;
	size_t size = 0;
	FILE *out = open_memstream(&text, &size);
	struct fault why = {FAULT_NONE, ""};
	bool done = columns == 0
			    ? slip_write_html(&paper->slip, out, &why)
			    : slip_write_text(&paper->slip, columns, out, &why);

	cr_assert_not_null(out);
	fclose(out);
	cr_assert(done, "%s", why.sentence);
	return text;
}

/* Line ends and what indents the next line become one space, in place. */
static inline char *
paper_unwrap(char *text)
{
	char *to = text;

	for (const char *from = text; *from != '\0'; from++)
		if ((*from != '\n' && *from != ' ') ||
		    (to > text && to[-1] != ' '))
			*to++ = *from == '\n' ? ' ' : *from;
	*to = '\0';
	return text;
}

static inline int
paper_count(const char *text, const char *part)
{
	int count = 0;

	for (; (text = strstr(text, part)) != NULL; text += strlen(part))
		count++;
	return count;
}

#endif
