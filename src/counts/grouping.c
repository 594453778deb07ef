/* grouping.c: the period and the columns by which counts are added up. */
#include "counts/grouping.h"

#include <stdio.h>
#include <string.h>

static const char *const period_names[PERIODS] = {"day", "week", "month",
						  "year", "all"};
static const char *const column_names[GROUPING_COLUMNS_MOST] = {
	"programme", "site", "station", "sex", "age_band", "policy"};

#define COLUMN_INDEX(type, name, ...) COLUMN_##name,
enum { TALLY_COLUMNS(COLUMN_INDEX) COLUMNS };

#define PERIODS_ARE "allowed are day, week, month, year, all"
#define COLUMNS_ARE                                                            \
	"allowed are programme, site, station, sex, age_band, policy, joined " \
	"by commas"

static bool
read_period(struct grouping *grouping, const char *by, struct fault *why)
{
	for (int i = 0; i < PERIODS; i++)
		if (strcmp(period_names[i], by) == 0) {
			grouping->period = (enum grouping_period)i;
			return true;
		}
	return fault_set(why, FAULT_USAGE,
			 "--by: '%.40s' is no period; " PERIODS_ARE, by);
}

static bool
read_column(struct grouping *grouping, const char *name, size_t length,
	    struct fault *why)
{
	int column = 0;

	while (column < GROUPING_COLUMNS_MOST &&
	       (strlen(column_names[column]) != length ||
		memcmp(column_names[column], name, length) != 0))
		column++;
	if (column == GROUPING_COLUMNS_MOST)
		return fault_set(why, FAULT_USAGE,
				 "--per: '%.*s' is no column to group "
				 "by; " COLUMNS_ARE,
				 (int)(length < 40 ? length : 40), name);
	for (size_t i = 0; i < grouping->count; i++)
		if (grouping->column[i] == (enum grouping_column)column)
			return fault_set(why, FAULT_USAGE,
					 "--per: '%s' is named twice",
					 column_names[column]);
	grouping->column[grouping->count++] = (enum grouping_column)column;
	return true;
}

bool
grouping_read(struct grouping *grouping, const char *by, const char *per,
	      struct fault *why)
{
	size_t length;

	grouping->count = 0;
	grouping->day = day_none();
	if (!read_period(grouping, by == NULL ? "day" : by, why))
		return false;
	if (per == NULL)
		per = "site";
	while (*per != '\0') {
		length = strcspn(per, ",");
		if (!read_column(grouping, per, length, why))
			return false;
		per += length;
		if (*per == ',' && *++per == '\0')
			return read_column(grouping, "", 0, why);
	}
	return true;
}

size_t
grouping_titles(const struct grouping *grouping)
{
	return 1 + grouping->count;
}

const char *
grouping_title(const struct grouping *grouping, size_t index)
{
	return index == 0 ? period_names[grouping->period]
			  : column_names[grouping->column[index - 1]];
}

static void
write_period(enum grouping_period period, struct day day, char *text)
{
	if (period == PERIOD_ALL)
		memcpy(text, "all", 4);
	else if (period == PERIOD_WEEK)
		day_write_week(day, text);
	else
		day_write(day, text);
	if (period == PERIOD_MONTH)
		text[7] = '\0';
	else if (period == PERIOD_YEAR)
		text[4] = '\0';
}

/* `number` has room for a station's code and the words of a sex. */
static const char *
value_of(const struct counted *row, enum grouping_column column, char *number)
{
	size_t length;
	const char *sex;

	switch (column) {
	case BY_PROGRAMME:
		return row->programme;
	case BY_SITE:
		return row->site;
	case BY_AGE_BAND:
		return row->age_band;
	case BY_POLICY:
		return row->policy;
	case BY_STATION:
		snprintf(number, 8, "%04u", (unsigned)row->station % 10000);
		return number;
	case BY_SEX:
		break;
	}
	sex = field_word(tally_columns.field[COLUMN_sex].words, row->sex,
			 &length);
	memcpy(number, sex, length);
	number[length] = '\0';
	return number;
}

void
grouping_key(struct grouping *grouping, const struct counted *row, char *key)
{
	char number[8];
	size_t length;

	if (grouping->day.number != row->date.number) {
		write_period(grouping->period, row->date, grouping->text);
		grouping->day = row->date;
	}
	length = strlen(grouping->text);
	memcpy(key, grouping->text, length + 1);
	for (size_t i = 0; i < grouping->count; i++) {
		const char *value = value_of(row, grouping->column[i], number);

		key += length;
		*key++ = GROUPING_JOINT;
		length = strlen(value);
		memcpy(key, value, length + 1);
	}
}
