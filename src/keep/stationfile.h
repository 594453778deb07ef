/* stationfile.h: what differs from one laptop to the next. */
#ifndef SHOAL_KEEP_STATIONFILE_H
#define SHOAL_KEEP_STATIONFILE_H

#include "base/fault.h"
#include "base/field.h"

#include <stddef.h>
#include <stdio.h>

/*
 * Station and clinic, as they stand on the slip. Nothing here bears on who is
 * referred, so it is not part of the policy's fingerprint. Texts of at most 60
 * or 120 characters; what may be empty is printed as a line to fill by hand.
 * Needed are the code, the programme and the site. The clinic's name may follow
 * later, before the first slip that refers.
 */
enum { STATION_TEXT_SIZE = 120 * 4 + 1 };

struct station {
	int code; /* 1 to 9999, written with four digits: 0014; blank 0 */
	char programme[STATION_TEXT_SIZE];
	char site[STATION_TEXT_SIZE];
	char phone[STATION_TEXT_SIZE];
	char clinic_name[STATION_TEXT_SIZE];
	char clinic_address[STATION_TEXT_SIZE];
	char clinic_days[STATION_TEXT_SIZE];
	char clinic_door[STATION_TEXT_SIZE];
	char clinic_cost[STATION_TEXT_SIZE];
	char clinic_phone[STATION_TEXT_SIZE];
	char language[4]; /* "en": two or three small letters */
	char public_key[STATION_TEXT_SIZE]; /* see keytext.h */
};

/* The file's sections [station], [clinic], [slip], [backup]. In the file the
 * keys are code, programme, site, phone; name, address, days, door, cost,
 * phone; language; key, which keytext_read takes. */
struct station_section {
	const char *name;
	struct fields fields; /* offsets into struct station */
};

enum { STATION_SECTIONS = 4 };
extern const struct station_section station_sections[STATION_SECTIONS];

/* A station of which nothing is known but that it prints in English. */
void station_init(struct station *station);

/* All faults are told to `hear`, each with file:line; then false, FAULT_POLICY,
 * with a closing sentence. A key that is not needed may be missing. */
bool stationfile_read(const char *path, struct station *station,
		      fault_hear *hear, void *context, struct fault *why);

/*
 * Writes the compiled-in template (config/station.ini) with the station's
 * values in place of its own, comments kept. Before anything is written,
 * FAULT_INPUT refuses what stationfile_read would refuse: a needed value that
 * is blank, a text with a double quote or a backslash. `out` is not closed; a
 * failed write is FAULT_OUTPUT.
 */
bool stationfile_write(const struct station *station, FILE *out,
		       struct fault *why);

#endif
