/* fuzz_station.c: a station file is refused with a sentence, or what was read
 * is written and read again without a difference.
 *
 * seeds: tests/fuzz/seeds/station config
 * options: -max_len=2500
 */
#include "fuzz.h"
#include "keep/stationfile.h"

static void
check_same(const struct station *one, const struct station *other)
{
	for (int i = 0; i < STATION_SECTIONS; i++) {
		char *text = fuzz_written(station_sections[i].fields, one);
		char *again = fuzz_written(station_sections[i].fields, other);

		FUZZ_HOLD(strcmp(text, again) == 0);
		free(text);
		free(again);
	}
}

static void
check_round_trip(const struct station *station)
{
	struct fault why = {FAULT_NONE, ""};
	struct station again;
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);
	int faults = 0;

	FUZZ_HOLD(out != NULL);
	/* Read is also a quote within an unquoted value, which the writer
	 * refuses (see its header). */
	if (!stationfile_write(station, out, &why)) {
		fuzz_sentence(&why, FAULT_INPUT);
		FUZZ_HOLD(strstr(why.sentence, "double quote") != NULL);
		fclose(out);
		free(text);
		return;
	}
	fclose(out);
	station_init(&again);
	FUZZ_HOLD(stationfile_read(fuzz_file("again.ini", text, size), &again,
				   fuzz_hear, &faults, &why));
	check_same(station, &again);
	free(text);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	const char *path = fuzz_file("station.ini", bytes, length);
	struct fault why = {FAULT_NONE, ""};
	struct station station;
	int faults = 0;

	station_init(&station);
	if (!stationfile_read(path, &station, fuzz_hear, &faults, &why)) {
		fuzz_sentence(&why, FAULT_POLICY);
		return 0;
	}
	FUZZ_HOLD(faults == 0);
	FUZZ_HOLD(station.code >= 1 && station.code <= 9999);
	FUZZ_HOLD(station.programme[0] != '\0' && station.site[0] != '\0');
	FUZZ_HOLD(fuzz_is_harmless(station.clinic_door));
	check_round_trip(&station);
	return 0;
}
