/* test_slip.c: what the paper says that each person leaves with. */
#include "paper/slip.h"

#include "people.h"

/* "@rule" stands for the words of that rule in the policy. */
enum { SAYINGS_MOST = 14 };

static const struct row {
	const char *what;
	const char *fields;
	const char *must[SAYINGS_MOST];
	const char *never[SAYINGS_MOST];
} rows[] = {
	{"same day",
	 PERSON_ACUTE,
	 {"Go to the eye clinic today", "Today, 25 November 2026",
	  "Name: Amina Testcase", "Female, age 68", "Village or phone: Third",
	  "Right eye: @acute-closure-seen", "Right eye: @very-high-pressure",
	  "Both eyes: @shallow", "Pressure: 54 mmHg",
	  "Findings: red eye, hazy cornea, pupil mid-wide",
	  "The person reports: pain in or around the eye or brow, nausea",
	  "send now, with someone", "Do not dilate at the camp.",
	  "Go now. Do not wait until tomorrow."},
	 {"not measured", "Be there by", "A normal depth", "age not known"}},
	{"urgent, typed in later, without consent",
	 PERSON_URGENT,
	 {"Go to the eye clinic soon", "Be there by 9 December 2026",
	  "Urgent: please see by 9 December 2026", "Both eyes: @very-shallow",
	  "Pressure not measured in either eye.", "Pressure: not measured",
	  "Screened on 25 November 2026",
	  "Written on paper first, typed in on 27 November 2026",
	  "The patient does not agree that the clinic writes back.",
	  "Do not send the result back, only keep it.",
	  "Show this paper before you get any eye drops.",
	  "Take somebody with you"},
	 {"The patient agrees", "Please send this part back",
	  "pressure in your eyes"}},
	{"routine, age estimated",
	 PERSON_ROUTINE,
	 {"Go to the eye clinic", "Be there by 25 December 2026",
	  "Routine: please see by 25 December 2026", "Other sex, age about 66",
	  "You may see well today. Go even so.", "Both eyes: @shallow",
	  "Depth: 15 %, about a seventh", "####################...|",
	  "Age estimated: a rule about age may be wrong by some years.",
	  "The patient agrees that the clinic writes back.",
	  "Please send this part back.", "Policy not yet approved by an eye"},
	 {"Typed in", "Approved by", "clinic soon"}},
	{"nothing found",
	 PERSON_WELL,
	 {"Not sent to a clinic today", "Be screened again in November 2028",
	  "This does not prove that your eyes are healthy.",
	  "We looked at the front of the eye, not the back.",
	  "Go to an eye clinic at once, any day, with: - eye pain - a red "
	  "eye - coloured rings round lights - sudden loss of sight",
	  "No rule of the policy was met.",
	  "Gonioscopy, dilated examination, optic nerve and field of sight not "
	  "done here.",
	  "A normal depth does not rule out glaucoma",
	  "No referral. Next screening: November 2028",
	  "Screening, not a diagnosis.", "Eye clinic: Hilltop eye clinic",
	  "Cost: free"},
	 {"Why sent", "Reply from", "Tear off", "Be there", "Do not dilate",
	  "We did not measure"}},
	{"sooner than most",
	 PERSON_BORDERLINE,
	 {"Be screened again in November 2027", "Name: ________",
	  "Village or phone: ________",
	  "Why this date for the next screening - Right eye: "
	  "@borderline-depth"},
	 {"Why sent", "No rule of the policy"}},
	{"not gradable",
	 PERSON_UNGRADABLE,
	 {"Depth: could not be graded, growth over the edge of the cornea",
	  "Right eye: @could-not-be-graded",
	  "Pressure of the left eye not measured.",
	  "Do not dilate at the camp."},
	 {"@borderline-depth", "Pressure of the right eye not"}},
	{"one eye, corrected",
	 PERSON_ONE_EYE,
	 {"Corrected paper: it replaces the earlier one.", "No eye to grade",
	  "Findings: does not see", "Findings: the only seeing eye",
	  "Left eye: @shallow-with-added-risk"},
	 {"Both eyes:", "not measured", "about an eye that cannot"}},
	{"the other eye is not there",
	 "age_years=50|sex=F|depth_right=100|depth_left=-|pressure_right=14|"
	 "findings=right:not_seeing",
	 {"No eye to grade"},
	 {"only seeing eye"}},
	{"neither eye sees",
	 PERSON_BLIND,
	 {"Right eye Depth: 40 %, two fifths", "Findings: does not see",
	  "Ask an eye doctor about an eye that cannot see."},
	 {"only seeing eye"}},
	/* Typed in on the next morning, which in the east is the same day of
	 * the time of entry. */
	{"same day, and the day is over",
	 PERSON_OVERDUE,
	 {"Go to the eye clinic today", "At once: 25 November 2026 has passed",
	  "Overdue: was to be seen by 25 November 2026"},
	 {"Today, 25", "please see"}},
	{"urgent, and the day is over",
	 PERSON_URGENT "|entered_at=2026-12-10T05:00:00Z",
	 {"At once: 9 December 2026 has passed", "Overdue: was to be seen "
						 "by 9 December 2026"},
	 {"Be there by"}},
	{"urgent, on its last day",
	 PERSON_URGENT "|entered_at=2026-12-09T05:00:00Z",
	 {"Be there by 9 December 2026"},
	 {"Overdue", "has passed"}},
	/* No second reading for who goes now. */
	{"same day, with rules that could wait",
	 "age_years=60|sex=F|depth_right=25|depth_left=5|pressure_left=23|"
	 "findings=eye_pain;right:red_eye",
	 {"send now, with someone", "Do not dilate at the camp."},
	 {"send at once if", "repeat the pressure"}},
	{"age not known",
	 PERSON_NO_AGE,
	 {"Sex not recorded, age not known",
	  "Age not known, so every rule about age was taken as met.",
	  "Right eye: @shallow-under-forty"},
	 {"age about", "Age estimated"}},
	{"freshly operated",
	 PERSON_OPERATED,
	 {"Injured or freshly operated eye: shield", "Right eye: "
						     "@recent-operation"},
	 {"Why sent"}},
	{"void",
	 PERSON_ACUTE "|state=void",
	 {"Not valid: do not use this paper."},
	 {"Go to the eye clinic today", "Go now", "Reply from", "Today, ",
	  "Why sent"}},
	{"void, by any policy",
	 PERSON_WELL "|state=void",
	 {"Not valid: do not use this paper."},
	 {"No referral", "ext screening", "Why this date",
	  "Policy: ", "does not rule out"}},
	/* Worked case 2 of the policy: not a word about angle closure. */
	{"painful red eye",
	 PERSON_RED_EYE,
	 {"Right eye: @painful-red-eye", "Go to the eye clinic today"},
	 {"losure", "narrow", "plateau iris", "shallow", "Show this paper"}},
};

