/* command.c: what one command is: a row of the table of commands. */
#include "desk/command.h"

#include <string.h>

const struct command_option *
command_option_find(const struct command_table *table,
		    const struct command *command, const char *name)
{
	for (size_t i = 0; command != NULL && i < COMMAND_OPTIONS_MOST &&
			   command->option[i].name != NULL;
	     i++)
		if (strcmp(command->option[i].name, name) == 0)
			return &command->option[i];
	for (size_t i = 0; i < table->global_count; i++)
		if (strcmp(table->global[i].name, name) == 0)
			return &table->global[i];
	return NULL;
}
