/* serials.c: serials that may have been given out without an entry. */
#include "keep/serials.h"

#include "base/number.h"
#include "keep/stationrow.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>

bool
serials_read_from(struct store *store, int form, int *serial, struct fault *why)
{
	char found[STORE_NUMBER_SIZE];
	long number = 1;

	if (!stationrow_ask(store, form,
			    "name GLOB 'serials_from_*' ORDER BY CAST(value "
			    "AS INTEGER) DESC LIMIT 1",
			    found, sizeof found, why))
		return false;
	if (found[0] != '\0' &&
	    !number_read(found, 1, REFNUM_PAPER_FIRST, "", &number, why))
		return store_misread(why);
	*serial = (int)number;
	return true;
}

bool
serials_keep_from(struct store *store, int serial, struct fault *why)
{
	char written[STORE_NUMBER_SIZE];

	snprintf(written, sizeof written, "%d", serial);
	return stationrow_add_next(store, "serials_from", written, why);
}

/* Of a file's name such as 0014-00023-32.html. */
static int
serial_of(const char *name, int station)
{
	char digits[REFNUM_SIZE];
	struct refnum number;
	struct fault ignored;
	size_t length = strcspn(name, ".");

	if (length != REFNUM_SIZE - 1)
		return 0;
	memcpy(digits, name, length);
	digits[length] = '\0';
	if (!refnum_read(digits, &number, &ignored) ||
	    number.station != station || refnum_is_paper(number))
		return 0;
	return number.serial;
}

int
serials_of_slips(const char *folder, int station)
{
	DIR *listing = opendir(folder);
	const struct dirent *one;
	int highest = 0;

	if (listing == NULL)
		return 0;
	/* cppcheck-suppress readdirCalled */
	while ((one = readdir(listing)) != NULL) {
		int serial = serial_of(one->d_name, station);

		if (serial > highest)
			highest = serial;
	}
	closedir(listing);
	return highest;
}
