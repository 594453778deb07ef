/* given.c: the command line, taken apart. */
#include "desk/given.h"

#include "base/text.h"

#include <stdio.h>
#include <string.h>

enum { NAME_SIZE = 40 };

struct line {
	const struct command_table *table;
	int argc;
	char **argv;
	int at; /* next word */
	bool options_ended;
};

static const struct command *
find_command(const struct command_table *table, const char *first,
	     const char *second, int *words)
{
	for (size_t i = 0; i < table->count; i++) {
		const char *name = table->command[i].name;
		size_t length = strcspn(name, " ");
		bool matches = strlen(first) == length &&
			       strncmp(first, name, length) == 0;

		*words = name[length] == '\0' ? 1 : 2;
		if (matches &&
		    (*words == 1 || (second != NULL &&
				     strcmp(second, name + length + 1) == 0)))
			return &table->command[i];
	}
	return NULL;
}

static bool
refuse_command(const struct command_table *table, const char *word,
	       struct fault *why)
{
	int least = text_distance_helpful(word) + 1;
	const char *nearest = NULL;

	for (size_t i = 0; i < table->count; i++) {
		int distance = text_distance(word, table->command[i].name);
		size_t length = strlen(word);

		if (length > 0 &&
		    strncmp(table->command[i].name, word, length) == 0)
			distance = 1;
		if (distance < least) {
			least = distance;
			nearest = table->command[i].name;
		}
	}
	if (nearest != NULL)
		return fault_set(why, FAULT_USAGE,
				 "'%.40s' is not a command; did you mean "
				 "'shoal %s'?",
				 word, nearest);
	return fault_set(why, FAULT_USAGE,
			 "'%.40s' is not a command; 'shoal help' lists them",
			 word);
}

static bool
refuse_option(const struct line *line, const struct command *command,
	      const char *name, struct fault *why)
{
	int least = text_distance_helpful(name) + 1;
	const char *nearest = NULL;
	const char *gap = command == NULL ? "" : " ";
	const char *of = command == NULL ? "" : command->name;

	for (size_t i = 0; command != NULL && i < COMMAND_OPTIONS_MOST &&
			   command->option[i].name != NULL;
	     i++) {
		int distance = text_distance(name, command->option[i].name);

		if (distance < least) {
			least = distance;
			nearest = command->option[i].name;
		}
	}
	for (size_t i = 0; i < line->table->global_count; i++) {
		int distance = text_distance(name, line->table->global[i].name);

		if (distance < least) {
			least = distance;
			nearest = line->table->global[i].name;
		}
	}
	if (nearest != NULL)
		return fault_set(why, FAULT_USAGE,
				 "'shoal%s%s' has no option '--%.40s'; did you "
				 "mean '--%s'?",
				 gap, of, name, nearest);
	return fault_set(why, FAULT_USAGE,
			 "'shoal%s%s' has no option '--%.40s'; 'shoal "
			 "help%s%s' lists them",
			 gap, of, name, gap, of);
}

/* How much of the value tells it from others of the same option: the name of
 * one that takes NAME=VALUE. */
static size_t
name_length(const struct command_option *option, const char *value)
{
	bool named = option->value != NULL &&
		     strchr(option->value, '=') != NULL;

	return named ? strcspn(value, "=") : 0;
}

/* Of two values one would be forgotten: a right typed for a left. The global
 * ones may stand in somebody's script, with others behind them. */
static bool
check_once(const struct line *line, const struct given *given,
	   const struct command_option *option, const char *value,
	   struct fault *why)
{
	size_t length = name_length(option, value);
	const struct command_option *global = line->table->global;

	if (option >= global && option < global + line->table->global_count)
		return true;

	for (int i = 0; i < given->options; i++) {
		const struct given_option *kept = &given->option[i];

		if (strcmp(kept->name, option->name) == 0 &&
		    name_length(option, kept->value) == length &&
		    strncmp(kept->value, value, length) == 0)
			return fault_set(why, FAULT_USAGE,
					 "'--%s%s%.*s' is given twice; one is "
					 "enough, so that it is clear which "
					 "counts",
					 option->name, length == 0 ? "" : " ",
					 (int)length, value);
	}
	return true;
}

