/* formparts.h: pieces that several forms are made of. */
#ifndef SHOAL_PAPER_FORMPARTS_H
#define SHOAL_PAPER_FORMPARTS_H

#include "base/field.h"
#include "base/refnum.h"
#include "clinic/agebands.h"
#include "clinic/findings.h"
#include "keep/stationfile.h"
#include "paper/wording.h"

#include <stddef.h>
#include <stdio.h>

/* What forms are printed for. Nothing is copied. */
struct form_facts {
	const struct station *station;
	const struct wording *wording;
	const struct age_bands *bands;
	int from;   /* serial of the first person */
	int people; /* how many have a line or a slip */
};

/* Something that a form puts in the place of {{name}}. */
struct form_piece {
	const char *name;
	void (*write)(const struct form_facts *facts, FILE *out);
};

/* The words of a key, escaped; of section.name. The key itself where there is
 * none: tests hold every key to the English file. */
void form_words(const struct form_facts *facts, const char *key, FILE *out);
void form_word(const struct form_facts *facts, const char *section,
	       const char *name, FILE *out);

/* "<b>WORDS</b> VALUE", or a line to write on where the value is "". */
void form_given(const struct form_facts *facts, const char *key,
		const char *value, FILE *out);

/* The eye at a place (0 or 1) of a row, in the order of reading: on paper the
 * right eye stands on the left whatever the language. */
enum eye form_eye(const struct form_facts *facts, int place);

/* That nobody has reviewed the words yet; nothing when somebody has. */
void form_write_review(const struct form_facts *facts, FILE *out);

/* The number of person `index` (from 0); a code for scanners with it. */
struct refnum form_number(const struct form_facts *facts, int index);
void form_write_number(const struct form_facts *facts, int index, FILE *out);
void form_write_code(const struct form_facts *facts, int index, FILE *out);

/* A place to write on, named for the tests by the field it is for. */
void form_line(const char *name, bool is_long, FILE *out);

/* The name under which something is typed in, in small type; it may break
 * behind each '_'. */
void form_name(const char *name, FILE *out);

/* Boxes to tick, one for each of "a|b|c"; `numbered`: with their numbers. */
void form_boxes(const struct form_facts *facts, const char *words,
		bool numbered, FILE *out);

/* A field as one question: heading, then boxes or a line; `shown` prints the
 * name under which it is typed in. */
void form_asked(const struct form_facts *facts, const struct field *field,
		const char *heading, bool shown, FILE *out);

#endif
