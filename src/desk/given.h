/* given.h: the command line, taken apart. */
#ifndef SHOAL_DESK_GIVEN_H
#define SHOAL_DESK_GIVEN_H

#include "base/fault.h"
#include "desk/command.h"

enum { GIVEN_OPTIONS_MOST = 32 };

/* One option as given; `value` is "" for one without a value. */
struct given_option {
	const char *name;
	const char *value;
};

/* What somebody typed. Points into argv. */
struct given {
	const struct command *command; /* NULL: only options were given */
	int options;
	struct given_option option[GIVEN_OPTIONS_MOST];
	int arguments;
	const char **argument; /* in argv, moved together there */
};

/*
 * Takes a command line apart. Global options may stand before or after the
 * command; "--name value" and "--name=value" are the same; "--" ends options;
 * "-" alone is an argument or a value. FAULT_USAGE names what is unknown, with
 * what was perhaps meant, what lacks its value, and what is too much.
 */
bool given_read(struct given *given, const struct command_table *table,
		int argc, char *argv[], struct fault *why);

/* The value given for an option, of a global one the last; NULL for none, ""
 * for one without a value. */
const char *given_value(const struct given *given, const char *name);
bool given_is(const struct given *given, const char *name);

#endif