/* Puts the words of a rule in place of its name. */
static const char *
expand(const struct paper *paper, const char *saying, char *text, size_t size)
{
	const char *at = strchr(saying, '@');
	const struct rule *rule;

	if (at == NULL)
		return saying;
	rule = policy_rule(&paper->policy, at + 1);
	cr_assert_not_null(rule, "%s", saying);
	snprintf(text, size, "%.*s%s", (int)(at - saying), saying,
		 policy_say(&paper->policy, rule));
	return text;
}

static void
look_for(const struct paper *paper, const struct row *row, const char *page)
{
	char text[RULE_SAY_SIZE + 64];

	for (int i = 0; i < SAYINGS_MOST && row->must[i] != NULL; i++)
		cr_expect_not_null(strstr(page, expand(paper, row->must[i],
						       text, sizeof text)),
				   "%s: no '%s'", row->what, row->must[i]);
	for (int i = 0; i < SAYINGS_MOST && row->never[i] != NULL; i++)
		cr_expect_null(strstr(page, expand(paper, row->never[i], text,
						   sizeof text)),
			       "%s: '%s'", row->what, row->never[i]);
}

Test(slip, each_person_gets_the_words_that_the_case_needs)
{
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(rows); i++) {
		char *text;

		paper_person(paper, rows[i].fields);
		text = paper_unwrap(paper_print(paper, SLIP_COLUMNS));
		look_for(paper, &rows[i], text);
		free(text);
		text = paper_unwrap(paper_print(paper, SLIP_COLUMNS_NARROW));
		look_for(paper, &rows[i], text);
		free(text);
	}
	free(paper);
}

Test(slip, who_is_chosen_by_number_is_asked_without_a_fright)
{
	/* clang-format off */
	static const struct row chosen = {
		"chosen by number", NULL,
		{"Go for one more look Be screened again in November 2028",
		 "Today we found no reason to send you on.",
		 "They are chosen by number, not by what we saw.",
		 "Take somebody with you, this paper",
		 "Chosen by number, to check the screening",
		 "The patient agrees that the clinic writes back.",
		 "Reply from the eye clinic"},
		{"Not sent to a clinic", "Why sent", "Be there by",
		 "No referral."}};
	/* clang-format on */
	static const char *const others[] = {PERSON_ROUTINE, PERSON_ACUTE,
					     PERSON_WELL "|state=void"};
	struct paper *paper = paper_open();
	char *page;

	paper->policy.verify_every = 7;
	paper_person(paper, PERSON_WELL);
	page = paper_unwrap(paper_print(paper, SLIP_COLUMNS));
	look_for(paper, &chosen, page);
	free(page);
	for (size_t i = 0; i <= COUNT(others); i++) {
		/* The last time the number is another one. */
		paper->policy.verify_every = i < COUNT(others) ? 7 : 6;
		paper_person(paper,
			     i < COUNT(others) ? others[i] : PERSON_WELL);
		page = paper_unwrap(paper_print(paper, SLIP_COLUMNS));
		cr_expect_null(strstr(page, "hosen by number"), "row %zu", i);
		cr_expect_null(strstr(page, "one more look"), "row %zu", i);
		free(page);
	}
	free(paper);
}

