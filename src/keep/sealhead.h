/* sealhead.h: the line with which a sealed file begins. */
#ifndef SHOAL_KEEP_SEALHEAD_H
#define SHOAL_KEEP_SEALHEAD_H

#include "base/fault.h"
#include "keep/keytext.h"

#include <stdbool.h>
#include <stdio.h>

/*
 * One line of text that anybody can read: whose copy it is, how much is sealed
 * behind it and to which key, and seven letters over all that (base/mark.h).
 * They find accidents; that nobody altered the line is known once the file is
 * unsealed, which covers it. Faults are FAULT_INPUT.
 */
enum { SEALHEAD_SIZE = 128 };

#define SEALHEAD_ANOTHER "; take another copy"

struct sealing_label {
	int station;
	char device[7];
	long long entries; /* 0 to 10^12 */
};

struct sealhead {
	struct sealing_label label;
	long long size;		      /* of what is sealed */
	char key[KEYTEXT_CHECK_SIZE]; /* check letters of the public key */
};

/* `line` holds SEALHEAD_SIZE bytes and a NUL. */
void sealhead_write(const struct sealhead *head, char *line);

/* Opens a regular file for reading; NULL is a fault. */
FILE *sealhead_open(const char *path, struct fault *why);

/* Reads the line from a file just opened. `*sealed` false: it is another kind
 * of file, and no fault. */
bool sealhead_take(FILE *in, const char *path, char *line, bool *sealed,
		   struct sealhead *head, struct fault *why);

/* "'path' words", "... is cut short ...", "... was altered ...": always
 * false. */
bool sealhead_refuse(const char *path, const char *words, struct fault *why);
bool sealhead_cut_short(const char *path, struct fault *why);
bool sealhead_altered(const char *path, struct fault *why);

#endif
