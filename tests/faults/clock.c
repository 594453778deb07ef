/* clock.c: preloaded; the clock says what a file says. */

/*
 * CLOCK_FILE names a file with seconds since 1970, read at each look at the
 * time of day, so that the clock can be set while a program runs. The clock
 * that only counts on is left alone.
 */
#include <stdio.h>
#include <stdlib.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

static time_t
read_clock(void)
{
	const char *name = getenv("CLOCK_FILE");
	FILE *file = name == NULL ? NULL : fopen(name, "re");
	long long seconds = 0;
	char line[32];

	if (file == NULL)
		abort();
	if (fgets(line, sizeof line, file) != NULL)
		seconds = strtoll(line, NULL, 10);
	fclose(file);
	return (time_t)seconds;
}

time_t
time(time_t *here)
{
	time_t now = read_clock();

	if (here != NULL)
		*here = now;
	return now;
}

int
gettimeofday(struct timeval *restrict now, void *restrict zone)
{
	(void)zone;
	*now = (struct timeval){read_clock(), 0};
	return 0;
}

int
clock_gettime(clockid_t which, struct timespec *now)
{
	if (which != CLOCK_REALTIME)
		return (int)syscall(SYS_clock_gettime, which, now);
	*now = (struct timespec){read_clock(), 0};
	return 0;
}