static bool
keep_option(const struct line *line, struct given *given,
	    const struct command_option *option, const char *value,
	    struct fault *why)
{
	if (!check_once(line, given, option, value, why))
		return false;
	if (given->options == GIVEN_OPTIONS_MOST)
		return fault_set(why, FAULT_USAGE,
				 "more than %d options are given",
				 GIVEN_OPTIONS_MOST);
	given->option[given->options++] =
		(struct given_option){option->name, value};
	return true;
}

/* Whether the next word can be the value of an option. */
static bool
next_is_value(const struct line *line)
{
	return line->at < line->argc &&
	       strncmp(line->argv[line->at], "--", 2) != 0;
}

static bool
read_option(struct line *line, struct given *given, struct fault *why)
{
	const char *word = line->argv[line->at++] + 2;
	const char *equals = strchr(word, '=');
	const struct command_option *option;
	char name[NAME_SIZE];

	snprintf(name, sizeof name, "%.*s",
		 (int)(equals == NULL ? strlen(word) : (size_t)(equals - word)),
		 word);
	option = command_option_find(line->table, given->command, name);
	if (option == NULL)
		return refuse_option(line, given->command, name, why);
	if (option->value == NULL) {
		if (equals != NULL)
			return fault_set(why, FAULT_USAGE,
					 "the option '--%s' takes no value",
					 name);
		return keep_option(line, given, option, "", why);
	}
	if (equals != NULL)
		return keep_option(line, given, option, equals + 1, why);
	if (next_is_value(line))
		return keep_option(line, given, option, line->argv[line->at++],
				   why);
	if (option->value[0] == '[')
		return keep_option(line, given, option, "", why);
	return fault_set(why, FAULT_USAGE,
			 "the option '--%s' needs a value: --%s %s", name, name,
			 option->value);
}

static bool
read_word(struct line *line, struct given *given, struct fault *why)
{
	const char *word = line->argv[line->at];
	const char *next = line->at + 1 < line->argc ? line->argv[line->at + 1]
						     : NULL;
	int words;

	if (given->command == NULL) {
		given->command = find_command(line->table, word, next, &words);
		if (given->command == NULL)
			return refuse_command(line->table, word, why);
		line->at += words;
		return true;
	}
	line->at++;
	if (given->arguments == given->command->most)
		return fault_set(why, FAULT_USAGE,
				 "'%.60s' is too much; usage: shoal %s%s%s",
				 word, given->command->name,
				 given->command->arguments[0] == '\0' ? ""
								      : " ",
				 given->command->arguments);
	/* Never in front of what is still to be read. */
	if (given->arguments == 0)
		given->argument = (const char **)line->argv + line->at - 1;
	given->argument[given->arguments++] = word;
	return true;
}

bool
given_read(struct given *given, const struct command_table *table, int argc,
	   char *argv[], struct fault *why)
{
	struct line line = {table, argc, argv, 1, false};

	memset(given, 0, sizeof *given);
	given->argument = (const char **)argv;
	while (line.at < argc) {
		const char *word = argv[line.at];

		if (!line.options_ended && strcmp(word, "--") == 0) {
			line.options_ended = true;
			line.at++;
		} else if (!line.options_ended && strncmp(word, "--", 2) == 0) {
			if (!read_option(&line, given, why))
				return false;
		} else if (!line.options_ended && word[0] == '-' &&
			   word[1] != '\0') {
			return fault_set(why, FAULT_USAGE,
					 "'%.40s' is not an option; options "
					 "begin with two hyphens",
					 word);
		} else if (!read_word(&line, given, why)) {
			return false;
		}
	}
	if (given->command != NULL &&
	    given->arguments < given->command->least &&
	    !given_is(given, "help"))
		return fault_set(why, FAULT_USAGE,
				 "something is missing; usage: shoal %s %s",
				 given->command->name,
				 given->command->arguments);
	return true;
}

const char *
given_value(const struct given *given, const char *name)
{
	for (int i = given->options - 1; i >= 0; i--)
		if (strcmp(given->option[i].name, name) == 0)
			return given->option[i].value;
	return NULL;
}

bool
given_is(const struct given *given, const char *name)
{
	return given_value(given, name) != NULL;
}
