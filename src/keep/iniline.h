/* iniline.h: one line of an INI file, read strictly. */
#ifndef SHOAL_KEEP_INILINE_H
#define SHOAL_KEEP_INILINE_H

#include "base/fault.h"

#include <stddef.h>

enum {
	INI_LINE_MOST = 1000, /* bytes, without the line's end */
	INI_NAME_SIZE = 64    /* section or key, with its NUL */
};

/* Some bytes of the file, not NUL-terminated. */
struct span {
	char *at;
	size_t length;
};

enum iniline_what {
	INILINE_NOTHING, /* blank, or a comment */
	INILINE_SECTION,
	INILINE_KEY
};

struct iniline {
	enum iniline_what what;
	/* Of the section or key, as it has to be written; "" when it cannot
	 * be made out. */
	char name[INI_NAME_SIZE];
	bool quoted;	   /* the value stood in quotes */
	struct span value; /* of a key, without its quotes */
};

/*
 * Reads one line, its line end taken off. Refused (FAULT_POLICY) are NUL and
 * other control characters, invalid UTF-8, a backslash, more than
 * INI_LINE_MOST bytes; text after ']' or after a closing quote, an open or a
 * curly quote, an unquoted ';' or '#' in a value, no '='; a section that is
 * not small ASCII letters, digits, '-', '_' and single spaces, a key that is
 * not small ASCII letters, digits and '_'. Comments begin with ';' or '#' on
 * a line of their own. After false `line` is filled as far as it can be made
 * out. Nothing is written to the bytes.
 */
bool iniline_read(struct span text, struct iniline *line, struct fault *why);

#endif
