/* commands.h: the table of commands. */
#ifndef SHOAL_DESK_COMMANDS_H
#define SHOAL_DESK_COMMANDS_H

#include "desk/command.h"

/* Every command and every global option; dispatcher, help, manual, completion
 * and README are printed from it. */
extern const struct command_table commands;

#endif
