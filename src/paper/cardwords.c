/* cardwords.c: what the card of a policy says, as text and as a page alike. */
#include "paper/cardwords.h"

#include "clinic/decide.h"
#include "clinic/describe.h"

#include <stdio.h>
#include <string.h>

void
card_name(const struct card *card, char *text)
{
	snprintf(text, CARD_LINE_SIZE, "%s, version %s", card->policy->name,
		 card->policy->version);
}

void
card_mark(const struct card *card, char *text)
{
	char day[DAY_SIZE];

	day_write(card->printed_on, day);
	snprintf(text, CARD_LINE_SIZE, "Fingerprint %s%s%s", card->mark,
		 day[0] == '\0' ? "" : ", printed on ", day);
}

void
card_approval(const struct card *card, char *text)
{
	char day[DAY_SIZE];

	day_write(card->policy->approved_on, day);
	if (policy_is_approved(card->policy))
		snprintf(text, CARD_LINE_SIZE, "Approved by %s on %s",
			 card->policy->approved_by, day);
	else
		snprintf(text, CARD_LINE_SIZE,
			 "Policy not yet approved by an eye doctor");
}

/* With a large letter first. */
static void
begin_large(char *text)
{
	if (text[0] >= 'a' && text[0] <= 'z')
		text[0] = (char)(text[0] - 'a' + 'A');
}

void
card_heading(const struct card *card, const struct rule *rule, char *text)
{
	static const char *const urgency[URGENCY_COUNT] = {
		[URGENCY_SAME_DAY] = "same day",
		[URGENCY_URGENT] = "urgent",
		[URGENCY_ROUTINE] = "routine",
		[URGENCY_NO_REFERRAL] = "no referral"};
	char outcome[DESCRIBE_SIZE];

	describe_outcome(rule, outcome, sizeof outcome);
	snprintf(text, CARD_LINE_SIZE, "%.200s (%s)", outcome,
		 urgency[urgency_of_days(card->policy,
					 rule->refer_within_days)]);
	begin_large(text);
}

void
card_default(const struct card *card, char *text)
{
	int months = card->policy->rescreen_months;

	snprintf(text, CARD_LINE_SIZE,
		 "Where no rule holds: screen again within %d month%s.", months,
		 months == 1 ? "" : "s");
}

const char *
card_how_to_read(void)
{
	return "Each rule is tried on the right eye and on the left. All that "
	       "it lists must hold for the same eye. The most urgent rule that "
	       "holds decides. A pressure that was not measured meets no rule "
	       "and takes none away.";
}

void
card_cautions(const struct card *card, char *text)
{
	static const struct {
		const char *lead, *key;
	} caution[] = {
		{"", "caution.screening"},
		{" Today: ", "caution.send_now"},
		{" ", "caution.no_patch"},
		{" ", "caution.standing_order"},
		{" ", "caution.shield"},
		{" Shallow, not gradable, or symptoms: ", "caution.no_"
							  "dilating"},
		{" ", "caution.normal_depth"},
	};

	text[0] = '\0';
	for (size_t i = 0; i < sizeof caution / sizeof caution[0]; i++) {
		const char *words = wording_text(card->wording, caution[i].key);
		size_t used = strlen(text);

		snprintf(text + used, CARD_LINE_SIZE - used, "%s%s",
			 caution[i].lead,
			 words == NULL ? caution[i].key : words);
	}
}

void
card_column(const struct card *card, enum grid_column column, char *text)
{
	if (column == GRID_PRESSURE && card->grid->pressure_mmhg != FIELD_BLANK)
		snprintf(text, CARD_LINE_SIZE, "pressure %d mmHg",
			 card->grid->pressure_mmhg);
	else
		snprintf(text, CARD_LINE_SIZE, "%s", grid_column_name(column));
}

void
card_row(int row, char *text)
{
	if (depth_is_graded((enum depth)row))
		snprintf(text, CARD_LINE_SIZE, "%d %%",
			 depth_percent((enum depth)row));
	else
		snprintf(text, CARD_LINE_SIZE, "x");
}

void
card_cell(const struct card *card, int row, enum grid_column column, char *text)
{
	const struct grid_cell *cell = &card->grid->cell[row][column];

	if (cell->within_days == 0)
		snprintf(text, CARD_LINE_SIZE, "today");
	else if (cell->within_days != FIELD_BLANK)
		snprintf(text, CARD_LINE_SIZE, "%d day%s", cell->within_days,
			 cell->within_days == 1 ? "" : "s");
	else
		snprintf(text, CARD_LINE_SIZE, "no, %d month%s",
			 cell->rescreen_months,
			 cell->rescreen_months == 1 ? "" : "s");
}

/* A grid in which a rule with an age limit is silent must say so. */
static void
note_age(const struct grid *grid, char *text, size_t size)
{
	if (grid->age_limits == 0)
		snprintf(text, size, "no rule has an age limit");
	else if (grid->age_rules == 0)
		snprintf(text, size,
			 "rules with an age limit, of which there %s %d, "
			 "do not hold then",
			 grid->age_limits == 1 ? "is" : "are",
			 grid->age_limits);
	else
		snprintf(text, size,
			 "%d of the %d rules with an age limit can hold then, "
			 "at no age fewer",
			 grid->age_rules, grid->age_limits);
}

void
card_grid_note(const struct card *card, char *text)
{
	const struct grid *grid = card->grid;
	char age[120], pressure[160];

	note_age(grid, age, sizeof age);
	if (grid->pressure_mmhg == FIELD_BLANK)
		snprintf(pressure, sizeof pressure,
			 "never measured (no rule refers by pressure)");
	else
		snprintf(pressure, sizeof pressure,
			 "not measured, but %d mmHg in both eyes in the last "
			 "column, %s of a rule that refers",
			 grid->pressure_mmhg,
			 grid->pressure_is_over ? "just above the lowest "
						  "\"above\" limit"
						: "the lowest \"or more\" "
						  "limit");
	snprintf(text, CARD_LINE_SIZE,
		 "Decided for a person with both eyes at that depth (x: could "
		 "not be graded), age %d (%s), pressure %s. Halo spells: %s. "
		 "Eye pain: %s. \"today\" and days: referred within that time; "
		 "\"no\" and months: no referral, screened again within that "
		 "time.",
		 grid->age_years, age, pressure, finding_about(PAST_SPELLS),
		 finding_about(EYE_PAIN));
}

const char *
card_signature(void)
{
	return "Agreed. Name, signature and day of the licensed eye doctor:";
}
