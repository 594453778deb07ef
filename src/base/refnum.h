/* refnum.h: the referral number on every paper, SSSS-NNNNN-CC. */
#ifndef SHOAL_BASE_REFNUM_H
#define SHOAL_BASE_REFNUM_H

#include "base/fault.h"

/*
 * Eleven digits: four of the station (0001-9999, one per device), five of the
 * serial (00001-99999, rising by one per person screened, never reused) and
 * two check digits by ISO/IEC 7064 MOD 97-10 over the nine before them.
 * Serials from REFNUM_PAPER_FIRST on are printed on paper pads for days
 * without a laptop; the program never gives one out.
 */
struct refnum {
	int station; /* 1 to 9999; 0 = no number yet */
	int serial;  /* 1 to 99999; 0 = no number yet */
};

enum {
	REFNUM_SIZE = 14, /* "0014-00001-23" and its NUL */
	REFNUM_STATION_MOST = 9999,
	REFNUM_PAPER_FIRST = 90001,
	REFNUM_SERIAL_MOST = 99999
};

bool refnum_is_none(struct refnum number);
bool refnum_is_paper(struct refnum number);

/* Writes the grouped form (or "" for none); `text` holds REFNUM_SIZE bytes. */
void refnum_write(struct refnum number, char *text);

/* Reads eleven digits; spaces and hyphens between them are ignored, and at the
 * end the tab or line end that a scanner types. Refused (FAULT_INPUT): another
 * length or character, check digits 00, 01, 99 or wrong ones, station 0000,
 * serial 00000. Nothing is repaired by itself. */
bool refnum_read(const char *text, struct refnum *number, struct fault *why);

/* Check digits (2 to 98) of a string of digits of any length by ISO/IEC 7064
 * MOD 97-10: the number followed by them leaves 1 on division by 97. */
int refnum_check_digits(const char *digits);

#endif
