/* command.h: what one command is: a row of the table of commands. */
#ifndef SHOAL_DESK_COMMAND_H
#define SHOAL_DESK_COMMAND_H

#include "base/fault.h"

#include <stddef.h>

struct desk;
struct given;

/* What the dispatcher opens before a command runs. */
enum command_needs {
	NEED_NOTHING = 0,
	NEED_POLICY = 1,
	NEED_STATION = 2,
	NEED_WORDING = 4,
	NEED_BOOK_READ = 8,
	NEED_BOOK_WRITE = 16,
	NEED_DAY = 32 /* nothing but the day and the global options */
};

/* One option. `value` is the name of its value in the help ("FILE"), NULL for
 * an option without one; in square brackets the value may be left out. */
struct command_option {
	const char *name; /* without the two hyphens */
	const char *value;
	const char *about;
};

enum {
	COMMAND_OPTIONS_MOST = 16,
	COMMAND_ARGUMENTS_MOST = 1000000000 /* as many as are given */
};

/* Help, manual, completion and the README's block are printed from these. */
struct command {
	const char *name;      /* "screen", or two words: "policy check" */
	const char *arguments; /* as in the usage line, "" for none */
	const char *summary;   /* half a line, no full stop */
	const char *details;   /* paragraphs, separated by empty lines */
	struct command_option
		option[COMMAND_OPTIONS_MOST]; /* ends by name NULL */
	int least, most; /* arguments that are not options */
	unsigned needs;
	bool (*run)(struct desk *desk, const struct given *given,
		    struct fault *why);
};

struct command_table {
	const struct command *command;
	size_t count;
	const struct command_option *global; /* for every command */
	size_t global_count;
};

/* The option of that name among the command's and the global ones, or NULL. */
const struct command_option *command_option_find(
	const struct command_table *table, const struct command *command,
	const char *name);

#endif
