/* agebands.h: the age groups of the daily tally. */
#ifndef SHOAL_CLINIC_AGEBANDS_H
#define SHOAL_CLINIC_AGEBANDS_H

#include "base/field.h"

#include <stddef.h>

enum { AGE_BANDS_MOST = 9 };

/* Ages at which a new band of the daily tally begins, rising: 40, 50 make
 * 0-39, 40-49 and 50+. */
struct age_bands {
	int count; /* 1 to AGE_BANDS_MOST - 1; 0 = not given */
	int from_years[AGE_BANDS_MOST - 1];
};

/* The band of an age, 0 to bands->count; its name as "0-39" or "70+". */
int age_band_of(const struct age_bands *bands, int age_years);
void age_band_write(const struct age_bands *bands, int band, char *text,
		    size_t size);

/* struct age_bands, as "40,50,60,70": rising ages between the field's least
 * and most; blank = none given. */
extern const struct field_kind field_bands;

#endif
