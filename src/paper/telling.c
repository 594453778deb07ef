/* telling.c: phrases handed one by one to whoever prints them. */
#include "paper/telling.h"

#include "paper/slipcase.h"

#include <string.h>

enum { KEY_SIZE = 64 };

void
tell(const struct telling *to, const char *key)
{
	struct phrase phrase = {key, {{NULL, NULL, false}}};

	to->see(to->context, &phrase);
}

void
tell_with(const struct telling *to, const char *key, const char *name,
	  const char *text)
{
	struct phrase phrase = {key, {{name, text, false}}};

	to->see(to->context, &phrase);
}

/* With a text that somebody typed. */
void
tell_typed(const struct telling *to, const char *key, const char *name,
	   const char *text)
{
	struct phrase phrase = {key, {{name, text, true}}};

	to->see(to->context, &phrase);
}

const char *
tell_words(const struct telling *to, const char *section, const char *name)
{
	char key[KEY_SIZE];
	const char *text;

	snprintf(key, sizeof key, "%s.%s", section, name);
	text = wording_text(to->slip->wording, key);
	return text == NULL ? "" : text;
}

void
tell_date(const struct telling *to, struct day day, const char *key, char *text)
{
	static const char *const months[] = {"january", "february", "march",
					     "april",	"may",	    "june",
					     "july",	"august",   "september",
					     "october", "november", "december"};
	char of_month[12], of_year[12], digits[DAY_SIZE];
	int year, month, number;
	struct phrase phrase = {key,
				{{"day", of_month, false},
				 {"month", NULL, false},
				 {"year", of_year, false},
				 {"digits", digits, false}}};

	text[0] = '\0';
	if (day_is_none(day))
		return;
	day_parts(day, &year, &month, &number);
	snprintf(of_month, sizeof of_month, "%d", number);
	if (number == 1)
		phrase.value[0].text = tell_words(to, "date", "first_day");
	snprintf(of_year, sizeof of_year, "%d", year);
	day_write(day, digits);
	phrase.value[1].text = tell_words(to, "date", months[month - 1]);
	phrase_fill(to->slip->wording, &phrase, text, TELL_DATE_SIZE);
}

static const char *const urgency_names[] = {
	[URGENCY_SAME_DAY] = "same_day",
	[URGENCY_URGENT] = "urgent",
	[URGENCY_ROUTINE] = "routine",
	[URGENCY_NO_REFERRAL] = "no_referral",
};

const char *
tell_urgency_name(const struct slip *slip)
{
	return urgency_names[slip->decision->urgency];
}

void
tell_when(const struct telling *to, const char *prefix)
{
	const struct decision *decision = to->slip->decision;
	struct day screened_on = to->slip->visit->screened_on;
	struct day day = day_none();
	char key[KEY_SIZE], date[TELL_DATE_SIZE];
	bool referred = slip_is_referred(to->slip);
	const char *pattern = !referred ? "date.month_of_year"
			      : strcmp(prefix, "clinic") == 0 ? "date.with_"
								"digits"
							      : "date.full";

	snprintf(key, sizeof key, "urgency.%s_%s", prefix,
		 referred && visit_is_overdue(to->slip->visit)
			 ? "overdue"
			 : tell_urgency_name(to->slip));
	if (!day_is_none(screened_on))
		day = referred ? day_plus_days(screened_on,
					       decision->within_days)
			       : day_plus_months(screened_on,
						 decision->rescreen_months);
	tell_date(to, day, pattern, date);
	tell_with(to, key, referred ? "date" : "month", date);
}