/* The page is of other marks, so only what must never be said. */
Test(slip, the_page_says_nothing_that_the_text_must_not_say)
{
	struct paper *paper = paper_open();

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct row row = rows[i];
		char *page;

		paper_person(paper, row.fields);
		row.must[0] = NULL;
		page = paper_print(paper, 0);
		look_for(paper, &row, page);
		free(page);
	}
	free(paper);
}

static void
expect_in_order(const char *page, const char *const *parts, size_t count,
		const char *what)
{
	for (size_t i = 0; i < count; i++) {
		const char *at = strstr(page, parts[i]);

		cr_expect_not_null(at, "%s: no '%s' in its place", what,
				   parts[i]);
		page = at == NULL ? page : at + strlen(parts[i]);
	}
}

Test(slip, the_patient_comes_first_then_the_clinic_then_the_reply)
{
	static const char *const parts[] = {
		"Go to the eye clinic today",
		"0014-00007-80",
		"Hilltop eye clinic",
		"For the eye clinic",
		"Why sent",
		"Also found",
		"Policy",
		"Reply from the eye clinic",
		"0014-00007-80",
		"Seen on",
	};
	static const int forms[] = {SLIP_COLUMNS, SLIP_COLUMNS_NARROW, 0};
	struct paper *paper = paper_open();

	paper_person(paper, PERSON_ACUTE);
	for (size_t i = 0; i < COUNT(forms); i++) {
		char what[32];
		char *page = paper_print(paper, forms[i]);
		const char *body = strstr(page, "<body");

		snprintf(what, sizeof what, "form %d", forms[i]);
		expect_in_order(body == NULL ? page : body, parts, COUNT(parts),
				what);
		free(page);
	}
	free(paper);
}

Test(slip, deciding_reasons_stand_before_the_others_and_advice_only_once)
{
	struct paper *paper = paper_open();
	char *text;
	const struct rule *first, *last;

	paper_person(paper, "age_years=70|depth_right=0|depth_left=5");
	text = paper_unwrap(paper_print(paper, SLIP_COLUMNS));
	first = policy_rule(&paper->policy, "iris-touching-cornea");
	last = policy_rule(&paper->policy, "very-shallow");
	cr_assert(first != NULL && last != NULL);
	cr_expect_lt(strstr(text, policy_say(&paper->policy, first)),
		     strstr(text, "Also found"));
	cr_expect_gt(strstr(text, policy_say(&paper->policy, last)),
		     strstr(text, "Also found"));
	cr_expect_str_eq(policy_advise(&paper->policy, first),
			 policy_advise(&paper->policy, last));
	cr_expect_eq(paper_count(text, policy_advise(&paper->policy, first)), 1,
		     "%s", text);
	free(text);
	free(paper);
}

Test(slip, rules_that_only_rescreen_are_silent_when_something_refers)
{
	struct paper *paper = paper_open();
	const struct rule *rule = policy_rule(&paper->policy, "close-relative");
	char *text;

	cr_assert_not_null(rule);
	paper_person(paper, PERSON_WELL "|findings=family_closure");
	text = paper_unwrap(paper_print(paper, SLIP_COLUMNS));
	cr_expect_not_null(strstr(text, policy_say(&paper->policy, rule)));
	free(text);
	paper_person(paper, PERSON_ROUTINE "|findings=family_closure");
	text = paper_unwrap(paper_print(paper, SLIP_COLUMNS));
	cr_expect_null(strstr(text, policy_say(&paper->policy, rule)));
	free(text);
	free(paper);
}

Test(slip, approval_is_said_with_name_and_day)
{
	struct paper *paper = paper_open();
	char mark[POLICY_MARK_SIZE], wanted[64];
	char *text;

	text_copy(paper->policy.approved_by, POLICY_NAME_SIZE,
		  "Dr Invented Person");
	cr_assert(day_make(2026, 11, 1, &paper->policy.approved_on));
	policy_fingerprint(&paper->policy, mark);
	paper_person(paper, PERSON_ROUTINE);
	text = paper_unwrap(paper_print(paper, SLIP_COLUMNS));
	cr_expect_not_null(strstr(text, "Approved by Dr Invented Person on 1 "
					"November 2026."));
	cr_expect_null(strstr(text, "not yet approved"));
	snprintf(wanted, sizeof wanted, "fingerprint %s.", mark);
	cr_expect_not_null(strstr(text, wanted));
	free(text);
	free(paper);
}

Test(slip, another_policy_than_the_one_that_judged_is_refused)
{
	struct paper *paper = paper_open();
	char page[64] = "";
	FILE *out = fmemopen(page, sizeof page, "w");
	struct fault why = {FAULT_NONE, ""};

	cr_assert_not_null(out);
	paper_person(paper, PERSON_ROUTINE);
	paper->policy.rescreen_months++;
	cr_expect_not(slip_write_text(&paper->slip, 72, out, &why));
	cr_expect_eq(why.kind, FAULT_INTERNAL);
	cr_expect_not(slip_write_html(&paper->slip, out, &why));
	fclose(out);
	cr_expect_str_eq(page, "");
	free(paper);
}
