/* signals.c: signals that come as something to read. */
#include "desk/signals.h"

#include <sys/signalfd.h>
#include <sys/types.h>
#include <unistd.h>

static const int heard[SIGNALS_HEARD] = {SIGINT,  SIGTERM,  SIGHUP, SIGQUIT,
					 SIGTSTP, SIGWINCH, SIGCONT};

void
signals_open(struct signals *signals)
{
	sigset_t set;

	sigemptyset(&set);
	for (int i = 0; i < SIGNALS_HEARD; i++) {
		sigaddset(&set, heard[i]);
		sigaction(heard[i], NULL, &signals->action[i]);
	}
	sigprocmask(SIG_BLOCK, &set, &signals->mask);
	signals->from = signalfd(-1, &set, SFD_CLOEXEC | SFD_NONBLOCK);
}

void
signals_keep(const struct signals *signals)
{
	for (int i = 0; i < SIGNALS_HEARD; i++)
		sigaction(heard[i], &signals->action[i], NULL);
}

void
signals_close(struct signals *signals)
{
	signals_keep(signals);
	if (signals->from >= 0)
		close(signals->from);
	signals->from = -1;
	sigprocmask(SIG_SETMASK, &signals->mask, NULL);
}

int
signals_next(const struct signals *signals)
{
	struct signalfd_siginfo info;

	if (read(signals->from, &info, sizeof info) != (ssize_t)sizeof info)
		return 0;
	return (int)info.ssi_signo;
}

/* Sent while it is blocked, it waits for the moment in which it is not. */
void
signals_stop(void)
{
	sigset_t stops;

	sigemptyset(&stops);
	sigaddset(&stops, SIGTSTP);
	kill(getpid(), SIGTSTP);
	sigprocmask(SIG_UNBLOCK, &stops, NULL);
	sigprocmask(SIG_BLOCK, &stops, NULL);
}
