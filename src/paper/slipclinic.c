/* slipclinic.c: the clinic's part of a slip: who, where, what was seen. */
#include "paper/slipclinic.h"

#include "paper/slipcase.h"

enum { KEY_SIZE = 64, LIST_SIZE = 4096 };

void
tell_urgency(const struct telling *to)
{
	if (slip_is_check(to->slip))
		tell(to, "urgency.clinic_check");
	else
		tell_when(to, "clinic");
}

static void
write_age(const struct telling *to, char *text, size_t size)
{
	const struct visit *visit = to->slip->visit;
	char years[12];
	struct phrase phrase = {"slip.age", {{"years", years, false}}};

	snprintf(years, sizeof years, "%d", visit->age_years);
	if (visit->age_years == FIELD_BLANK)
		phrase.key = "slip.age_unknown";
	else if (visit->age_estimated == ANSWER_YES)
		phrase.key = "slip.age_about";
	phrase_fill(to->slip->wording, &phrase, text, size);
}

void
tell_person(const struct telling *to)
{
	static const char *const sexes[] = {
		[SEX_F] = "sex_f", [SEX_M] = "sex_m", [SEX_X] = "sex_x"};
	const struct visit *visit = to->slip->visit;
	char age[TELL_DATE_SIZE];
	const char *sex = visit->sex == FIELD_BLANK ? "sex_unknown"
						    : sexes[visit->sex];
	struct phrase phrase = {"slip.person",
				{{"sex", tell_words(to, "slip", sex), false},
				 {"age", age, false}}};

	write_age(to, age, sizeof age);
	to->see(to->context, &phrase);
	tell_typed(to, "slip.contact", "contact", visit->contact);
}

/* The day of a time of entry, 2026-11-25T07:04:09Z. */
static struct day
day_of_entry(const struct visit *visit)
{
	char text[DAY_SIZE];
	struct day day;
	struct fault why;

	snprintf(text, sizeof text, "%.10s", visit->entered_at);
	return day_read(text, &day, &why) ? day : day_none();
}

void
tell_camp(const struct telling *to)
{
	const struct visit *visit = to->slip->visit;
	char date[TELL_DATE_SIZE];

	tell_typed(to, "slip.programme", "programme",
		   to->slip->station->programme);
	tell_typed(to, "slip.site", "site", visit->site);
	tell_date(to, visit->screened_on, "date.with_digits", date);
	tell_with(to, "slip.screened_on", "date", date);
	if (visit->late == 1) {
		tell_date(to, day_of_entry(visit), "date.with_digits", date);
		tell_with(to, "slip.entered_on", "date", date);
	}
	tell_typed(to, "slip.grader", "grader", visit->grader);
	tell_typed(to, "slip.phone", "phone", to->slip->station->phone);
}

/* The words for the choice of the field not_gradable_why_EYE. */
static const char *
not_gradable_words(const struct telling *to)
{
	const struct field *field = fields_find(visit_fields, "not_gradable_"
							      "why_right");
	int reason = visit_not_gradable_why(to->slip->visit, to->eye);
	size_t length = 0;
	const char *word = reason == FIELD_BLANK
				   ? NULL
				   : field_word(field->words, reason, &length);
	char name[KEY_SIZE];

	if (word == NULL)
		return tell_words(to, "eye", "why_not_recorded");
	snprintf(name, sizeof name, "why_%.*s", (int)length, word);
	return tell_words(to, "eye", name);
}

void
tell_depth(const struct telling *to)
{
	enum depth depth = visit_depth(to->slip->visit, to->eye);
	char name[KEY_SIZE];

	if (depth == DEPTH_NO_EYE)
		tell(to, "eye.no_eye");
	if (depth == DEPTH_NOT_GRADABLE)
		tell_with(to, "eye.not_gradable", "why",
			  not_gradable_words(to));
	if (!depth_is_graded(depth))
		return;
	snprintf(name, sizeof name, "depth_%d", depth_percent(depth));
	tell_with(to, "eye.depth", "depth", tell_words(to, "eye", name));
}

void
tell_pressure(const struct telling *to)
{
	int pressure = visit_pressure(to->slip->visit, to->eye);
	char mmhg[12];

	snprintf(mmhg, sizeof mmhg, "%d", pressure);
	if (pressure != FIELD_BLANK)
		tell_with(to, "eye.pressure", "mmhg", mmhg);
	else if (slip_lacks_pressure(to->slip, to->eye))
		tell(to, "eye.no_pressure");
}

/* The findings of the set in words, in the order of their table. */
static void
write_findings(const struct telling *to, finding_set set, char *text,
	       size_t size)
{
	text[0] = '\0';
	for (int i = 0; i < FINDING_COUNT; i++)
		if ((set & finding_bit((enum finding)i)) != 0)
			phrase_join(to->slip->wording, text, size,
				    tell_words(to, "finding",
					       finding_code((enum finding)i)));
}

void
tell_eye_findings(const struct telling *to)
{
	const struct findings *findings = &to->slip->visit->findings;
	finding_set found = findings_at_eye(findings, to->eye) &
			    ~findings->person;
	char list[LIST_SIZE];

	/* What the rules go by is not true of an eye that does not see, or is
	 * not there. */
	if ((found & finding_bit(NOT_SEEING)) != 0 ||
	    visit_depth(to->slip->visit, to->eye) == DEPTH_NO_EYE)
		found &= ~finding_bit(ONLY_SEEING_EYE);
	write_findings(to, found, list, sizeof list);
	if (list[0] != '\0')
		tell_with(to, "eye.findings", "findings", list);
	else if (visit_depth(to->slip->visit, to->eye) != DEPTH_NO_EYE)
		tell(to, "eye.no_findings");
}

void
tell_reports(const struct telling *to)
{
	char list[LIST_SIZE];

	write_findings(to, to->slip->visit->findings.person, list, sizeof list);
	if (list[0] == '\0')
		tell(to, "slip.no_findings");
	else
		tell_with(to, "slip.findings", "findings", list);
}

void
tell_sender(const struct telling *to)
{
	const struct station *station = to->slip->station;
	struct phrase phrase = {"reply.sender",
				{{"programme", station->programme, true},
				 {"site", to->slip->visit->site, true}}};

	to->see(to->context, &phrase);
	tell_typed(to, "slip.phone", "phone", station->phone);
}
