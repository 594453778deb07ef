/* run.h: what each command does. */
#ifndef SHOAL_DESK_RUN_H
#define SHOAL_DESK_RUN_H

#include "base/fault.h"
#include "desk/desk.h"
#include "desk/given.h"

/* One function per row of the table of commands; what the row needs is open
 * when it is called. Results go to desk->out, talk to desk->talk. */
typedef bool command_run(struct desk *desk, const struct given *given,
			 struct fault *why);

command_run run_start;
command_run run_screen;
command_run run_sheet; /* screen --csv */
command_run run_assess;
command_run run_slip;
command_run run_forms;
command_run run_list;
command_run run_waiting; /* list --waiting */
command_run run_correct;
command_run run_void;
command_run run_tally;
command_run run_yield;
command_run run_policy_check;
command_run run_policy_show;
command_run run_policy_set;
command_run run_policy_try;
command_run run_plan;
command_run run_agree;
command_run run_reply;
command_run run_replysheet; /* reply --csv */
command_run run_collate;
command_run run_verify; /* collate --verify */
command_run run_yields; /* collate --yields */
command_run run_backup;
command_run run_restore;
command_run run_key;
command_run run_mend;
command_run run_purge;
command_run run_help;

/* What 'help collate' says; it is long, so it stands beside its command. */
extern const char collate_details[];

#endif
