/* setup.h: what a new station is told about itself. */
#ifndef SHOAL_DESK_SETUP_H
#define SHOAL_DESK_SETUP_H

#include "base/fault.h"
#include "desk/desk.h"
#include "desk/given.h"

/*
 * Gathers the values of station.ini that 'start' takes as options; on a
 * terminal the others are asked, and all is shown before it is used, since a
 * station is never set up twice. FAULT_INPUT, with nothing set up, when the
 * user leaves or the input ends; FAULT_USAGE without a terminal for a needed
 * one that is missing.
 */
bool setup_gather(struct desk *desk, const struct given *given,
		  struct station *station, struct fault *why);

/* Says on the talk stream when the station names no eye clinic: each slip that
 * sends somebody there has an empty line then. */
void setup_tell_clinic(const struct desk *desk, const struct station *station);

#endif
