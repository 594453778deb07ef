/* grouping.c: the period and the columns by which counts are added up. */
#include "counts/grouping.h"

#include <stdio.h>
#include <string.h>

static const char *const period_names[PERIODS] = {"day", "week", "month",
						  "year", "all"};

/* "allowed are day, week, all" from names that end with NULL. */
static bool
refuse(const char *option, const char *name, size_t length, const char *what,
       const char *const *names, struct fault *why)
{
	char list[200];
	size_t used = 0;

	list[0] = '\0';
	for (size_t i = 0; names[i] != NULL && used < sizeof list; i++)
		used += (size_t)snprintf(list + used, sizeof list - used,
					 "%s%s", i > 0 ? ", " : "", names[i]);
	return fault_set(
		why, FAULT_USAGE, "--%s: '%.*s' is no %s; allowed are %s%s",
		option, (int)(length < 40 ? length : 40), name, what, list,
		strcmp(option, "per") == 0 ? ", joined by commas" : "");
}

static bool
read_period(struct grouping *grouping, const char *by, struct fault *why)
{
	enum grouping_period shortest = grouping->choice->shortest;
	const char *names[PERIODS + 1] = {NULL};

	for (int i = (int)shortest; i < PERIODS; i++) {
		if (strcmp(period_names[i], by) == 0) {
			grouping->period = (enum grouping_period)i;
			return true;
		}
		names[i - (int)shortest] = period_names[i];
	}
	return refuse("by", by, strlen(by), "period", names, why);
}

static bool
read_column(struct grouping *grouping, const char *name, size_t length,
	    struct fault *why)
{
	const char *const *names = grouping->choice->column;
	size_t column = 0;

	while (names[column] != NULL &&
	       (strlen(names[column]) != length ||
		memcmp(names[column], name, length) != 0))
		column++;
	if (names[column] == NULL)
		return refuse("per", name, length, "column to group by", names,
			      why);
	for (size_t i = 0; i < grouping->count; i++)
		if (grouping->column[i] == column)
			return fault_set(why, FAULT_USAGE,
					 "--per: '%s' is named twice",
					 names[column]);
	grouping->column[grouping->count++] = column;
	return true;
}

bool
grouping_read(struct grouping *grouping, const struct grouping_choice *choice,
	      const char *by, const char *per, struct fault *why)
{
	size_t length;

	grouping->choice = choice;
	grouping->count = 0;
	grouping->day = day_none();
	if (!read_period(grouping, by == NULL ? choice->by : by, why))
		return false;
	if (per == NULL)
		per = choice->per;
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
	if (index == 0)
		return period_names[grouping->period];
	return grouping->choice->column[grouping->column[index - 1]];
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

void
grouping_key(struct grouping *grouping, struct day date, const void *row,
	     char *key)
{
	char room[GROUPING_ROOM];
	size_t length;

	if (grouping->day.number != date.number) {
		write_period(grouping->period, date, grouping->text);
		grouping->day = date;
	}
	length = strlen(grouping->text);
	memcpy(key, grouping->text, length + 1);
	for (size_t i = 0; i < grouping->count; i++) {
		const char *value =
			grouping->choice->value(row, grouping->column[i], room);

		key += length;
		*key++ = GROUPING_JOINT;
		length = strlen(value);
		memcpy(key, value, length + 1);
	}
}

const char *
grouping_station(int station, char *room)
{
	snprintf(room, GROUPING_ROOM, "%04u", (unsigned)station % 10000);
	return room;
}

/* --- tallies -------------------------------------------------------------- */

#define COLUMN_INDEX(type, name, ...) COLUMN_##name,
enum { TALLY_COLUMNS(COLUMN_INDEX) COLUMNS };

enum { BY_PROGRAMME, BY_SITE, BY_STATION, BY_SEX, BY_AGE_BAND, BY_POLICY };

static const char *
value_of_tally(const void *of, size_t column, char *room)
{
	const struct counted *row = of;
	const char *sex;
	size_t length;

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
		return grouping_station(row->station, room);
	default:
		break;
	}
	sex = field_word(tally_columns.field[COLUMN_sex].words, row->sex,
			 &length);
	memcpy(room, sex, length);
	room[length] = '\0';
	return room;
}

const struct grouping_choice grouping_tallies = {PERIOD_DAY,
						 "day",
						 "site",
						 {[BY_PROGRAMME] = "programme",
						  [BY_SITE] = "site",
						  [BY_STATION] = "station",
						  [BY_SEX] = "sex",
						  [BY_AGE_BAND] = "age_band",
						  [BY_POLICY] = "policy"},
						 value_of_tally};
