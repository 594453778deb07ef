/* yieldwords.c: shares of a yield in a few characters. */
#include "paper/yieldwords.h"

#include <stdio.h>

const char *
yieldwords_percent(double fraction, char *text)
{
	double value = 100 * fraction;

	if (value <= 0 || value >= 100)
		snprintf(text, YIELDWORDS_SIZE, "%d", value <= 0 ? 0 : 100);
	else if (value < 0.05)
		snprintf(text, YIELDWORDS_SIZE, "<0.1");
	else if (value >= 99.95)
		snprintf(text, YIELDWORDS_SIZE, ">99.9");
	else
		snprintf(text, YIELDWORDS_SIZE, "%.1f", value);
	return text;
}

const char *
yieldwords_share(const struct yield_share *share, char *text)
{
	char value[YIELDWORDS_SIZE], low[YIELDWORDS_SIZE],
		high[YIELDWORDS_SIZE];

	if (!share->has)
		snprintf(text, YIELDWORDS_SIZE, "-");
	else if (!share->has_interval)
		yieldwords_percent(share->value, text);
	else
		snprintf(text, YIELDWORDS_SIZE, "%.8s (%.8s-%.8s)",
			 yieldwords_percent(share->value, value),
			 yieldwords_percent(share->low, low),
			 yieldwords_percent(share->high, high));
	return text;
}

const char *
yieldwords_bounds(const struct yield_share *share, char *text)
{
	char low[YIELDWORDS_SIZE], high[YIELDWORDS_SIZE];

	if (!share->has)
		snprintf(text, YIELDWORDS_SIZE, "-");
	else if (share->low >= share->high)
		yieldwords_percent(share->low, text);
	else
		snprintf(text, YIELDWORDS_SIZE, "%.8s-%.8s",
			 yieldwords_percent(share->low, low),
			 yieldwords_percent(share->high, high));
	return text;
}

const char *
yieldwords_count(int count, char *text)
{
	snprintf(text, YIELDWORDS_SIZE, "%d", count);
	return text;
}

const char *
yieldwords_people(int count)
{
	return count == 1 ? "person" : "people";
}
