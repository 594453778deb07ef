/* iniscan.h: the program's own scan of an INI file, line by line. */
#ifndef SHOAL_KEEP_INISCAN_H
#define SHOAL_KEEP_INISCAN_H

#include "base/fault.h"
#include "keep/iniline.h"

#include <stddef.h>

/*
 * The scan keeps the line of each section and key, and refuses what a lenient
 * reader would hide: all that iniline.h refuses in a line, UTF-16, lines ending
 * in CR alone, a section or key twice (the first line is named), a key before
 * any section. One byte-order mark at the start is skipped; CRLF is fine.
 */
enum { INI_FILE_MOST = 65536 /* bytes */, INI_ENTRIES_MOST = 1200 };

/*
 * A section line (key[0] == '\0') or a key. The pointers lead into the ini, so
 * an ini is never copied. A line that was refused is kept too, as far as its
 * section or key can be made out ("?" when not), so that what was refused is
 * not also told to be missing.
 */
struct ini_entry {
	int line;
	bool refused; /* a fault of this line was told; `value` is then "" */
	bool quoted;
	const char *section;	  /* the `name` of the section's line */
	const char *key;	  /* "" or the `name` */
	const char *value;	  /* NUL-terminated, quotes taken off */
	char name[INI_NAME_SIZE]; /* of the section or key */
};

struct ini {
	char name[200]; /* as faults name the file: the last part of its path */
	char bytes[INI_FILE_MOST + 1];
	size_t length;
	int faults; /* told while reading */
	int count;
	struct ini_entry entry[INI_ENTRIES_MOST];
};

/*
 * Scans `ini->length` bytes at `ini->bytes`, which are cut up in place, and
 * fills the entries. Tells at most one fault a line. Returns how many faults;
 * where the bytes as a whole are not a text (UTF-16, CR alone) there is one
 * fault and no entry.
 */
int ini_scan(struct ini *ini, fault_hear *hear, void *context);

/* Tells a fault of this file at a line (0 = the file as a whole) as
 * "name:line: sentence". FAULT_POLICY. */
__attribute__((format(printf, 5, 6))) void ini_tell(const struct ini *ini,
						    int line, fault_hear *hear,
						    void *context,
						    const char *format, ...);

/* The section or key of that name (key "" = the section's line), or NULL. */
const struct ini_entry *ini_find(const struct ini *ini, const char *section,
				 const char *key);

/* The key that follows in the same section, or NULL; of a section's line, its
 * first key. The keys of a section stand together. */
const struct ini_entry *ini_next(const struct ini *ini,
				 const struct ini_entry *entry);

#endif
