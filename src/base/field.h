/* field.h: one table per record; everything else loops over it. */
#ifndef SHOAL_BASE_FIELD_H
#define SHOAL_BASE_FIELD_H

#include "base/fault.h"

#include <stddef.h>

/*
 * A record (a person, a policy rule, a station, a tally row) is a plain struct
 * described by an array of `struct field`: one line per column with its name,
 * kind, limits and the words shown for it. CSV headers, the store's schema,
 * the questions asked, the checks and the keys of INI files are loops over
 * such an array, so a new column is one line.
 *
 * A kind is one row of functions: how a value is read from text, written as
 * text, left blank. "Not recorded" is the kind's own blank; it is never 0 and
 * never a word that later reads as normal. Kinds that know about eyes stand
 * beside what they read (depth, findings, policy).
 */
struct field;

struct field_kind {
	const char *sql_type; /* INTEGER or TEXT */
	/* Strict reading of a text that is not empty into `value`. */
	bool (*read)(const struct field *field, const char *text, void *value,
		     struct fault *why);
	/* The canonical text of a value that is not blank. */
	void (*write)(const struct field *field, const void *value, char *text,
		      size_t size);
	void (*blank)(const struct field *field, void *value);
	bool (*is_blank)(const struct field *field, const void *value);
};

enum field_need { FIELD_OPTIONAL, FIELD_NEEDED };

/* Who gives the value: somebody at the keyboard, or the program. */
enum field_origin { FIELD_TYPED, FIELD_MADE };

struct field {
	const char *name;	       /* column or key */
	const struct field_kind *kind; /* how it is read and written */
	size_t offset;		       /* in the record */
	size_t size;		       /* bytes in the record */
	long least, most;	       /* count: value; text: characters */
	enum field_need need;
	enum field_origin origin;
	const char *words; /* choices, sets "F|M|X"; the unit of a count */
	const char *about; /* a few plain words that name it to a person */
};

/* A table of fields and its length. */
struct fields {
	const struct field *field;
	size_t count;
};

/* Where a member of a record lies: the offset and size of its field. */
#define FIELD_AT(record, member) \
	offsetof(struct record, member), sizeof(((struct record *)NULL)->member)

/* A column that the program makes and that must be there in every row; least
 * 0. For the lists of columns of files that travel. */
#define FIELD_COLUMN(record, name, kind, most, words)                  \
	{                                                              \
#name, &field_##kind, FIELD_AT(record, name), 0, most, \
			FIELD_NEEDED, FIELD_MADE, words, ""            \
	}

enum {
	FIELD_TEXT_SIZE = 3072, /* holds any written value */
	FIELD_BLANK = -1	/* blank of counts and choices */
};

/* int between least and most; blank FIELD_BLANK; `words` is the unit. */
extern const struct field_kind field_count;
/* int, index into `words` separated by '|'; blank FIELD_BLANK. */
extern const struct field_kind field_choice;
/* Of a choice whose words are "yes|no". */
enum { ANSWER_YES, ANSWER_NO };
/* int, a set: bit i for the word i of `words`, read and written as words joined
 * by ';' (read also by ','); blank 0, no word. */
extern const struct field_kind field_set;
/* char[size], checked by text_check; blank "". */
extern const struct field_kind field_text;
/* struct day; blank day_none(). */
extern const struct field_kind field_day;
/* struct refnum; blank {0, 0}. */
extern const struct field_kind field_refnum;

/* Reads `text` into the record. "" makes it blank, or is refused when the
 * field is needed. The sentence begins with the field's name. */
bool field_read(const struct field *field, const char *text, void *record,
		struct fault *why);

/* Writes the value, "" when blank; `text` of FIELD_TEXT_SIZE bytes holds any
 * value. */
void field_write(const struct field *field, const void *record, char *text,
		 size_t size);

void field_blank(const struct field *field, void *record);
bool field_is_blank(const struct field *field, const void *record);

/* Makes every field of the record blank. */
void fields_blank(struct fields fields, void *record);

/* The field of that name, or NULL. */
const struct field *fields_find(struct fields fields, const char *name);

/* The field whose name is nearest to a mistyped one, or NULL. */
const struct field *fields_nearest(struct fields fields, const char *name);

/* Seven letters (see mark.h) over the values of a record, all but its last
 * field, which is there to hold them. */
enum { FIELDS_MARK_SIZE = 8 };
void fields_mark(struct fields fields, const void *record, char *letters);

/* The word at `index` of a list "a|b|c"; its length in `*length`. NULL past
 * the end. */
const char *field_word(const char *words, int index, size_t *length);

#endif
