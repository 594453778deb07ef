/* agebands.c: the age groups of the daily tally. */
#include "clinic/agebands.h"

#include "base/number.h"
#include "base/text.h"

#include <stdio.h>
#include <string.h>

int
age_band_of(const struct age_bands *bands, int age_years)
{
	int band = 0;

	while (band < bands->count && age_years >= bands->from_years[band])
		band++;
	return band;
}

void
age_band_write(const struct age_bands *bands, int band, char *text, size_t size)
{
	int from = band == 0 ? 0 : bands->from_years[band - 1];

	if (band == bands->count)
		snprintf(text, size, "%d+", from);
	else
		snprintf(text, size, "%d-%d", from,
			 bands->from_years[band] - 1);
}

static bool
bands_read(const struct field *field, const char *text, void *value,
	   struct fault *why)
{
	struct age_bands read = {0};
	char item[16];
	long from, least = field->least;

	for (;;) {
		size_t length = strcspn(text, ",");

		if (length >= sizeof item)
			return fault_set(why, FAULT_INPUT,
					 "'%.40s' is not a list of ages; "
					 "write them as 40,50,60",
					 text);
		if (read.count == AGE_BANDS_MOST - 1)
			return fault_set(why, FAULT_INPUT,
					 "at most %d ages are allowed",
					 AGE_BANDS_MOST - 1);
		memcpy(item, text, length);
		item[length] = '\0';
		text_trim(item);
		if (!number_read(item, field->least, field->most, field->words,
				 &from, why))
			return false;
		if (from < least)
			return fault_set(why, FAULT_INPUT,
					 "the ages must rise, but %ld comes "
					 "after %ld",
					 from, least - 1);
		read.from_years[read.count++] = (int)from;
		least = from + 1;
		text += length;
		if (*text++ == '\0')
			break;
	}
	*(struct age_bands *)value = read;
	return true;
}

static void
bands_write(const struct field *field, const void *value, char *text,
	    size_t size)
{
	const struct age_bands *bands = value;

	(void)field;
	text[0] = '\0';
	for (int i = 0; i < bands->count; i++) {
		size_t used = strlen(text);

		snprintf(text + used, size - used, "%s%d", i > 0 ? "," : "",
			 bands->from_years[i]);
	}
}

static void
bands_blank(const struct field *field, void *value)
{
	memset(value, 0, field->size);
}

static bool
bands_is_blank(const struct field *field, const void *value)
{
	(void)field;
	return ((const struct age_bands *)value)->count == 0;
}

const struct field_kind field_bands = {"TEXT", bands_read, bands_write,
				       bands_blank, bands_is_blank};
