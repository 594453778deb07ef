/* signals.h: signals that come as something to read. */
#ifndef SHOAL_DESK_SIGNALS_H
#define SHOAL_DESK_SIGNALS_H

#include <signal.h>
#include <stdbool.h>

/*
 * Whoever has taken the terminal over must put it back before the program ends
 * or stops. So the signals that ask for that wait until they are read, between
 * two keys and never within a save: SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGTSTP,
 * and SIGWINCH and SIGCONT, after which the screen has to be drawn anew.
 */
enum { SIGNALS_HEARD = 7 };

struct signals {
	int from; /* readable when one waits; -1 when closed */
	sigset_t mask;
	struct sigaction action[SIGNALS_HEARD];
};

void signals_open(struct signals *signals);
/* Everything as before; those that wait are then delivered. */
void signals_close(struct signals *signals);

/* Puts the actions back that a library has changed since signals_open. */
void signals_keep(const struct signals *signals);

/* The one that waits, or 0. */
int signals_next(const struct signals *signals);

/* Stops the program, as SIGTSTP does; returns when it goes on. */
void signals_stop(void);

#endif
